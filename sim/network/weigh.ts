// What is where, as the last tick left it: gas share and discrepancy of every volume, weight and
// inertia of every column; and, once pressures are solved, the pressure of every cell.
// One pass over the cells does the first, since every tick of every run pays for it.
import { clamp, max, min } from '../base/math.ts';
import { G, P_ATM } from '../base/units.ts';
import { PRESSURE_MIN } from '../constants.ts';
import { AIR_DENSITY } from '../laws/gas.ts';
import { tankLevel } from './columns.ts';
import type { State } from '../state.ts';
import { HALVES, type Net, type Scratch } from './net.ts';
import { carryLayers } from './layers.ts';
import { JUNCTION, OPEN, RESERVOIR, type LinkPlan, type Plan } from './plan.ts';

/** Air at 1 atm and the world's temperature, kg/m3 per Pa absolute. */
const AIR_DENSITY_PER_PA = AIR_DENSITY / P_ATM;

export function makeScratch(plan: Plan): Scratch {
  const { volumes, points } = plan;
  const columns = plan.columns.length;
  return {
    shape: plan.shape.slice(),
    alpha: new Float64Array(volumes),
    yields: new Float64Array(volumes),
    gassy: new Uint8Array(plan.links.length),
    excess: new Float64Array(volumes),
    pull: new Float64Array(volumes),
    halves: new Float64Array(2 * HALVES * columns),
    foul: new Uint8Array(2 * columns),
    halfAt: Int32Array.from([...plan.columns.flatMap((c) => [c.cell, c.cell + c.half]), volumes]),
    weight: new Float64Array(columns),
    inertia: new Float64Array(columns),
    wet: new Float64Array(columns),
    layer: new Float64Array(columns),
    gasC: new Float64Array(points),
    pocket: new Float64Array(points),
    perRoom: new Float64Array(volumes),
    source: new Float64Array(points),
    open: new Float64Array(plan.links.length).fill(90),
    pinch: new Float64Array(columns),
    sag: new Float64Array(plan.nodes.length),
    teePush: new Float64Array(columns),
    out: new Float64Array(4),
  };
}

/** Hands the scratch what warmth has added to the rooms; after it changed, or was loaded. */
export function fitRooms(plan: Plan, state: State, { shape }: Scratch): void {
  for (let v = 0; v < state.swell.length; v++) shape[3 * v] = plan.shape[3 * v]! + state.swell[v]!;
}

/** Weighs every volume and every column. Writes scratch only. */
export function weigh(plan: Plan, state: State, scratch: Scratch): void {
  scratch.gassy.fill(0);
  scratch.gasC.fill(0);
  scratch.pocket.fill(0);
  scratch.source.fill(0);
  for (let n = 0; n < plan.nodes.length; n++) {
    if (plan.kinds[n] === JUNCTION) weighFittingRoom(plan, state, scratch, n);
  }
  for (let c = 0; c < plan.columns.length; c++) {
    if (plan.columns[c]!.cells === 0) weighFitting(plan, state, scratch, c);
    else weighColumn(plan, state, scratch, c);
  }
}

function weighFittingRoom(plan: Plan, state: State, scratch: Scratch, n: number): void {
  const p = state.pressure[n]!;
  const stretched = plan.room[n]! + plan.give[n]! * (p - P_ATM);
  const m = state.gas[n]!;
  const gasRoom = m === 0 ? 0 : (m * state.warmth[n]!) / p;
  const share = min(1, gasRoom / stretched);
  scratch.alpha[n] = share;
  scratch.pocket[n] = scratch.pocket[n]! + gasRoom * share * share;
  const s = plan.relaxRate * (state.mass[n]! / state.density[n]! + gasRoom - stretched);
  scratch.excess[n] = s;
  scratch.gasC[n] = scratch.gasC[n]! + gasRoom / p;
  scratch.source[n] = scratch.source[n]! + s;
}

function weighColumn(plan: Plan, state: State, scratch: Scratch, c: number): void {
  const { link, a, b } = plan.columns[c]!;
  const { length, cells: all, area } = plan.links[link]!;
  const dx = length / all;
  weighHalf(plan, state, scratch, 2 * c);
  weighHalf(plan, state, scratch, 2 * c + 1);
  const { halves, source } = scratch;
  const at = 2 * HALVES * c;
  const to = at + HALVES;
  scratch.weight[c] = halves[at]! + halves[to]!;
  scratch.inertia[c] = ((halves[at + 1]! + halves[to + 1]!) * dx) / area;
  scratch.wet[c] = (halves[at + 2]! + halves[to + 2]!) * dx;
  source[a] = source[a]! + halves[at + 3]!;
  source[b] = source[b]! + halves[to + 3]!;
  if (plan.layers) carryLayers(plan, state, scratch, c);
}

/** The cells of a column that lean on one of its points: half 2c of column c, and 2c + 1. */
function weighHalf(plan: Plan, state: State, scratch: Scratch, half: number): void {
  const { gas } = state;
  const { halfAt } = scratch;
  const first = halfAt[half]!;
  const end = halfAt[half + 1]!;
  let v = first;
  while (v < end && gas[v] === 0) v++;
  if (v < end) {
    weighGassy(plan, state, scratch, half);
  } else {
    if (scratch.foul[half] !== 0) {
      scratch.alpha.fill(0, first, end);
      scratch.yields.fill(0, first, end);
    }
    scratch.foul[half] = 0;
    weighClear(plan, state, scratch, half);
  }
}

/** Cells without gas. */
function weighClear(plan: Plan, state: State, scratch: Scratch, half: number): void {
  const first = scratch.halfAt[half]!;
  const end = scratch.halfAt[half + 1]!;
  const rate = plan.relaxRate;
  const { mass, density, pressure } = state;
  const { excess, pull, shape } = scratch;
  const atmosphere = P_ATM; // What is imported is looked up anew at each use.
  let weight = 0;
  let heavy = 0;
  let source = 0;
  for (let v = first; v < end; v++) {
    const rho = density[v]!;
    const stretched = shape[3 * v]! + shape[3 * v + 1]! * (pressure[v]! - atmosphere);
    const s = (mass[v]! / rho - stretched) * rate;
    excess[v] = s;
    source += s;
    const own = rho * shape[3 * v + 2]!;
    pull[v] = own;
    weight += own;
    heavy += rho;
  }
  const { halves } = scratch;
  halves[HALVES * half] = weight;
  halves[HALVES * half + 1] = heavy;
  halves[HALVES * half + 2] = end - first;
  halves[HALVES * half + 3] = source;
  halves[HALVES * half + 4] = 0;
  halves[HALVES * half + 5] = 0;
}

function weighGassy(plan: Plan, state: State, scratch: Scratch, half: number): void {
  const { gas, mass, density, pressure } = state;
  const { alpha, yields, excess, pull, shape } = scratch;
  const { a, b, link } = plan.columns[half >> 1]!;
  const point = (half & 1) === 1 ? b : a;
  const first = scratch.halfAt[half]!;
  const end = scratch.halfAt[half + 1]!;
  const rate = plan.relaxRate;
  const atmosphere = P_ATM; // What is imported is looked up anew at each use.
  const air = AIR_DENSITY_PER_PA;
  const warm = state.warmth[point]!;
  let weight = 0;
  let heavy = 0;
  let liquid = 0;
  let gasC = 0;
  let pocket = 0;
  let source = 0;
  let fourth = 0;
  for (let v = first; v < end; v++) {
    const p = pressure[v]!;
    const m = gas[v]!;
    let rho = density[v]!;
    const stretched = shape[3 * v]! + shape[3 * v + 1]! * (p - atmosphere);
    let s = mass[v]! / rho - stretched;
    let share = 0;
    let soft = 0;
    if (m !== 0) {
      const per = 1 / p;
      const gasRoom = m * warm * per;
      share = gasRoom / stretched;
      if (share > 1) share = 1;
      s += gasRoom;
      soft = gasRoom * per;
      gasC += soft;
      const square = share * share;
      pocket += gasRoom * square;
      fourth += square * square;
      rho = (1 - share) * rho + share * air * p;
    }
    alpha[v] = share;
    yields[v] = soft;
    s *= rate;
    excess[v] = s;
    source += s;
    const own = rho * shape[3 * v + 2]!;
    pull[v] = own;
    weight += own;
    heavy += rho;
    liquid += 1 - share;
  }
  scratch.foul[half] = 1;
  scratch.gassy[link] = 1;
  scratch.pocket[point] = scratch.pocket[point]! + pocket;
  scratch.gasC[point] = scratch.gasC[point]! + gasC;
  const { halves } = scratch;
  halves[HALVES * half] = weight;
  halves[HALVES * half + 1] = heavy;
  halves[HALVES * half + 2] = liquid;
  halves[HALVES * half + 3] = source;
  halves[HALVES * half + 4] = fourth;
  halves[HALVES * half + 5] = gasC;
}

/**
 * A fitting holds nothing itself: what flows in it is as heavy as what its donor holds. It stands
 * as heavy as its two sides together, whichever way it flows: a weight that changed with the sign
 * of a flow would make the flow change sign with every tick. At an open end it holds what stands
 * before it, or a drained drain would draw air by a weight of water that is not there.
 */
function weighFitting(plan: Plan, state: State, scratch: Scratch, c: number): void {
  const link = plan.links[plan.columns[c]!.link]!;
  let from =
    wetted(plan, state, link.from, link.zFrom) * heaviness(plan, state, scratch, link.from);
  let to = wetted(plan, state, link.to, link.zTo) * heaviness(plan, state, scratch, link.to);
  if (plan.kinds[link.to] === OPEN) to = from;
  else if (plan.kinds[link.from] === OPEN) from = to;
  from = max(AIR_DENSITY, from); // No fitting weighs less than air.
  to = max(AIR_DENSITY, to);
  const donor = state.flow[c]! >= 0 ? link.from : link.to;
  const air = link.spec.kind === 'hole' && donor === link.to; // A small hole whistles by its air.
  const own = plan.kinds[donor] === JUNCTION ? scratch.alpha[donor]! : 0;
  const a = air ? 1 : own;
  const rho = air ? AIR_DENSITY : donor === link.from ? from : to;
  scratch.weight[c] = 0.5 * (from + to) * G * (link.zFrom - link.zTo);
  scratch.inertia[c] = (rho * link.length) / link.area;
  scratch.wet[c] = (1 - a) * link.length;
}

/** kg/m3 of what a fitting or boundary holds; boundaries give liquid. */
function heaviness(plan: Plan, state: State, scratch: Scratch, n: number): number {
  const a = plan.kinds[n] === JUNCTION ? scratch.alpha[n]! : 0;
  return (1 - a) * state.density[n]!;
}

/** m over which a tank's port that falls dry goes from water to air. */
const FALLS_DRY = 0.02;

/** 1, less where a tank's port is nearly or wholly bare. */
function wetted(plan: Plan, state: State, n: number, z: number): number {
  const { tank, elevation } = plan.nodes[n]!;
  if (tank < 0) return 1;
  return clamp((elevation + tankLevel(plan, state, tank) - z) / FALLS_DRY, 0, 1);
}

/** Pressure of each node. Gas that a boundary gives has the pressure of the air. */
export function spreadToNodes({ plan, state }: Net): void {
  const { kinds, nodes } = plan;
  const { point, pressure } = state;
  for (let n = 0; n < nodes.length; n++) {
    const kind = kinds[n]!;
    const outside = kind === RESERVOIR ? P_ATM : nodes[n]!.pressure;
    pressure[n] = kind === JUNCTION ? point[n]! : outside;
  }
}

/** Pressure of each cell of a pipe from those at its columns' ends. */
export function spreadAlong(net: Net, { firstColumn, columns: count }: LinkPlan): void {
  const { plan, state, scratch, heads } = net;
  const { point, pressure } = state;
  const { pull, weight, teePush } = scratch;
  const { offsetA, offsetB, push } = heads;
  const least = PRESSURE_MIN; // What is imported is looked up anew at each use.
  for (let c = firstColumn; c < firstColumn + count; c++) {
    const { cell, cells, half, a, b } = plan.columns[c]!;
    if (cells === 0) continue;
    // Each half leans on its own point and on nothing of the other: storage counts it so, and a
    // cell that answered to both would give back later what it had taken, and feed a swing.
    const loss = (weight[c]! + teePush[c]! - push[c]!) / cells;
    let p = point[a]! + offsetA[c]! - loss / 2;
    for (let v = cell; v < cell + half; v++) {
      const own = pull[v]!;
      const here = p + own / 2;
      pressure[v] = here;
      if (here < least) pressure[v] = least; // A choice of the two would be made on the heap.
      p += own - loss;
    }
    p = point[b]! + offsetB[c]! + loss / 2;
    for (let v = cell + cells - 1; v >= cell + half; v--) {
      const own = pull[v]!;
      const here = p - own / 2;
      pressure[v] = here;
      if (here < least) pressure[v] = least;
      p -= own - loss;
    }
  }
}
