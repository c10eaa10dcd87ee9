// The verb `sheet`: what it prints, marks of answers, what is refused.
import { expect, it } from 'vitest';
import { HERON_SHEET, withSheet } from '../../support/job-sheets.ts';
import { asked, faultPaths, folderOfTests } from './cli-tools.ts';

const { written } = folderOfTests();
const RULES = ['--rules', 'levels/rules.json'] as const;
const heron = written('heron.json', withSheet('01-heron-lane', HERON_SHEET));

interface Printed {
  readonly lines: readonly { id: string; unit: string; expected: number; cannot_tell: boolean }[];
  readonly marks: readonly { id: string; state: string; points_lost: number }[];
}

const sheetOf = (answers?: object): Printed => {
  const more = answers === undefined ? [] : ['--answers', written('answers.json', answers)];
  return asked('sheet', heron, ...more, ...RULES) as Printed;
};

it('prints every line in its unit, and no marks where nothing is answered', () => {
  const { lines, marks } = sheetOf();
  expect(marks).toBeUndefined();
  const at = new Map(lines.map((line) => [line.id, line]));
  expect(at.get('volume')).toMatchObject({
    unit: 'L',
    expected: expect.closeTo(108.87, 1) as number,
  });
  expect(at.get('flow')).toMatchObject({
    unit: 'L/s',
    expected: expect.closeTo(0.357, 3) as number,
  });
  expect(at.get('make_up')?.unit).toBe('min');
  expect(at.get('drop')?.cannot_tell).toBe(true);
});

it('marks answers in the units of their lines', () => {
  const { marks } = sheetOf({ flow: 0.357, total: 0.6, head: 10.5, volume: 108.9, drop: null });
  const states = Object.fromEntries(marks.map(({ id, state }) => [id, state]));
  // The head follows from the total as it stands.
  expect(states).toEqual({
    ...{ flow: 'right', total: 'wrong', head: 'right', volume: 'right', drop: 'right' },
    ...{ banks: 'unanswered', make_up: 'unanswered' },
  });
  expect(marks.reduce((sum, { points_lost }) => sum + points_lost, 0)).toBeCloseTo(60 / 7, 6);
});

it('refuses lines that are not there, what is no number, and a job without a sheet', () => {
  const with_ = (answers: unknown) =>
    faultPaths(() => asked('sheet', heron, '--answers', written('a.json', answers), ...RULES));
  expect(with_({ none: 1, volume: 'much' })).toEqual(['none', 'volume']);
  expect(with_([])).toEqual(['answers']);
  const bare = written('bare.json', withSheet('01-heron-lane', undefined));
  expect(faultPaths(() => asked('sheet', bare, ...RULES))).toEqual(['job.sheet']);
});
