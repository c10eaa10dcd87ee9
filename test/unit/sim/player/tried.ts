// The reference at whole days and at their drills, five fresh seeds each. A file for each day, and
// one for its drills, so that they run side by side.
import { describe, expect, it } from 'vitest';
import type { Scenario } from '../../../../sim/scenario.ts';
import { freshSeed } from '../../../tools/chance.ts';
import { scenarioOf } from '../../../tools/golden.ts';
import { drill, drillsOf } from './drills.ts';
import { playedBy } from './jobs.ts';

const SEEDS = 5;
/** ms of one run of the largest day, on a machine that may have two slow, busy cores. */
const LONG_ms = 600_000;

/** A test for each of the seeds that `first` begins. */
export function passesAtSeeds(what: string, first: number, made: () => Scenario): void {
  for (let seed = first; seed < first + SEEDS; seed++) {
    it(`passes ${what} with 90 or more, seed ${seed}`, { timeout: LONG_ms }, () => {
      const again = `seed ${seed}, again with LOOPYARD_SEED=${first}`;
      const { marks } = playedBy(made(), 'reference', seed);
      expect(marks.reasons, again).toEqual([]);
      expect(marks.passed, again).toBe(true);
      expect(marks.total, again).toBeGreaterThanOrEqual(90);
    });
  }
}

/** From arrival to the second visit, by the goals that it plays drills with. */
export function dayTried(folder: string): void {
  const first = freshSeed();
  describe(`the reference, LOOPYARD_SEED=${first},`, () => {
    passesAtSeeds(folder, first, () => scenarioOf(folder));
  });
}

export function drillsTried(folder: string): void {
  const first = freshSeed();
  describe(`the reference, LOOPYARD_SEED=${first},`, () => {
    it(`has drills of ${folder}`, () => {
      expect(drillsOf(folder).length).toBeGreaterThanOrEqual(16);
    });
    for (const phase of drillsOf(folder)) {
      passesAtSeeds(`${folder}, ${phase},`, first, () => drill(folder, phase));
    }
  });
}
