// Marks: a fold over facts, so that each point lost has its moment and its reason. It never
// looks at the state, and it speaks in ids and numbers; words are kept beside the level.
import { assert } from './base/assert.ts';
import { max, min } from './base/math.ts';
import { causes, episodes } from './causes.ts';
import type { Cause } from './causes.ts';
import { airDeduction, airShare, asDeduction, handOverDeductions } from './deductions.ts';
import { lossDeductions, timeDeductions } from './deductions.ts';
import type { Done } from './deductions.ts';
import type { Fact } from './fact.ts';
import type { CriticalError, Deduction, DimensionMark, Reason, Score } from './marks.ts';
import { DIMENSIONS } from './rules.ts';
import type { Dimension, Rules } from './rules.ts';
import type { JobSpec, Scenario } from './scenario.ts';

/** @throws AssertionError if the scenario has no job. */
export function score(scenario: Scenario, rules: Rules, facts: readonly Fact[]): Score {
  const job = scenario.job;
  assert(job !== undefined, 'a scenario without a job cannot be marked');
  const done = facts.find((fact): fact is Done => fact.kind === 'done') ?? null;
  const found = causes(scenario, rules, facts);
  const critical = criticalErrors(job, rules, facts);
  if (done === null) return unfinished(rules, found, critical);
  const share = airShare(job, done.measures.loop_air_m3);
  const handOver = handOverDeductions(scenario, rules, done);
  const wanted = [
    ...airDeduction(job, rules, done, share),
    ...found.filter((cause) => cause.dimension === 'safety').map(asDeduction),
    ...handOver,
    ...lossDeductions(job, rules, done, found),
  ];
  const early = capped(rules, wanted);
  const marks = new Map(DIMENSIONS.map((name) => [name, markOf(rules, name, early)]));
  // Straight from the share: a difference of two rounded numbers could hide the last of the air.
  marks.set('completeness', mark(rules, 'completeness', rules.dimensions.completeness.max * share));
  const counts = rules.time_counts_after.every((name) => marks.get(name)?.met === true);
  const late = timeDeductions(job, rules, done, counts);
  marks.set('time', markOf(rules, 'time', late));
  const dimensions = DIMENSIONS.map((name) => marks.get(name) as DimensionMark);
  const total = dimensions.reduce((sum, d) => sum + d.points, 0);
  const reasons = reasonsAgainst({ job, rules, done, critical, handOver, dimensions, total });
  return {
    standard: rules.standard,
    finished: true,
    passed: reasons.length === 0,
    total,
    pass_total: rules.pass_total,
    dimensions,
    deductions: [...early, ...late],
    critical,
    reasons,
  };
}

function unfinished(
  rules: Rules,
  found: readonly Cause[],
  critical: readonly CriticalError[],
): Score {
  return {
    standard: rules.standard,
    finished: false,
    passed: false,
    total: 0,
    pass_total: rules.pass_total,
    dimensions: DIMENSIONS.map((name) => mark(rules, name, 0)),
    deductions: found.map(asDeduction),
    critical,
    reasons: critical.length > 0 ? ['not_finished', 'critical'] : ['not_finished'],
  };
}

function mark(rules: Rules, dimension: Dimension, points: number): DimensionMark {
  const rule = rules.dimensions[dimension];
  const minimum = rule.max * rule.minimum_share;
  return { dimension, points, max: rule.max, minimum, met: points >= minimum };
}

function markOf(rules: Rules, name: Dimension, taken: readonly Deduction[]): DimensionMark {
  const off = taken.filter((d) => d.dimension === name).reduce((sum, d) => sum + d.points, 0);
  return mark(rules, name, max(0, rules.dimensions[name].max - off));
}

/** In order of time; once a dimension has nothing left, a deduction stands there with 0. */
function capped(rules: Rules, wanted: readonly Deduction[]): readonly Deduction[] {
  const left = new Map(DIMENSIONS.map((name) => [name, rules.dimensions[name].max]));
  const ordered = [...wanted].sort((a, b) => (a.tick ?? 0) - (b.tick ?? 0));
  return ordered.map((deduction) => {
    const room = left.get(deduction.dimension) ?? 0;
    const points = min(deduction.points, room);
    left.set(deduction.dimension, room - points);
    return { ...deduction, points };
  });
}

function criticalErrors(
  job: JobSpec,
  rules: Rules,
  facts: readonly Fact[],
): readonly CriticalError[] {
  return episodes(facts).flatMap(({ hazard, at, tripped, value, limit }) => {
    if (tripped === null || !job.critical.includes(hazard)) return [];
    const { quantity, source } = rules.hazards[hazard];
    const message = `critical.${hazard}`;
    return [{ hazard, at, tick: tripped, value, limit, quantity, source, message }];
  });
}

interface Findings {
  readonly job: JobSpec;
  readonly rules: Rules;
  readonly done: Done;
  readonly critical: readonly CriticalError[];
  readonly handOver: readonly Deduction[];
  readonly dimensions: readonly DimensionMark[];
  readonly total: number;
}

function reasonsAgainst(found: Findings): readonly Reason[] {
  const reasons: Reason[] = [];
  if (!found.done.asked) reasons.push('time_ran_out');
  if (found.critical.length > 0) reasons.push('critical');
  if (1000 * found.done.measures.loop_air_m3 > found.job.air_allowed_L) reasons.push('air_left');
  if (found.handOver.length > 0) reasons.push('hand_over');
  for (const { dimension, met } of found.dimensions) {
    if (!met) reasons.push(`minimum_${dimension}`);
  }
  if (found.total < found.rules.pass_total) reasons.push('total');
  return reasons;
}
