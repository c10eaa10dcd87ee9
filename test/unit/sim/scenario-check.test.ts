// Every planted fault must be named by its path, whatever else is wrong with the file.
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parseScenario, scenarioFaults, scenarioHash } from '../../../sim/scenario.ts';
import { copyOf, plant, written } from '../../tools/planting.ts';
import { PLANTED } from '../../tools/scenario-faults.ts';

const file = new URL('../../../levels/01-heron-lane/scenario.json', import.meta.url);
const level: unknown = JSON.parse(readFileSync(file, 'utf8'));

/** The paths of the faults in the first level, after it has been broken. */
function pathsAfter(breaks: readonly (readonly [path: string, value: unknown])[]): string[] {
  const json = copyOf(level);
  for (const [path, value] of breaks) plant(json, path, value);
  return scenarioFaults(json).map((f) => f.path);
}

describe('the check of a scenario', () => {
  it('finds nothing wrong with the first level', () => {
    expect(scenarioFaults(level)).toEqual([]);
  });

  it.each(PLANTED)('names $name', ({ path, value, named }) => {
    expect(pathsAfter([[path, value]])).toContain(named ?? written(level, path));
  });

  it('names every one of four faults in one reading', () => {
    const paths = pathsAfter([
      ['nodes.0.pressure_kPa', 'high'],
      ['links.circuit.bore_mm', -1],
      ['job.hand_over.0.control', 'nobody'],
      ['temperature_C', undefined],
    ]);
    expect(paths).toEqual(
      expect.arrayContaining([
        'nodes[0].pressure_kPa',
        'links[9].bore_mm',
        'job.hand_over[0].control',
        'temperature_C',
      ]),
    );
  });

  it('names more cells than can be run', () => {
    const paths = pathsAfter([
      ['solver', { tick_s: 0.001, cell_m: 0.02 }],
      ['links.supply_hose.length_m', 900],
      ['ranges', undefined],
    ]);
    expect(paths).toEqual(['solver.cell_m']);
  });

  it('says that nothing gives the pressure where all nodes are junctions', () => {
    const json = {
      nodes: [
        { id: 'a', kind: 'junction' },
        { id: 'b', kind: 'junction' },
      ],
      links: [{ id: 'c', kind: 'pipe', from: 'a', to: 'b' }],
    };
    expect(scenarioFaults(json).map((f) => f.path)).toContain('nodes');
  });

  it('says which part hangs with no other', () => {
    const paths = pathsAfter([
      ['nodes.15', { id: 'x', kind: 'junction', elevation_m: 0 }],
      ['nodes.16', { id: 'y', kind: 'open', elevation_m: 0, goes_to: 'waste' }],
      ['links.15', { id: 'xy', kind: 'valve', from: 'x', to: 'y', bore_mm: 20, start_deg: 0 }],
    ]);
    expect(paths).toEqual(['nodes[15]', 'nodes[16]']);
  });

  it.each([
    null,
    7,
    'text',
    [],
    {},
    { nodes: 3 },
    { nodes: [null, 1, []], links: [{}, { from: 3 }] },
  ])('does not break on %j', (json) => {
    expect(scenarioFaults(json).length).toBeGreaterThan(0);
  });

  it('has one hash for equal content in any order of keys', () => {
    const json = copyOf(level) as Record<string, unknown>;
    const turned = Object.fromEntries(Object.entries(json).reverse());
    expect(scenarioHash(parseScenario(turned))).toBe(scenarioHash(parseScenario(json)));
    const other = parseScenario({ ...json, temperature_C: 13 });
    expect(scenarioHash(other)).not.toBe(scenarioHash(parseScenario(json)));
  });
});
