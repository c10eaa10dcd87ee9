// Marks: a fold over facts, so that each point lost has its moment and its reason. It never
// looks at the state, and it speaks in ids and numbers; words are kept beside the level.
import { assert } from './base/assert.ts';
import { clamp, max, min } from './base/math.ts';
import { causes, episodes } from './causes.ts';
import type { Cause } from './causes.ts';
import type { Fact, HazardKind, Measures } from './fact.ts';
import { DIMENSIONS } from './rules.ts';
import type { Dimension, Quantity, Rules } from './rules.ts';
import type { JobSpec, Scenario } from './scenario.ts';

/** Why an attempt did not pass; all that hold are given. */
export const REASONS = [
  'not_finished',
  'time_ran_out',
  'critical',
  'air_left',
  'hand_over',
  'minimum_completeness',
  'minimum_safety',
  'minimum_loss',
  'minimum_time',
  'total',
] as const;
export type Reason = (typeof REASONS)[number];

export interface Deduction {
  readonly rule: string;
  readonly dimension: Dimension;
  readonly stage: 'warning' | 'tripped' | null;
  /** Taken off, and the most this rule can take at once. */
  readonly points: number;
  readonly max: number;
  /** When it happened; null where it is the sum of the whole run. */
  readonly tick: number | null;
  /** The part it happened at. */
  readonly at: string | null;
  /** What was measured and what it is held against, SI. */
  readonly value: number | null;
  readonly limit: number | null;
  readonly quantity: Quantity;
  /** Other rules broken by the same act, not counted again. */
  readonly includes: readonly string[];
  /** Key of the rules' sources, and keys of the words. */
  readonly source: string;
  readonly message: string;
  readonly seen: string;
  readonly how: string;
}

export interface DimensionMark {
  readonly dimension: Dimension;
  readonly points: number;
  readonly max: number;
  readonly minimum: number;
  /** True where the least share is reached. */
  readonly met: boolean;
}

export interface CriticalError {
  readonly hazard: HazardKind;
  readonly at: string;
  readonly tick: number;
  readonly value: number;
  readonly limit: number;
  readonly quantity: Quantity;
  readonly source: string;
  readonly message: string;
}

export interface Score {
  readonly standard: 'provisional';
  readonly finished: boolean;
  readonly passed: boolean;
  /** Of 100, unrounded: who left more air always stands lower. The page rounds. */
  readonly total: number;
  readonly pass_total: number;
  readonly dimensions: readonly DimensionMark[];
  readonly deductions: readonly Deduction[];
  readonly critical: readonly CriticalError[];
  readonly reasons: readonly Reason[];
}

type Done = Fact & { kind: 'done' };

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

/** Share of the marks for this much air (m3 at 1 atm), from the job's knots. */
export function airShare(job: JobSpec, air_m3: number): number {
  const air = 1000 * air_m3;
  let before = job.air_knots[0];
  assert(before !== undefined, 'a job without knots');
  for (const knot of job.air_knots) {
    if (air <= knot.air_L) {
      const span = knot.air_L - before.air_L;
      if (span <= 0) return knot.share;
      return knot.share + ((before.share - knot.share) * (knot.air_L - air)) / span;
    }
    before = knot;
  }
  return (before.share * before.air_L) / air;
}

interface Words { readonly message: string; readonly seen: string; readonly how: string }

function wordsOf(rule: string): Words {
  return { message: `message.${rule}`, seen: `seen.${rule}`, how: `how.${rule}` };
}

function airDeduction(job: JobSpec, rules: Rules, done: Done, share: number): Deduction[] {
  const most = rules.dimensions.completeness.max;
  if (share >= 1) return [];
  return [{
    rule: 'air_left',
    dimension: 'completeness',
    stage: null,
    points: most * (1 - share),
    max: most,
    tick: done.tick,
    at: null,
    value: done.measures.loop_air_m3,
    limit: job.air_allowed_L / 1000,
    quantity: 'volume',
    includes: [],
    source: rules.completeness.source,
    ...wordsOf('air_left'),
  }];
}

function asDeduction(cause: Cause): Deduction {
  return {
    rule: cause.rule,
    dimension: cause.dimension,
    stage: cause.stage,
    points: cause.points,
    max: cause.points,
    tick: cause.from,
    at: cause.at,
    value: cause.value,
    limit: cause.limit,
    quantity: cause.quantity,
    includes: cause.includes,
    source: cause.source,
    ...wordsOf(cause.rule),
  };
}

/** Rule of a control left in the wrong state, by the state that was asked for. */
const LEFT = { off: 'pump_left_on', on: 'pump_left_off', shut: 'valve_left_open', open: 'valve_left_shut' };

function handOverDeductions(scenario: Scenario, rules: Rules, done: Done): Deduction[] {
  const { tolerance_deg, valve_points, pump_points, source } = rules.hand_over;
  const found: Deduction[] = [];
  for (const { control, state } of scenario.job?.hand_over ?? []) {
    const value = done.measures.controls[control];
    assert(value !== undefined, `the facts do not say where ${control} stood`);
    const isPump = state === 'on' || state === 'off';
    const wanted = isPump ? Number(state === 'on') : state === 'open' ? 90 : 0;
    const off = max(value - wanted, wanted - value);
    if (off <= (isPump ? 0 : tolerance_deg)) continue;
    const points = isPump ? pump_points : valve_points;
    found.push({
      rule: LEFT[state],
      dimension: 'safety',
      stage: null,
      points,
      max: points,
      tick: done.tick,
      at: control,
      value,
      limit: wanted,
      quantity: isPump ? 'state' : 'angle',
      includes: [],
      source,
      ...wordsOf(LEFT[state]),
    });
  }
  return found;
}

/** m3 that count as lost. */
function lost(rules: Rules, measures: Measures): number {
  const { spilled_weight, wasted_weight } = rules.loss;
  return spilled_weight * measures.spilled_m3 + wasted_weight * measures.wasted_m3;
}

/** Litres lost and the spills that lost them are one cause: whichever costs more is taken. */
function lossDeductions(
  job: JobSpec,
  rules: Rules,
  done: Done,
  found: readonly Cause[],
): Deduction[] {
  const spills = found.filter((cause) => cause.dimension === 'loss').map(asDeduction);
  const most = rules.dimensions.loss.max;
  const value = lost(rules, done.measures);
  const points = most * overBudget(1000 * value, job.loss_free_L, job.loss_cap_L);
  if (points <= 0 || points < spills.reduce((sum, d) => sum + d.points, 0)) return spills;
  return [{
    rule: 'fluid_lost',
    dimension: 'loss',
    stage: null,
    points,
    max: most,
    tick: spills[0]?.tick ?? null,
    at: spills[0]?.at ?? null,
    value,
    limit: job.loss_free_L / 1000,
    quantity: 'volume',
    includes: [...new Set(spills.map((d) => d.rule))],
    source: rules.loss.source,
    ...wordsOf('fluid_lost'),
  }];
}

function timeDeductions(job: JobSpec, rules: Rules, done: Done, counts: boolean): Deduction[] {
  const most = rules.dimensions.time.max;
  const value = done.measures.time_s;
  const rule = counts ? 'time_taken' : 'time_not_counted';
  const points = counts ? most * overBudget(value, job.time_full_s, job.time_zero_s) : most;
  if (points <= 0) return [];
  return [{
    rule,
    dimension: 'time',
    stage: null,
    points,
    max: most,
    tick: done.tick,
    at: null,
    value,
    limit: job.time_full_s,
    quantity: 'time',
    includes: [],
    source: rules.time.source,
    ...wordsOf(rule),
  }];
}

/** 0 up to the free allowance, 1 from the cap on, straight between. */
function overBudget(value: number, free: number, cap: number): number {
  return clamp((value - free) / (cap - free), 0, 1);
}
