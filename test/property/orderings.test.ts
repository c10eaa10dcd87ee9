// Whoever keeps to the order that a job asks for may choose the rest: orders drawn by chance from
// the partial order of each solution come to as much as it does, and one that breaks a constraint
// loses what that rule takes, and nothing else. How they are drawn: test/support/orderings.ts.
// Fresh seeds at every run; twenty of each for every job, whole days too, are the campaign's.
import { describe, expect, it } from 'vitest';
import { PARTIAL } from '../support/orderings-jobs.ts';
import { drawn } from '../support/orderings.ts';
import { chance, freshSeed } from '../tools/chance.ts';
import { isDay } from '../tools/days.ts';
import { folders } from '../tools/golden.ts';
import { costsOf, toldCosts } from '../tools/mistakes.ts';

const seed = freshSeed();
/** Marks between any two orders; the solution of every job comes to all of them. */
const APART = 2;
/** Orders of each kind for the first job, whose runs are short, and for the next two. */
const COUNT: Readonly<Record<string, number>> = { '01-heron-lane': 20 };
const REST = 4;
/** A whole day of the largest job, on a machine that may have two slow, busy cores. */
const LONG_ms = 900_000;

const short = folders.filter((folder) => !isDay(folder));
/** One whole day of each kind: 100 is what its solution earns. */
const days = folders.filter(isDay);
const day = chance(seed).pick(days);

const cases = [
  ...short.map((folder) => [folder, COUNT[folder] ?? REST] as const),
  [day, 1] as const,
];

describe(`orders by chance, seeds ${seed} on`, () => {
  it.each(cases)(
    '%s: %d come to as much as the solution',
    { timeout: LONG_ms },
    (folder, count) => {
      const totals = Array.from({ length: count }, (_, n) => {
        const { end, step, marks } = drawn(folder, PARTIAL[folder]!, chance(seed + n));
        expect({ seed: seed + n, end, step }).toMatchObject({ end: 'finished', step: null });
        return marks.total;
      });
      expect(100 - Math.min(...totals), totals.join()).toBeLessThanOrEqual(APART);
    },
  );

  it.each(cases)('%s: %d with one constraint broken', { timeout: LONG_ms }, (folder, count) => {
    const { breaks } = PARTIAL[folder]!;
    for (let n = 0; n < count; n++) {
      const broken = breaks[(seed + n) % breaks.length]!;
      const { end, marks } = drawn(folder, PARTIAL[folder]!, chance(seed + n), broken);
      const about = `${broken.what}, seed ${seed + n}`;
      expect(end, about).toBe('finished');
      expect(costsOf(marks), about).toEqual(toldCosts(broken.costs));
    }
  });
});
