// Every hazard: hands that trip it, hands that come near and do not, and that it could be seen
// before. Each in a small rig made through the door.
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { REGISTRY } from '../../../../sim/hazards/registry.ts';
import { HAZARDS } from '../../../../sim/index.ts';
import { PEOPLE } from './people.ts';
import { PLANT } from './plant.ts';
import { REST } from './rest.ts';
import { watchFor, type Row } from './rigs.ts';

const ROWS: readonly Row[] = [...PLANT, ...PEOPLE, ...REST];

/** Those whose trips and near misses are tried in another file, which needs a cart with a motor. */
const ELSEWHERE = ['overload', 'ground_fault', 'restart'] as const;
const there = readFileSync(new URL('../hazards-power.test.ts', import.meta.url), 'utf8');

it('every kind of the registry has its row, and every kind of facts its entry', () => {
  const kinds = [...new Set(REGISTRY.map(({ kind }) => kind))];
  expect(kinds).toEqual(HAZARDS);
  const rows = ROWS.map((row) => row.hazard);
  expect([...rows, ...ELSEWHERE].sort()).toEqual([...kinds].sort());
  for (const kind of ELSEWHERE) expect(there).toContain(`hazard: '${kind}',`);
});

describe.each(ROWS)('$hazard', (row) => {
  it('trips, with a warning first, and could be seen before', () => {
    const found = watchFor(row, row.trips);
    expect(found.stages.slice(0, 2)).toEqual(['warning', 'tripped']);
    expect(found.seen_s, row.shown_by).toBeLessThan(found.tripped_s);
    expect(found.most).toBeGreaterThanOrEqual(found.trip);
  });

  it('warns and does not trip at four fifths of the limit and more', () => {
    const found = watchFor(row, row.near);
    expect(found.stages).toEqual(['warning', 'ended']);
    expect(found.most / found.trip).toBeGreaterThanOrEqual(0.8);
    expect(found.most / found.trip).toBeLessThan(1);
    expect(found.seen_s, row.shown_by).toBeLessThan(Infinity);
  });
});
