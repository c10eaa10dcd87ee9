// What a job asks for beside its air: milestones, which must have happened on the way, and
// outcomes, which must be true at "I'm done". Who watches them is sim/milestones.ts and
// sim/outcomes.ts; what they are worth is a matter of marks (score-goals.ts).
import * as z from 'zod';
import { PHASES } from './phases.ts';
import { FLOW_L_S, Id, whole, within } from './scenario-parts.ts';

/** Dimensions of the marks that a milestone can belong to. */
export const MILESTONE_DIMENSIONS = ['outcome', 'safety', 'record'] as const;

/** Most points that all milestones of the outcome have together: the rest is for outcomes. */
export const OUTCOME_MILESTONES_MOST = 20;
export const MILESTONES_MOST = 40;

const common = {
  id: Id,
  phase: z.enum(PHASES),
  /** Marks of its dimension that it takes when it is not reached. */
  points: within(1, 20),
  dimension: z.enum(MILESTONE_DIMENSIONS),
  /** Milestones that must have been reached before it. */
  after: z.array(Id).max(20).default([]),
  /** The job is not passed without it, in time for all that name it in `after`. */
  essential: z.literal(true).optional(),
};
const for_s = within(0.1, 86400);

/** Gauge pressure inside a band without a break. */
const Held = z.strictObject({
  ...common,
  kind: z.literal('held'),
  node: Id,
  from_kPa: within(-90, 4000),
  to_kPa: within(-90, 4000),
  for_s,
});

/** Liquid through the middle of a link without a break; `back` is from its `to` to its `from`. */
const Ran = z.strictObject({
  ...common,
  kind: z.literal('ran'),
  link: Id,
  /** A defect of the scenario. The link is where that stands, in every form, and nobody is told. */
  found: Id.optional(),
  way: z.enum(['forth', 'back', 'either']).default('either'),
  above_L_s: within(0.001, FLOW_L_S),
  for_s,
  /**
   * Links that carry less than a twentieth of that flow meanwhile; one that has to be found is
   * listed among them, and does not count.
   */
  still: z.array(Id).max(40).default([]),
});

/** So much liquid has passed the middle of a link either way, summed. */
const Passed = z.strictObject({
  ...common,
  kind: z.literal('passed'),
  link: Id,
  litres: within(0.1, 1000000),
});

/** A pump that turns and has caught, while a valve stands shut: the proof against the return. */
const ShutIn = z.strictObject({
  ...common,
  kind: z.literal('shut_in'),
  pump: Id,
  valve: Id,
  for_s,
});

/** The line of the sheet was written; whether it is true is the hazard `false_record`'s. */
const Noted = z.strictObject({
  ...common,
  kind: z.literal('noted'),
  entry: Id,
  /** A milestone of flow: written while there is what that one asks for, however long. */
  during: Id.optional(),
});

/** A control stood so: a valve in degrees, a pump or coupling at 0 or 1, a device in a position. */
const Stood = z.strictObject({
  ...common,
  kind: z.literal('stood'),
  control: Id,
  at: whole(0, 270),
});

/** So much time has gone by while nobody was there. */
const Left = z.strictObject({ ...common, kind: z.literal('left'), hours: within(0.1, 72) });

export const Milestone = z.discriminatedUnion('kind', [
  Held,
  Ran,
  Passed,
  ShutIn,
  Noted,
  Stood,
  Left,
]);
export type MilestoneSpec = z.infer<typeof Milestone>;
export type MilestoneKind = MilestoneSpec['kind'];
export const MILESTONE_KINDS = [
  'held',
  'ran',
  'passed',
  'shut_in',
  'noted',
  'stood',
  'left',
] as const satisfies readonly MilestoneKind[];

/** How much of the outcome's marks it has; all of a job's make 1. */
const share = within(0.01, 1);

/** All marks within `within_*` of the aim, none from three times that on. */
const Freeze = z.strictObject({
  kind: z.literal('freeze'),
  share,
  aim_C: within(-60, 0),
  within_C: within(0.1, 20),
  /** Where: `loop` is the job's `loop_links`. */
  links: z.enum(['loop']).default('loop'),
});
const Pressure = z.strictObject({
  kind: z.literal('pressure'),
  share,
  node: Id,
  /** Gauge. */
  aim_kPa: within(-90, 4000),
  within_kPa: within(0.1, 1000),
});

/** All marks up to `most_g` in the loop, none from three times that on. */
const DebrisLeft = z.strictObject({
  kind: z.literal('debris'),
  share,
  most_g: within(0.1, 100000),
});

/** Flow through a link either way as it is at the end; met or not. */
const Flow = z.strictObject({
  kind: z.literal('flow'),
  share,
  link: Id,
  least_L_s: within(0.001, FLOW_L_S),
});

/** The job's air knots. */
const Air = z.strictObject({ kind: z.literal('air'), share });

export const Outcome = z.discriminatedUnion('kind', [Freeze, Pressure, DebrisLeft, Flow, Air]);
export type OutcomeSpec = z.infer<typeof Outcome>;
export type OutcomeKind = OutcomeSpec['kind'];

const AIR_ALONE: readonly OutcomeSpec[] = [{ kind: 'air', share: 1 }];

/** What a job is about: one that does not say is about its air. */
export function outcomesOf(job: {
  readonly outcomes?: readonly OutcomeSpec[] | undefined;
}): readonly OutcomeSpec[] {
  return job.outcomes ?? AIR_ALONE;
}
