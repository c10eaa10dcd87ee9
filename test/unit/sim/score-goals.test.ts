// Marks for milestones and outcomes, against sums done by hand: what is missed, what came with it,
// what came out of order, and what is left to the outcomes.
import { describe, expect, it } from 'vitest';
import type { Score } from '../../../sim/index.ts';
import { chance } from '../../tools/chance.ts';
import { marksOf, reachedInTurn, rules } from '../../support/goal-facts.ts';
import { goalRig, WAY } from '../../support/goal-rig.ts';

const stood = { phase: 'set_up', kind: 'stood', control: 'goggles', at: 1 };

type Made = { id: string; points: number; dimension: string; after?: string[] };

/** Six milestones: a before b before d, a before c before d, e and f by themselves. */
const SIX: readonly Made[] = [
  { id: 'a', points: 2, dimension: 'safety', ...stood },
  { id: 'b', points: 4, dimension: 'safety', after: ['a'], ...stood },
  { id: 'c', points: 3, dimension: 'record', after: ['a'], ...stood },
  { id: 'd', points: 6, dimension: 'outcome', after: ['b', 'c'], ...stood },
  { id: 'e', points: 5, dimension: 'record', ...stood },
  { id: 'f', points: 1, dimension: 'safety', ...stood },
];
const IDS = SIX.map(({ id }) => id);
const BEFORE = SIX.flatMap(({ id, after = [] }) => after.map((first) => [first, id] as const));
const job = goalRig({ milestones: SIX });
const lost = (found: Score) => found.deductions.map((d) => [d.rule, d.milestone, d.points]);
const points = (found: Score) =>
  Object.fromEntries(found.dimensions.map((d) => [d.dimension, d.points]));

describe('milestones that were missed', () => {
  it('cost nothing where none was', () => {
    const found = marksOf(job, reachedInTurn(IDS));
    expect(found).toMatchObject({ total: 100, passed: true, deductions: [], untested: [] });
    expect(found.milestones.map(({ id, tick }) => [id, tick])).toEqual(
      IDS.map((id, k) => [id, 10 * (k + 1)]),
    );
  });

  it('cost their points, each in its dimension', () => {
    const found = marksOf(job, reachedInTurn(['a', 'b', 'c', 'd']));
    expect(lost(found)).toEqual([
      ['missed_stood', 'e', 5],
      ['missed_stood', 'f', 1],
    ]);
    expect(points(found)).toEqual({ outcome: 30, safety: 29, record: 15, losses: 12, time: 8 });
  });

  it('are counted once with what could not be reached without them', () => {
    const without_a = marksOf(job, reachedInTurn(['e', 'f']));
    expect(lost(without_a)).toEqual([['missed_stood', 'a', 2]]);
    expect(without_a.deductions[0]!.includes).toEqual(['b', 'c', 'd']);
    const without_b = marksOf(job, reachedInTurn(['a', 'c', 'e', 'f']));
    expect(lost(without_b)).toEqual([['missed_stood', 'b', 4]]);
    expect(without_b.deductions[0]!.includes).toEqual(['d']);
    const both = marksOf(job, reachedInTurn(['a', 'e', 'f']));
    expect(both.deductions.map((d) => [d.milestone, d.includes])).toEqual([
      ['b', ['d']],
      ['c', []],
    ]);
  });

  it('fail the job where too little was done, whatever the points', () => {
    // a, e and f are 8 of 21 points, below six tenths; b with them 12, c as well 15.
    expect(marksOf(job, reachedInTurn(['a', 'e', 'f'])).reasons).toEqual(['too_little_done']);
    expect(marksOf(job, reachedInTurn(['a', 'b', 'e', 'f'])).reasons).toEqual(['too_little_done']);
    expect(marksOf(job, reachedInTurn(['a', 'b', 'c', 'e', 'f'])).reasons).toEqual([]);
    expect(marksOf(job, []).passed).toBe(false);
  });

  it('say what was asked for', () => {
    const milestones = [
      { id: 'h', ...WAY, kind: 'held', node: 'outlet', from_kPa: 1, to_kPa: 2, for_s: 90 },
      { id: 'p', ...WAY, kind: 'passed', link: 'pipe_a', litres: 40 },
      { id: 'n', ...WAY, kind: 'noted', entry: 'line' },
      { id: 'l', ...WAY, kind: 'left', hours: 12 },
      { id: 's', ...WAY, kind: 'shut_in', pump: 'pump', valve: 'valve_b', for_s: 20 },
    ];
    const found = marksOf(goalRig({ milestones }), []);
    expect(found.deductions.slice(0, 5)).toMatchObject([
      { rule: 'missed_held', at: 'outlet', limit: 90, quantity: 'time' },
      { rule: 'missed_passed', at: 'pipe_a', limit: 0.04, quantity: 'volume' },
      { rule: 'missed_noted', at: 'line', limit: null },
      { rule: 'missed_left', at: null, limit: 43200, quantity: 'time' },
      { rule: 'missed_shut_in', at: 'valve_b', limit: 20 },
    ]);
  });
});

describe('the order of milestones', () => {
  const random = chance(20261126);

  /** An order that keeps to BEFORE, drawn at random. */
  function drawn(): string[] {
    const order: string[] = [];
    while (order.length < IDS.length) {
      const free = IDS.filter(
        (id) => !order.includes(id) && BEFORE.every(([a, b]) => b !== id || order.includes(a)),
      );
      order.push(random.pick(free));
    }
    return order;
  }

  it('is free where the job asks for none: 20 drawn at random earn the same', () => {
    const orders = Array.from({ length: 20 }, drawn);
    expect(new Set(orders.map(String)).size).toBeGreaterThan(5);
    for (const order of orders) {
      const found = marksOf(job, reachedInTurn(order));
      expect(found, String(order)).toMatchObject({ total: 100, deductions: [] });
    }
  });

  it('costs half of what came too early, and nothing else: each of 20 that break it once', () => {
    let tried = 0;
    while (tried < 20) {
      const order = drawn();
      const at = 1 + Math.floor(random.unit() * (order.length - 1));
      [order[at - 1], order[at]] = [order[at]!, order[at - 1]!];
      const broken = BEFORE.filter(([a, b]) => order.indexOf(a) > order.indexOf(b));
      if (broken.length !== 1) continue;
      const [first, early] = broken[0]!;
      const half = SIX.find(({ id }) => id === early)!.points / 2;
      const found = marksOf(job, reachedInTurn(order));
      expect(lost(found), String(order)).toEqual([['out_of_order', early, half]]);
      expect(found.deductions[0]!.first).toEqual([first]);
      expect(found.total).toBe(100 - half);
      expect(found.milestones.filter((m) => !m.in_order).map((m) => m.id)).toEqual([early]);
      tried += 1;
    }
  });

  it('costs once where two things came too late', () => {
    const found = marksOf(job, reachedInTurn(['a', 'd', 'b', 'c', 'e', 'f']));
    expect(lost(found)).toEqual([['out_of_order', 'd', 3]]);
    expect(found.deductions[0]!.first).toEqual(['b', 'c']);
  });

  it('asks nothing of what nothing came before, nor of what stood so at the start', () => {
    const never = marksOf(job, reachedInTurn(['b', 'c', 'd', 'e', 'f']));
    expect(lost(never)).toEqual([['missed_stood', 'a', 2]]);
    const facts = reachedInTurn(['d', 'a', 'b', 'c', 'e', 'f']);
    expect(lost(marksOf(job, facts))).toHaveLength(1);
    const stands = facts.map((f) =>
      f.kind === 'reached' && f.milestone === 'd' ? { ...f, tick: 0 } : f,
    );
    expect(lost(marksOf(job, stands))).toEqual([]);
  });
});

describe('outcomes', () => {
  const outcomes = [
    { kind: 'air', share: 0.4 },
    { kind: 'freeze', share: 0.2, aim_C: -12, within_C: 1, links: 'loop' },
    { kind: 'pressure', share: 0.15, node: 'outlet', aim_kPa: 200, within_kPa: 40 },
    { kind: 'debris', share: 0.15, most_g: 5 },
    { kind: 'flow', share: 0.1, link: 'pipe_a', least_L_s: 0.5 },
  ];
  const debris = {
    classes: [{ id: 'sand', diameter_mm: 1, relative_density: 2.65 }],
    elements: [],
    lying: [],
  };
  const more = { antifreeze: 'propylene_glycol', debris };
  const day = goalRig({ outcomes }, more);
  const freeze = (mean_C: number, weakest_C = mean_C) => ({
    freeze: { mean_C, weakest_C, strongest_C: mean_C },
  });
  const right = {
    ...freeze(-12),
    pressures: { outlet: 200_000 },
    flows: { pipe_a: 0.0006 },
    debris_kg: 0.001,
  };
  const outcome = (change: object) => {
    const found = marksOf(day, [], { ...right, ...change });
    return { points: points(found).outcome!, reasons: found.reasons, found };
  };

  it('have all marks within what is allowed', () => {
    expect(outcome({}).found).toMatchObject({ total: 100, passed: true });
    expect(outcome({ ...freeze(-12.9), debris_kg: 0.005 }).points).toBe(30);
    expect(outcome({ pressures: { outlet: 161_000 } }).points).toBe(30);
  });

  it('lose them in a straight line up to three times that', () => {
    expect(outcome(freeze(-10)).points).toBeCloseTo(30 - 6 * 0.5, 9);
    expect(outcome(freeze(-14.5)).points).toBeCloseTo(30 - 6 * 0.75, 9);
    expect(outcome(freeze(-2)).points).toBeCloseTo(24, 9);
    expect(outcome({ pressures: { outlet: 260_000 } }).points).toBeCloseTo(30 - 4.5 * 0.25, 9);
    expect(outcome({ debris_kg: 0.0125 }).points).toBeCloseTo(30 - 4.5 * 0.75, 9);
    expect(outcome({ flows: { pipe_a: 0.0004999 } }).points).toBeCloseTo(27, 9);
  });

  it('take the weakest part of a loop that is not mixed', () => {
    const { points: mixed, found } = outcome(freeze(-12, -9.5));
    expect(mixed).toBeCloseTo(30 - 6 * 0.75, 9);
    expect(found.deductions).toMatchObject([
      {
        rule: 'outcome_freeze',
        value: -9.5,
        limit: -11,
        quantity: 'celsius',
        dimension: 'outcome',
      },
    ]);
  });

  it('fail the job where something is outside what is allowed', () => {
    expect(outcome(freeze(-10.9)).reasons).toEqual(['outcome_missed']);
    expect(outcome({ debris_kg: 0.0051 }).reasons).toEqual(['outcome_missed']);
    expect(outcome({ loop_air_m3: 0.0011 }).reasons).toEqual(['air_left']);
  });

  it('share what their milestones leave, so that more air always earns less', () => {
    const both = goalRig({ outcomes, milestones: SIX }, more);
    const all = reachedInTurn(IDS);
    expect(marksOf(both, all, right).total).toBe(100);
    const half = marksOf(both, all.slice(0, 3), { ...right, ...freeze(-10) });
    // d has 6 of the 30; of the 24 left freeze has a fifth, and half of that is lost.
    expect(points(half).outcome).toBeCloseTo(30 - 6 - 24 * 0.2 * 0.5, 9);
    let before = Infinity;
    for (const loop_air_m3 of [0, 1e-9, 1e-6, 0.0001, 0.001, 0.0010001, 0.02, 0.0999]) {
      const { total } = marksOf(both, [], { ...right, loop_air_m3 });
      expect(total).toBeLessThan(before);
      before = total;
    }
  });

  it('are asked of the facts, which must have them', () => {
    expect(() => marksOf(day, [], { ...right, debris_kg: undefined })).toThrow(/debris/);
  });
});

describe('a dimension that a job does not test', () => {
  it('is left out, and the others make a hundred', () => {
    const found = marksOf(goalRig({}, { record: [] }), []);
    expect(found.untested).toEqual(['record']);
    expect(found.total).toBe(100);
    expect(points(found)).toEqual({ outcome: 37.5, safety: 37.5, losses: 15, time: 10 });
  });

  it('may be the result, where a drill has no outcomes', () => {
    const milestones = [{ id: 'a', points: 5, dimension: 'safety', ...stood }];
    const drill = goalRig({ milestones, outcomes: [] }, { record: [] });
    const found = marksOf(drill, [], { loop_air_m3: 0.5 });
    expect(found.untested).toEqual(['outcome', 'record']);
    // 30, 12 and 8 make 50; so each point counts twice.
    expect(points(found)).toEqual({ safety: 50, losses: 24, time: 16 });
    expect(found.reasons).toEqual(['too_little_done']);
    expect(marksOf(drill, reachedInTurn(['a']))).toMatchObject({ total: 100, passed: true });
  });

  it('is never one of the weights: those of the rules make a hundred', () => {
    const sum = Object.values(rules.dimensions).reduce((total, { max }) => total + max, 0);
    expect(sum).toBe(100);
  });
});

describe('what a job is not passed without', () => {
  /** c is essential, and d rests on it. */
  const strict = goalRig({
    milestones: SIX.map((one) => (one.id === 'c' ? { ...one, essential: true } : one)),
  });
  const of = (order: string[]) => marksOf(strict, reachedInTurn(order));
  const failing = (found: Score) =>
    found.milestones.flatMap(({ id, fails }) => (fails ? [id] : []));

  it('fails the job where it is missing, at whatever marks, and only there', () => {
    const without = of(['a', 'b', 'd', 'e', 'f']);
    expect(without.total).toBeGreaterThan(rules.pass_total);
    expect(without).toMatchObject({ passed: false, reasons: ['essential_missed'] });
    expect(failing(without)).toEqual(['c']);
    expect(of(IDS)).toMatchObject({ passed: true, reasons: [] });
    expect(of(['a', 'b', 'c', 'd', 'e'])).toMatchObject({ passed: true, reasons: [] });
  });

  it('fails it where it came after what rests on it, and not where nothing does', () => {
    const late = of(['a', 'b', 'd', 'c', 'e', 'f']);
    expect(late).toMatchObject({ passed: false, reasons: ['essential_missed'] });
    expect(lost(late)).toEqual([['out_of_order', 'd', 3]]);
    expect(of(['e', 'f', 'a', 'c', 'b', 'd']).passed).toBe(true);
  });
});
