// That no expected value of cases.json came out of the engine: each row that claims another method
// or a measurement is worked out again, or looked up, by what knows nothing of the engine. Every
// judgement is tried on a planted fault.
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { answerTo, CASES, type Case } from './cases.ts';
import { PRINTED } from './origin/printed.ts';
import {
  CALCS,
  copyFaults,
  deafFaults,
  digitFaults,
  lastDigit,
  literalFaults,
  originFaults,
  reachFaults,
} from './origins.ts';

const FOLDER = new URL('origin/', import.meta.url);
const files = readdirSync(FOLDER).map((path) => ({
  path,
  text: readFileSync(new URL(path, FOLDER), 'utf8'),
}));
const claims = CASES.filter(({ kind }) => kind !== 'transcribed');
const rowOf = (id: string, change: object = {}): Case => {
  const row = CASES.find((one) => one.id === id);
  if (row === undefined) throw new Error(`no row ${id}`);
  return { ...row, ...change };
};
const without = (row: Case): Case => {
  const { origin: _origin, ...rest } = row;
  return rest;
};

describe('where expected values come from', () => {
  it('every independent value and every measurement is that of the origin it names', () => {
    expect(claims.length).toBeGreaterThan(150);
    expect(CASES.flatMap(originFaults)).toEqual([]);
  });

  it('an origin is missing, wrong, of no one, or put off by a digit: each is told', () => {
    expect(originFaults(without(rowOf('CHK-2.2a')))).toHaveLength(1);
    expect(originFaults(rowOf('CHK-2.2a', { expected: 0.03087 }))).toHaveLength(1);
    expect(originFaults(rowOf('CHK-2.2a', { origin: { calc: 'pipes.none' } }))).toHaveLength(1);
    expect(originFaults(rowOf('CHK-1.10', { expected: [435] }))).toHaveLength(1);
    const elsewhere = { table: 'PPI2008 B.1.1', at: ['13 h'] };
    expect(originFaults(rowOf('CHK-1.10', { origin: elsewhere }))).toHaveLength(1);
    expect(originFaults(rowOf('CHK-4.6', { tolerance: { abs: 0.4 } }))).toHaveLength(1);
    expect(originFaults(rowOf('4.6/bore', { origin: { exact: 0.02, why: '' } }))).not.toEqual([]);
    expect(originFaults(rowOf('CHK-6.4', { expected: [0.51238, 0.02259] }))).toHaveLength(1);
  });

  it('the engine is out of reach of what works them out, and so is everything else', () => {
    expect(files.length).toBeGreaterThan(6);
    expect(reachFaults(files)).toEqual([]);
    const planted = [
      "import { density } from '../../../sim/laws/water.ts';",
      "export { density } from '../ask/worlds.ts';",
      "import { readFileSync } from 'node:fs';",
      "const laws = await import('./' + name);",
      "const laws = require('./water.ts');",
      "const sim = globalThis['sim'];",
    ];
    for (const text of planted) expect(reachFaults([{ path: 'x.ts', text }]), text).not.toEqual([]);
    const sibling = "import { density } from './water.ts'; // Not from 'node:fs'.";
    expect(reachFaults([{ path: 'x.ts', text: sibling }])).toEqual([]);
  });

  it('no calculation holds its own answer', () => {
    expect(literalFaults(CASES, files)).toEqual([]);
    const row = rowOf('CHK-2.2a');
    const held = (text: string) => literalFaults([row], [{ path: 'pipes.ts', text }]);
    expect(held('const f = 0.03088;')).toHaveLength(1);
    expect(held('const f = 0.030881;')).toEqual([]);
  });

  it('every calculation heeds what it is asked', () => {
    const one = new Map(claims.map((row) => [JSON.stringify(row.origin), row] as const));
    expect(one.size).toBeGreaterThan(40);
    expect([...one.values()].flatMap((row) => deafFaults(row))).toEqual([]);
    const deaf = { 'pipes.colebrook': (_input: unknown) => 0.03088 };
    expect(deafFaults(rowOf('CHK-2.2a'), deaf)).toHaveLength(1);
  });

  it('every calculation and every printed entry is of use', () => {
    const calcs = new Set(
      claims.flatMap(({ origin }) => (origin && 'calc' in origin ? origin.calc : [])),
    );
    expect(Object.keys(CALCS).filter((name) => !calcs.has(name))).toEqual([]);
    const tables = new Set(
      claims.flatMap(({ origin }) => (origin && 'table' in origin ? origin.table : [])),
    );
    const text = files.map((file) => (file.path.endsWith('.ts') ? file.text : '')).join('\n');
    const idle = Object.keys(PRINTED).filter((name) => !tables.has(name) && !text.includes(name));
    expect(idle).toEqual([]);
    for (const [name, table] of Object.entries(PRINTED)) {
      expect(table!.source.length, name).toBeGreaterThan(20);
      expect(table!.where, name).toMatch(/table|example|column|speed|tube|plateau|share/);
    }
  });
});

describe('digits of expected values', () => {
  it('are counted as they are written', () => {
    expect([0.0309, 12351, 0.5, 46050, 1e-9].map(lastDigit)).toEqual(
      [1e-4, 1, 0.1, 10, 1e-9].map((x) => expect.closeTo(x, 15)),
    );
  });

  it('are no more than the tolerance warrants', () => {
    expect(CASES.flatMap(digitFaults)).toEqual([]);
    expect(digitFaults(rowOf('CHK-2.2a', { expected: 0.0308812 }))).toHaveLength(1);
  });

  it('are not those of the engine, which is held against every answer in cases.test.ts', () => {
    const row = rowOf('CHK-2.2a');
    const got = answerTo(row);
    expect(copyFaults(row, got)).toEqual([]);
    expect(copyFaults({ ...row, expected: got[0]! }, got)).toHaveLength(1);
    expect(copyFaults({ ...row, expected: Number(got[0]!.toPrecision(8)) }, got)).toHaveLength(1);
    const same = { ...row, kind: 'transcribed' as const };
    expect(copyFaults({ ...same, expected: got[0]! }, got)).toHaveLength(1);
  });
});
