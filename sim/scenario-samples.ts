// Instruments that look at the sample in a cup, each with its scale.
import * as z from 'zod';
import { REFRACTED } from './laws/refraction.ts';
import { Id, within } from './scenario-basics.ts';

/** Floats in a cup. With `corrects_for`, a scale beside it brings its reading to 20 C. */
export const Hydrometer = z.strictObject({
  id: Id,
  kind: z.literal('hydrometer'),
  cup: Id,
  from: within(0.7, 1.3).default(0.9),
  to: within(0.7, 1.3).default(1.1),
  resolution: within(0.0001, 0.02),
  corrects_for: z.enum(REFRACTED).optional(),
});
/** A drop from a cup on its prism. Its freezing points are those of the antifreeze it is for. */
export const Refractometer = z.strictObject({
  id: Id,
  kind: z.literal('refractometer'),
  cup: Id,
  made_for: z.enum(REFRACTED).default('propylene_glycol'),
  reads: z.enum(['freeze', 'index']).default('freeze'),
  lowest_C: within(-60, -5).default(-50),
  resolution_C: within(0.1, 5).default(0.5),
  resolution_index: within(0.0001, 0.005).default(0.0005),
  /** True where it makes up for the warmth of its prism, which has that of the air. */
  compensates: z.boolean().default(true),
});
/** A thermometer in a cup. */
export const DipThermometer = z.strictObject({
  id: Id,
  kind: z.literal('dip_thermometer'),
  cup: Id,
  from_C: within(-60, 200).default(-20),
  to_C: within(-60, 200).default(60),
  resolution_C: within(0.05, 5),
});
