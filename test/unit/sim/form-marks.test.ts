// Forms are one job: the solution of a level, by what is seen alone, does any of them, and is worth
// as much on each (two points at most between any two of them, as written for other forms of one
// test). Fresh seeds at every run; LOOPYARD_SEED=N begins with that one again.
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { formOf, parseScenario } from '../../../sim/index.ts';
import { chance, freshSeed, mixed } from '../../tools/chance.ts';
import { formRun, formText, type FormRun } from '../../tools/form-runs.ts';
import { mistakeOf, mistakesOf } from '../../tools/golden.ts';

const FRESH = 3;
/** Mistakes of each job that are tried in the first of them. */
const MISTAKES = 5;
/** Marks that a form may be worth more than another, and that each must be worth. */
const APART = 2;
const LEAST = 90;
/** Four solutions, on a machine that may have two slow, busy cores. */
const LONG_ms = 240_000;
const first = freshSeed() + 2;
const seeds = Array.from({ length: FRESH }, (_, k) => first + k);
const SHORT = ['01-heron-lane', '02-sedge-meadow', '03-kestrel-yard'];
const ALL = [...SHORT, '04-otter-bank', '05-curlew-rise', '06-lapwing-school'];

describe(`forms of the first jobs, seeds ${first} to ${first + FRESH - 1}`, () => {
  it.each(SHORT)(
    'are each done by the solution, for as much: %s',
    { timeout: LONG_ms },
    (folder) => {
      const runs: FormRun[] = [1, ...seeds].map((seed) => formRun(folder, seed));
      for (const run of runs) {
        expect(run.outcome.end, formText(run)).toBe('finished');
        expect(run.marks.passed, formText(run)).toBe(true);
        expect(run.marks.total, formText(run)).toBeGreaterThanOrEqual(LEAST);
      }
      const totals = runs.map(({ marks }) => marks.total);
      const told = runs.map(formText).join('\n');
      expect(Math.max(...totals) - Math.min(...totals), told).toBeLessThanOrEqual(APART);
    },
  );
});

/** Mistakes of a job that do not pass as it is written. */
const failing = (folder: string): string[] =>
  mistakesOf(folder).filter((name) => !mistakeOf(folder, name).expects.passed);

describe(`mistakes in form ${first}`, () => {
  const cases = SHORT.flatMap((folder) =>
    mixed(chance(first), failing(folder))
      .slice(0, MISTAKES)
      .map((name) => [folder, name] as const),
  );
  it.each(cases)('fail in any form: %s, %s', (folder, name) => {
    const run = formRun(folder, first, name);
    expect(run.marks.passed, formText(run)).toBe(false);
    expect(run.marks.finished, formText(run)).toBe(true);
  });
});

describe('the jobs', () => {
  const load = (folder: string) =>
    parseScenario(
      JSON.parse(
        readFileSync(new URL(`../../../levels/${folder}/scenario.json`, import.meta.url), 'utf8'),
      ),
    );

  it.each(ALL)('have five ranges or more, and forms that differ: %s', (folder) => {
    const scenario = load(folder);
    expect(scenario.ranges?.length ?? 0).toBeGreaterThanOrEqual(5);
    const forms = Array.from({ length: 20 }, (_, k) => JSON.stringify(formOf(scenario, 2 + k)));
    expect(new Set(forms).size).toBe(20);
  });
});
