// What a plant is read by: gauges, meters, thermometers, clear pipes and ears, each with the unit
// in its keys. What they show is worked out by instrument.ts, and what is wrong with them by
// defects.
import * as z from 'zod';
import { Id, within } from './scenario-basics.ts';
import { clamp, voltmeter } from './scenario-power.ts';
import { DipThermometer, Hydrometer, Refractometer } from './scenario-samples.ts';

/** Class, as a share of the range: each run draws how far it is off within it; 0.016 is common. */
const accuracy = { error_share: within(0, 0.5).optional() };

const Gauge = z.strictObject({
  id: Id,
  kind: z.literal('pressure'),
  node: Id,
  /** Of a compound gauge, where its scale begins: it shows suction too. */
  from_kPa: within(-100, 0).optional(),
  range_kPa: within(10, 10000),
  resolution_kPa: within(0.01, 1000),
  lag_s: within(0.05, 30),
  ...accuracy,
});
/** Both taps filled with water, as they should be: equal heights differ by nothing. */
const DifferenceGauge = z.strictObject({
  id: Id,
  kind: z.literal('difference'),
  high: Id,
  low: Id,
  range_kPa: within(1, 10000),
  resolution_kPa: within(0.01, 1000),
  lag_s: within(0.05, 30),
  ...accuracy,
});
/** At a node, or at an end of a link. */
const Thermometer = z.strictObject({
  id: Id,
  kind: z.literal('temperature'),
  node: Id.optional(),
  link: Id.optional(),
  end: z.enum(['from', 'to']).default('to'),
  from_C: within(-60, 200).default(-20),
  to_C: within(-60, 200).default(60),
  resolution_C: within(0.01, 10),
  lag_s: within(0.05, 600),
  ...accuracy,
});
/** Counts what has passed: air as well as water, and back again what comes back. */
const WaterMeter = z.strictObject({
  id: Id,
  kind: z.literal('meter'),
  link: Id,
  resolution_L: within(0.001, 1000),
});
const FlowMeter = z.strictObject({
  id: Id,
  kind: z.literal('flow'),
  link: Id,
  range_L_min: within(0.1, 10000),
  resolution_L_min: within(0.01, 100),
  lag_s: within(0.05, 30),
  ...accuracy,
});
const SightTube = z.strictObject({
  id: Id,
  kind: z.literal('level'),
  tank: Id,
  resolution_mm: within(0.1, 100),
});
/** A clear section that a technician looks through: says how much gas is in the last metre. */
const SightGlass = z.strictObject({ id: Id, kind: z.literal('sight'), link: Id });
const PumpNote = z.strictObject({ id: Id, kind: z.literal('note'), pump: Id });
export const Instrument = z.discriminatedUnion('kind', [
  Gauge,
  DifferenceGauge,
  Thermometer,
  WaterMeter,
  FlowMeter,
  SightTube,
  SightGlass,
  PumpNote,
  z.strictObject({ id: Id, ...clamp }),
  z.strictObject({ id: Id, ...voltmeter }),
  Hydrometer,
  Refractometer,
  DipThermometer,
]);

export type InstrumentSpec = z.infer<typeof Instrument>;
