// The job: what is asked of who works it, in numbers; words are kept by key beside the level.
// Leaves out what is asked for on the way and at the end beside air (scenario-goals.ts).
import * as z from 'zod';
import { assert } from './base/assert.ts';
import { MILESTONES_MOST, Milestone, Outcome } from './scenario-goals.ts';
import { Id, within } from './scenario-parts.ts';
import { Sheet } from './scenario-sheet.ts';

/** How a control can stand at hand-over; a three-way valve by the end that it shuts. */
export const HAND_OVER_STATES = [
  'shut',
  'open',
  'off',
  'on',
  'made',
  'apart',
  'all_joined',
  'from_shut',
  'branch_shut',
  'to_shut',
  'pinned',
  'worn',
  'not_worn',
  'fitted',
  'not_fitted',
  'done',
  'not_done',
] as const;
export type HandOverState = (typeof HAND_OVER_STATES)[number];

type Positions = Readonly<Partial<Record<HandOverState, number>>>;

/** States that each kind of link or device can be left in, with its position; degrees of valves. */
export const POSITIONS: Readonly<Record<string, Positions>> = {
  valve: { open: 90, shut: 0 },
  three_way: { all_joined: 0, from_shut: 90, branch_shut: 180, to_shut: 270 },
  pump: { on: 1, off: 0 },
  coupling: { made: 1, apart: 0 },
  wear: { worn: 1, not_worn: 0 },
  lock: { on: 1, off: 0 },
  latch: { open: 0, shut: 1, pinned: 2 },
  guard: { fitted: 1, not_fitted: 0 },
  fan: { on: 1, off: 0 },
  act: { done: 1, not_done: 0 },
};

interface Controls {
  readonly links: readonly Controlled[];
  readonly devices: readonly Controlled[];
}

interface Controlled {
  readonly id: string;
  readonly kind: string;
}

/** Kind of a control, and the position of a state that a hand-over asks it to be left in. */
export function askedAt(
  { links, devices }: Controls,
  { control, state }: { readonly control: string; readonly state: HandOverState },
): { readonly kind: string; readonly position: number } {
  const kind = [...links, ...devices].find(({ id }) => id === control)?.kind;
  const position = POSITIONS[kind ?? '']?.[state];
  assert(kind !== undefined && position !== undefined, `${control} cannot be ${state}`);
  return { kind, position };
}

export const Job = z.strictObject({
  /** The part that must be free of air at hand-over. */
  loop_links: z.array(Id).min(1),
  rule_velocity_m_s: within(0.05, 5),
  /** Air (L at 1 atm) in the loop: knots of (air, share of the marks), falling throughout. */
  air_knots: z.array(z.strictObject({ air_L: within(0, 100000), share: within(0, 1) })).min(2),
  /** Most air with which the loop counts as purged. */
  air_allowed_L: within(0.001, 1000),
  loss_free_L: within(0, 100000),
  loss_cap_L: within(0.001, 100000),
  time_full_s: within(1, 604800),
  time_zero_s: within(1, 604800),
  hand_over: z.array(z.strictObject({ control: Id, state: z.enum(HAND_OVER_STATES) })),
  critical: z.array(Id).max(7),
  /** What must have happened on the way, in the order in which it is told. */
  milestones: z.array(Milestone).max(MILESTONES_MOST).optional(),
  /** What must be true at the end; a job that does not say is judged by its air alone. */
  outcomes: z.array(Outcome).max(20).optional(),
  /** Numbers to be worked out before the first hand is on a control. */
  sheet: Sheet.optional(),
});
export type JobSpec = z.infer<typeof Job>;
