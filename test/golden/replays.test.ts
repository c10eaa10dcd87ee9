// Kept records replay without their scripts to the same hashes and the reviewed marks: the
// solution of every level, and every mistake of those levels whose jobs are short to run.
import { describe, expect, it } from 'vitest';
import { parseRecord } from '../../sim/record-schema.ts';
import { replay } from '../../sim/run.ts';
import {
  folders,
  LEVELS,
  readJson,
  rowOf,
  scenarioOf,
  scriptsOf,
  TABLE,
  type Row,
} from '../tools/golden.ts';

/** Ticks. A longer job is replayed only where it is the solution. */
const SHORT = 6_000;

const table = readJson(TABLE) as Record<string, Row>;
const kept = folders.flatMap((folder) =>
  scriptsOf(folder)
    .filter((name) => name === 'solution' || table[`${folder}/${name}`]!.end_tick <= SHORT)
    .map((name) => ({ folder, name })),
);

describe('kept records', () => {
  it('are replayed for every level, well and badly done', () => {
    for (const folder of folders) {
      const names = kept.filter((one) => one.folder === folder).map(({ name }) => name);
      expect(names).toContain('solution');
      expect(names.length, folder).toBeGreaterThanOrEqual(3);
    }
  });

  it.each(kept)(
    '$folder/$name comes to its hashes and marks',
    ({ folder, name }) => {
      const scenario = scenarioOf(folder);
      const record = parseRecord(readJson(LEVELS, folder, `${name}.record.json`), scenario);
      const { divergedAt, facts } = replay(scenario, record);
      expect(divergedAt).toBeNull();
      expect(rowOf(folder, record, facts)).toEqual(table[`${folder}/${name}`]);
    },
    120_000,
  );
});
