// What is held against a kept script: its record hash by hash, the reviewed marks, and what the
// script says that it shows. Whole days have a test file each, so that they run side by side.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Fact } from '../../sim/fact.ts';
import { recordText } from '../../sim/record-schema.ts';
import { parseScript } from '../../sim/script-schema.ts';
import { score } from '../../sim/score.ts';
import {
  LEVELS,
  mistakeOf,
  mistakesOf,
  play,
  readJson,
  rowOf,
  RULES,
  scenarioOf,
  scriptJson,
  TABLE,
  type Row,
} from '../tools/golden.ts';
import { foundIn, toldBy } from '../tools/mistakes.ts';

export const table = readJson(TABLE) as Record<string, Row>;

/** Ticks in which nobody was there: a night is checked every ten minutes, not every 100 ticks. */
function away(facts: readonly Fact[]): number {
  return facts.reduce((sum, { kind, tick }) => {
    return kind === 'left' ? sum - tick : kind === 'back' ? sum + tick : sum;
  }, 0);
}

/** The tests of one kept script; `drawn` says by which seed it was chosen. */
export function held(folder: string, name: string, drawn = ''): void {
  describe(`${drawn}${folder}/${name}`, () => {
    const scenario = scenarioOf(folder);
    let played: ReturnType<typeof play>;
    let row: Row;

    beforeAll(() => {
      played = play(folder, name);
      row = rowOf(folder, played.record, played.run.facts);
    }, 900_000);

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

    it('comes to what was told before it was run', () => {
      if (mistakesOf(folder).includes(name)) {
        const marks = score(played.run.scenario, RULES, played.run.facts);
        expect(foundIn(marks)).toEqual(toldBy(mistakeOf(folder, name)));
        return;
      }
      const { expects } = parseScript(scriptJson(folder, name), scenario);
      expect(expects).toBeDefined();
      expect(row.passed).toBe(expects!.passed);
      expect(row.total).toBeGreaterThanOrEqual(expects!.total_at_least ?? 0);
      expect(row.reasons).toEqual(expect.arrayContaining(expects!.reasons));
      expect(row.rules).toEqual(expect.arrayContaining(expects!.rules));
      expect(row.critical).toEqual(expect.arrayContaining(expects!.critical));
      if (!expects!.passed) expect(expects!.reasons.length).toBeGreaterThan(0);
    });
  });
}
