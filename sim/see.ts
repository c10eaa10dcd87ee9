// The four lenses: builds plain data from a world. Only these read the state from outside a tick.
import { abs, min } from './base/math.ts';
import { P_ATM } from './base/units.ts';
import { controlId, firstDevice, inHand, type InHand } from './hands.ts';
import { readInstruments, temperatureOf } from './instrument.ts';
import { debrisAt, debrisCells } from './see-debris.ts';
import type {
  HandPumpSeen,
  HandsSeen,
  LinkInside,
  OutletSeen,
  Scene,
  Snapshot,
  Xray,
} from './lens.ts';
import { BUBBLE_COARSE, BUBBLE_FINE } from './constants.ts';
import { freshen } from './liquids.ts';
import { SPEED } from './machines.ts';
import { tankLevel } from './network/columns.ts';
import { backIn } from './night.ts';
import { JUNCTION, OPEN, TANK, type Plan } from './network/plan.ts';
import { weigh } from './network/weigh.ts';
import { lastPosition } from './scenario-devices.ts';
import { carriesAir } from './transport/flow.ts';
import { airDrawn } from './transport/tank.ts';
import { LEDGER_STRIDE, PUMP_STRIDE } from './state.ts';
import type { World } from './world-parts.ts';

/** Seconds since the start: never a running sum. */
export function timeOf(world: World): number {
  return world.state.counter[0]! * world.dt;
}

function middleFlow(world: World, linkIx: number): number {
  const link = world.plan.links[linkIx]!;
  return world.state.flow[link.firstColumn + (link.columns >> 1)]!;
}

/** True for valves that a hand turns: of a three-way valve's legs, the one with its id. */
export function isHandle(plan: Plan, ix: number): boolean {
  const { spec, control } = plan.links[ix]!;
  return spec.kind === 'valve' || (spec.kind === 'leg' && control === ix);
}

function handsSeen(plan: Plan, { busy, all }: InHand): HandsSeen {
  const waiting = all.slice(busy < 0 ? 0 : 1).map(([ix]) => controlId(plan, ix));
  return { busy: busy < 0 ? null : controlId(plan, busy), waiting };
}

/** Rims and open ends, each with what runs out of it. */
function outletsOf(world: World): OutletSeen[] {
  const { plan, state } = world;
  return plan.nodes.flatMap((node, ix) => {
    if (node.kind === TANK) {
      return [
        {
          id: node.id,
          rate: state.tankRate[2 * node.tank]!,
          total: state.ledger[node.ledger * LEDGER_STRIDE]! / plan.water.rho,
        },
      ];
    }
    if (node.kind !== OPEN || plan.defects.unseen.has(ix)) return [];
    const rate = plan.links.reduce((sum, link, l) => {
      const q = middleFlow(world, l);
      if (link.to === ix) return sum + wetShare(world, link.from, l, q) * q;
      return link.from === ix ? sum - wetShare(world, link.to, l, q) * q : sum;
    }, 0);
    return [
      { id: node.id, rate, total: state.ledger[node.ledger * LEDGER_STRIDE]! / plan.water.rho },
    ];
  });
}

/** Share of liquid in what a node gives to a link. */
function wetShare({ plan, state, scratch }: World, n: number, l: number, q: number): number {
  const { firstColumn, columns } = plan.links[l]!;
  const isOurs = (column: number): boolean =>
    column >= firstColumn && column < firstColumn + columns;
  const end = plan.ends.find(({ node, column }) => node === n && isOurs(column));
  if (plan.nodes[n]!.tank < 0 || end === undefined) return 1 - scratch.alpha[n]!;
  return 1 - airDrawn(plan, state, end, abs(q));
}

/** What a coarse bubble's gas dims the view over that of fine ones: by their diameters. */
const COARSE_DIMS = BUBBLE_FINE / BUBBLE_COARSE;

function handPumpsOf({ plan, state }: World, wanted: (ix: number) => number): HandPumpSeen[] {
  return plan.mix.strokes.map((ix) => ({
    id: plan.links[ix]!.id,
    strokes: state.control[ix]!,
    wanted: wanted(ix),
  }));
}

function clearOf(world: World): Scene['clear'] {
  const { plan, scratch } = world;
  return plan.links.flatMap(({ id, spec, area, firstCell, cells }, ix) => {
    if ((spec.kind !== 'pipe' && spec.kind !== 'hose') || !spec.clear) return [];
    const gas = Array.from(scratch.alpha.subarray(firstCell, firstCell + cells));
    return [{ id, velocity: middleFlow(world, ix) / area, gas }];
  });
}

function sceneOf(world: World): Scene {
  const { plan, state } = world;
  const [own, helped] = [inHand(state, 0), inHand(state, 1)];
  const targets = new Map([...own.all, ...helped.all]);
  const wantedOf = (ix: number) => targets.get(ix) ?? state.control[ix]!;
  return {
    valves: plan.links.flatMap((link, ix) =>
      isHandle(plan, ix)
        ? [
            {
              id: link.id,
              deg: state.control[ix]!,
              target_deg: wantedOf(ix),
              range_deg: link.spec.kind === 'leg' ? 270 : 90,
            },
          ]
        : [],
    ),
    couplings: plan.links.flatMap((link, ix) =>
      link.spec.kind === 'coupling'
        ? [{ id: link.id, made: state.control[ix]! > 0.5, wanted: wantedOf(ix) === 1 }]
        : [],
    ),
    pumps: plan.pumps.map((pump, k) => ({
      id: pump.id,
      on: state.control[pump.link] === 1,
      wanted: wantedOf(pump.link) === 1,
      speed: state.pump[k * PUMP_STRIDE + SPEED]!,
    })),
    tanks: plan.tanks.map((tank, k) => {
      const level = tankLevel(plan, state, k);
      const liquid = state.mass[tank.node]! / state.density[tank.node]!;
      const coarse = state.tankGas[2 * k]!;
      const dims = state.gas[tank.node]! - (1 - COARSE_DIMS) * coarse;
      return {
        id: tank.id,
        level,
        height: tank.spec.height_mm / 1000,
        bubbles: liquid > 0 ? min(1, (50 * dims) / P_ATM / liquid) : 0,
        overflow: state.tankRate[2 * k]!,
        foam: state.tankGas[2 * k + 1]! / P_ATM / tank.spec.area_m2,
        fizz: state.tankRate[2 * k + 1]!,
        mark: state.mark[k]! < 0 ? null : state.mark[k]!,
      };
    }),
    clear: clearOf(world),
    outlets: outletsOf(world),
    devices: plan.scenario.devices.map((spec, d) => ({
      id: spec.id,
      kind: spec.kind,
      position: state.device[d]!,
      wanted: targets.get(firstDevice(plan) + d) ?? state.device[d]!,
      last: lastPosition(spec),
    })),
    hand_pumps: handPumpsOf(world, wantedOf),
    hands: handsSeen(plan, own),
    helper: plan.scenario.hands.helper === undefined ? null : handsSeen(plan, helped),
    back_in_s: backIn(plan, state),
    over: state.counter[1] === 1,
  };
}

/** Brings the gas shares up to date with the contents; they are no state. */
export function look(world: World): void {
  // At night it is a frame with longer steps that keeps its scratch up to date.
  if (world.frames.last !== null && world.frames.last !== world) freshen(world);
  else weigh(world.plan, world.state, world.scratch);
}

/** What a technician gets: gauges, eyes and ears. */
export function snapshot(world: World): Snapshot {
  look(world);
  return {
    tick: world.state.counter[0]!,
    time_s: timeOf(world),
    panel: { readings: readInstruments(world.plan, world.state, world.scratch.alpha) },
    scene: sceneOf(world),
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
