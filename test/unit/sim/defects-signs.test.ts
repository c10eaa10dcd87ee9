// The table of signs, test/truth/defects.json: what each defect does to each reading of one rig
// was reasoned out first; the engine must agree, and no two defects may look alike unless the
// table says so.
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { DefectKinds } from '../../support/defect-kinds.ts';
import { defectRig, DIVISIONS, looked, STATES } from '../../support/defect-rig.ts';
import type { Numbers, StateName } from '../../support/defect-rig.ts';

type Sign = 'up' | 'down' | 'none';
interface Row {
  readonly kind: string;
  readonly defect: object;
  readonly signs: Partial<Record<StateName, Partial<Record<'up' | 'down', string[]>>>>;
  readonly why: Readonly<Record<string, string>>;
  readonly same_as?: string;
}
const file = new URL('../../truth/defects.json', import.meta.url);
const { defects: ROWS, states } = JSON.parse(readFileSync(file, 'utf8')) as {
  defects: Row[];
  states: Record<string, string>;
};
const READINGS = Object.keys(DIVISIONS);
const NAMES = Object.keys(STATES) as StateName[];

type Table = Record<string, Sign>;

/** Each state and reading with its sign. */
const table = (sign: (state: StateName, reading: string) => Sign): Table =>
  Object.fromEntries(
    NAMES.flatMap((s) => readIn(s).map((reading) => [`${s} ${reading}`, sign(s, reading)])),
  );

/** While needles are on their way, one alone is looked at. */
const readIn = (state: StateName): readonly string[] =>
  state === 'just_shut' ? ['discharge_gauge'] : READINGS;

const expected = ({ signs }: Row): Table =>
  table((state, reading) => {
    const { up = [], down = [] } = signs[state] ?? {};
    return up.includes(reading) ? 'up' : down.includes(reading) ? 'down' : 'none';
  });

function signOf(now: Numbers, was: Numbers, reading: string): Sign {
  const moved = (now[reading]! - was[reading]!) / DIVISIONS[reading]!;
  return moved > 1.01 ? 'up' : moved < -1.01 ? 'down' : 'none';
}

describe('the table of signs', () => {
  const without = looked(defectRig([]));
  const found = new Map<string, Table>();

  it('has every kind once, every state and a reason for every sign', () => {
    expect(ROWS.map(({ kind }) => kind).sort()).toEqual([...DefectKinds].sort());
    expect(Object.keys(states)).toEqual(NAMES);
    for (const { kind, signs, why } of ROWS) {
      const named = Object.values(signs).flatMap(({ up = [], down = [] }) => [...up, ...down]);
      expect(Object.keys(why).sort(), kind).toEqual([...new Set(named)].sort());
      for (const reading of named) expect(READINGS, kind).toContain(reading);
    }
  });

  it.each(ROWS.map((row) => [row.kind, row] as const))('%s', (kind, row) => {
    const now = looked(defectRig([row.defect]));
    const signs = table((state, reading) => signOf(now[state], without[state], reading));
    found.set(kind, signs);
    expect(signs).toEqual(expected(row));
  });

  it('no two look alike, unless it is said', () => {
    for (const [k, row] of ROWS.entries()) {
      for (const other of ROWS.slice(0, k)) {
        const alike = JSON.stringify(found.get(row.kind)) === JSON.stringify(found.get(other.kind));
        const said = row.same_as === other.kind || other.same_as === row.kind;
        expect(alike, `${row.kind} and ${other.kind}`).toBe(said);
      }
    }
  });
});
