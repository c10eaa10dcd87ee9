// A whole day: its solution and one of its drills. They take their time, so the days take turns,
// half an hour each; all of them, and the mistakes that run for hours, belong to the campaign.
import { describe, expect, it } from 'vitest';
import { chance, freshSeed } from '../tools/chance.ts';
import { dayOf, drillsIn, isDay } from '../tools/days.ts';
import { folders } from '../tools/golden.ts';
import { playDrill } from '../tools/phases.ts';
import { held } from './held.ts';

const HALF_HOUR_ms = 1_800_000;
const DAYS = folders.filter(isDay);
const TURN = Number(process.env['LOOPYARD_SEED'] ?? Math.floor(Date.now() / HALF_HOUR_ms));

export function dayHeld(folder: string): void {
  const now = DAYS[TURN % DAYS.length] === folder;
  if (now) held(folder, 'solution');
  const seed = freshSeed();
  const drills = drillsIn(folder);
  const { phase, patch } = chance(seed).pick(drills);

  describe(`drills of ${folder}`, () => {
    it('are of most of its phases', () => {
      expect(drills.length).toBeGreaterThanOrEqual(10);
    });

    const title = `seed ${seed}: ${phase} from its own start is passed by its piece of the day`;
    it.runIf(now)(title, () => {
      const { outcome, marks } = playDrill(dayOf(folder), phase, patch as Record<string, unknown>);
      expect(outcome).toMatchObject({ end: 'finished' });
      expect(marks.reasons).toEqual([]);
      expect(marks.total).toBeGreaterThanOrEqual(90);
    }, 300_000);
  });
}
