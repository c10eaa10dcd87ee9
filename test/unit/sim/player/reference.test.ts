// The reference passes the first jobs with 90 marks or more at any seed, by rules alone: no part
// of it knows a level. The seeds are fresh at every run; LOOPYARD_SEED brings one back.
import { describe, expect, it } from 'vitest';
import { parseScenario } from '../../../../sim/scenario.ts';
import { replay } from '../../../../sim/run.ts';
import { freshSeed } from '../../../tools/chance.ts';
import { readJson, LEVELS, scenarioOf } from '../../../tools/golden.ts';
import { playedBy, TABLE } from './jobs.ts';
import { passesAtSeeds } from './tried.ts';

const first = freshSeed();

describe('the reference', () => {
  for (const folder of Object.keys(TABLE)) {
    passesAtSeeds(folder, first, () => scenarioOf(folder));
  }

  it('leaves a record that replays', () => {
    const scenario = scenarioOf('01-heron-lane');
    const { played } = playedBy(scenario, 'reference', first);
    expect(played.record.commands.at(-1)?.[1]).toEqual({ kind: 'done' });
    expect(replay(scenario, played.record).divergedAt).toBeNull();
  });

  it('goes by the drawing: other names change nothing', () => {
    const level = readJson(LEVELS, '01-heron-lane', 'scenario.json') as { job: object };
    // Ranges and the job sheet name parts in their own ways, and are no part of the drawing.
    const text = JSON.stringify({ ...level, ranges: [], job: { ...level.job, sheet: undefined } });
    const names = ['fill_valve', 'suction_valve', 'return_valve', 'waste_valve', 'pump', 'tank'];
    const renamed = names.reduce(
      (all, name, at) => all.replaceAll(new RegExp(`"${name}(["\\.])`, 'g'), `"part_${at}$1`),
      text,
    );
    // Kinds of parts, and keys of instruments, stand by the same words.
    const back = renamed
      .replaceAll('"kind":"part_4"', '"kind":"pump"')
      .replaceAll('"kind":"part_5"', '"kind":"tank"')
      .replaceAll('"part_5":', '"tank":')
      .replaceAll('"part_4":', '"pump":');
    const scenario = parseScenario(JSON.parse(back));
    expect(scenario.links.map(({ id }) => id)).not.toContain('return_valve');
    const { marks } = playedBy(scenario, 'reference', 1);
    expect(marks.passed).toBe(true);
    expect(marks.total).toBeGreaterThanOrEqual(90);
  });
});
