// Kept records replay without their scripts to the same hashes and the reviewed marks: of every
// level the shortest, and one drawn anew at every run of what else is soon replayed, its mistakes
// and the solution where that is no whole day. All of them are replayed in the campaign.
import { describe, expect, it } from 'vitest';
import { chance, freshSeed } from '../tools/chance.ts';
import { isDay, replayed, SHORT } from '../tools/days.ts';
import { folders, scriptsOf } from '../tools/golden.ts';
import { table } from './held.ts';

const seed = freshSeed();
const random = chance(seed);

const kept = folders.flatMap((folder) => {
  const ticks = (name: string): number => table[`${folder}/${name}`]!.end_tick;
  const soon = scriptsOf(folder)
    .filter((name) => ticks(name) <= SHORT || (name === 'solution' && !isDay(folder)))
    .sort((a, b) => ticks(a) - ticks(b));
  const [shortest, ...others] = soon;
  return [shortest!, random.pick(others)].map((name) => ({ folder, name }));
});

describe(`kept records, seed ${seed}`, () => {
  it('are replayed for every level', () => {
    expect(kept).toHaveLength(2 * folders.length);
    expect(new Set(kept.map(({ folder, name }) => `${folder}/${name}`)).size).toBe(kept.length);
  });

  it.each(kept)('$folder/$name comes to its hashes and marks', ({ folder, name }) => {
    const { divergedAt, row } = replayed(folder, name);
    expect(divergedAt).toBeNull();
    expect(row).toEqual(table[`${folder}/${name}`]);
  });
});
