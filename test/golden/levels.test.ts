// Every kept script comes to its kept record, hash by hash, and to the marks in the reviewed
// table; the solution passes, and each mistake fails for the reason it is kept for. That a record
// comes to the same without its script is shown by replays.test.ts.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Fact } from '../../sim/fact.ts';
import { recordText } from '../../sim/record-schema.ts';
import { parseScript } from '../../sim/script-schema.ts';
import {
  folders,
  LEVELS,
  play,
  readJson,
  rowOf,
  scenarioOf,
  scriptsOf,
  TABLE,
  type Row,
} from '../tools/golden.ts';

const table = readJson(TABLE) as Record<string, Row>;
const kept = folders.flatMap((folder) => scriptsOf(folder).map((name) => ({ folder, name })));

/** Ticks in which nobody was there: a night is checked every ten minutes, not every 200 ticks. */
function away(facts: readonly Fact[]): number {
  return facts.reduce((sum, { kind, tick }) => {
    return kind === 'left' ? sum - tick : kind === 'back' ? sum + tick : sum;
  }, 0);
}

describe('the reviewed table', () => {
  it('has one row for every script, and none besides', () => {
    expect(Object.keys(table).sort()).toEqual(kept.map((k) => `${k.folder}/${k.name}`).sort());
  });

  it.each(folders)('%s has a solution that earns 90 or more, and five mistakes', (folder) => {
    const names = scriptsOf(folder);
    expect(names).toContain('solution');
    expect(names.length).toBeGreaterThanOrEqual(6);
    const solution = table[`${folder}/solution`]!;
    expect(solution).toMatchObject({ passed: true, reasons: [], critical: [] });
    expect(solution.total).toBeGreaterThanOrEqual(90);
    for (const name of names.filter((n) => n !== 'solution')) {
      expect(table[`${folder}/${name}`]!.passed, name).toBe(false);
    }
  });
});

describe.each(kept)('$folder/$name', ({ folder, name }) => {
  const scenario = scenarioOf(folder);
  let played: ReturnType<typeof play>;
  let row: Row;

  beforeAll(() => {
    played = play(folder, name);
    row = rowOf(folder, played.record, played.run.facts);
  }, 120_000);

  it('is what its script does, hash by hash', () => {
    expect(played.outcome).toMatchObject({ end: 'finished', step: null });
    const { checks, end_tick } = played.record;
    expect(checks.length).toBeGreaterThan((end_tick - away(played.run.facts)) / 200 - 1);
    const text = readFileSync(join(LEVELS, folder, `${name}.record.json`), 'utf8');
    expect(recordText(played.record)).toBe(text);
  });

  it('comes to the marks that were reviewed', () => {
    expect(row).toEqual(table[`${folder}/${name}`]);
  });

  it('comes to what the script says that it shows', () => {
    const { expects } = parseScript(readJson(LEVELS, folder, `${name}.script.json`), scenario);
    expect(expects).toBeDefined();
    expect(row.passed).toBe(expects!.passed);
    expect(row.total).toBeGreaterThanOrEqual(expects!.total_at_least ?? 0);
    expect(row.reasons).toEqual(expect.arrayContaining(expects!.reasons));
    expect(row.rules).toEqual(expect.arrayContaining(expects!.rules));
    expect(row.critical).toEqual(expect.arrayContaining(expects!.critical));
    if (!expects!.passed) expect(expects!.reasons.length).toBeGreaterThan(0);
  });
});
