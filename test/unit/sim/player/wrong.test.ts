// Each wrong player fails every job where there is room for its mistake: for that reason, and for
// nothing else. Where there is none it passes. What takes long, and what passes in the larger
// jobs, is left to the campaign.
import { describe, expect, it } from 'vitest';
import { EDITS } from '../../../../sim/player/players.ts';
import { freshSeed } from '../../../tools/chance.ts';
import { scenarioOf } from '../../../tools/golden.ts';
import { fallsBy, playedBy, TABLE } from './jobs.ts';

const seed = freshSeed();
const SMALL = '01-heron-lane';

describe(`wrong players, LOOPYARD_SEED=${seed}`, () => {
  for (const [folder, row] of Object.entries(TABLE)) {
    it(`${folder} has a line for each of them`, () => {
      expect(Object.keys(row).sort()).toEqual(Object.keys(EDITS).sort());
    });
    for (const [name, fails] of Object.entries(row)) {
      if (folder !== SMALL && (fails === null || name === 'too_slow')) continue;
      const comes = fails === null ? 'does no wrong' : 'fails for its own reason';
      it(`${folder}: ${name} ${comes}`, () => {
        const result = playedBy(scenarioOf(folder), name, seed);
        expect(fallsBy(result)).toEqual(fails ?? { reasons: [], lost: [], critical: [] });
        expect(result.marks.passed).toBe(fails === null);
      });
    }
  }
});
