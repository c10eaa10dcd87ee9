// Every kept script comes to its kept record, hash by hash, and to the marks in the reviewed
// table; the solution passes, and each mistake costs what its file says, no more and no less. That
// a record comes to the same without its script is shown by replays.test.ts. Solutions of whole
// days have files of their own here, and their mistakes of hours are a part of the campaign.
import { describe, expect, it } from 'vitest';
import { folders, mistakeOf, mistakesOf, scenarioOf, scriptsOf } from '../tools/golden.ts';
import { isDay, longMistakes } from '../tools/days.ts';
import { kindOf } from '../tools/mistakes.ts';
import { held, table } from './held.ts';

const kept = folders.flatMap((folder) => scriptsOf(folder).map((name) => ({ folder, name })));

describe('the reviewed table', () => {
  it('has one row for every script, and none besides', () => {
    expect(Object.keys(table).sort()).toEqual(kept.map((k) => `${k.folder}/${k.name}`).sort());
  });

  it.each(folders)('%s has a solution that earns 90 or more', (folder) => {
    expect(scriptsOf(folder)).toContain('solution');
    const solution = table[`${folder}/solution`]!;
    expect(solution).toMatchObject({ passed: true, reasons: [], critical: [] });
    expect(solution.total).toBeGreaterThanOrEqual(90);
  });

  it.each(folders)(
    '%s has mistakes from six hazards or dimensions, most of which fail',
    (folder) => {
      const mistakes = mistakesOf(folder).map((name) => ({ name, ...mistakeOf(folder, name) }));
      const kinds = mistakes.flatMap(({ expects }) => {
        const [first] = expects.deductions;
        return first === undefined ? [] : [kindOf(scenarioOf(folder), first)];
      });
      expect(new Set(kinds).size, kinds.join()).toBeGreaterThanOrEqual(6);
      const fail = mistakes.filter(({ expects }) => !expects.passed);
      expect(fail.length).toBeGreaterThanOrEqual(5);
      for (const name of scriptsOf(folder).filter((one) => !mistakesOf(folder).includes(one))) {
        expect(table[`${folder}/${name}`]!.passed, name).toBe(name === 'solution');
      }
      for (const { name, expects } of mistakes) {
        expect(expects.deductions.length, name).toBeGreaterThan(0);
        expect(table[`${folder}/${name}`]!.passed, name).toBe(expects.passed);
      }
    },
  );
});

for (const { folder, name } of kept) {
  const elsewhere = isDay(folder) && name === 'solution';
  if (!elsewhere && !longMistakes(folder).includes(name)) held(folder, name);
}
