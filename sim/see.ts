// The four lenses: builds plain data from a world. Only these read the state from outside a tick.
import { P_ATM } from './base/units.ts';
import { temperatureOf } from './instrument.ts';
import { debrisAt, debrisCells } from './see-debris.ts';
import type { LinkInside, Snapshot, Xray } from './lens.ts';
import { freshen } from './liquids.ts';
import { JUNCTION } from './network/plan.ts';
import { weigh } from './network/weigh.ts';
import { Glance, middleFlow, sceneOf } from './scene.ts';
import { carriesAir } from './transport/flow.ts';
import type { World } from './world-parts.ts';

/** Seconds since the start: never a running sum. */
export function timeOf(world: World): number {
  return world.state.counter[0]! * world.dt;
}

/** Brings the gas shares up to date with the contents; they are no state. */
export function look(world: World): void {
  // At night it is a frame with longer steps that keeps its scratch up to date.
  if (world.frames.last !== null && world.frames.last !== world) freshen(world);
  else weigh(world.plan, world.state, world.scratch);
}

/** What a technician gets: gauges, eyes and ears. */
export function snapshot(world: World): Snapshot {
  const glance = new Glance(world);
  return {
    tick: world.state.counter[0]!,
    time_s: timeOf(world),
    panel: glance.panel,
    scene: sceneOf(glance),
  };
}

/** C and mass share of ice of so many volumes; all at one temperature where heat is left out. */
function warmthOf({ plan, state }: World, v: number, count: number) {
  const of = Array.from({ length: count }, (_, k) => v + k);
  return {
    temperature_C: of.map((at) => temperatureOf(plan, state, at)),
    ice: of.map((at) => (plan.thermal === null ? 0 : state.ice[at]!)),
  };
}

/** Air in solution in so many volumes, m3 at 1 atm in a m3 of liquid. */
function dissolvedIn({ plan, state }: World, v: number, count: number): number[] {
  if (!carriesAir(plan)) return [];
  const share = (at: number) => (state.airShare[at]! * state.density[at]!) / P_ATM;
  return Array.from({ length: count }, (_, k) => share(v + k));
}

/** The inside of every pipe. The session hands it out only where the mode allows. */
export function xray(world: World): Xray {
  look(world);
  const { plan, state, scratch } = world;
  const links = plan.links.map((link, ix): LinkInside => {
    const flow = middleFlow(world, ix);
    const base = { id: link.id, flow, velocity: flow / link.area };
    if (link.cells === 0) {
      const v = flow >= 0 ? link.from : link.to;
      const other = flow >= 0 ? link.to : link.from;
      const a = plan.nodes[v]!.kind === JUNCTION ? scratch.alpha[v]! : scratch.alpha[other]!;
      const antifreeze = [state.fraction[v]!];
      const pressure = [state.point[v]!];
      const dissolved = dissolvedIn(world, v, 1);
      const carried = { antifreeze, dissolved, debris_moving: [], debris_lying: [] };
      return { ...base, gas: [a], pressure, ...carried, ...warmthOf(world, v, 1) };
    }
    const slice = (of: Float64Array) =>
      Array.from(of.subarray(link.firstCell, link.firstCell + link.cells));
    return {
      ...base,
      gas: slice(scratch.alpha),
      pressure: slice(state.pressure),
      antifreeze: slice(state.fraction),
      dissolved: dissolvedIn(world, link.firstCell, link.cells),
      ...warmthOf(world, link.firstCell, link.cells),
      ...debrisCells(world, link.firstCell, link.cells),
    };
  });
  const nodes = plan.nodes.map((node, n) => ({
    id: node.id,
    pressure: state.point[n]!,
    gas: scratch.alpha[n]!,
    antifreeze: state.fraction[n]!,
    dissolved: dissolvedIn(world, n, 1)[0] ?? null,
    temperature_C: temperatureOf(plan, state, n),
    ice: plan.thermal === null ? 0 : state.ice[n]!,
    debris_moving: debrisAt(world, n, 0),
    debris_lying: debrisAt(world, n, 1),
  }));
  return { links, nodes };
}
