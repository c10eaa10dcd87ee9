// The reference plays the whole days, each in a form of its own: from arrival to the second visit,
// by the goals that it plays drills with. Wrong players at whole days are left to the campaign.
import { describe, expect, it } from 'vitest';
import { EDITS } from '../../../../sim/player/players.ts';
import { freshSeed } from '../../../tools/chance.ts';
import { scenarioOf } from '../../../tools/golden.ts';
import { DAY_TABLE, TOO_LONG } from './days.ts';
import { DAYS } from './drills.ts';
import { playedBy } from './jobs.ts';

const seed = freshSeed();

describe(`whole days, LOOPYARD_SEED=${seed}`, () => {
  for (const folder of DAYS) {
    it(`the reference passes ${folder} with 90 or more`, { timeout: 600_000 }, () => {
      const { marks } = playedBy(scenarioOf(folder), 'reference', seed);
      expect(marks.reasons).toEqual([]);
      expect(marks.passed).toBe(true);
      expect(marks.total).toBeGreaterThanOrEqual(90);
    });

    it(`${folder} has a line for each wrong player`, () => {
      const left = Object.keys(EDITS).filter((name) => !TOO_LONG[folder]?.includes(name));
      expect(Object.keys(DAY_TABLE[folder]!).sort()).toEqual(left.sort());
    });
  }
});
