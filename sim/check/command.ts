// A command of a record or a script against the scenario: whether what it is for is there.
import type { Command } from '../command.ts';
import { residualOf } from '../derived.ts';
import type { Fault } from '../fault.ts';
import { hasNeedle } from '../lens.ts';
import { lastPosition } from '../scenario-devices.ts';
import { RESIDUAL } from '../scenario-sheet.ts';
import type { Scenario } from '../scenario.ts';

/** A control that the scenario does not have, or of another kind than the command needs. */
export function controlFaults(command: Command, path: string, scenario: Scenario): Fault[] {
  if (command.kind === 'done' || command.kind === 'leave') return [];
  const alone = 'by' in command && command.by === 'helper' && scenario.hands.helper === undefined;
  if (alone) return [{ path: `${path}.by`, message: 'there is no helper here' }];
  if (command.kind === 'set') return deviceFaults(command, path, scenario);
  if (command.kind === 'tap') return tapFaults(command.gauge, path, scenario);
  if (command.kind === 'answer') {
    if (scenario.job?.sheet?.lines.some(({ id }) => id === command.line) === true) return [];
    if (command.line === RESIDUAL && residualOf(scenario) !== null) return [];
    return [{ path: `${path}.line`, message: `the job sheet has no line "${command.line}"` }];
  }
  if (command.kind === 'note') {
    if (scenario.record.some(({ id }) => id === command.entry)) return [];
    return [{ path: `${path}.entry`, message: `the sheet has no line "${command.entry}"` }];
  }
  const [key, id, kind] = neededControl(command);
  const part = [...scenario.links, ...scenario.nodes].find((p) => p.id === id);
  if (command.kind === 'valve' && part?.kind === 'three_way') return [];
  if (command.kind === 'valve' && part?.kind === 'valve' && command.target_deg > 90) {
    return [{ path: `${path}.target_deg`, message: `"${id}" opens to 90 degrees, no further` }];
  }
  if (part?.kind === kind) return [];
  const found = part === undefined ? 'there is no such part' : `it is a ${part.kind}`;
  return [{ path: `${path}.${key}`, message: `"${id}" must be a ${kind}: ${found}` }];
}

function deviceFaults(
  { device, position }: Extract<Command, { kind: 'set' }>,
  path: string,
  scenario: Scenario,
): Fault[] {
  const spec = scenario.devices.find(({ id }) => id === device);
  if (spec === undefined) {
    return [{ path: `${path}.device`, message: `there is no device "${device}"` }];
  }
  const last = lastPosition(spec);
  if (position <= last) return [];
  return [{ path: `${path}.position`, message: `"${device}" goes to ${last}, no further` }];
}

function tapFaults(gauge: string, path: string, { instruments }: Scenario): Fault[] {
  const found = instruments.find(({ id }) => id === gauge);
  if (found !== undefined && hasNeedle(found.kind)) return [];
  return [{ path: `${path}.gauge`, message: `there is no needle "${gauge}"` }];
}

type Handled = Exclude<Command, { kind: 'done' | 'leave' | 'set' | 'tap' | 'note' | 'answer' }>;

function neededControl(command: Handled): [string, string, string] {
  switch (command.kind) {
    case 'valve':
      return ['valve', command.valve, 'valve'];
    case 'switch':
      return ['pump', command.pump, 'pump'];
    case 'coupling':
      return ['coupling', command.coupling, 'coupling'];
    case 'mark':
      return ['tank', command.tank, 'tank'];
    case 'flow':
      return ['link', command.link, 'fixed_flow'];
    case 'stroke':
      return ['pump', command.pump, 'hand_pump'];
  }
}
