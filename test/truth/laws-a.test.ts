// Published numbers of pipe, friction, fittings, water, antifreeze and stretch: every row of
// laws-a.json against the laws. Values and tolerances come from outside this project; a row that
// does not hold is a fault of the law or of the row, and its tolerance is not to be widened.
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { CALLS_A, type Answer } from './laws-a-calls.ts';

const KINDS = ['transcribed', 'independent', 'measurement'] as const;

interface Row {
  readonly id: string;
  readonly name: string;
  readonly law: string;
  readonly input: unknown;
  readonly expected: Answer;
  readonly tolerance: { readonly rel?: number; readonly abs?: number };
  readonly reason: string;
  readonly source: string;
  readonly kind: (typeof KINDS)[number];
}

const ROWS = JSON.parse(
  readFileSync(new URL('laws-a.json', import.meta.url), 'utf8'),
) as readonly Row[];

/** What is wrong with an answer, or nothing. */
function faults(row: Row, answer: Answer): string[] {
  const got = [answer].flat();
  const want = [row.expected].flat();
  if (got.length !== want.length) return [`${got.length} answers for ${want.length}`];
  const { rel, abs } = row.tolerance;
  return want.flatMap((w, k) => {
    const allowed = abs ?? rel! * Math.abs(w);
    return Math.abs(got[k]! - w) <= allowed ? [] : [`${got[k]} for ${w}, allowed ${allowed}`];
  });
}

describe('the table of published checks', () => {
  it('has rows with one id, one tolerance, a reason, a source and a kind each', () => {
    expect(ROWS.length).toBeGreaterThanOrEqual(100);
    expect(new Set(ROWS.map(({ id }) => id)).size).toBe(ROWS.length);
    for (const row of ROWS) {
      expect(row.id).toMatch(/^CHK-\d+\.\d+/);
      expect(Object.keys(row.tolerance), row.id).toHaveLength(1);
      expect(Object.values(row.tolerance)[0], row.id).toBeGreaterThan(0);
      expect(KINDS, row.id).toContain(row.kind);
      expect(row.name.length, row.id).toBeGreaterThan(10);
      expect(row.reason.length, row.id).toBeGreaterThan(5);
      expect(row.source.length, row.id).toBeGreaterThan(10);
      expect(CALLS_A[row.law], `${row.id} asks ${row.law}`).toBeDefined();
    }
  });

  it('uses every question that is written', () => {
    const used = new Set(ROWS.map(({ law }) => law));
    expect(Object.keys(CALLS_A).filter((law) => !used.has(law))).toEqual([]);
  });

  it('fails a row on a wrong number, on no number, and on too few', () => {
    for (const row of ROWS) {
      const want = [row.expected].flat();
      const step = row.tolerance.abs ?? row.tolerance.rel! * Math.abs(want[0]!);
      const wrong = want[0]! + 1.01 * step + 1e-12;
      expect(faults(row, [wrong, ...want.slice(1)]), row.id).toHaveLength(1);
      expect(faults(row, [NaN, ...want.slice(1)]), row.id).toHaveLength(1);
      expect(faults(row, want.slice(1)), row.id).toHaveLength(1);
    }
  });
});

describe('a law gives the published number', () => {
  it.each(ROWS.map((row) => [`${row.id} ${row.kind}: ${row.name} [${row.source}]`, row] as const))(
    '%s',
    (_name, row) => {
      expect(faults(row, CALLS_A[row.law]!(row.input))).toEqual([]);
    },
  );
});
