// Marks: a fold over facts, so that each point lost has its moment and its reason. It never
// looks at the state, and it speaks in ids and numbers; words are kept beside the level.
import { assert } from './base/assert.ts';
import { max, min } from './base/math.ts';
import { causes, episodes } from './causes.ts';
import type { Cause } from './causes.ts';
import { asDeduction, handOverDeductions } from './deductions.ts';
import { lossDeductions, timeDeductions } from './deductions.ts';
import type { Done } from './deductions.ts';
import type { Fact } from './fact.ts';
import type { CriticalError, Deduction, DimensionMark, Reason, Score } from './marks.ts';
import { sheetMarks } from './jobsheet/judge.ts';
import { residualMark } from './jobsheet/residual.ts';
import { DIMENSIONS } from './rules.ts';
import type { Dimension, Rules } from './rules.ts';
import type { JobSpec, Scenario } from './scenario.ts';
import { milestoneDeductions, milestoneMarks, outcomeMarks, shareDone } from './score-goals.ts';
import type { OutcomeMarks } from './score-goals.ts';
import { onceEach } from './score-once.ts';
import { residualDeductions, sheetDeductions } from './score-sheet.ts';
import { jobFor, rulesFor, scaleOf, testedBy } from './weights.ts';

/** @throws AssertionError if the scenario has no job. */
export function score(scenario: Scenario, shared: Rules, facts: readonly Fact[]): Score {
  assert(scenario.job !== undefined, 'a scenario without a job cannot be marked');
  const rules = rulesFor(scenario, shared);
  const job = jobFor(scenario.job, scaleOf(scenario, shared));
  const done = facts.find((fact): fact is Done => fact.kind === 'done') ?? null;
  const found = causes(scenario, rules, facts);
  const critical = criticalErrors(job, rules, facts);
  const tested = testedBy(scenario);
  const milestones = milestoneMarks(job, facts);
  const sheet = sheetMarks(scenario, rules, facts);
  const residual = residualMark(scenario, rules, facts);
  const head = {
    standard: rules.standard,
    pass_total: rules.pass_total,
    untested: DIMENSIONS.filter((name) => !tested.includes(name)),
    milestones,
    sheet,
    residual,
    critical,
  };
  if (done === null) return { ...head, ...unfinished(rules, tested, found, critical) };
  const missed = milestoneDeductions(job, rules, done, milestones);
  const outcome = outcomeMarks(job, rules, done, outcomesHave(job, rules));
  const handOver = handOverDeductions(scenario, rules, done);
  const each = [
    ...outcome.deductions,
    ...missed,
    ...sheetDeductions(rules, sheet),
    ...residualDeductions(residual),
    ...found.filter((cause) => cause.dimension !== 'losses').map(asDeduction),
    ...handOver,
    ...lossDeductions(job, rules, done, found),
  ];
  const once = onceEach(scenario, each);
  const early = capped(rules, once.filter(isTold));
  const marks = new Map(tested.map((name) => [name, markOf(rules, name, early)]));
  if (marks.has('outcome')) {
    const elsewhere = each.filter((one) => !once.some((kept) => isSame(kept, one)));
    marks.set('outcome', outcomeMark(job, rules, outcome, { missed, elsewhere }));
  }
  const counts = rules.time_counts_after.every((name) => marks.get(name)?.met !== false);
  const late = timeDeductions(job, rules, done, counts);
  marks.set('time', markOf(rules, 'time', late));
  const dimensions = tested.map((name) => marks.get(name) as DimensionMark);
  const total = (100 * sumOf(dimensions, 'points')) / sumOf(dimensions, 'max');
  const done_share = shareDone(job, milestones);
  const essential = !milestones.some(({ fails }) => fails);
  const findings = {
    ...{ rules, done, critical, outcome, handOver, dimensions, total, done_share, essential },
  };
  const reasons = reasonsAgainst(findings);
  const passed = reasons.length === 0;
  return {
    ...head,
    ...{ finished: true, passed, total, dimensions, deductions: [...early, ...late], reasons },
  };
}

/** Points below which a deduction is not told: the page would write 0. Marks keep what it takes. */
const TOLD_LEAST = 0.005;
const isTold = ({ points }: Deduction): boolean => points === 0 || points >= TOLD_LEAST;

const sumOf = (list: readonly DimensionMark[], key: 'points' | 'max'): number =>
  list.reduce((sum, mark) => sum + mark[key], 0);

/** Marks that the outcomes have together: what its milestones leave of the outcome's. */
function outcomesHave(job: JobSpec, rules: Rules): number {
  const own = (job.milestones ?? []).filter(({ dimension }) => dimension === 'outcome');
  return rules.dimensions.outcome.max - own.reduce((sum, { points }) => sum + points, 0);
}

/** The one stands for the other, if with more in it. */
const isSame = (kept: Deduction, one: Deduction): boolean =>
  kept.rule === one.rule && kept.at === one.at && kept.milestone === one.milestone;

const pointsOf = (list: readonly Deduction[]): number =>
  list.reduce((sum, { points, dimension }) => sum + (dimension === 'outcome' ? points : 0), 0);

interface Beside {
  readonly missed: readonly Deduction[];
  /** Those that another one stands for. */
  readonly elsewhere: readonly Deduction[];
}

/** Straight from the share: a difference of two rounded numbers could hide the last of the air. */
function outcomeMark(
  job: JobSpec,
  rules: Rules,
  { share }: OutcomeMarks,
  { missed, elsewhere }: Beside,
): DimensionMark {
  const most = outcomesHave(job, rules);
  const way = rules.dimensions.outcome.max - most - pointsOf(missed) + pointsOf(elsewhere);
  return mark(rules, 'outcome', max(0, most * share + way));
}

type Tail = 'finished' | 'passed' | 'total' | 'dimensions' | 'deductions' | 'reasons';

function unfinished(
  rules: Rules,
  tested: readonly Dimension[],
  found: readonly Cause[],
  critical: readonly CriticalError[],
): Pick<Score, Tail> {
  return {
    finished: false,
    passed: false,
    total: 0,
    dimensions: tested.map((name) => mark(rules, name, 0)),
    deductions: found.map(asDeduction),
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
  const left = new Map<Dimension, number>(
    DIMENSIONS.map((name) => [name, rules.dimensions[name].max]),
  );
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
  readonly rules: Rules;
  readonly done: Done;
  readonly critical: readonly CriticalError[];
  readonly outcome: OutcomeMarks;
  readonly handOver: readonly Deduction[];
  readonly dimensions: readonly DimensionMark[];
  readonly total: number;
  /** Share of the milestones' points that were reached. */
  readonly done_share: number;
  /** All that the job is not passed without was done in time. */
  readonly essential: boolean;
}

function reasonsAgainst(found: Findings): readonly Reason[] {
  const reasons: Reason[] = [];
  if (!found.done.asked) reasons.push('time_ran_out');
  if (found.critical.length > 0) reasons.push('critical');
  if (found.outcome.air) reasons.push('air_left');
  if (found.outcome.missed) reasons.push('outcome_missed');
  if (found.handOver.length > 0) reasons.push('hand_over');
  for (const { dimension, met } of found.dimensions) {
    if (!met) reasons.push(`minimum_${dimension}`);
  }
  if (found.done_share < found.rules.milestones.minimum_share) reasons.push('too_little_done');
  if (!found.essential) reasons.push('essential_missed');
  if (found.total < found.rules.pass_total) reasons.push('total');
  return reasons;
}
