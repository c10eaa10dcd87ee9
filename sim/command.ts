// What hands can do: data with integers only, so that a stored record never rounds.
// A command sets a target; the hand moves the control in the engine at its own speed.
import * as z from 'zod';
import { ANSWER_MOST } from './scenario-sheet.ts';

/** Whose hands; one's own where nothing is said. */
const by = z.literal('helper').optional();

export const CommandSchema = z.discriminatedUnion('kind', [
  /** Turn a handle: 0 shut ... 90 in line with the pipe; a three-way valve's 0 ... 270. */
  z.strictObject({
    kind: z.literal('valve'),
    valve: z.string(),
    target_deg: z.int().min(0).max(270),
    by,
  }),
  z.strictObject({ kind: z.literal('switch'), pump: z.string(), on: z.boolean(), by }),
  /** Join the halves of a coupling, or part them. */
  z.strictObject({ kind: z.literal('coupling'), coupling: z.string(), made: z.boolean(), by }),
  /** Bring a device to a position of its kind: a latch, a lock, what is worn. */
  z.strictObject({
    kind: z.literal('set'),
    device: z.string(),
    position: z.int().min(0).max(1000),
    by,
  }),
  /** Put the tank's marker at the level as it stands when the hand gets there. */
  z.strictObject({ kind: z.literal('mark'), tank: z.string(), by }),
  /** Work a hand pump: so many strokes, one after the other. */
  z.strictObject({
    kind: z.literal('stroke'),
    pump: z.string(),
    strokes: z.int().min(1).max(500),
    by,
  }),
  /** Set an imposed flow (bench rigs only). */
  z.strictObject({
    kind: z.literal('flow'),
    link: z.string(),
    flow_mL_s: z.int().min(-100000).max(100000),
  }),
  /** Knock on a gauge's glass: a needle that sticks comes free. */
  z.strictObject({ kind: z.literal('tap'), gauge: z.string() }),
  /** Write a value down, in thousandths of the reading's unit: kPa, L/min, mm, L, C, A or V. */
  z.strictObject({
    kind: z.literal('note'),
    entry: z.string(),
    value_milli: z.int().min(-1e9).max(1e9),
  }),
  /** Answer a line of the job sheet, in thousandths of its unit; null says "cannot tell". */
  z.strictObject({
    kind: z.literal('answer'),
    line: z.string(),
    value_milli: z.int().min(-ANSWER_MOST).max(ANSWER_MOST).nullable(),
  }),
  /** Go home, with nothing in hand, and come back so many hours later. */
  z.strictObject({ kind: z.literal('leave'), hours: z.int().min(1).max(72) }),
  /** "I'm done": judge what is there now. */
  z.strictObject({ kind: z.literal('done') }),
]);

export type Command = z.infer<typeof CommandSchema>;
