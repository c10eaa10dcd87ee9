// Marks for what happened on the way and for what is true at the end: milestones that were missed
// or came out of order, outcomes with what each has of the outcome's marks. A fold over facts.
import { assert } from './base/assert.ts';
import { abs, clamp } from './base/math.ts';
import { airShare, overBudget, wordsOf, type Done } from './deductions.ts';
import type { Fact } from './fact.ts';
import type { Deduction, MilestoneMark } from './marks.ts';
import type { Quantity, Rules } from './rules.ts';
import { outcomesOf, type JobSpec, type MilestoneSpec, type OutcomeSpec } from './scenario.ts';

type Reached = Fact & { kind: 'reached' };

/** Every milestone of the job with its moment, in the job's order. */
export function milestoneMarks(job: JobSpec, facts: readonly Fact[]): readonly MilestoneMark[] {
  const milestones = job.milestones ?? [];
  const reached = new Map<string, Reached>();
  for (const fact of facts) {
    if (fact.kind === 'reached' && !reached.has(fact.milestone)) reached.set(fact.milestone, fact);
  }
  return milestones.map((spec): MilestoneMark => {
    const found = reached.get(spec.id);
    const late = spec.after.some((id) => isLater(reached.get(id), found));
    const resting = milestones.filter(({ after }) => after.includes(spec.id));
    const inTime =
      found !== undefined && !resting.some(({ id }) => isLater(found, reached.get(id)));
    return {
      id: spec.id,
      phase: spec.phase,
      kind: spec.kind,
      at: partOf(spec),
      tick: found?.tick ?? null,
      value: found?.value ?? null,
      in_order: !late,
      fails: spec.essential === true && !inTime,
    };
  });
}

/** What stands so from the start was done by nobody, and breaks no order. */
function isLater(first: Reached | undefined, then: Reached | undefined): boolean {
  return first !== undefined && then !== undefined && then.tick > 0 && first.tick > then.tick;
}

function partOf(spec: MilestoneSpec): string | null {
  switch (spec.kind) {
    case 'held':
      return spec.node;
    case 'ran':
    case 'passed':
      return spec.link;
    case 'shut_in':
      return spec.valve;
    case 'noted':
      return spec.entry;
    case 'stood':
      return spec.control;
    case 'left':
      return null;
  }
}

/** What a milestone asked for, as far as a number says it, SI. */
function askedOf(spec: MilestoneSpec): { limit: number | null; quantity: Quantity } {
  switch (spec.kind) {
    case 'held':
    case 'ran':
    case 'shut_in':
      return { limit: spec.for_s, quantity: 'time' };
    case 'passed':
      return { limit: spec.litres / 1000, quantity: 'volume' };
    case 'left':
      return { limit: 3600 * spec.hours, quantity: 'time' };
    case 'noted':
    case 'stood':
      return { limit: null, quantity: 'none' };
  }
}

/** Share of all milestones' points that were reached; 1 of a job without any. */
export function shareDone(job: JobSpec, marks: readonly MilestoneMark[]): number {
  let [all, reached] = [0, 0];
  (job.milestones ?? []).forEach(({ points }, k) => {
    all += points;
    if (marks[k]!.tick !== null) reached += points;
  });
  return all === 0 ? 1 : reached / all;
}

/** Those missed, each with what could not be reached without it; and those out of order. */
export function milestoneDeductions(
  job: JobSpec,
  rules: Rules,
  done: Done,
  marks: readonly MilestoneMark[],
): readonly Deduction[] {
  const milestones = job.milestones ?? [];
  const markOf = new Map(marks.map((mark) => [mark.id, mark]));
  const missed = milestones.filter(({ id }) => markOf.get(id)?.tick === null);
  const roots = rootsOf(missed);
  return milestones.flatMap((spec) => {
    const mark = markOf.get(spec.id);
    assert(mark !== undefined, `no mark for ${spec.id}`);
    if (mark.tick !== null) {
      if (mark.in_order) return [];
      const first = spec.after.filter((id) => (markOf.get(id)?.tick ?? 0) > mark.tick!);
      return [{ ...outOfOrder(spec, rules, mark.tick), first }];
    }
    if (roots.get(spec.id) !== spec.id) return [];
    const includes = missed.filter(({ id }) => id !== spec.id && roots.get(id) === spec.id);
    return [missedDeduction(spec, rules, done, includes)];
  });
}

/** For each that was missed, the one among them that it all began with; itself where it did. */
function rootsOf(missed: readonly MilestoneSpec[]): ReadonlyMap<string, string> {
  const byId = new Map(missed.map((spec) => [spec.id, spec]));
  const roots = new Map<string, string>();
  for (const { id } of missed) {
    let root = id;
    // The order has no rings, so that this comes to an end.
    for (let steps = 0; steps < missed.length; steps++) {
      const before = byId.get(root)?.after.find((one) => byId.has(one));
      if (before === undefined) break;
      root = before;
    }
    roots.set(id, root);
  }
  return roots;
}

/** A line that was written, but not while there was what it is about, was not left empty. */
function wordsOfMissed(spec: MilestoneSpec): string {
  const during = spec.kind === 'noted' && spec.during !== undefined;
  return `missed_${spec.kind}${during ? '_during' : ''}`;
}

function missedDeduction(
  spec: MilestoneSpec,
  rules: Rules,
  done: Done,
  includes: readonly MilestoneSpec[],
): Deduction {
  return {
    rule: `missed_${spec.kind}`,
    dimension: spec.dimension,
    stage: null,
    points: spec.points,
    max: spec.points,
    tick: done.tick,
    at: partOf(spec),
    value: null,
    ...askedOf(spec),
    milestone: spec.id,
    includes: includes.map(({ id }) => id),
    source: rules.milestones.source,
    ...wordsOf(wordsOfMissed(spec)),
  };
}

function outOfOrder(spec: MilestoneSpec, rules: Rules, tick: number): Deduction {
  const points = spec.points * rules.milestones.out_of_order_share;
  return {
    rule: 'out_of_order',
    dimension: spec.dimension,
    stage: null,
    points,
    max: points,
    tick,
    at: partOf(spec),
    value: null,
    limit: null,
    quantity: 'none',
    milestone: spec.id,
    includes: [],
    source: rules.milestones.order_source,
    ...wordsOf('out_of_order'),
  };
}

/** What one outcome came to: share of its own marks, and whether it is as the job asks. */
interface Found {
  readonly share: number;
  readonly met: boolean;
  readonly at: string | null;
  readonly value: number;
  readonly limit: number;
  readonly quantity: Quantity;
}

export interface OutcomeMarks {
  /** Share of the marks that all outcomes have together; 1 where the job has none. */
  readonly share: number;
  readonly deductions: readonly Deduction[];
  /** True where something beside air is not as the job asks; the same of air. */
  readonly missed: boolean;
  readonly air: boolean;
}

/** @param most marks that all outcomes have together */
export function outcomeMarks(job: JobSpec, rules: Rules, done: Done, most: number): OutcomeMarks {
  const outcomes = outcomesOf(job);
  let [whole, share] = [0, 0];
  let [missed, air] = [false, false];
  const deductions: Deduction[] = [];
  for (const outcome of outcomes) {
    const found = foundOf(outcome, job, rules, done);
    whole += outcome.share;
    share += outcome.share * found.share;
    if (!found.met && outcome.kind === 'air') air = true;
    else if (!found.met) missed = true;
    if (found.share >= 1) continue;
    deductions.push({ ...outcomeDeduction(outcome, found, rules, most), tick: done.tick });
  }
  // Over the sum as it comes out of the same additions, so that all of it is exactly 1.
  return { share: whole === 0 ? 1 : share / whole, deductions, missed, air };
}

function foundOf(outcome: OutcomeSpec, job: JobSpec, rules: Rules, { measures }: Done): Found {
  const { zero_at } = rules.outcome;
  switch (outcome.kind) {
    case 'air': {
      const [value, limit] = [measures.loop_air_m3, job.air_allowed_L / 1000];
      const met = 1000 * value <= job.air_allowed_L;
      return { share: airShare(job, value), met, at: null, value, limit, quantity: 'volume' };
    }
    case 'freeze': {
      assert(measures.freeze !== undefined, 'the facts do not say where the loop freezes');
      const { mean_C, weakest_C } = measures.freeze;
      const { aim_C: aim, within_C: within } = outcome;
      // A loop is as safe as its weakest part, and as thick as its mean.
      const value = abs(weakest_C - aim) > abs(mean_C - aim) ? weakest_C : mean_C;
      return { ...band({ value, aim, within, zero_at }), at: null, quantity: 'celsius' };
    }
    case 'pressure': {
      const value = measures.pressures?.[outcome.node];
      assert(value !== undefined, `the facts do not say the pressure at ${outcome.node}`);
      const [aim, within] = [1000 * outcome.aim_kPa, 1000 * outcome.within_kPa];
      return { ...band({ value, aim, within, zero_at }), at: outcome.node, quantity: 'pressure' };
    }
    case 'debris': {
      const value = measures.debris_kg;
      assert(value !== undefined, 'the facts do not say how much debris is left');
      const limit = outcome.most_g / 1000;
      const share = 1 - overBudget(value, limit, zero_at * limit);
      return { share, met: value <= limit, at: null, value, limit, quantity: 'mass' };
    }
    case 'flow': {
      const value = measures.flows?.[outcome.link];
      assert(value !== undefined, `the facts do not say what flows in ${outcome.link}`);
      const limit = outcome.least_L_s / 1000;
      const met = value >= limit;
      return { share: met ? 1 : 0, met, at: outcome.link, value, limit, quantity: 'flow' };
    }
  }
}

/** All of it within the allowance, nothing from `zero_at` times that on, straight between. */
function band(of: { value: number; aim: number; within: number; zero_at: number }) {
  const { value, aim, within, zero_at } = of;
  const off = abs(value - aim) / within;
  const share = 1 - clamp((off - 1) / (zero_at - 1), 0, 1);
  return { share, met: off <= 1, value, limit: value < aim ? aim - within : aim + within };
}

function outcomeDeduction(
  outcome: OutcomeSpec,
  { share, at, value, limit, quantity }: Found,
  rules: Rules,
  most: number,
): Deduction {
  const { kind } = outcome;
  const rule = kind === 'air' ? 'air_left' : `outcome_${kind}`;
  return {
    rule,
    dimension: 'outcome',
    stage: null,
    points: most * outcome.share * (1 - share),
    max: most * outcome.share,
    tick: null,
    at,
    value,
    limit,
    quantity,
    includes: [],
    source: rules.outcome[`${kind}_source`],
    ...wordsOf(rule),
  };
}
