// What is where, as the last tick left it: gas share and discrepancy of every volume, weight and
// inertia of every column; and, once pressures are solved, the pressure of every cell.
// One pass over the cells does the first, since every tick of every run pays for it.
import { max, min } from '../base/math.ts';
import { G, P_ATM } from '../base/units.ts';
import { PRESSURE_MIN } from '../constants.ts';
import { AIR_DENSITY } from '../laws/gas.ts';
import type { State } from '../state.ts';
import type { Net, Scratch } from './net.ts';
import { carryLayers } from './layers.ts';
import { JUNCTION, type LinkPlan, type Plan } from './plan.ts';

/** Air at 1 atm and the world's temperature, kg/m3 per Pa absolute. */
const AIR_DENSITY_PER_PA = AIR_DENSITY / P_ATM;

export function makeScratch(plan: Plan): Scratch {
  const { volumes, points } = plan;
  const columns = plan.columns.length;
  return {
    shape: plan.shape.slice(),
    alpha: new Float64Array(volumes),
    gassy: new Uint8Array(plan.links.length),
    excess: new Float64Array(volumes),
    pull: new Float64Array(volumes),
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
  const { gas, mass, density, pressure, warmth } = state;
  const { alpha, excess, pull, shape } = scratch;
  const rate = plan.relaxRate;
  const atmosphere = P_ATM; // What is imported is looked up anew at each use.
  const air = AIR_DENSITY_PER_PA;
  const { a, b, cell, cells, half, link } = plan.columns[c]!;
  let weight = 0;
  let heavy = 0;
  let liquid = 0;
  let v = cell;
  for (let side = 0; side < 2; side++) {
    const end = side === 0 ? cell + half : cell + cells;
    const point = side === 0 ? a : b;
    const warm = warmth[point]!;
    let gasC = 0;
    let pocket = 0;
    let source = 0;
    for (; v < end; v++) {
      const p = pressure[v]!;
      const m = gas[v]!;
      let rho = density[v]!;
      const stretched = shape[3 * v]! + shape[3 * v + 1]! * (p - atmosphere);
      let s = mass[v]! / rho - stretched;
      let share = 0;
      if (m !== 0) {
        const gasRoom = (m * warm) / p;
        share = gasRoom / stretched;
        if (share > 1) share = 1;
        s += gasRoom;
        gasC += gasRoom / p;
        pocket += gasRoom * share * share;
        rho = (1 - share) * rho + share * air * p;
      }
      alpha[v] = share;
      s *= rate;
      excess[v] = s;
      source += s;
      const own = rho * shape[3 * v + 2]!;
      pull[v] = own;
      weight += own;
      heavy += rho;
      liquid += 1 - share;
    }
    if (gasC !== 0) {
      scratch.gassy[link] = 1;
      scratch.pocket[point] = scratch.pocket[point]! + pocket;
      scratch.gasC[point] = scratch.gasC[point]! + gasC;
    }
    scratch.source[point] = scratch.source[point]! + source;
  }
  const { length, cells: all, area } = plan.links[link]!;
  const dx = length / all;
  scratch.weight[c] = weight;
  scratch.inertia[c] = (heavy * dx) / area;
  scratch.wet[c] = liquid * dx;
  if (plan.layers) carryLayers(plan, state, scratch, c);
}

/**
 * A fitting holds nothing itself: what flows in it is as heavy as what its donor holds. It stands
 * as heavy as its two sides together, whichever way it flows: a weight that changed with the sign
 * of a flow would make the flow change sign with every tick.
 */
function weighFitting(plan: Plan, state: State, scratch: Scratch, c: number): void {
  const link = plan.links[plan.columns[c]!.link]!;
  const from = heaviness(plan, state, scratch, link.from);
  const to = heaviness(plan, state, scratch, link.to);
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
  return max(AIR_DENSITY, (1 - a) * state.density[n]!); // No fitting weighs less than air.
}

/** Pressure of each node. Gas that a boundary gives has the pressure of the air. */
export function spreadToNodes({ plan, state }: Net): void {
  const { kinds, nodes } = plan;
  const { point, pressure } = state;
  for (let n = 0; n < nodes.length; n++) pressure[n] = kinds[n] === JUNCTION ? point[n]! : P_ATM;
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
