// The rules as they are for one job: dimensions that it does not test are left out, and all that
// is left is scaled so that the whole is 100 again.
import { DIMENSIONS } from './rules.ts';
import type { Dimension, Rules } from './rules.ts';
import type { JobSpec, Scenario } from './scenario.ts';

/** True where a job tests something of the record beside its job sheet. */
export const testsRecord = ({ record, job }: Scenario): boolean =>
  record.length > 0 || hasMilestone(job, 'record');

const hasMilestone = (job: JobSpec | undefined, wanted: Dimension): boolean =>
  (job?.milestones ?? []).some(({ dimension }) => dimension === wanted);

/** Dimensions for which this job has something to look at. */
export function testedBy(scenario: Scenario): readonly Dimension[] {
  const { job } = scenario;
  const untested: Dimension[] = [];
  if (job?.sheet === undefined && !testsRecord(scenario)) untested.push('record');
  if (job?.outcomes?.length === 0 && !hasMilestone(job, 'outcome')) untested.push('outcome');
  return DIMENSIONS.filter((dimension) => !untested.includes(dimension));
}

/** What the points of the rules and of milestones are multiplied by in this job. */
export function scaleOf(scenario: Scenario, rules: Rules): number {
  return 100 / testedBy(scenario).reduce((sum, name) => sum + rules.dimensions[name].max, 0);
}

/** The rules with all their points as they count in this job. */
export function rulesFor(scenario: Scenario, rules: Rules): Rules {
  const k = scaleOf(scenario, rules);
  const map = <K extends string, V>(of: Readonly<Record<K, V>>, change: (value: V) => V) =>
    Object.fromEntries(Object.entries<V>(of).map(([key, v]) => [key, change(v)])) as Record<K, V>;
  const { hand_over } = rules;
  return {
    ...rules,
    dimensions: map(rules.dimensions, (one) => ({ ...one, max: k * one.max })),
    hazards: map(rules.hazards, (one) => ({
      ...one,
      warning_points: k * one.warning_points,
      tripped_points: k * one.tripped_points,
    })),
    sheet: {
      ...rules.sheet,
      points: k * rules.sheet.points,
      residual: { ...rules.sheet.residual, points: k * rules.sheet.residual.points },
    },
    hand_over: {
      ...hand_over,
      valve_points: k * hand_over.valve_points,
      pump_points: k * hand_over.pump_points,
      device_points: k * hand_over.device_points,
    },
    order: rules.order.map((one) => ({ ...one, points: k * one.points })),
  };
}

/** The job with its milestones' points as they count. */
export function jobFor(job: JobSpec, k: number): JobSpec {
  if (job.milestones === undefined) return job;
  return { ...job, milestones: job.milestones.map((one) => ({ ...one, points: k * one.points })) };
}
