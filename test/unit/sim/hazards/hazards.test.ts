// Every hazard: hands that trip it, hands that come near and do not, and that it could be seen
// before. Each in a small rig made through the door.
import { describe, expect, it } from 'vitest';
import { REGISTRY } from '../../../../sim/hazards/registry.ts';
import { HAZARDS } from '../../../../sim/index.ts';
import { PEOPLE } from './people.ts';
import { PLANT } from './plant.ts';
import { watchFor, type Row } from './rigs.ts';

const ROWS: readonly Row[] = [...PLANT, ...PEOPLE];
const tripOf = (row: Row) => REGISTRY.find(({ kind }) => kind === row.hazard)!.limits.trip;

/** Told by the rules and the words already, but measured nowhere yet. */
const NOT_MEASURED: readonly string[] = ['hammer'];

it('every kind of the registry has its row, and every kind of facts its entry', () => {
  const kinds = REGISTRY.map(({ kind }) => kind);
  expect(kinds).toEqual(HAZARDS.filter((kind) => !NOT_MEASURED.includes(kind)));
  expect(ROWS.map((row) => row.hazard).sort()).toEqual([...kinds].sort());
});

describe.each(ROWS)('$hazard', (row) => {
  it('trips, with a warning first, and could be seen before', () => {
    const found = watchFor(row, row.trips);
    expect(found.stages.slice(0, 2)).toEqual(['warning', 'tripped']);
    expect(found.seen_s, row.shown_by).toBeLessThan(found.tripped_s);
    expect(found.most).toBeGreaterThanOrEqual(tripOf(row));
  });

  it('warns and does not trip at four fifths of the limit and more', () => {
    const found = watchFor(row, row.near);
    expect(found.stages).toEqual(['warning', 'ended']);
    expect(found.most / tripOf(row)).toBeGreaterThanOrEqual(0.8);
    expect(found.most / tripOf(row)).toBeLessThan(1);
    expect(found.seen_s, row.shown_by).toBeLessThan(Infinity);
  });
});
