// The job sheets of the levels: each can be worked out and is then all right; drills have none.
import { describe, expect, it } from 'vitest';
import { CONTROLS, drillOfLevel, LEVELS } from '../../../levels/index.ts';
import { platesOf, workedOut } from '../../../sim/index.ts';
import { UNIT_SI } from '../../../sim/scenario-sheet.ts';
import { marksOf } from '../../support/job-sheets.ts';

describe.each(LEVELS)('the job sheet of $id', ({ scenario }) => {
  const lines = scenario.job?.sheet?.lines ?? [];

  it('is all right when it is worked out to three figures', () => {
    const own = Object.fromEntries(
      workedOut(scenario).map(({ line, value_milli }) => {
        const { kind } = lines.find(({ id }) => id === line)!;
        return [line, value_milli === null ? null : (value_milli * UNIT_SI[kind]) / 1000];
      }),
    );
    const marks = [...marksOf(scenario, own).values()];
    expect(marks.length).toBeGreaterThan(3);
    expect(marks.filter(({ state }) => state !== 'right')).toEqual([]);
  });

  it('goes with figures to work it out from', () => {
    const plates = platesOf(scenario)!;
    const has = (kind: string): boolean => lines.some((line) => line.kind === kind);
    expect(plates.pipes.length).toBeGreaterThan(0);
    expect(plates.curve.length > 0).toBe(has('head') || has('banks'));
    expect(plates.tap !== null).toBe(has('make_up'));
    expect(plates.product !== null).toBe(has('antifreeze'));
    expect(plates.stretch !== null).toBe(has('drop'));
  });
});

it('the school has to be purged in two banks, the others at once', () => {
  const banks = LEVELS.map(({ id, scenario }) => {
    const answer = workedOut(scenario).find(({ line }) => ['banks', 'at_once'].includes(line));
    return [id, answer?.value_milli];
  });
  for (const [id, n] of banks) expect([id, n]).toEqual([id, id === 'lapwing_school' ? 2000 : 1000]);
});

it('nobody is asked for sums in a drill, nor where the controls are learnt', () => {
  expect(CONTROLS.scenario.job?.sheet).toBeUndefined();
  const [level] = LEVELS.filter(({ drills }) => drills.length > 0);
  for (const phase of level!.drills) {
    expect(drillOfLevel(level!, phase)?.scenario.job?.sheet).toBeUndefined();
  }
});
