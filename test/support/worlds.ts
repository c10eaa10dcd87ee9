// Whole worlds on a bench: run them, read them. Shared by the checks against published numbers.
import {
  createWorld,
  parseScenario,
  step,
  xray,
  type Scenario,
  type World,
} from '../../sim/index.ts';

export const GPM = (3.785411784e-3 / 60) * 1000; // L/s
export const FT = 0.3048;
export const PSI = 6894.757;
export const ATM = 101325;

export function run(world: World, seconds: number): World {
  const ticks = Math.round(seconds / world.dt);
  for (let t = 0; t < ticks; t++) step(world, []);
  return world;
}

export const node = (world: World, id: string): number =>
  xray(world).nodes.find((n) => n.id === id)!.pressure;
export const link = (world: World, id: string) => xray(world).links.find((l) => l.id === id)!;

/** Imposed flow along a level pipe between two junctions; loss over the pipe, Pa. */
export function lossOver(o: {
  bore_mm: number;
  length_m: number;
  flow_L_s: number;
  t_C: number;
  rough_mm: number;
}): number {
  const scenario = parseScenario({
    format: 1,
    id: 'loss',
    temperature_C: o.t_C,
    ends_after_s: 100000,
    nodes: [
      { id: 'source', kind: 'reservoir', elevation_m: 0, pressure_kPa: 100 },
      { id: 'a', kind: 'junction', elevation_m: 0 },
      { id: 'b', kind: 'junction', elevation_m: 0 },
      { id: 'sink', kind: 'reservoir', elevation_m: 0, pressure_kPa: 50 },
    ],
    links: [
      {
        id: 'feed',
        kind: 'fixed_flow',
        from: 'source',
        to: 'a',
        bore_mm: o.bore_mm,
        flow_L_s: o.flow_L_s,
      },
      {
        id: 'pipe',
        kind: 'pipe',
        from: 'a',
        to: 'b',
        bore_mm: o.bore_mm,
        wall_mm: 3,
        length_m: o.length_m,
        roughness_mm: o.rough_mm,
      },
      {
        id: 'out',
        kind: 'pipe',
        from: 'b',
        to: 'sink',
        bore_mm: o.bore_mm,
        wall_mm: 3,
        length_m: 2,
      },
    ],
  });
  const world = run(createWorld(scenario, 1), 200);
  return node(world, 'a') - node(world, 'b');
}

/** A closed pipe under a reservoir: stiff unless told otherwise. */
export function closed(o: {
  pressure_kPa: number;
  bore_mm: number;
  length_m: number;
  wall_mm?: number;
  modulus_MPa?: number;
  nu?: number;
  gas?: { from_m: number; to_m: number };
  t_C?: number;
  fall_m?: number;
  end_gas?: number;
  tick_s?: number;
  cell_m?: number;
  roughness_mm?: number;
}): Scenario {
  return parseScenario({
    format: 1,
    id: 'closed',
    temperature_C: o.t_C ?? 20,
    ends_after_s: 100000,
    solver: { tick_s: o.tick_s ?? 0.1, cell_m: o.cell_m ?? 1 },
    nodes: [
      { id: 'head', kind: 'reservoir', elevation_m: 0, pressure_kPa: o.pressure_kPa },
      {
        id: 'end',
        kind: 'junction',
        elevation_m: -(o.fall_m ?? 0),
        volume_L: 0.5,
        start_gas_fraction: o.end_gas ?? 0,
      },
    ],
    links: [
      {
        id: 'pipe',
        kind: 'pipe',
        from: 'head',
        to: 'end',
        bore_mm: o.bore_mm,
        length_m: o.length_m,
        wall_mm: o.wall_mm ?? 10,
        modulus_MPa: o.modulus_MPa ?? 200000,
        poisson: o.nu ?? 0.3,
        ...(o.roughness_mm === undefined ? {} : { roughness_mm: o.roughness_mm }),
        gas: o.gas ? [o.gas] : [],
      },
    ],
  });
}
