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
import { JUNCTION, OPEN, TANK, type EndPlan, type LinkPlan, type Plan } from './network/plan.ts';
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

/** A link at an open end: which way it runs there, and what it draws from. */
interface Stream {
  readonly link: number;
  readonly sign: 1 | -1;
  readonly node: number;
  /** The end of its column there, where that is a tank's. */
  readonly end: EndPlan | undefined;
}

/** What of a plant is seen, found once: by index of its links, and by node what runs out there. */
interface Sights {
  readonly handles: readonly number[];
  readonly couplings: readonly number[];
  readonly clear: readonly number[];
  readonly open: ReadonlyMap<number, readonly Stream[]>;
}

const known = new WeakMap<Plan, Sights>();

function sightsOf(plan: Plan): Sights {
  const sights = known.get(plan) ?? findSights(plan);
  known.set(plan, sights);
  return sights;
}

function findSights(plan: Plan): Sights {
  const { links, nodes } = plan;
  const where = (is: (link: LinkPlan, ix: number) => boolean): number[] =>
    links.flatMap((link, ix) => (is(link, ix) ? [ix] : []));
  const open = nodes.flatMap(({ kind }, n) => {
    return kind === OPEN && !plan.defects.unseen.has(n) ? [[n, streamsAt(plan, n)] as const] : [];
  });
  return {
    handles: where((_, ix) => isHandle(plan, ix)),
    couplings: where(({ spec }) => spec.kind === 'coupling'),
    clear: where(({ spec }) => (spec.kind === 'pipe' || spec.kind === 'hose') && spec.clear),
    open: new Map(open),
  };
}

function streamsAt({ links, nodes, ends }: Plan, n: number): Stream[] {
  return links.flatMap(({ from, to, firstColumn, columns }, link): Stream[] => {
    if (to !== n && from !== n) return [];
    const node = to === n ? from : to;
    const isOurs = ({ column }: EndPlan): boolean =>
      column >= firstColumn && column < firstColumn + columns;
    const end = nodes[node]!.tank < 0 ? undefined : ends.find((e) => e.node === node && isOurs(e));
    return [{ link, sign: to === n ? 1 : -1, node, end }];
  });
}

/** Rims and open ends, each with what runs out of it. */
function outletsOf(world: World, { open }: Sights): OutletSeen[] {
  const { plan, state } = world;
  const total = (ledger: number) => state.ledger[ledger * LEDGER_STRIDE]! / plan.water.rho;
  return plan.nodes.flatMap(({ id, kind, tank, ledger }, n) => {
    if (kind === TANK) return [{ id, rate: state.tankRate[2 * tank]!, total: total(ledger) }];
    const streams = open.get(n);
    if (streams === undefined) return [];
    let rate = 0;
    for (const stream of streams) {
      const q = middleFlow(world, stream.link);
      const runs = wetShare(world, stream, q) * q;
      rate = stream.sign > 0 ? rate + runs : rate - runs;
    }
    return [{ id, rate, total: total(ledger) }];
  });
}

/** Share of liquid in what a node gives to a link. */
function wetShare({ plan, state, scratch }: World, { node, end }: Stream, q: number): number {
  return 1 - (end === undefined ? scratch.alpha[node]! : airDrawn(plan, state, end, abs(q)));
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

function clearOf(world: World, { clear }: Sights): Scene['clear'] {
  const { plan, scratch } = world;
  return clear.map((ix) => {
    const { id, area, firstCell, cells } = plan.links[ix]!;
    const gas = Array.from(scratch.alpha.subarray(firstCell, firstCell + cells));
    return { id, velocity: middleFlow(world, ix) / area, gas };
  });
}

function sceneOf(world: World): Scene {
  const { plan, state } = world;
  const sights = sightsOf(plan);
  const [own, helped] = [inHand(state, 0), inHand(state, 1)];
  const targets = new Map([...own.all, ...helped.all]);
  const wantedOf = (ix: number) => targets.get(ix) ?? state.control[ix]!;
  return {
    valves: sights.handles.map((ix) => {
      const { id, spec } = plan.links[ix]!;
      const range_deg = spec.kind === 'leg' ? 270 : 90;
      return { id, deg: state.control[ix]!, target_deg: wantedOf(ix), range_deg };
    }),
    couplings: sights.couplings.map((ix) => {
      const made = state.control[ix]! > 0.5;
      return { id: plan.links[ix]!.id, made, wanted: wantedOf(ix) === 1 };
    }),
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
    clear: clearOf(world, sights),
    outlets: outletsOf(world, sights),
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
