// Wrong players at drills of the whole days. Which ones are tried is drawn at each run; the
// campaign plays them all. The reference plays every drill, in a file for each day.
import { describe, expect, it } from 'vitest';
import { chance, freshSeed } from '../../../tools/chance.ts';
import { folders } from '../../../tools/golden.ts';
import { isDay } from '../../../tools/days.ts';
import { DAYS, drill, PLAYED, WRONG } from './drills.ts';
import { fallsBy, playedBy } from './jobs.ts';

const WRONG_EACH_RUN = 3;
const random = chance(freshSeed());

describe('drills', () => {
  it('are all known', () => {
    expect(folders.filter(isDay)).toEqual(DAYS);
    expect(PLAYED.length).toBeGreaterThanOrEqual(48);
  });

  const wrong = [...WRONG];
  for (let n = 0; n < WRONG_EACH_RUN; n++) {
    const [folder, phase, name, fails] = wrong.splice(random.below(wrong.length), 1)[0]!;
    it(`${folder}, ${phase}: ${name} loses by its own, LOOPYARD_SEED=${random.seed}`, () => {
      expect(fallsBy(playedBy(drill(folder, phase), name, random.seed))).toEqual(fails);
    });
  }
});
