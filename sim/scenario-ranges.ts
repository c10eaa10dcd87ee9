// What may differ from one form of a job to the next: numbers drawn from a range, step by step,
// and one of several choices. Each is drawn once for a seed (form.ts); a world never sees them.
import * as z from 'zod';
import { Id, within } from './scenario-basics.ts';

/**
 * Where something stands in a scenario: keys joined by dots, a member of a list by its id or its
 * number from 0; `3-7` are several, `bore_*` those whose id begins so, `*` is every one.
 */
const Path = z
  .string()
  .regex(
    /^[a-z]\w*(\.([a-zA-Z]\w*\*?|\d+(-\d+)?|\*))*$/,
    'keys joined by dots, as in links.riser.bore_mm',
  );

/**
 * The first place takes what is drawn; of the others each is changed by `factor` times as much. One
 * that was touched already is left alone.
 */
const Touch = z.strictObject({
  at: Path,
  factor: within(-1000, 1000).optional(),
  /** Instead of a factor: grows and shrinks in proportion to the first place. */
  scaled: z.literal(true).optional(),
});

const Span = z.strictObject({
  id: Id,
  /** In the unit of the first place; whole steps from `min` to `max`. */
  min: within(-1e6, 1e6),
  max: within(-1e6, 1e6),
  step: within(1e-4, 1e6),
  touches: z.array(Touch).min(1).max(100),
});

/** What is put at a place instead of what is written there; null takes the key away. */
const Put = z.strictObject({ at: Path, value: z.unknown() });

const Choice = z.strictObject({
  id: Id,
  choices: z
    .array(z.strictObject({ id: Id, puts: z.array(Put).max(100) }))
    .min(2)
    .max(20),
});

export const Ranges = z.array(z.union([Span, Choice])).max(40);
export type RangeSpec = z.infer<typeof Ranges>[number];
export type SpanSpec = z.infer<typeof Span>;
export type TouchSpec = z.infer<typeof Touch>;

/**
 * Parts of a scenario that can be ranged over: the plant and what is around it. Never what is
 * asked for, how it is marked, and how finely it is computed, so that all forms are one job; what
 * has to be found goes with the defect that it is (form-made.ts).
 */
export const RANGED = [
  'temperature_C',
  'dissolved_air',
  'heat',
  'debris',
  'power',
  'nodes',
  'links',
  'devices',
  'instruments',
  'defects',
  'room',
] as const;
