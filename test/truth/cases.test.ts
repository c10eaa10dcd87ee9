// Every row of the table of published checks, cases.json: that it says what it is, that it can
// fail, and that it holds. `npm run truth` writes the same rows to REPORT.md.
import { describe, expect, it } from 'vitest';
import { allowed, answerTo, ASK, CASES, faults, isWorld, KINDS } from './cases.ts';
import { copyFaults } from './origins.ts';

const named = CASES.map(
  (row) => [`${row.id} ${row.kind}: ${row.name} [${row.source}]`, row] as const,
);

describe('the table of published checks', () => {
  it('has rows with one id, one tolerance, a reason, a source and a kind each', () => {
    expect(new Set(CASES.map(({ id }) => id)).size).toBe(CASES.length);
    for (const row of CASES) {
      expect(row.id).toMatch(/^((CHK-)?\d+[./]|defect\/)/);
      expect(Object.keys(row.tolerance), row.id).toHaveLength(1);
      expect(Object.values(row.tolerance)[0], row.id).toBeGreaterThan(0);
      expect(KINDS, row.id).toContain(row.kind);
      expect(row.name.length, row.id).toBeGreaterThan(10);
      expect(row.reason.length, row.id).toBeGreaterThan(3);
      expect(row.source.length, row.id).toBeGreaterThan(10);
      expect(ASK[row.ask], `${row.id} asks ${row.ask}`).toBeDefined();
    }
  });

  it('proves more than that formulas were typed in well', () => {
    const proofs = CASES.filter(({ kind }) => kind !== 'transcribed');
    expect(proofs.length).toBeGreaterThanOrEqual(40);
    expect(proofs.filter(isWorld).length).toBeGreaterThanOrEqual(25);
  });

  it('uses every question that is written', () => {
    const used = new Set(CASES.map(({ ask }) => ask));
    expect(Object.keys(ASK).filter((ask) => !used.has(ask))).toEqual([]);
  });

  it('fails a row on a wrong number, on no number, and on too few', () => {
    for (const row of CASES) {
      const want = [row.expected].flat();
      const wrong = want[0]! + 1.01 * allowed(row)[0]! + 1e-12;
      expect(faults(row, [wrong, ...want.slice(1)]), row.id).toHaveLength(1);
      expect(faults(row, [NaN, ...want.slice(1)]), row.id).toHaveLength(1);
      expect(faults(row, want.slice(1)), row.id).toHaveLength(1);
    }
  });
});

describe('the project gives the published number', () => {
  it.each(named)('%s', (_name, row) => {
    const got = answerTo(row);
    expect(faults(row, got)).toEqual([]);
    expect(copyFaults(row, got)).toEqual([]);
  });
});
