// What an attempt says of itself beside its run: how it was rated before its marks were shown, and
// where it left another attempt. None of it enters a mark, and no run can prove it.
import * as z from 'zod';
import { DIMENSIONS } from './rules.ts';

export const Tick = z.int().min(0).max(100_000_000);

export const RatingSchema = z.strictObject({
  /** From 1, badly, to 5, very well; nothing of what was left out. */
  steps: z.partialRecord(z.enum(DIMENSIONS), z.int().min(1).max(5)),
  /** Whether one would sign the work over; null where that was not said. */
  sign: z.boolean().nullable(),
});

/** The attempt that it goes on with from its middle, and from which tick. */
export const BranchSchema = z.strictObject({ of: z.string().max(40), tick: Tick });
