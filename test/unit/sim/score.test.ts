// Marks as a fold over facts, against sums done by hand from the rules and the job's figures.
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { suctionValves } from '../../../sim/causes.ts';
import { airShare } from '../../../sim/deductions.ts';
import type { Fact, HazardKind, Measures } from '../../../sim/fact.ts';
import { parseRules, rulesFaults } from '../../../sim/rules.ts';
import { parseScenario } from '../../../sim/scenario.ts';
import { score } from '../../../sim/score.ts';

const load = (path: string): unknown =>
  JSON.parse(readFileSync(new URL(`../../../levels/${path}`, import.meta.url), 'utf8'));
const heron = load('01-heron-lane/scenario.json') as { job: { sheet?: object } };
const { sheet: _of_its_own_test, ...asked } = heron.job;
/** Ticks below are tenths of a second. */
const scenario = parseScenario({ ...heron, job: asked, solver: { tick_s: 0.1, cell_m: 1 } });
const rules = parseRules(load('rules.json'));
const job = scenario.job!;

const PERFECT: Measures = {
  loop_air_m3: 0,
  other_air_m3: 0.001,
  loop_volume_m3: 0.1089,
  spilled_m3: 0,
  wasted_m3: 0,
  time_s: 1800,
  controls: { pump: 0, loop_supply_valve: 0, loop_return_valve: 0 },
};

function marks(change: Partial<Measures>, before: readonly Fact[] = []) {
  const measures = { ...PERFECT, ...change };
  return score(scenario, rules, [...before, { tick: 36000, kind: 'done', asked: true, measures }]);
}

function hazard(
  kind: HazardKind,
  stage: 'warning' | 'tripped' | 'ended',
  tick: number,
  at = 'pump',
): Fact {
  return { tick, kind: 'hazard', hazard: kind, at, stage, value: 30, limit: 30 };
}

function moved(control: string, value: number, tick: number): Fact {
  return { tick, kind: 'moved', control, value };
}

const points = (found: ReturnType<typeof marks>) =>
  Object.fromEntries(found.dimensions.map((d) => [d.dimension, d.points]));

describe('a perfect job', () => {
  it('earns everything, with nothing taken off', () => {
    const found = marks({});
    expect(found.total).toBe(100);
    expect(found).toMatchObject({ passed: true, deductions: [], critical: [], reasons: [] });
  });
});

describe('air left in the loop', () => {
  it("earns by the job's knots, straight between them", () => {
    // Knots of the job: 0.1 L 0.95, 0.5 L 0.6, 5 L 0.2. Half way from 0.1 to 0.5 is 0.775.
    expect(airShare(job, 0.0003)).toBeCloseTo(0.775, 12);
    // 30 of the 80 points that this job tests are 37.5 of 100.
    expect(points(marks({ loop_air_m3: 0.0003 })).outcome).toBeCloseTo(37.5 * 0.775, 10);
    expect(airShare(job, 0.00275)).toBeCloseTo(0.4, 12);
  });

  it('always earns less for more, by however little', () => {
    const airs = [
      0, 1e-9, 1e-7, 1e-6, 0.0001, 0.000100001, 0.00049999, 0.0005, 0.000500001, 0.001, 0.05,
      0.1089,
    ];
    const totals = airs.map((loop_air_m3) => marks({ loop_air_m3 }).total);
    for (let i = 1; i < totals.length; i += 1) expect(totals[i]!).toBeLessThan(totals[i - 1]!);
  });

  it('fails above what the job allows, and passes at it', () => {
    expect(marks({ loop_air_m3: 0.0005 }).reasons).toEqual([]);
    expect(marks({ loop_air_m3: 0.000501 }).reasons).toContain('air_left');
  });

  it('takes the marks for time as well where the result is not reached', () => {
    const found = marks({ loop_air_m3: 0.005 });
    expect(points(found)).toEqual({ outcome: 7.5, safety: 37.5, losses: 15, time: 0 });
    expect(found.deductions.map((d) => d.rule)).toEqual(['air_left', 'time_not_counted']);
    expect(found.reasons).toEqual(['air_left', 'minimum_outcome', 'total']);
  });
});

describe('fluid loss and time', () => {
  it('are free up to the allowance, nothing from the cap on, straight between', () => {
    expect(points(marks({ spilled_m3: 0.003, wasted_m3: 0.002 })).losses).toBe(15);
    expect(points(marks({ spilled_m3: 0.0325 })).losses).toBeCloseTo(7.5, 10);
    expect(points(marks({ wasted_m3: 0.07 })).losses).toBe(0);
    expect(points(marks({ time_s: 2400 })).time).toBe(10);
    expect(points(marks({ time_s: 4200 })).time).toBeCloseTo(5, 10);
    expect(points(marks({ time_s: 6001 })).time).toBe(0);
  });

  it('counts a spill and the litres it lost as one cause, the dearer of the two', () => {
    const spill = [
      hazard('overflow', 'warning', 100, 'tank'),
      hazard('overflow', 'tripped', 160, 'tank'),
    ];
    const small = marks({ spilled_m3: 0.0006 }, spill);
    expect(small.deductions.map((d) => [d.rule, d.points])).toEqual([['overflow', 5]]);
    const large = marks({ spilled_m3: 0.0325 }, spill);
    expect(large.deductions.map((d) => d.rule)).toEqual(['fluid_lost']);
    expect(large.deductions[0]).toMatchObject({ includes: ['overflow'], tick: 100, at: 'tank' });
  });

  it('names the litres once where spill after spill would take more than there is', () => {
    const again = [100, 900, 1800, 2700].flatMap((tick) => [
      hazard('overflow', 'warning', tick, 'tank'),
      hazard('overflow', 'tripped', tick + 60, 'tank'),
      hazard('overflow', 'ended', tick + 100, 'tank'),
    ]);
    const all = marks({ spilled_m3: 0.07 }, again);
    expect(all.deductions.map((d) => [d.rule, d.points])).toEqual([['fluid_lost', 15]]);
    const few = marks({ spilled_m3: 0.02 }, again.slice(0, 6));
    expect(few.deductions.map((d) => [d.rule, d.points])).toEqual([
      ['overflow', 5],
      ['overflow', 5],
    ]);
  });
});

describe('hazards', () => {
  it('are taken once an episode, by the stage they reached', () => {
    const warned = marks({}, [
      hazard('deadhead', 'warning', 100),
      hazard('deadhead', 'ended', 400),
    ]);
    expect(points(warned).safety).toBe(37.5 - 3.75);
    const twice = [100, 5000].flatMap((t) => [
      hazard('deadhead', 'warning', t),
      hazard('deadhead', 'ended', t + 300),
    ]);
    expect(points(marks({}, twice)).safety).toBe(37.5 - 7.5);
  });

  it('fail the job where the job lists them as critical, whatever the total', () => {
    const found = marks({}, [hazard('dry_run', 'warning', 100), hazard('dry_run', 'tripped', 600)]);
    expect(found.critical).toMatchObject([{ hazard: 'dry_run', at: 'pump', tick: 600 }]);
    expect(found.reasons).toContain('critical');
    expect(found.passed).toBe(false);
    const minor = marks({}, [
      hazard('hammer', 'warning', 100, 'return_valve'),
      hazard('hammer', 'tripped', 101, 'return_valve'),
    ]);
    expect(minor).toMatchObject({ passed: true, critical: [], total: 93.75 });
  });

  it('of one pump that overlap are one cause, the dearest; those apart are two', () => {
    const together = marks({}, [
      hazard('starved', 'warning', 100),
      hazard('dry_run', 'warning', 150),
      hazard('starved', 'ended', 180),
      hazard('dry_run', 'ended', 400),
    ]);
    expect(together.deductions.map((d) => [d.rule, d.points, d.includes])).toEqual([
      ['dry_run', 3.75, ['starved']],
    ]);
    const apart = marks({}, [
      hazard('starved', 'warning', 100),
      hazard('starved', 'ended', 180),
      hazard('dry_run', 'warning', 1000),
      hazard('dry_run', 'ended', 1400),
    ]);
    expect(apart.deductions.map((d) => d.rule)).toEqual(['starved', 'dry_run']);
  });

  it('cannot take more than the dimension has', () => {
    const many = [100, 5000, 9000].flatMap((t) => [
      hazard('over_pressure', 'warning', t, 'riser_top'),
      hazard('over_pressure', 'tripped', t, 'riser_top'),
      hazard('over_pressure', 'ended', t + 300, 'riser_top'),
    ]);
    const found = marks({}, many);
    expect(points(found).safety).toBe(0);
    expect(found.deductions.filter((d) => d.dimension === 'safety').map((d) => d.points)).toEqual([
      21.25, 16.25, 0,
    ]);
  });
});

describe('the order of things', () => {
  it("knows the valve in the pump's suction", () => {
    expect(suctionValves(scenario, 'pump')).toEqual(['suction_valve']);
  });

  it('takes nothing where the suction was open before the pump', () => {
    const found = marks({}, [
      moved('suction_valve', 90, 50),
      moved('pump', 1, 100),
      moved('pump', 0, 900),
    ]);
    expect(found.deductions).toEqual([]);
  });

  it('takes all where it was shut, half where that was put right at once', () => {
    const shut = marks({}, [moved('pump', 1, 100)]);
    expect(shut.deductions).toMatchObject([
      { rule: 'suction_before_pump', points: 6.25, max: 6.25, tick: 100 },
    ]);
    const mended = marks({}, [moved('pump', 1, 100), moved('suction_valve', 90, 180)]);
    expect(mended.deductions).toMatchObject([{ points: 3.125, max: 6.25 }]);
  });

  it('counts the dry run that follows as the same cause', () => {
    const found = marks({}, [
      moved('pump', 1, 100),
      hazard('dry_run', 'warning', 210),
      hazard('dry_run', 'tripped', 710),
    ]);
    const safety = found.deductions.filter((d) => d.dimension === 'safety');
    expect(safety.map((d) => [d.rule, d.points, d.includes])).toEqual([
      ['dry_run', 21.25, ['suction_before_pump']],
    ]);
  });
});

describe('hand-over', () => {
  it('names a pump left running and a valve left open, each by itself', () => {
    const controls = { pump: 1, loop_supply_valve: 0, loop_return_valve: 90 };
    const found = marks({ controls });
    expect(found.deductions.map((d) => [d.rule, d.at, d.points])).toEqual([
      ['pump_left_on', 'pump', 12.5],
      ['valve_left_open', 'loop_return_valve', 8.75],
      ['time_not_counted', null, 10],
    ]);
    expect(found.reasons).toEqual(['hand_over', 'minimum_safety', 'total']);
  });

  it('fails for one valve left open, although the points would be enough', () => {
    const found = marks({ controls: { ...PERFECT.controls, loop_supply_valve: 30 } });
    expect(found.reasons).toContain('hand_over');
    expect(found.passed).toBe(false);
  });

  it('does not quarrel about a degree', () => {
    expect(marks({ controls: { ...PERFECT.controls, loop_supply_valve: 1 } }).total).toBe(100);
  });
});

describe('a job without its end', () => {
  it('earns nothing when it was never handed over', () => {
    expect(score(scenario, rules, [])).toMatchObject({
      finished: false,
      passed: false,
      total: 0,
      reasons: ['not_finished'],
    });
  });

  it('does not pass when the time ran out', () => {
    const facts: Fact[] = [{ tick: 144000, kind: 'done', asked: false, measures: PERFECT }];
    expect(score(scenario, rules, facts)).toMatchObject({
      passed: false,
      reasons: ['time_ran_out'],
    });
  });
});

describe('the rules', () => {
  it('must make a hundred, name known sources and rise from warning to trip', () => {
    const json = structuredClone(load('rules.json')) as Record<
      string,
      Record<string, Record<string, unknown>>
    >;
    json.dimensions!.time!.max = 11;
    json.hazards!.dry_run!.source = 'hearsay';
    json.hazards!.hammer!.warning_points = 9;
    expect(rulesFaults(json).map((f) => f.path)).toEqual([
      'dimensions',
      'hazards.dry_run.source',
      'hazards.hammer.warning_points',
    ]);
  });
});
