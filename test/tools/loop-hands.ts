// Random hands for any scenario: instructions to each kind of control, a few of them to parts
// that have none, which must be refused.
import type { Command, Scenario } from '../../sim/index.ts';
import type { Chance } from './chance.ts';
import { likely } from './loops.ts';

/** One instruction to any control; now and then to one that is not there. */
export function randomCommand(scenario: Scenario, random: Chance): Command {
  const tanks = scenario.nodes.filter((n) => n.kind === 'tank');
  if (tanks.length > 0 && likely(random, 0.03)) {
    return { kind: 'mark', tank: random.pick(tanks).id };
  }
  if (scenario.record.length > 0 && likely(random, 0.02)) {
    return { kind: 'note', entry: 'line', value_milli: random.below(1000000) };
  }
  if (scenario.devices.length > 0 && likely(random, 0.1)) {
    return { kind: 'set', device: random.pick(scenario.devices).id, position: random.below(4) };
  }
  const link = random.pick(scenario.links);
  const { id, kind } = link;
  const degrees = (top: number) => random.pick([0, 0, 90, top, random.below(top + 1)]);
  switch (kind) {
    case 'three_way':
      return { kind: 'valve', valve: id, target_deg: degrees(270) };
    case 'pump':
      return { kind: 'switch', pump: id, on: likely(random, 0.6) };
    case 'coupling':
      return { kind: 'coupling', coupling: id, made: likely(random, 0.5) };
    case 'fixed_flow':
      return { kind: 'flow', link: id, flow_mL_s: random.pick([0, 300, -300, random.below(200)]) };
    case 'hand_pump':
      return { kind: 'stroke', pump: id, strokes: 1 + random.below(20) };
    case 'valve':
      return { kind: 'valve', valve: id, target_deg: degrees(90) };
    default:
      return likely(random, 0.02)
        ? { kind: 'valve', valve: id, target_deg: 90 } // Refused: it has no handle.
        : anyControl(scenario, random);
  }
}

const HANDLED = ['valve', 'three_way', 'pump', 'coupling', 'fixed_flow', 'hand_pump'];

function anyControl(scenario: Scenario, random: Chance): Command {
  const handled = scenario.links.filter((l) => HANDLED.includes(l.kind));
  if (handled.length === 0) return { kind: 'switch', pump: 'nobody', on: true };
  return randomCommand({ ...scenario, links: [random.pick(handled)] }, random);
}
