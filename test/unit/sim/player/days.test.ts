// Every wrong player stands in the table of what it comes to at each whole day. Which rows are
// played is drawn at each run; the campaign plays them all. The reference plays the days in files
// of their own.
import { describe, expect, it } from 'vitest';
import { AS_WRITTEN } from '../../../../sim/form.ts';
import { EDITS } from '../../../../sim/player/players.ts';
import { chance, freshSeed } from '../../../tools/chance.ts';
import { scenarioOf } from '../../../tools/golden.ts';
import { DAY_TABLE } from './days.ts';
import { DAYS } from './drills.ts';
import { fallsBy, playedBy } from './jobs.ts';

const EACH_RUN = 3;
/** Takes minutes where air never comes out. */
const SLOW = 'too_slow';
const random = chance(freshSeed());

describe('whole days', () => {
  it.each(DAYS)('%s has a line for each wrong player', (folder) => {
    expect(Object.keys(DAY_TABLE[folder]!).sort()).toEqual(Object.keys(EDITS).sort());
  });

  const rows = DAYS.flatMap((folder) =>
    Object.entries(DAY_TABLE[folder]!).map(([name, fails]) => ({ folder, name, fails })),
  ).filter(({ name }) => name !== SLOW);
  for (let n = 0; n < EACH_RUN; n++) {
    const { folder, name, fails } = rows.splice(random.below(rows.length), 1)[0]!;
    it(`${folder}: ${name}, LOOPYARD_SEED=${random.seed}`, { timeout: 600_000 }, () => {
      const result = playedBy(scenarioOf(folder), name, AS_WRITTEN);
      const wanted = fails ?? { reasons: [], lost: [], critical: [] };
      expect(fallsBy(result)).toEqual(wanted);
      expect(result.marks.passed).toBe(wanted.reasons.length === 0);
    });
  }
});
