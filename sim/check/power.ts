// Power: what it needs is there once, motors have a supply that suits them, and nothing of it
// stands where the scenario has no power.
import { fault, numberOf, objectOf } from './raw.ts';
import type { Draft } from './raw.ts';

/** A motor on more than this times its voltage burns at once, which the model does not show. */
const MOST_OVER = 1.25;

export function checkPower(draft: Draft): void {
  const power = objectOf(draft.raw.power);
  if (power === null) return checkNone(draft);
  const fitted = power.ground_fault !== false;
  for (const kind of ['plug', 'breaker', 'ground_fault']) {
    const found = draft.devices.filter((d) => d.kind === kind);
    const needed = kind !== 'ground_fault' || fitted;
    if (needed && found.length === 0) fault(draft, 'power', `needs a device that is a ${kind}`);
    for (const more of found.slice(needed ? 1 : 0)) {
      const why = needed ? 'there is one already' : 'power.ground_fault is false';
      fault(draft, `${more.path}.kind`, `is a ${kind} too many: ${why}`);
    }
  }
  const volts = numberOf(objectOf(power.supply)?.voltage_V);
  const motors = draft.links.filter((l) => objectOf(l.raw.motor) !== null);
  for (const { raw, path } of motors) {
    const rated = numberOf(objectOf(raw.motor)?.voltage_V);
    if (volts === null || rated === null || volts <= MOST_OVER * rated) continue;
    fault(draft, `${path}.motor.voltage_V`, `would burn at once on the ${volts} V of the supply`);
  }
}

const METERS: readonly (string | null)[] = ['current', 'voltage'];
const PARTS: readonly (string | null)[] = ['plug', 'breaker', 'ground_fault'];

function checkNone(draft: Draft): void {
  const why = 'the scenario has no power';
  for (const { kind, path } of draft.instruments) {
    if (METERS.includes(kind)) fault(draft, `${path}.kind`, `measures nothing: ${why}`);
  }
  for (const { kind, path } of draft.devices) {
    if (PARTS.includes(kind)) fault(draft, `${path}.kind`, `belongs to nothing: ${why}`);
  }
  for (const { raw, path } of draft.links) {
    if (objectOf(raw.motor) !== null) fault(draft, `${path}.motor`, `has no supply: ${why}`);
  }
}
