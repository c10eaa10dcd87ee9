// The derived line of the sheet of readings: air that is left at a proof, against the air that was
// there. Bounds: 40 % or what moves the level by 2 mm or a division; below that nobody can tell.
import { describe, expect, it } from 'vitest';
import { residualOf } from '../../../sim/derived.ts';
import type { Fact } from '../../../sim/fact.ts';
import { truthOf } from '../../../sim/jobsheet/judge.ts';
import { residualMark } from '../../../sim/jobsheet/residual.ts';
import { measure, P_ATM, parseScenario, score, truth } from '../../../sim/index.ts';
import { createWorld, step } from '../../../sim/world.ts';
import { folders, LEVELS, readJson, RULES, scenarioOf } from '../../tools/golden.ts';

const DAY = '05-curlew-rise';
const scenario = scenarioOf(DAY);

/** Pa abs at the gauges with the return shut against the pump: the job sheet's own number. */
const drop = scenario.job!.sheet!.lines.find(({ kind }) => kind === 'drop')!;
const SHUT = P_ATM + truthOf(scenario, drop).given.find(({ name }) => name === 'shut')!.value;

/** m3 at 1 atm there, and what was answered: m3, null for "cannot tell", nothing where unsaid. */
function facts(air: number, answer?: number | null, pressure = SHUT): Fact[] {
  const there: Fact = { tick: 100, kind: 'loop_air', value: air, pressure };
  if (answer === undefined) return [there];
  return [there, { tick: 200, kind: 'answered', line: 'residual', value: answer }];
}

const mark = (air: number, answer?: number | null) =>
  residualMark(scenario, RULES, facts(air, answer))!;

describe('the air that is left, as a line', () => {
  it('is on the sheet of every whole day, and of no other job', () => {
    const have = folders.filter((folder) => residualOf(scenarioOf(folder)) !== null);
    expect(have).toEqual(['04-otter-bank', '05-curlew-rise', '06-lapwing-school']);
    expect(residualOf(scenario)).toMatchObject({ open: 'level_open', shut: 'level_shut' });
  });

  it('is right within 40 % of what is there, and costs more the farther off it is', () => {
    for (const answer of [0.0121, 0.02, 0.0279]) expect(mark(0.02, answer).state).toBe('right');
    const near = mark(0.02, 0.0315);
    const wrong = mark(0.02, 0.09);
    expect([near.state, wrong.state]).toEqual(['near', 'wrong']);
    expect(near.points).toBeGreaterThan(0);
    expect(near.points).toBeLessThan(wrong.points);
    expect(wrong.points).toBe(RULES.sheet.residual.points);
  });

  it('takes "cannot tell" where the level moves by less than can be read, and only there', () => {
    const { from, to, cannot_tell } = mark(0.0001);
    expect(cannot_tell).toBe(true);
    expect(from).toBe(0);
    expect(mark(0.0001, null)).toMatchObject({ state: 'right', points: 0 });
    expect(mark(0.0001, to * 0.99).state).toBe('right');
    expect(mark(0.02, null)).toMatchObject({ state: 'could_tell', cannot_tell: false });
    expect(mark(0.02, null).points).toBe(RULES.sheet.residual.points);
    expect(mark(0, null).state).toBe('right');
  });

  it('reads to 2 mm by a gauge of 2 mm, and to a division by a coarser one', () => {
    // Litres at 1 atm that move the level so: area times reading over the fall of 1/p.
    const least = mark(0).to;
    const coarse = parseScenario(readJson(LEVELS, '04-otter-bank', 'scenario.json'));
    const other = residualMark(coarse, RULES, facts(0))!;
    const read = (of: typeof other) => of.given.find(({ name }) => name === 'division')!.value;
    expect(read(mark(0))).toBe(0.002);
    expect(read(other)).toBe(0.01);
    expect(least).toBeGreaterThan(0);
  });

  it('costs all while it stands empty, and is not there before the proof is read', () => {
    const { points } = RULES.sheet.residual;
    expect(mark(0.02)).toMatchObject({ state: 'unanswered', points });
    expect(mark(0)).toMatchObject({ state: 'unanswered', points, cannot_tell: true });
    expect(residualMark(scenario, RULES, facts(0.02, 0.02).slice(1))).toBeNull();
  });

  it('takes what the levels show of air that stands deeper than the gauges', () => {
    const deep = residualMark(scenario, RULES, facts(0.02, 0.009, SHUT + 300e3))!;
    expect(deep.state).toBe('right');
    expect(mark(0.02, 0.009).state).not.toBe('right');
    expect(residualMark(scenario, RULES, facts(0.02, 0.02, SHUT + 300e3))!.state).toBe('right');
    expect(residualMark(scenario, RULES, facts(0.02, 0.001, SHUT + 300e3))!.state).not.toBe(
      'right',
    );
  });

  it('is one deduction of the record where it is wrong, and none where it is right', () => {
    const measures = measure(createWorld(scenario, 1));
    const done: Fact = { tick: 300, kind: 'done', asked: true, measures };
    const costs = (answer?: number | null) =>
      score(scenario, RULES, [...facts(0.02, answer), done])
        .deductions.filter(({ line }) => line?.id === 'residual')
        .map(({ rule, dimension, points }) => [rule, dimension, points]);
    expect(costs(0.02)).toEqual([]);
    expect(costs()).toEqual([['residual_unanswered', 'record', 2]]);
    expect(costs(0.09)).toEqual([['residual_wrong', 'record', 2]]);
    expect(costs(null)).toEqual([['residual_could_tell', 'record', 2]]);
  });
});

describe('in a world', () => {
  it('the air is taken when the second level is written down, and answers at any time', () => {
    const world = createWorld(scenario, 1);
    const told = [
      ...step(world, [{ kind: 'valve', valve: 'air_cock', target_deg: 10 }]),
      ...step(world, [{ kind: 'note', entry: 'level_open', value_milli: 0 }]),
    ];
    expect(told.some(({ kind }) => kind === 'loop_air')).toBe(false);
    // Nothing presses yet: no part of the loop is open to a pump that is on.
    const all = truth(world).loop_air_m3;
    expect(all).toBeGreaterThan(0.1);
    const shut = step(world, [
      { kind: 'note', entry: 'level_shut', value_milli: 0 },
      { kind: 'answer', line: 'residual', value_milli: 1500 },
      { kind: 'answer', line: 'residual', value_milli: null },
    ]);
    const air = shut.find((fact) => fact.kind === 'loop_air');
    expect(air).toMatchObject({ kind: 'loop_air', value: 0 });
    const answers = shut.flatMap((fact) => (fact.kind === 'answered' ? [fact.value] : []));
    expect(answers).toEqual([0.0015, null]);
  });
});
