// Mistakes: a kept script with one edit, and what that edit costs, told before it is run. The form
// of the file; mistake.ts makes the script of it.
import * as z from 'zod';
import { CommandSchema } from './command.ts';
import { REASONS } from './marks.ts';
import { HAZARDS } from './fact.ts';
import { PHASES } from './phases.ts';
import { Reflex, StepSchema } from './script-schema.ts';
import { Id, seconds } from './script-conditions.ts';

/** What a step, a command or a reflex is known by: some of its keys, as deep as needed. */
const Known = z.record(z.string(), z.unknown());
const which = {
  /** Looked for in this phase of the day alone. */
  phase: z.enum(PHASES).optional(),
  /** Which of those that are found, from 1; where it is not given there must be one. */
  nth: z.int().min(1).max(600).optional(),
};
const StepPlace = z.strictObject({ step: Known, ...which });
const CommandPlace = z.strictObject({ command: Known, ...which });
const ReflexPlace = z.strictObject({ reflex: Known, ...which });
const Place = z.union([StepPlace, CommandPlace, ReflexPlace]);
export type Place = z.infer<typeof Place>;

const Put = z
  .array(z.union([StepSchema, CommandSchema, Reflex]))
  .min(1)
  .max(60);
/** The last of a stretch that begins with the place. */
const through = Place.optional();

const LeaveOut = z.strictObject({ leave_out: Place, through });
const Replace = z.strictObject({ replace: Place, through, put: Put });
/** Keys as in a merge patch: what is null goes. */
const Change = z.strictObject({ change: Place, to: Known });
const PutBefore = z.strictObject({ put: Put, before: Place });
const PutAfter = z.strictObject({ put: Put, after: Place });
/** A wait goes with it where it comes so much later. */
const wait_s = seconds.optional();
const MoveBefore = z.strictObject({ move: Place, through, before: Place, wait_s });
const MoveAfter = z.strictObject({ move: Place, through, after: Place, wait_s });
const EditSchema = z.union([LeaveOut, Replace, Change, PutBefore, PutAfter, MoveBefore, MoveAfter]);
export type Edit = z.infer<typeof EditSchema>;

/** One deduction: its rule, and what it is about: a part, a milestone or a line of the sheet. */
const Cost = z.strictObject({
  rule: Id,
  about: Id.optional(),
  /** Of a hazard that went no further than this; where it is not given it tripped. */
  stage: z.literal('warning').optional(),
  /** For the reader: why this is a fault of its own beside the others. */
  why: z.string().max(300).optional(),
});
export type Cost = z.infer<typeof Cost>;

export const MistakeSchema = z.strictObject({
  format: z.literal(1),
  /** The kept script beside this file that it is an edit of. */
  of: z.string().regex(/^[a-z][a-z0-9-]{0,39}$/, 'must be the name of a script beside it'),
  why: z.string().max(300),
  edit: EditSchema,
  expects: z.strictObject({
    passed: z.boolean(),
    /** All deductions, no more and no fewer; all reasons against; all critical errors. */
    deductions: z.array(Cost).max(60),
    reasons: z.array(z.enum(REASONS)),
    critical: z.array(z.enum(HAZARDS)),
  }),
});
export type Mistake = z.infer<typeof MistakeSchema>;

export function mistakeJsonSchema(): unknown {
  return z.toJSONSchema(MistakeSchema, { io: 'input' });
}
