// Power for the cart's pump: outlet or generator, cord, protector, and the plate of its motor.
import { linkOf } from './parts.ts';
import type { Draft, ScenarioText } from './parts.ts';
import type { MotorText, PowerSite } from './kit-site.ts';
import type { RigKind } from './site.ts';

/** Single-phase motors that suit the three pumps' shafts [invented]. */
const PLATES: Readonly<Record<RigKind, MotorText>> = {
  deck: { rated_W: 550, voltage_V: 115, service_factor: 1.15 },
  barrow: { rated_W: 450, voltage_V: 115, service_factor: 1.15, thermal_cutout: true },
  mast: { rated_W: 1500, voltage_V: 230, service_factor: 1.15 },
};

/** Copper of one conductor, AWG 12. */
const COPPER_MM2 = 3.3;

/** Motor, plug, breaker, protector and a clamp meter; what the scenario says of its power. */
export function addPower(draft: Draft, power: PowerSite, kind: RigKind) {
  const pump = linkOf(draft, 'pump');
  if (pump.kind === 'pump') pump.motor = { ...PLATES[kind], ...power.motor };
  draft.devices.push(
    { id: 'plug', kind: 'plug', start: 0 },
    { id: 'breaker', kind: 'breaker', start: 1 },
  );
  const protects = power.ground_fault ?? true;
  if (protects) draft.devices.push({ id: 'protector', kind: 'ground_fault', start: 1 });
  draft.instruments.push({ id: 'clamp', kind: 'current', range_A: 60, resolution_A: 0.1 });
  const { supply, cord_m, copper_mm2 = COPPER_MM2 } = power;
  const text: NonNullable<ScenarioText['power']> = {
    supply,
    cord: { length_m: cord_m, copper_mm2 },
    ...(protects ? {} : { ground_fault: false }),
  };
  return text;
}
