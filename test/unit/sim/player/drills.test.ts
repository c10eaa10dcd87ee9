// The reference passes drills of the whole days with 90 marks or more, by the same goals on every
// plant. Which ones are tried is drawn at each run; the campaign plays them all.
import { describe, expect, it } from 'vitest';
import { chance, freshSeed } from '../../../tools/chance.ts';
import { folders } from '../../../tools/golden.ts';
import { isDay } from '../../../tools/days.ts';
import { DAYS, drill, PLAYED, WRONG } from './drills.ts';
import { fallsBy, playedBy } from './jobs.ts';

const EACH_RUN = 4;
const WRONG_EACH_RUN = 3;
const random = chance(freshSeed());

describe('drills', () => {
  it('are all known', () => {
    expect(folders.filter(isDay)).toEqual(DAYS);
    expect(PLAYED.length).toBeGreaterThanOrEqual(48);
  });

  const left = PLAYED.filter(([, phase]) => phase !== 'second_visit' && phase !== 'record');
  for (let n = 0; n < EACH_RUN; n++) {
    const [folder, phase] = left.splice(random.below(left.length), 1)[0]!;
    it(`${folder}, ${phase}: the reference passes, LOOPYARD_SEED=${random.seed}`, () => {
      const { marks } = playedBy(drill(folder, phase), 'reference', random.seed);
      expect(marks.reasons).toEqual([]);
      expect(marks.passed).toBe(true);
      expect(marks.total).toBeGreaterThanOrEqual(90);
    });
  }

  const wrong = [...WRONG];
  for (let n = 0; n < WRONG_EACH_RUN; n++) {
    const [folder, phase, name, fails] = wrong.splice(random.below(wrong.length), 1)[0]!;
    it(`${folder}, ${phase}: ${name} loses by its own, LOOPYARD_SEED=${random.seed}`, () => {
      expect(fallsBy(playedBy(drill(folder, phase), name, random.seed))).toEqual(fails);
    });
  }
});
