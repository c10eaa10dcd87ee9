// Every kept script comes to its kept record, hash by hash, and to the marks in the reviewed
// table; the solution passes, and each mistake fails for the reason it is kept for. That a record
// comes to the same without its script is shown by replays.test.ts. Solutions of whole days have
// files of their own here, and their mistakes of hours are a part of the campaign.
import { describe, expect, it } from 'vitest';
import { folders, scriptsOf } from '../tools/golden.ts';
import { isDay, longMistakes } from '../tools/days.ts';
import { held, table } from './held.ts';

const kept = folders.flatMap((folder) => scriptsOf(folder).map((name) => ({ folder, name })));

describe('the reviewed table', () => {
  it('has one row for every script, and none besides', () => {
    expect(Object.keys(table).sort()).toEqual(kept.map((k) => `${k.folder}/${k.name}`).sort());
  });

  it.each(folders)('%s has a solution that earns 90 or more, and five mistakes', (folder) => {
    const names = scriptsOf(folder);
    expect(names).toContain('solution');
    expect(names.length).toBeGreaterThanOrEqual(6);
    const solution = table[`${folder}/solution`]!;
    expect(solution).toMatchObject({ passed: true, reasons: [], critical: [] });
    expect(solution.total).toBeGreaterThanOrEqual(90);
    for (const name of names.filter((n) => n !== 'solution')) {
      expect(table[`${folder}/${name}`]!.passed, name).toBe(false);
    }
  });
});

for (const { folder, name } of kept) {
  const elsewhere = isDay(folder) && name === 'solution';
  if (!elsewhere && !longMistakes(folder).includes(name)) held(folder, name);
}
