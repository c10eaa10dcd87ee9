// The single deductions: what is measured at hand-over, held against what the job allows. Each
// answers with the points it would take; score.ts decides what counts.
import { assert } from './base/assert.ts';
import { clamp, max, min } from './base/math.ts';
import type { Cause } from './causes.ts';
import type { Fact, Measures } from './fact.ts';
import type { Deduction } from './marks.ts';
import type { Rules } from './rules.ts';
import { askedAt } from './scenario-job.ts';
import type { HandOverState, JobSpec, Scenario } from './scenario.ts';

export type Done = Fact & { kind: 'done' };

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

interface Words {
  readonly message: string;
  readonly seen: string;
  readonly how: string;
}

export function wordsOf(rule: string): Words {
  return { message: `message.${rule}`, seen: `seen.${rule}`, how: `how.${rule}` };
}

export function asDeduction(cause: Cause): Deduction {
  return {
    rule: cause.rule,
    dimension: cause.dimension,
    stage: cause.stage,
    points: cause.points,
    max: cause.max,
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

/** Rule of a control left in the wrong state, by its kind; of some by the state asked for. */
const LEFT: Readonly<Record<string, string | Readonly<Partial<Record<HandOverState, string>>>>> = {
  pump: { off: 'pump_left_on', on: 'pump_left_off' },
  valve: { shut: 'valve_left_open', open: 'valve_left_shut' },
  coupling: { made: 'coupling_left_apart', apart: 'coupling_left_made' },
  three_way: 'three_way_left',
  wear: 'wear_left',
  lock: 'lock_left',
  latch: 'latch_left',
  guard: 'guard_left',
  fan: 'fan_left',
  act: 'act_left',
};

const LEFT_RULES: readonly string[] = Object.values(LEFT).flatMap((left) =>
  typeof left === 'string' ? [left] : Object.values(left),
);

/** True of the rules of what stood wrong at hand-over. */
export const isOfHandOver = (rule: string): boolean => LEFT_RULES.includes(rule);

function ruleLeft(kind: string, state: HandOverState): string {
  const left = LEFT[kind];
  const rule = typeof left === 'object' ? left[state] : left;
  assert(rule !== undefined, `no rule for a ${kind} that was to be ${state}`);
  return rule;
}

export function handOverDeductions(scenario: Scenario, rules: Rules, done: Done): Deduction[] {
  const { tolerance_deg, valve_points, pump_points, device_points, source } = rules.hand_over;
  const devices = new Set(scenario.devices.map(({ id }) => id));
  const found: Deduction[] = [];
  for (const asked of scenario.job?.hand_over ?? []) {
    const { control, state } = asked;
    const value = done.measures.controls[control];
    assert(value !== undefined, `the facts do not say where ${control} stood`);
    const { kind, position: wanted } = askedAt(scenario, asked);
    const rule = ruleLeft(kind, state);
    const angle = kind === 'valve' || kind === 'three_way';
    const off = max(value - wanted, wanted - value);
    if (off <= (angle ? tolerance_deg : 0)) continue;
    const pump = state === 'on' || state === 'off' ? pump_points : valve_points;
    const points = devices.has(control) ? device_points : pump;
    found.push({
      rule,
      dimension: 'safety',
      stage: null,
      points,
      max: points,
      tick: done.tick,
      at: control,
      value,
      limit: wanted,
      quantity: angle ? 'angle' : 'state',
      includes: [],
      source,
      ...wordsOf(rule),
    });
  }
  return found;
}

/** m3 that count as lost. */
function lost(rules: Rules, measures: Measures): number {
  const { spilled_weight, wasted_weight } = rules.losses;
  return spilled_weight * measures.spilled_m3 + wasted_weight * measures.wasted_m3;
}

/** Litres lost and the spills that lost them are one cause: whichever costs more is taken. */
export function lossDeductions(
  job: JobSpec,
  rules: Rules,
  done: Done,
  found: readonly Cause[],
): Deduction[] {
  const spills = found.filter((cause) => cause.dimension === 'losses').map(asDeduction);
  const most = rules.dimensions.losses.max;
  const value = lost(rules, done.measures);
  const points = most * overBudget(1000 * value, job.loss_free_L, job.loss_cap_L);
  // What spills would take beyond the whole of the losses is no reason to name each of them.
  const apart = min(most, spills.reduce((sum, d) => sum + d.points, 0));
  if (points <= 0 || points < apart) return spills;
  return [
    {
      rule: 'fluid_lost',
      dimension: 'losses',
      stage: null,
      points,
      max: most,
      tick: spills[0]?.tick ?? null,
      at: spills[0]?.at ?? null,
      value,
      limit: job.loss_free_L / 1000,
      quantity: 'volume',
      includes: [...new Set(spills.map((d) => d.rule))],
      source: rules.losses.source,
      ...wordsOf('fluid_lost'),
    },
  ];
}

/** @param counts false where the least shares that time depends on were not reached */
export function timeDeductions(
  job: JobSpec,
  rules: Rules,
  done: Done,
  counts: boolean,
): Deduction[] {
  const most = rules.dimensions.time.max;
  const value = done.measures.time_s;
  const rule = counts ? 'time_taken' : 'time_not_counted';
  const points = counts ? most * overBudget(value, job.time_full_s, job.time_zero_s) : most;
  if (points <= 0) return [];
  return [
    {
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
    },
  ];
}

/** 0 up to the free allowance, 1 from the cap on, straight between. */
export function overBudget(value: number, free: number, cap: number): number {
  return clamp((value - free) / (cap - free), 0, 1);
}
