// Every wrong player stands in the table of what it comes to at each whole day. The reference plays
// the days in files of their own; wrong players at whole days are left to the campaign.
import { describe, expect, it } from 'vitest';
import { EDITS } from '../../../../sim/player/players.ts';
import { DAY_TABLE, TOO_LONG } from './days.ts';
import { DAYS } from './drills.ts';

describe('whole days', () => {
  it.each(DAYS)('%s has a line for each wrong player', (folder) => {
    const left = Object.keys(EDITS).filter((name) => !TOO_LONG[folder]?.includes(name));
    expect(Object.keys(DAY_TABLE[folder]!).sort()).toEqual(left.sort());
  });
});
