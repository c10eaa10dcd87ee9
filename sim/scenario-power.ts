// Where pumps get their power from: outlet or generator, breaker, cord, and the plate of a motor.
// Only a scenario that says `power` has any of this; without it a pump turns when it is told to.
import * as z from 'zod';
import { within } from './scenario-basics.ts';

const circuit = {
  voltage_V: within(50, 500),
  /** Rating of the breaker before the outlet. */
  breaker_A: within(1, 200),
  /** What else hangs on the same breaker. */
  other_load_A: within(0, 200).default(0),
};

const Outlet = z.strictObject({ ...circuit, kind: z.literal('outlet') });

const Generator = z.strictObject({
  ...circuit,
  kind: z.literal('generator'),
  /** What it can give for long; beyond it the voltage falls. */
  max_W: within(100, 100000),
  /** Share of its voltage that it loses from no load to that. */
  droop: within(0, 0.3).default(0.05),
});

export const Power = z.strictObject({
  supply: z.discriminatedUnion('kind', [Outlet, Generator]),
  /** From the outlet to the pumps: one way, and the copper of one conductor (AWG 12 has 3.3). */
  cord: z.strictObject({ length_m: within(0.1, 500), copper_mm2: within(0.3, 50) }),
  /** True where one of the outlets has ground-fault protection of Class A. */
  ground_fault: z.boolean().default(true),
});

/** The plate of a pump's single-phase motor. */
export const Motor = z.strictObject({
  /** At the shaft. */
  rated_W: within(50, 10000),
  voltage_V: within(50, 500),
  /** Unsaid: as motors of that size have it. */
  efficiency: within(0.2, 0.95).optional(),
  /** Share of the rated current that only magnetises. */
  magnetising_share: within(0.05, 0.95).optional(),
  service_factor: within(1, 2).default(1),
  /** Current of the held rotor over rated current. */
  locked_rotor_times: within(3, 9).default(5.5),
  /** True where heat of its own cuts it out, and lets it start again when it has cooled. */
  thermal_cutout: z.boolean().default(false),
  /** What leaks to its frame while it is switched on: a wet winding. */
  leak_mA: within(0, 1000).default(0),
});

/** A clamp round one conductor of the cord. */
export const clamp = {
  kind: z.literal('current'),
  range_A: within(1, 1000),
  resolution_A: within(0.001, 10),
  lag_s: within(0.05, 30).default(0.3),
};

/** A voltmeter at either end of the cord. */
export const voltmeter = {
  kind: z.literal('voltage'),
  at: z.enum(['outlet', 'motor']),
  range_V: within(10, 1000),
  resolution_V: within(0.001, 10),
  lag_s: within(0.05, 30).default(0.3),
};
