// What can be wrong with what is said about defects and about instruments of two places: each is
// named by its path, and a whole plant of them has no fault.
import { describe, expect, it } from 'vitest';
import { scenarioFaults } from '../../../sim/index.ts';
import { recordFaults } from '../../../sim/record-schema.ts';
import { scriptFaults } from '../../../sim/index.ts';
import { defectRig } from '../../support/defect-rig.ts';

const sound = defectRig([]);
const pathsOf = (defects: readonly object[], more: object = {}): string[] =>
  scenarioFaults({ ...sound, ...more, defects }).map(({ path }) => path);
const one = (defect: object): string[] => pathsOf([{ id: 'wrong', ...defect }]);

const leak = { kind: 'leak', bore_mm: 1 };
const swap = { kind: 'swapped_header', at: 'circuit_a' };
const kink = { kind: 'blocked', at: 'circuit_b' };
const well = { kind: 'cycling_supply', at: 'mains', drawdown_L: 5, pump_L_min: 5 };
const begins = (when: object) => ({ ...kink, from: { when } });

describe('faults of defects', () => {
  it.each<[string, object, string]>([
    ['a part that is not there', { ...leak, at: 'attic' }, 'at'],
    ['a leak in a tank', { ...leak, at: 'tank' }, 'at'],
    ['a filter that is a valve', { kind: 'clogged_filter', at: 'a_in' }, 'at'],
    ['a gauge that is a level', { kind: 'gauge_dead', at: 'level' }, 'at'],
    ['a scale of a gauge', { kind: 'meter_scale', at: 'supply_gauge', factor: 1 }, 'at'],
    ['a metre of a valve', { ...kink, at: 'b_in', at_m: 1 }, 'at_m'],
    ['a metre beyond the end', { ...kink, at_m: 61 }, 'at_m'],
    [
      'air before a link that begins at a tank',
      { kind: 'trapped_air', at: 'suction_valve', air_L: 1, clears_L_min: 9 },
      'at',
    ],
    ['a link swapped with itself', { ...swap, with: 'circuit_a' }, 'with'],
    ['a link swapped with a valve', { ...swap, with: 'b_in' }, 'with'],
    [
      'nothing: two hoses changed over are sound',
      { ...swap, at: 'supply_hose', with: 'suction_hose' },
      '',
    ],
    ['a well that rises', { ...well, low_kPa: 300 }, 'low_kPa'],
    ['no limit', begins({ flow: 'filter' }), 'from.when'],
    [
      'limits that cross',
      begins({ flow: 'filter', above_L_min: 9, below_L_min: 9 }),
      'from.when.below_L_min',
    ],
    ['a look at nothing', begins({ pressure: 'attic', above_kPa: 1 }), 'from.when.pressure'],
    [
      'a look at a valve that is a pump',
      begins({ valve: 'pump', above_deg: 1 }),
      'from.when.valve',
    ],
    ['an id of a part', { ...kink, id: 'pump' }, 'id'],
  ])('%s', (_name, defect, key) => {
    expect(one(defect)).toEqual(key === '' ? [] : [`defects[0].${key}`]);
  });

  it('two of one kind at one part, and two of one id', () => {
    expect(
      pathsOf([
        { id: 'x', ...kink },
        { id: 'y', ...kink },
      ]),
    ).toEqual(['defects[1].at']);
    const other = { id: 'x', kind: 'worn_impeller', at: 'pump' };
    expect(pathsOf([{ id: 'x', ...kink }, other])).toEqual(['defects[1].id']);
    const devices = [{ id: 'x', kind: 'act' }];
    expect(pathsOf([other], { devices })).toEqual(['defects[0].id']);
  });

  it('antifreeze where there is none, and an end that is out of reach', () => {
    const drum = { id: 'x', kind: 'wrong_drum', at: 'mains', antifreeze_fraction: 0.1 };
    expect(pathsOf([drum], { antifreeze: 'none' })).toContain('defects[0].antifreeze_fraction');
    const high = sound.nodes.map((n) => (n.id === 'head_s' ? { ...n, elevation_m: 5 } : n));
    const away = { id: 'x', kind: 'swapped_header', at: 'suction_hose', with: 'supply_hose' };
    expect(pathsOf([away], { nodes: high })).toContain('defects[0].with');
  });
});

describe('faults of instruments', () => {
  const drop = { id: 'x', kind: 'difference', range_kPa: 9, resolution_kPa: 0.1, lag_s: 1 };
  const warm = { id: 'x', kind: 'temperature', resolution_C: 0.5, lag_s: 1 };
  it.each<[string, object, string]>([
    ['one place twice', { ...drop, high: 'casing', low: 'casing' }, '.low'],
    ['a place that is not there', { ...drop, high: 'attic', low: 'casing' }, '.high'],
    ['a place that is a tank', { ...drop, high: 'casing', low: 'tank' }, '.low'],
    ['a thermometer that stands nowhere', warm, ''],
    ['in two places', { ...warm, node: 'casing', link: 'pump' }, '.link'],
    ['at no link', { ...warm, link: 'attic' }, '.link'],
    ['whose scale falls', { ...warm, node: 'casing', from_C: 9, to_C: 9 }, '.to_C'],
  ])('%s', (_name, instrument, key) => {
    expect(pathsOf([], { instruments: [instrument] })).toEqual([`instruments[0]${key}`]);
  });

  it('whose scale falls below an end that nobody said', () => {
    const devices = [{ id: 'cup', kind: 'cup', places: ['tank'] }];
    const dip = { id: 'x', kind: 'dip_thermometer', cup: 'cup', resolution_C: 1 };
    const float = { id: 'x', kind: 'hydrometer', cup: 'cup', resolution: 0.001 };
    const paths = (one: object) => pathsOf([], { devices, instruments: [one] });
    expect(paths(dip)).toEqual([]);
    expect(paths({ ...dip, from_C: 70 })).toEqual(['instruments[0].from_C']);
    expect(paths({ ...dip, to_C: -30 })).toEqual(['instruments[0].to_C']);
    expect(paths({ ...float, from: 1.2 })).toEqual(['instruments[0].from']);
  });

  it('of conditions and of taps', () => {
    const until = { reading: 'supply_meter', above_L: 3 };
    const script = (condition: object) =>
      scriptFaults(
        { format: 1, level: sound.id, seed: 1, steps: [{ until: condition, max_s: 9 }] },
        sound,
      ).map(({ path }) => path);
    expect(script(until)).toEqual([]);
    expect(script({ reading: 'filter_gauge', below_kPa: 3 })).toEqual([]);
    expect(script({ ...until, above_C: 3 })).toEqual(['steps[0].until.above_C']);
    const tap = (gauge: string) =>
      recordFaults({ commands: [[0, { kind: 'tap', gauge }]] }, sound)
        .map(({ path }) => path)
        .filter((path) => path.startsWith('commands'));
    expect(tap('supply_gauge')).toEqual([]);
    expect(tap('supply_meter')).toEqual(['commands[0][1].gauge']);
  });
});
