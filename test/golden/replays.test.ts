// Kept records replay without their scripts to the same hashes and the reviewed marks: the
// solution of every level but the whole days, and every mistake that is short to run.
import { describe, expect, it } from 'vitest';
import { isDay, replayed } from '../tools/days.ts';
import { folders, scriptsOf } from '../tools/golden.ts';
import { table } from './held.ts';

/** Ticks. Longer mistakes are replayed by the campaign. */
const SHORT = 7_000;

const kept = folders.flatMap((folder) =>
  scriptsOf(folder)
    .filter((name) => {
      const short = table[`${folder}/${name}`]!.end_tick <= SHORT;
      return short || (name === 'solution' && !isDay(folder));
    })
    .map((name) => ({ folder, name })),
);

describe('kept records', () => {
  it('are replayed for every level, well and badly done', () => {
    for (const folder of folders) {
      const names = kept.filter((one) => one.folder === folder).map(({ name }) => name);
      if (!isDay(folder)) expect(names).toContain('solution');
      expect(names.length, folder).toBeGreaterThanOrEqual(3);
    }
  });

  it.each(kept)(
    '$folder/$name comes to its hashes and marks',
    ({ folder, name }) => {
      const { divergedAt, row } = replayed(folder, name);
      expect(divergedAt).toBeNull();
      expect(row).toEqual(table[`${folder}/${name}`]);
    },
    120_000,
  );
});
