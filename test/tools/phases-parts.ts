// What stands in every part of a world, said as the keys with which a scenario says it at its
// start; and how a control stands in the words of a hand-over. Leaves out what no key can say:
// bubbles in a tank, air in solution, wear.
import { P_ATM } from '../../sim/base/units.ts';
import { BEGAN, DEFECT_STRIDE, ENDED, LEVEL } from '../../sim/defects/types.ts';
import { lidId } from '../../sim/defects/rebuild.ts';
import type { LinkPlan } from '../../sim/network/plan.ts';
import { look } from '../../sim/see.ts';
import { POSITIONS } from '../../sim/scenario-job.ts';
import type { Scenario } from '../../sim/scenario.ts';
import type { World } from '../../sim/world.ts';

type Patch = Record<string, unknown>;

const digits = (x: number, places: number): number => Number(x.toFixed(places));
const kPa = (p: number): number => Math.min(4000, Math.max(-90, digits((p - P_ATM) / 1000, 2)));
const share = (x: number): number => Math.min(1, Math.max(0, digits(x, 5)));

/** Gas share of a cell from which it belongs to a stretch of gas. */
const GASSY = 0.5;
/** m3. Less gas in a pipe than this is left out. */
const GAS_LEAST = 2e-5;
/** m. Shortest stretch that is said. */
const STRETCH_LEAST = 0.002;

interface Stretch {
  readonly from_m: number;
  readonly to_m: number;
}

/** Stretches that hold as much gas as the pipe does, where most of it is. */
export function stretchesOf(alpha: readonly number[], length: number, area: number): Stretch[] {
  const dx = length / alpha.length;
  const wanted = alpha.reduce((sum, a) => sum + a, 0) * dx; // m of gas.
  if (wanted * area < GAS_LEAST) return [];
  const runs = runsOf(alpha);
  if (runs.length === 0) runs.push(thickest(alpha));
  const ends = runs.map(([from, to]): [number, number] => [from * dx, to * dx]);
  let more = wanted - ends.reduce((sum, [from, to]) => sum + to - from, 0);
  // Too much gas is taken off runs from their ends, too little is added where there is room.
  for (let k = ends.length - 1; k >= 0; k--) {
    const [from, to] = ends[k]!;
    const next = ends[k + 1]?.[0] ?? length;
    const moved = Math.max(from - to, Math.min(next - to, more));
    ends[k] = [from, to + moved];
    more -= moved;
  }
  if (more > 0) ends[0] = [Math.max(0, ends[0]![0] - more), ends[0]![1]];
  return ends.flatMap(([from, to]) => {
    const stretch = { from_m: digits(from, 4), to_m: digits(Math.min(to, length), 4) };
    return stretch.to_m - stretch.from_m < STRETCH_LEAST ? [] : [stretch];
  });
}

/** Cells next to each other that are more gas than liquid: from, and one behind the last. */
function runsOf(alpha: readonly number[]): [number, number][] {
  const runs: [number, number][] = [];
  alpha.forEach((a, k) => {
    if (a <= GASSY) return;
    const last = runs.at(-1);
    if (last !== undefined && last[1] === k) last[1] = k + 1;
    else runs.push([k, k + 1]);
  });
  return runs;
}

function thickest(alpha: readonly number[]): [number, number] {
  const at = alpha.indexOf(Math.max(...alpha));
  return [at, at + 1];
}

/** Changes of every node, by id. */
export function nodePatches(world: World): Patch[] {
  look(world);
  const { plan, state, scratch } = world;
  return plan.scenario.nodes.flatMap((spec): Patch[] => {
    const n = plan.nodeIx.get(spec.id)!;
    if (spec.kind === 'junction') {
      const start_gas_fraction = share(scratch.alpha[n]!);
      const start_pressure_kPa = kPa(state.point[n]!);
      const x = share(state.fraction[n]!);
      const mixed = plan.scenario.antifreeze === 'none' ? {} : { start_antifreeze_fraction: x };
      const more = { ...mixed, ...warmthOf(world, n, 1) };
      return [{ id: spec.id, start_gas_fraction, start_pressure_kPa, ...more }];
    }
    if (spec.kind !== 'tank') return [];
    // Bubbles are left out: what stands there without them.
    const level = (1000 * state.mass[n]!) / state.density[n]! / spec.area_m2;
    const start_level_mm = digits(Math.min(level, spec.height_mm), 2);
    const start_antifreeze_fraction = share(state.fraction[n]!);
    return [{ id: spec.id, start_level_mm, start_antifreeze_fraction, ...warmthOf(world, n, 1) }];
  });
}

/** C of so many volumes from the first, as the mean by what they hold; nothing without heat. */
function warmthOf({ plan, state }: World, first: number, count: number): Patch {
  if (plan.thermal === null) return {};
  let [kg, sum] = [1e-9, 1e-9 * state.temp[first]!]; // Dry, it is as warm as it was last.
  for (let v = first; v < first + count; v++) {
    kg += state.mass[v]!;
    sum += state.mass[v]! * state.temp[v]!;
  }
  return { start_C: digits(sum / kg, 2) };
}

/** mL that each element of a pipe's walls has given; nothing where they do not creep. */
function creptOf({ plan, state }: World, { firstCell, cells }: LinkPlan): Patch {
  const n = plan.creep.share.length;
  const first = plan.creep.cells.indexOf(firstCell);
  if (first < 0) return {};
  const start_crept_mL = Array.from({ length: n }, (_, e) => {
    let room = 0;
    for (let k = 0; k < cells; k++) room += state.creep[(first + k) * n + e]!;
    return digits(1e6 * room, 4);
  });
  return { start_crept_mL };
}

/** Changes of every link that holds something or stands somehow, by id. */
export function linkPatches(world: World): Patch[] {
  look(world);
  const { plan, state } = world;
  return plan.scenario.links.flatMap((spec): Patch[] => {
    const ix = plan.linkIx.get(spec.id)!;
    const { id } = spec;
    const stands = state.control[ix]!;
    switch (spec.kind) {
      case 'valve':
      case 'three_way':
        return [{ id, start_deg: Math.round(stands) }];
      case 'pump':
        return [{ id, start_on: stands === 1 }];
      case 'coupling':
        return [{ id, start: stands > 0.5 ? 'made' : 'apart' }];
      case 'filter':
        return [{ id, start_blocked: Math.min(0.99, share(stands)) }];
      case 'fixed_flow':
        return [{ id, flow_L_s: digits(1000 * stands, 6) }];
      case 'pipe':
      case 'hose':
        return [{ id, ...contentsOf(world, plan.links[ix]!) }];
      default:
        return [];
    }
  });
}

function contentsOf(world: World, link: LinkPlan): Patch {
  const { plan, state, scratch } = world;
  const { firstCell, cells, length, area } = link;
  const of = (list: Float64Array) => Array.from(list.subarray(firstCell, firstCell + cells));
  const mass = of(state.mass).reduce((sum, kg) => sum + kg, 0);
  const solute = of(state.solute).reduce((sum, kg) => sum + kg, 0);
  const none = plan.scenario.antifreeze === 'none';
  return {
    gas: stretchesOf(of(scratch.alpha), length, area),
    start_pressure_kPa: kPa(startPressure(of(state.pressure), of(scratch.alpha))),
    ...(none ? {} : { start_antifreeze_fraction: mass > 1e-6 ? share(solute / mass) : 0 }),
    ...warmthOf(world, firstCell, cells),
    ...creptOf(world, link),
  };
}

/** Share of gas in a pipe from which its pressure counts, not that of the water far below it. */
const MUCH_GAS = 0.01;

/** Of a pipe: its mean, which stretches its walls as much; of one with gas that of the gas. */
function startPressure(pressures: readonly number[], alpha: readonly number[]): number {
  const gas = alpha.reduce((sum, a) => sum + a, 0);
  if (gas > MUCH_GAS * alpha.length) {
    return pressures.reduce((sum, p, k) => sum + p * alpha[k]!, 0) / gas;
  }
  return pressures.reduce((sum, p) => sum + p, 0) / pressures.length;
}

/** Devices whose start can be said. */
export function devicePatches({ plan, state }: World): Patch[] {
  return plan.scenario.devices.flatMap((spec, d): Patch[] =>
    spec.kind === 'cup' || spec.kind === 'carry' || spec.kind === 'housing'
      ? []
      : [{ id: spec.id, start: state.device[d]! }],
  );
}

/** J of gas under a lid below which it is clear: 10 mL at 1 atm. */
const POCKET_LEAST = 1e-5 * P_ATM;

/** The list of defects as it stands now, or null where there is none. */
export function defectsNow(world: World): Patch[] | null {
  const { plan, state } = world;
  const { defects } = plan.scenario;
  if (defects === undefined) return null;
  const { timed, there } = plan.defects;
  const now = state.counter[0]! * plan.scenario.solver.tick_s;
  return defects.flatMap((spec): Patch[] => {
    const own = { ...spec, chance: 1 };
    const k = timed.findIndex((one) => one.spec.id === spec.id);
    if (k >= 0 && 'share' in spec) return timedNow({ world, k, spec: own, now });
    if (!there.has(spec.id)) return [];
    if (spec.kind === 'unknown_fluid') return []; // It is in the pipes, which say so.
    if (spec.kind === 'wrong_drum') {
      const n = plan.nodeIx.get(spec.at)!;
      return plan.nodes[n]!.tank < 0
        ? [own]
        : [{ ...own, antifreeze_fraction: share(state.fraction[n]!) }];
    }
    if (spec.kind !== 'trapped_air') return [own];
    const lid = plan.nodes.findIndex(({ id }) => id === lidId(spec.id));
    const gas = state.gas[lid] ?? 0;
    return gas < POCKET_LEAST ? [] : [{ ...own, air_L: digits((1000 * gas) / P_ATM, 3) }];
  });
}

interface Timed {
  readonly world: World;
  readonly k: number;
  readonly spec: Patch;
  readonly now: number;
}

function timedNow({ world, k, spec, now }: Timed): Patch[] {
  const at = k * DEFECT_STRIDE;
  const { defect } = world.state;
  const { tick_s } = world.plan.scenario.solver;
  const began = defect[at + BEGAN]!;
  if (defect[at + ENDED]! >= 0) return [];
  if (began < 0) return [{ ...spec, from: later(spec.from, now) }];
  const level = share(defect[at + LEVEL]!);
  const until = spec.until === undefined ? {} : { until: later(spec.until, now - began * tick_s) };
  return [{ ...spec, from: { after_s: 0 }, ramp_s: 0, share: level, ...until }];
}

/** A moment as seen so many seconds later; a condition stays one. */
function later(moment: unknown, by: number): unknown {
  const { after_s } = moment as { after_s?: number };
  return after_s === undefined ? moment : { after_s: digits(Math.max(0, after_s - by), 3) };
}

/** Where debris lies, and which elements are worn; null where none is followed. */
export function debrisNow(world: World): Patch | null {
  const { plan, state } = world;
  const { debris } = plan.scenario;
  if (debris === undefined || plan.debris === null) return null;
  const lying = plan.links.flatMap(({ id, firstCell, cells, length }) =>
    debris.classes.flatMap(({ id: name }, c): Patch[] => {
      const at = (v: number) =>
        state.grains[2 * c * plan.volumes + v]! + state.grains[(2 * c + 1) * plan.volumes + v]!;
      const kg = Array.from({ length: cells }, (_, k) => at(firstCell + k));
      const grams = digits(1000 * kg.reduce((sum, x) => sum + x, 0), 3);
      if (grams <= 0) return [];
      const dx = length / cells;
      const [from, to] = [kg.findIndex((x) => x > 0), kg.findLastIndex((x) => x > 0) + 1];
      const [from_m, to_m] = [digits(from * dx, 3), digits(Math.min(to * dx, length), 3)];
      return [{ link: id, class: name, from_m, to_m, grams }];
    }),
  );
  const catchers = [...plan.debris.catchers].flatMap((link, k): Patch[] => {
    const element = plan.debris!.elements[state.fitted[3 * k]!];
    return element === undefined ? [] : [{ link: plan.links[link]!.id, element: element.id }];
  });
  return { lying, catchers };
}

/** How a control stands in the words of a hand-over, or null where it has none. */
export function stateOf({ links, devices }: Scenario, id: string, value: number): string | null {
  const kind = [...links, ...devices].find((one) => one.id === id)?.kind;
  const states = Object.entries(POSITIONS[kind ?? ''] ?? {});
  return states.find(([, position]) => position === value)?.[0] ?? null;
}
