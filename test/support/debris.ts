// Bench rigs with debris: water of 20 C at an imposed velocity through a pipe with something in it.
import { createWorld, truth, xray, type World } from '../../sim/index.ts';
import { area, held, joint, pipe, scenario } from './fields.ts';

export const GRAINS = [
  { id: 'silt', diameter_mm: 0.03, relative_density: 2.65 },
  { id: 'fine', diameter_mm: 0.2, relative_density: 2.65 },
  { id: 'coarse', diameter_mm: 1, relative_density: 2.65 },
  { id: 'shavings', diameter_mm: 2, relative_density: 0.95 },
] as const;
export type GrainId = (typeof GRAINS)[number]['id'];

export interface Bench {
  readonly grain: GrainId;
  readonly bore_mm: number;
  readonly V: number;
  readonly length_m?: number;
  readonly rise_m?: number;
  readonly from_m?: number;
  readonly to_m?: number;
  readonly grams?: number;
}

/** One pipe between two fittings, level or on a slope, with grains lying along a stretch of it. */
export function bench(o: Bench): World {
  const { bore_mm, length_m = 8, rise_m = 0, grams = 10 } = o;
  const end = { id: 'sink', kind: 'reservoir', elevation_m: rise_m, pressure_kPa: 20 };
  const flow_L_s = 1000 * o.V * area(bore_mm / 1000);
  return createWorld(
    scenario(
      [held('source', 100), joint('a'), joint('b', rise_m), end],
      [
        { id: 'feed', kind: 'fixed_flow', from: 'source', to: 'a', bore_mm, flow_L_s },
        pipe('run', ['a', 'b'], bore_mm, length_m),
        pipe('out', ['b', 'sink'], bore_mm, 2),
      ],
      {
        debris: {
          classes: GRAINS,
          lying: [{ link: 'run', class: o.grain, from_m: o.from_m ?? 3, to_m: o.to_m ?? 5, grams }],
        },
      },
    ),
    1,
  );
}

/** kg in each cell of a link, whether it moves or lies. */
export function grainsIn(world: World, id: string): number[] {
  const { debris_moving, debris_lying } = xray(world).links.find((l) => l.id === id)!;
  return debris_moving.map((kg, k) => kg + debris_lying[k]!);
}

/** m from its start at which the middle of what is in a link stands. */
export function middle(world: World, id: string): number {
  const kg = grainsIn(world, id);
  const all = kg.reduce((sum, x) => sum + x, 0);
  return kg.reduce((sum, x, k) => sum + x * (k + 0.5), 0) / all;
}

const filled = { start_pressure_kPa: 200 };

/** A closed ring of 100 m with a filter, driven at an imposed velocity, grains all along it. */
export function ring(o: {
  readonly diameter_mm: number;
  readonly V: number;
  readonly grams: number;
  readonly element: object;
}): World {
  const bore_mm = 27.3;
  const flow_L_s = 1000 * o.V * area(bore_mm / 1000);
  return createWorld(
    scenario(
      [joint('a'), joint('b'), joint('c')].map((node) => ({ ...node, ...filled })),
      [
        { ...pipe('run', ['a', 'b'], bore_mm, 100), ...filled },
        { id: 'filter', kind: 'filter', from: 'b', to: 'c', bore_mm, loss_k: 2 },
        { id: 'drive', kind: 'fixed_flow', from: 'c', to: 'a', bore_mm, flow_L_s },
      ],
      {
        debris: {
          classes: [{ id: 'grit', diameter_mm: o.diameter_mm, relative_density: 2.65 }],
          elements: [{ id: 'bag', rated_L_s: flow_L_s, ...o.element }],
          catchers: [{ link: 'filter', element: 'bag' }],
          lying: [{ link: 'run', class: 'grit', from_m: 0, to_m: 100, grams: o.grams }],
        },
      },
    ),
    1,
  );
}

/** Seconds in which the liquid of that ring, fittings with it, goes round once. */
export function turnover(world: World, V: number): number {
  const liquid = truth(world).liquid.now / world.plan.water.rho;
  return liquid / (V * area(0.0273));
}

const pair = (id: string, from: string, to: string) => ({ id, from, to, bore_mm: 40 });
const valve = (id: string, from: string, to: string, start_deg: number) => ({
  ...pair(id, from, to),
  ...{ kind: 'valve', start_deg, rate_deg_s: 360 },
});
const clear = (id: string, from: string, to: string, length_m: number) => ({
  ...pair(id, from, to),
  ...{ kind: 'hose', length_m, clear: true },
});

/** Elements of the small yard: a bag that loads, and a screen for the coil's strainer. */
export const ELEMENTS = [
  { id: 'bag', d50_um: 150, capacity_g: 60, full_kPa: 100, rated_L_s: 1, sheds: 0.5 },
  { id: 'screen', d50_um: 1500, capacity_g: 100, loss_k: 4 },
];

/**
 * A small yard: tank, pump, filter with a bypass, a loop that goes 6 m down and up again and over
 * a hump, a coil with its own valve and strainer, a clear return hose. All full of water.
 */
export function yard(lying: readonly object[], more: object = {}) {
  const tank = {
    ...{ id: 'tank', kind: 'tank', floor_m: 0, area_m2: 0.2, height_mm: 800 },
    start_level_mm: 500,
    ports: [
      { id: 'out', height_mm: 20, bore_mm: 40 },
      { id: 'in', height_mm: 300, bore_mm: 40 },
    ],
  };
  const curve = [
    { flow_L_s: 0, head_m: 25 },
    { flow_L_s: 2, head_m: 15 },
    { flow_L_s: 3, head_m: 0 },
  ];
  const loop = {
    ...pipe('loop', ['d', 'e'], 32, 30),
    profile: [
      { at_m: 3, elevation_m: 0 },
      { at_m: 10, elevation_m: -6 },
      { at_m: 12, elevation_m: -6 },
      { at_m: 20, elevation_m: 1 },
      { at_m: 23, elevation_m: 1 },
      { at_m: 25, elevation_m: 0 },
    ],
  };
  const table = [{ flow_L_s: 1, loss_kPa: 30 }];
  return scenario(
    [tank, ...['a', 'b', 'c', 'd', 'e', 'f'].map((id) => joint(id))],
    [
      { ...pair('suction', 'tank.out', 'a'), kind: 'hose', length_m: 2 },
      { ...pair('pump', 'a', 'b'), kind: 'pump', curve, best_flow_L_s: 1.5, start_on: true },
      { ...pair('filter', 'b', 'c'), kind: 'filter', loss_k: 3 },
      valve('bypass', 'b', 'c', 0),
      valve('supply', 'c', 'd', 90),
      loop,
      valve('coil_valve', 'd', 'f', 0),
      { ...pair('coil', 'f', 'e'), kind: 'coil', table },
      clear('back', 'e', 'tank.in', 3),
    ],
    {
      instruments: [{ id: 'eye', kind: 'sight', link: 'back' }],
      debris: {
        classes: GRAINS,
        elements: ELEMENTS,
        catchers: [
          { link: 'filter', element: 'bag' },
          { link: 'coil', element: 'screen' },
        ],
        coil_allowed_g: 10,
        lying,
      },
      ...more,
    },
  );
}

/** Grams in a kilogram. */
export const g = 1000;
/** Grams that move, lie and are caught in a link. */
export const within = (world: World, id: string) => {
  const { moving, lying, caught } = truth(world).debris_by_link[id]!;
  return { moving: g * moving, lying: g * lying, caught: g * caught };
};
/** Grams in a node. */
export const inNode = (world: World, id: string) => {
  const seen = xray(world).nodes.find((n) => n.id === id)!;
  return { moving: g * seen.debris_moving, lying: g * seen.debris_lying };
};

/** Grams along the first metres of a link, as a scenario tells them. */
export const deposit = (link: string, of: string, grams: number, to_m: number) => ({
  ...{ link, grams, to_m, class: of },
  from_m: 0,
});
