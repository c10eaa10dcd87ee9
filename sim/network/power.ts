// What the power of a scenario becomes: volts, ohms and motors by pump, fixed for a world's life.
import { sqrt } from '../base/math.ts';
import { cordResistance, makeMotor, typicalMotor, type Motor } from '../laws/motor.ts';
import type { PumpSpec, Scenario } from '../scenario.ts';

export interface PowerPlan {
  /** V at no load; A at which the breaker is rated; A of what else hangs on it. */
  readonly volts: number;
  readonly breakerAmps: number;
  readonly otherAmps: number;
  /** Of a generator: VA it can give for long, and droop; an outlet gives without end. */
  readonly most: number;
  readonly droop: number;
  /** Ohm, out and back. */
  readonly cord: number;
  /** Devices by index; -1 where no protector is fitted. */
  readonly plug: number;
  readonly breaker: number;
  readonly protector: number;
  /** By pump; null where it has no motor of its own. */
  readonly motors: readonly (MotorPlan | null)[];
}

export interface MotorPlan {
  readonly id: string;
  readonly link: number;
  readonly motor: Motor;
  readonly spinUp: number;
  /** A up to which its winding may run for long. */
  readonly service: number;
  /** True where its own heat cuts it out. */
  readonly cutout: boolean;
  /** A that leaks at the start. */
  readonly leak: number;
}

interface Driven {
  readonly id: string;
  readonly link: number;
  readonly spec: PumpSpec;
}

export function planPower(scenario: Scenario, pumps: readonly Driven[]): PowerPlan | null {
  const { power } = scenario;
  if (power === undefined) return null;
  const { supply, cord } = power;
  const device = (kind: string): number => scenario.devices.findIndex((d) => d.kind === kind);
  return {
    volts: supply.voltage_V,
    breakerAmps: supply.breaker_A,
    otherAmps: supply.other_load_A,
    most: supply.kind === 'generator' ? supply.max_W : Infinity,
    droop: supply.kind === 'generator' ? supply.droop : 0,
    cord: cordResistance(cord.length_m, cord.copper_mm2 * 1e-6),
    plug: device('plug'),
    breaker: device('breaker'),
    protector: device('ground_fault'),
    motors: pumps.map(motorOf),
  };
}

function motorOf({ id, link, spec }: Driven): MotorPlan | null {
  const plate = spec.motor;
  if (plate === undefined) return null;
  const usual = typicalMotor(plate.rated_W);
  const factor = usual.power_factor;
  const motor = makeMotor({
    P: plate.rated_W,
    V: plate.voltage_V,
    efficiency: plate.efficiency ?? usual.efficiency,
    magnetising_share: plate.magnetising_share ?? sqrt(1 - factor * factor),
    locked: plate.locked_rotor_times,
  });
  const service = plate.service_factor * motor.full;
  const { thermal_cutout: cutout, leak_mA } = plate;
  return { id, link, motor, spinUp: spec.spin_up_s, service, cutout, leak: leak_mA / 1000 };
}
