// Sites for the tests of the field builder, and the pipe table, which is transcribed
// [ASTM D3035, DR 11] and not the engine's.
import type { Bank, Bore, Circuit, Field, Site, Trench } from '../../../sim/field/site.ts';
import type { Scenario } from '../../../sim/index.ts';

/** Outside diameter and least wall, inches. */
export const TABLE = {
  '3/4': [1.05, 0.095],
  '1': [1.315, 0.12],
  '1-1/4': [1.66, 0.151],
  '1-1/2': [1.9, 0.173],
  '2': [2.375, 0.216],
} as const;
export const bore = (size: keyof typeof TABLE) => (TABLE[size][0] - 2 * TABLE[size][1]) * 25.4;
export const area_cm2 = (size: keyof typeof TABLE) => ((Math.PI / 4) * bore(size) ** 2) / 100;

export const trench: Trench = {
  kind: 'trench',
  size: '1',
  length_m: 120,
  elevation_m: -1.6,
  crests: [
    { at_m: 40, rise_m: 0.5, half_m: 3 },
    { at_m: 46, rise_m: 0.4, half_m: 3 },
  ],
  contents: 'air',
};
export const hole: Bore = {
  kind: 'bore',
  size: '1',
  depth_m: 60,
  run_m: 2,
  contents: { air_at_ends_m: 5 },
};
export const coil = [
  { flow_L_s: 0.3, loss_kPa: 6 },
  { flow_L_s: 0.6, loss_kPa: 21 },
];

export function fieldOf(
  branches: readonly (Circuit | Bank)[],
  over: Partial<Field['header']> = {},
): Field {
  return {
    header: {
      return_kind: 'direct',
      elevation_m: -1.2,
      run_out_m: 8,
      spacing_m: 3,
      supply: { sizes: ['2', '1-1/2', '1-1/4'] },
      return: { sizes: ['2'] },
      ...over,
    },
    branches,
    contents: 'air',
  };
}

export function siteOf(field: Field, over: Partial<Site> = {}): Site {
  const rig = { kind: 'deck', hose_m: 6 } as const;
  return { id: 'site', temperature_C: 12, rig, field, ends_after_s: 600, ...over };
}

export const many = (count: number, one: Circuit): Circuit[] =>
  Array.from({ length: count }, () => one);
export const bankOf = (circuits: Circuit[]): Bank => ({
  kind: 'bank',
  header: { ...fieldOf([]).header, elevation_m: -1.3, run_out_m: 15 },
  circuits,
});

export const conduits = (scenario: Scenario) =>
  scenario.links.flatMap((link) => (link.kind === 'pipe' ? [link] : []));
export const pipe = (scenario: Scenario, id: string) =>
  conduits(scenario).find((p) => p.id === id)!;
export function height(scenario: Scenario, id: string): number {
  const node = scenario.nodes.find((n) => n.id === id);
  return node?.kind === 'junction' ? node.elevation_m : NaN;
}
