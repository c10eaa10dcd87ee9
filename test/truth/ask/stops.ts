// How questions of cases.json about a pump that is switched off are put to whole worlds: what comes
// back into the tank from pipe that lies above it, and what a siphon goes on to take out of it; and
// at what level an outlet begins to draw air.
import { createWorld, snapshot, step, truth, type World } from '../../../sim/index.ts';
import { held, joint, scenario } from '../../support/fields.ts';
import { link, run } from '../../support/worlds.ts';

interface Rig {
  readonly bore_mm: number;
  readonly length_m: number;
  readonly top_m: number;
  /** Height of the far end over the tank's floor; in the tank, or in the open. */
  readonly end_m: number;
  readonly over?: 'tank' | 'waste';
  readonly area_m2: number;
  readonly level_mm: number;
}

/** A tank, a pump at its foot, and full pipe over a top that ends in the tank or in the open. */
function rig(i: Rig): World {
  const [bore_mm, top] = [i.bore_mm, i.top_m];
  const ports = [
    { id: 'out', height_mm: 50, bore_mm },
    ...(i.over === 'waste' ? [] : [{ id: 'in', height_mm: 1000 * i.end_m, bore_mm }]),
  ];
  const size = { area_m2: i.area_m2, height_mm: 1500, start_level_mm: i.level_mm };
  const tank = { id: 'tank', kind: 'tank', floor_m: 0, ...size, ports };
  const open = { id: 'end', kind: 'open', elevation_m: i.end_m, goes_to: 'waste' };
  const curve = [
    { flow_L_s: 0, head_m: 6 },
    { flow_L_s: 10, head_m: 3 },
  ];
  const up = top - 0.05;
  const down = top - i.end_m;
  const to = i.over === 'waste' ? 'end' : 'tank.in';
  const loop = { id: 'loop', kind: 'pipe', from: 'b', to, bore_mm, wall_mm: 3, loss_k: 1 };
  const profile = [
    { at_m: up, elevation_m: top },
    { at_m: i.length_m - down, elevation_m: top },
  ];
  const nodes = [tank, joint('a', 0.05), joint('b', 0.05), ...(i.over === 'waste' ? [open] : [])];
  const links = [
    { id: 'suction', kind: 'valve', from: 'tank.out', to: 'a', bore_mm, start_deg: 90 },
    {
      ...{ id: 'pump', kind: 'pump', from: 'a', to: 'b', bore_mm, curve },
      ...{ best_flow_L_s: 5, start_on: true },
    },
    { ...loop, length_m: i.length_m, profile },
  ];
  return createWorld(scenario(nodes, links), 1);
}

const stop = (world: World) => step(world, [{ kind: 'switch', pump: 'pump', on: false }]);

/** L that come back into the tank within so many seconds of the stop. */
function back(i: Rig & { seconds: number }): number {
  const world = run(rig(i), 30);
  const held = () => (truth(world).liquid.now / 998.2) * 1000 - inPipes(world, i);
  const before = held();
  stop(world);
  run(world, i.seconds);
  return held() - before;
}

/** L of water in the pipe, by its gas. */
function inPipes(world: World, i: Rig): number {
  const { gas } = link(world, 'loop');
  const dry = gas.reduce((sum, a) => sum + a, 0) / gas.length;
  return (1 - dry) * i.length_m * (Math.PI / 4) * (i.bore_mm / 1000) ** 2 * 1000;
}

/** L/s that run out of the far end so many seconds after the stop. */
function runsOn(i: Rig & { seconds: number }): number {
  const world = run(rig(i), 10);
  stop(world);
  return 1000 * link(run(world, i.seconds), 'loop').flow;
}

/** m of water over a tank's outlet when it first draws air, as the tank is emptied at one rate. */
function vortex(i: { bore_mm: number; flow_L_s: number; area_m2: number }): number {
  const port = { id: 'out', height_mm: 50, bore_mm: i.bore_mm };
  const size = { area_m2: i.area_m2, height_mm: 1500, start_level_mm: 600 };
  const tank = { id: 'tank', kind: 'tank', floor_m: 0, ...size, ports: [port] };
  const ends = { kind: 'valve', bore_mm: i.bore_mm, start_deg: 90 };
  const drawn = { id: 'drawn', kind: 'fixed_flow', from: 'eye', to: 'away', bore_mm: i.bore_mm };
  const links = [
    { id: 'outlet', from: 'tank.out', to: 'eye', ...ends },
    { ...drawn, flow_L_s: i.flow_L_s },
  ];
  const world = createWorld(scenario([tank, joint('eye', 0.05), held('away', 0)], links), 1);
  const level = () => snapshot(world).scene.tanks[0]!.level;
  while (truth(world).gas.came === 0 && level() > 0.05) step(world, []);
  return level() - 0.05;
}

export const STOPS = {
  'world.back_L': back,
  'world.runs_on_L_s': runsOn,
  'world.vortex_m': vortex,
};
