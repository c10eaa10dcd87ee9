// A whole day: its solution, one of the mistakes that run for hours and one of its drills, which
// are drawn anew each time. All of them belong to the campaign.
import { describe, expect, it } from 'vitest';
import { chance, freshSeed } from '../tools/chance.ts';
import { dayOf, drillsIn, longMistakes } from '../tools/days.ts';
import { playDrill } from '../tools/phases.ts';
import { held } from './held.ts';

export function dayHeld(folder: string): void {
  const seed = freshSeed();
  held(folder, 'solution');
  held(folder, chance(seed).pick(longMistakes(folder)), `seed ${seed}: `);
  const drills = drillsIn(folder);
  const { phase, patch } = chance(seed).pick(drills);

  describe(`drills of ${folder}`, () => {
    it('are of most of its phases', () => {
      expect(drills.length).toBeGreaterThanOrEqual(10);
    });

    const title = `seed ${seed}: ${phase} from its own start is passed by its piece of the day`;
    it(
      title,
      () => {
        const { outcome, marks } = playDrill(
          dayOf(folder),
          phase,
          patch as Record<string, unknown>,
        );
        expect(outcome).toMatchObject({ end: 'finished' });
        expect(marks.reasons).toEqual([]);
        expect(marks.total).toBeGreaterThanOrEqual(90);
      },
      300_000,
    );
  });
}
