// The debrief's own choices, by made-up marks and facts: which moments matter, a time without
// nights, points that add up, and what one's own view was worth.
import { describe, expect, it } from 'vitest';
import { axisOf } from '../../../game/review/axis.ts';
import { momentsOf, wantedOf, type Moment } from '../../../game/review/moments.ts';
import { shownPoints, spread } from '../../../game/review/points.ts';
import {
  calibrationOf, calibrations, isRating, type Rating,
} from '../../../game/review/rating.ts';
import { calibrationTexts } from '../../../game/panels/rating.tsx';
import { HERON } from '../../support/player.ts';
import {
  DIMENSIONS, type Deduction, type Dimension, type Fact, type Score,
} from '../../../sim/index.ts';

const { scenario } = HERON;
const END = 60_000;
const facts: readonly Fact[] = [{
  tick: END, kind: 'done', asked: true,
  measures: {
    loop_air_m3: 0, other_air_m3: 0, loop_volume_m3: 0.1, spilled_m3: 0, wasted_m3: 0,
    time_s: 6000, controls: {},
  },
}];

const lost = (points: number, tick: number | null, more: Partial<Deduction> = {}): Deduction => ({
  rule: 'deadhead', dimension: 'safety', stage: 'warning', points, max: points, tick, at: 'pump',
  value: 1, limit: 1, quantity: 'time', includes: [], source: 's', message: 'm', seen: 's',
  how: 'h', ...more,
});

const dimension = (name: Dimension, points: number, max: number): Score['dimensions'][number] =>
  ({ dimension: name, points, max, minimum: 0, met: true });

const marks = (of: Partial<Score>): Score => ({
  standard: 'provisional', finished: true, passed: false, total: 50, pass_total: 80,
  dimensions: [], untested: [], milestones: [], deductions: [], critical: [], reasons: [],
  sheet: [], residual: null, ...of,
});

const reached = (id: string, tick: number | null, in_order = true) => ({
  id, phase: 'purge', kind: 'stood', at: null, tick, value: 1, in_order, fails: false,
}) as const;

const brief = (moments: readonly Moment[]) => moments.map(({ kind, tick }) => [kind, tick]);
const of = (score: Score) => ({ score, facts, scenario });

describe('the moments that matter', () => {
  const deductions = [
    lost(1, 1000), lost(9, 8000), lost(4, 12_000), lost(0.9, 16_000), lost(7, 20_000),
    lost(3, 24_000), lost(20, END, { dimension: 'outcome' }), lost(8, END, { dimension: 'time' }),
    lost(6, null),
  ];

  it('are the dearest errors, in order of time, with a place for what went right', () => {
    const score = marks({ deductions });
    expect(brief(momentsOf(of(score)))).toEqual([
      ['deduction', 8000], ['deduction', 12_000], ['deduction', 20_000], ['deduction', 24_000],
      ['hand_over', END],
    ]);
    const found = { purged: 30_000, loss: null };
    expect(brief(momentsOf(of(score), found))).toEqual([
      ['deduction', 8000], ['deduction', 12_000], ['deduction', 20_000], ['purged', 30_000],
      ['hand_over', END],
    ]);
    const end = momentsOf(of(score)).at(-1)!;
    expect(end).toMatchObject({ points: 20, good: false }); // What time cost is no moment.
  });

  it('tell a critical error once, its deduction with it, and no more than three kinds', () => {
    const critical = (hazard: 'deadhead' | 'dry_run' | 'overflow' | 'starved', tick: number) => ({
      hazard, at: 'pump', tick, value: 1, limit: 1, quantity: 'time', source: 's', message: 'm',
    }) as const;
    const score = marks({
      deductions: [lost(17, 900)],
      critical: [
        critical('deadhead', 1000), critical('deadhead', 3000), critical('dry_run', 5000),
        critical('overflow', 9000), critical('starved', 12_000),
      ],
    });
    expect(brief(momentsOf(of(score)))).toEqual([
      ['critical', 1000], ['critical', 5000], ['critical', 9000],
    ]);
  });

  it('do not tell twice what lies within 20 s', () => {
    const near = 20 / scenario.solver.tick_s;
    const then = [1000, 999 + near, 1000 + near] as const;
    const score = marks({ deductions: then.map((tick, k) => lost(5 - k, tick)) });
    expect(brief(momentsOf(of(score)))).toEqual([
      ['deduction', then[0]], ['deduction', then[2]], ['handed_over', END],
    ]);
  });

  it('are none of the job sheet, which hides nothing that happened soon after it', () => {
    const sheet = lost(9, 0, { rule: 'sheet_wrong', dimension: 'record', at: null });
    const score = marks({ deductions: [sheet, lost(3, 40)] });
    expect(brief(momentsOf(of(score)))).toEqual([['deduction', 40], ['handed_over', END]]);
    expect(wantedOf(of(score))).not.toContain(0);
  });

  it('ask for the loss only where losses cost points', () => {
    const found = { purged: null, loss: 5000 };
    const dry = momentsOf(of(marks({ deductions: [lost(5, 1000)] })), found);
    expect(dry.map(({ kind }) => kind)).not.toContain('loss');
    const spill = lost(5, null, { dimension: 'losses' });
    const score = marks({ deductions: [spill] });
    expect(brief(momentsOf(of(score), found))).toEqual([['loss', 5000], ['handed_over', END]]);
  });

  it('are made up to three by a clean hand-over and the first catch of the pump', () => {
    const caught = (tick: number): Fact => ({ tick, kind: 'event', event: 'primed', at: 'pump' });
    const told = { ...of(marks({})), facts: [caught(300), caught(900), ...facts] };
    expect(brief(momentsOf(told))).toEqual([['primed', 300], ['handed_over', END]]);
    const spoilt = marks({ deductions: [lost(8, END), lost(2, 5000), lost(3, 9000)] });
    expect(brief(momentsOf({ ...told, score: spoilt }))).toEqual([
      ['deduction', 5000], ['deduction', 9000], ['hand_over', END],
    ]);
  });

  it('are made up to three by what came in its turn; what was missed or stood so is none', () => {
    const milestones = [
      reached('a', 0), reached('b', 700), reached('c', null), reached('d', 9000, false),
      reached('e', 5000), reached('f', 20_000), reached('g', 30_000),
    ];
    expect(brief(momentsOf(of(marks({ milestones }))))).toEqual([
      ['milestone', 700], ['milestone', 5000], ['milestone', 20_000],
    ]);
  });

  it('are all among the ticks that a new run stops at, and so is all that cost points', () => {
    const milestones = [reached('b', 700), reached('e', 5000), reached('f', 20_000)];
    const told = of(marks({ deductions, milestones }));
    const wanted = wantedOf(told);
    for (const { tick } of momentsOf(told)) expect(wanted).toContain(tick);
    for (const { tick } of deductions) if (tick !== null) expect(wanted).toContain(tick);
  });
});

describe('the time of work', () => {
  const left = (tick: number): Fact => ({ tick, kind: 'left', hours: 14 });
  const back = (tick: number): Fact => ({ tick, kind: 'back' });

  it('leaves the nights out, and finds its way back to the clock', () => {
    const axis = axisOf([left(1000), back(11_000), left(12_000), back(20_000)], 21_000, 0.1);
    expect(axis.end_s).toBe(300);
    expect([500, 1000, 6000, 11_000, 11_500, 20_000].map(axis.at))
      .toEqual([50, 100, 100, 100, 150, 200]);
    expect([50, 150, 250].map(axis.clock)).toEqual([50, 1150, 2050]);
  });

  it('cuts out a night that never ended', () => {
    const axis = axisOf([left(1000)], 5000, 0.1);
    expect(axis.nights).toEqual([{ from: 1000, to: 5000 }]);
    expect(axis.end_s).toBe(100);
  });
});

describe('points on the page', () => {
  it('are whole parts that add up, and those at their cap come last', () => {
    expect(spread([1.4, 1.4, 1.2], 4)).toEqual([2, 1, 1]);
    expect(spread([2.9, 0.5, 0.6], 4, [2, 1, 1])).toEqual([2, 1, 1]);
    expect(spread([0.2, 0.2], 0)).toEqual([0, 0]);
    expect(spread([], 3)).toEqual([]);
  });

  it('stay below the pass mark where a hair is missing to it', () => {
    const air = 6.6e-6; // Of less than a millionth of a litre of air.
    const dimensions = [
      dimension('outcome', 30 - air, 30), dimension('safety', 30, 30), dimension('record', 0, 20),
      dimension('losses', 12, 12), dimension('time', 8, 8),
    ];
    const deductions = [lost(20, 1, { dimension: 'record' })];
    const shown = shownPoints(marks({ dimensions, deductions, total: 80 - air }));
    expect(shown.total).toBe(79.9);
    expect(shown.dimensions[0]).toEqual({ points: 29.9, max: 30 });
  });

  it('add up by chance as well: to the total, and from each deduction to its dimension', () => {
    let seed = 7;
    const next = (): number => {
      seed = (seed * 48_271) % 2_147_483_647;
      return seed / 2_147_483_647;
    };
    for (let round = 0; round < 300; round++) {
      const maxes = [37.5, 25 + 12.5 * next(), 12];
      maxes.push(100 - maxes.reduce((a, b) => a + b, 0));
      const deductions: Deduction[] = [];
      const dimensions = maxes.map((max, k) => {
        const name = DIMENSIONS[k]!;
        let left = max;
        for (let n = Math.floor(4 * next()); n > 0; n--) {
          const points = Math.min(left, next() < 0.3 ? 0.02 * next() : 8 * next());
          left -= points;
          deductions.push(lost(points, 1, { dimension: name }));
        }
        return dimension(name, left, max);
      });
      const total = dimensions.reduce((sum, { points }) => sum + points, 0);
      const shown = shownPoints(marks({ dimensions, deductions, total }));
      const tenths = (values: readonly number[]) =>
        Math.round(values.reduce((a, b) => a + b, 0) * 10);
      expect(shown.total).toBeLessThanOrEqual(total + 1e-6);
      expect(shown.total).toBeGreaterThan(total - 0.1 - 1e-6);
      expect(tenths(shown.dimensions.map(({ max }) => max))).toBe(1000);
      expect(tenths(shown.dimensions.map(({ points }) => points)))
        .toBe(Math.round(shown.total * 10));
      dimensions.forEach(({ dimension: name }, k) => {
        const own = shown.lost.filter((_, n) => deductions[n]!.dimension === name);
        const { points, max } = shown.dimensions[k]!;
        if (own.length > 0) expect(tenths(own)).toBe(Math.round((max - points) * 10));
        else expect(Math.abs(max - points)).toBeLessThan(0.11);
      });
    }
  });
});

describe('one\'s own view', () => {
  const rating: Rating = { steps: { outcome: 5, safety: 4, losses: 1 }, sign: true };
  const score = marks({
    passed: false,
    dimensions: [
      dimension('outcome', 4, 30), dimension('safety', 25, 30), dimension('losses', 12, 12),
      dimension('time', 8, 8),
    ],
  });

  it('is about the same within a step, else higher or lower', () => {
    expect(calibrationOf(3, 15, 30)).toBe('same');
    expect(calibrationOf(3, 22.5, 30)).toBe('same');
    expect(calibrationOf(3, 23, 30)).toBe('lower');
    expect(calibrationOf(5, 22, 30)).toBe('higher');
    expect(calibrations(rating, score))
      .toEqual({ higher: ['outcome'], same: ['safety'], lower: ['losses'] });
  });

  it('is told in sentences, the signature first', () => {
    const said = calibrationTexts(rating, score, (name) => name);
    expect(said[0]).toMatch(/signed it over, and it did not pass/);
    expect(said.slice(1)).toEqual([
      'You saw yourself better than the marks do in: outcome.',
      'You saw yourself worse than the marks do in: losses.',
      'About as the marks say: safety.',
    ]);
    expect(calibrationTexts({ steps: {}, sign: null }, score, (name) => name)).toEqual([]);
  });

  it('is known from anything else', () => {
    expect(isRating(rating)).toBe(true);
    expect(isRating({ steps: {}, sign: null })).toBe(true);
    expect(isRating({ steps: { outcome: 6 }, sign: null })).toBe(false);
    expect(isRating({ steps: { luck: 1 }, sign: null })).toBe(false);
    expect(isRating({ steps: {} })).toBe(false);
  });
});
