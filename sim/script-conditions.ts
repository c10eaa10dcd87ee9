// Conditions of hand scripts: on what can be seen and read, and on nothing else.
import * as z from 'zod';
import { NOTES, SIGHTS } from './lens.ts';

const ID = /^[a-z][a-z0-9_]{0,39}$/;
export const Id = z.string().regex(ID, 'must be an id: a-z first, then a-z, 0-9 or _');
const Seen = z.enum([...SIGHTS, ...NOTES]);
export const seconds = z.number().min(0).max(86400);

/** A reading of the panel; every key that is given must hold. */
const ReadingIs = z.strictObject({
  reading: Id,
  is: z.union([Seen, z.array(Seen).min(1)]).optional(),
  above_mm: z.number().optional(),
  below_mm: z.number().optional(),
  above_kPa: z.number().optional(),
  below_kPa: z.number().optional(),
  above_L_min: z.number().optional(),
  below_L_min: z.number().optional(),
  above_C: z.number().optional(),
  below_C: z.number().optional(),
  above_L: z.number().optional(),
  below_L: z.number().optional(),
  above_A: z.number().optional(),
  below_A: z.number().optional(),
  above_V: z.number().optional(),
  below_V: z.number().optional(),
  above_density: z.number().optional(),
  below_density: z.number().optional(),
  above_index: z.number().optional(),
  below_index: z.number().optional(),
});
const HandsFree = z.strictObject({ hands: z.literal('free') });
const HelperFree = z.strictObject({ helper: z.literal('free') });
const ValveAt = z.strictObject({ valve: Id, at_deg: z.int().min(0).max(270) });
const CouplingIs = z.strictObject({ coupling: Id, made: z.boolean() });
/** Strokes of the last command to a hand pump that are done. */
const StrokesDone = z.strictObject({ hand_pump: Id, strokes_at_least: z.int().min(0).max(500) });
const DeviceAt = z.strictObject({ device: Id, at: z.int().min(0).max(1000) });
const PumpIs = z.strictObject({ pump: Id, on: z.boolean() });
/** How thick a tank is with bubbles, 0..1, as eyes judge it. */
const TankHas = z.strictObject({ tank: Id, bubbles_below: z.number().min(0).max(1) });
const After = z.strictObject({ after_s: seconds });

export type Condition =
  | z.infer<typeof ReadingIs>
  | z.infer<typeof HandsFree>
  | z.infer<typeof HelperFree>
  | z.infer<typeof DeviceAt>
  | z.infer<typeof StrokesDone>
  | z.infer<typeof ValveAt>
  | z.infer<typeof PumpIs>
  | z.infer<typeof CouplingIs>
  | z.infer<typeof TankHas>
  | z.infer<typeof After>
  | { all: Condition[] }
  | { any: Condition[] }
  | { not: Condition };

export const ConditionSchema: z.ZodType<Condition> = z.lazy(() =>
  z.union([
    ReadingIs,
    HandsFree,
    HelperFree,
    DeviceAt,
    StrokesDone,
    ValveAt,
    PumpIs,
    CouplingIs,
    TankHas,
    After,
    z.strictObject({ all: z.array(ConditionSchema).min(1).max(20) }),
    z.strictObject({ any: z.array(ConditionSchema).min(1).max(20) }),
    z.strictObject({ not: ConditionSchema }),
  ]),
);
