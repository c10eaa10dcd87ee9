// Volume flux of everything at every face: a column's flow at its middle, and outward from there
// by what each cell takes in as it is squeezed, stretched or put right.
import { PRESSURE_MIN } from '../constants.ts';
import { DRIFT } from '../laws/gas.ts';
import { HALVES } from '../network/net.ts';
import type { LinkPlan, Plan } from '../network/plan.ts';
import { coolingRate } from '../network/warmth.ts';
import { SENT, type Flow, type Fluxes } from './flow.ts';

export function makeFluxes(plan: Plan): Fluxes {
  return {
    total: new Float64Array(plan.faces),
    offered: new Float64Array(2 * plan.faces),
    out: new Float64Array(DRIFT.size),
    gives: givesOf(plan),
    sent: new Float64Array(SENT * plan.volumes),
    layers: new Float64Array(plan.volumes),
    gas: new Float64Array(plan.volumes),
    rise: risesOf(plan),
  };
}

/** m3/s. Rise of small bubbles along each cell, by its bore. */
function risesOf({ links, section, volumes }: Plan): Float64Array {
  const rise = new Float64Array(volumes);
  for (const { firstCell, cells, area } of links) {
    for (let v = firstCell; v < firstCell + cells; v++) rise[v] = section[v]!.bubble * area;
  }
  return rise;
}

/** m3/Pa. What the walls of each column's first half give, and of its second. */
export function givesOf({ columns, give }: Plan): Float64Array {
  const sum = (first: number, end: number): number =>
    give.subarray(first, end).reduce((all, one) => all + one, 0);
  return Float64Array.from(
    columns.flatMap(({ cell, cells, half }) => [
      sum(cell, cell + half),
      sum(cell + half, cell + cells),
    ]),
  );
}

/** Flux where a pipe starts and ends: its outer columns', by what their halves take in. */
export function endFluxes(flow: Flow, link: LinkPlan): void {
  const { plan, fluxes } = flow;
  const { firstColumn, columns, firstFace, cells } = link;
  fluxes.total[firstFace] = startOf(flow, firstColumn);
  const c = firstColumn + columns - 1;
  const { b } = plan.columns[c]!;
  fluxes.total[firstFace + cells] = flow.state.flowMean[c]! - takenIn(flow, 2 * c + 1, b);
}

/** m3/s through the first face of column c. */
export function startOf(flow: Flow, c: number): number {
  return flow.state.flowMean[c]! + takenIn(flow, 2 * c, flow.plan.columns[c]!.a);
}

/** m3/s that half a column takes in as its point's pressure moves; where no gas heats. */
function takenIn({ state, scratch, heads, fluxes, dt }: Flow, half: number, point: number): number {
  const po = heads.before[point]!;
  const p = state.point[point]!;
  const at = HALVES * half;
  const { halves } = scratch;
  return (
    (fluxes.gives[half]! * (p - po) + halves[at + 5]! * po * (1 - po / p)) / dt - halves[at + 3]!
  );
}

/**
 * Flux at each face of a pipe and the pressure of each cell, from its start to its end: what
 * `fluxOf` and `spreadAlong` say, in one pass; where no gas heats.
 */
export function spreadFlux(flow: Flow, link: LinkPlan): void {
  const { firstColumn, columns } = link;
  for (let c = firstColumn; c < firstColumn + columns; c++) spreadColumn(flow, c);
  endFluxes(flow, link);
}

function spreadColumn(flow: Flow, c: number): void {
  const { plan, state, scratch, heads, dt } = flow;
  const { point, pressure } = state;
  const { pull, excess, yields } = scratch;
  const { total } = flow.fluxes;
  const { give } = plan;
  const { a, b, cell, cells, half, face } = plan.columns[c]!;
  const least = PRESSURE_MIN; // What is imported is looked up anew at each use.
  const loss = (scratch.weight[c]! + scratch.teePush[c]! - heads.push[c]!) / cells;
  let p = point[a]! + heads.offsetA[c]! - loss / 2;
  let lean = a;
  let q = startOf(flow, c);
  let v = cell;
  for (let end = cell + half; ; end = cell + cells) {
    const po = heads.before[lean]!;
    const moved = (point[lean]! - po) / dt;
    const squeezed = (po * (1 - po / point[lean]!)) / dt;
    for (; v < end; v++) {
      total[face + v - cell] = q;
      const own = pull[v]!;
      const here = p + own / 2;
      pressure[v] = here;
      if (here < least) pressure[v] = least; // A choice of the two would be made on the heap.
      p += own - loss;
      q -= give[v]! * moved + yields[v]! * squeezed - excess[v]!;
    }
    if (end === cell + cells) return;
    const weightB = scratch.halves[HALVES * (2 * c + 1)]!;
    p = point[b]! + heads.offsetB[c]! - weightB + (cells - half - 0.5) * loss;
    lean = b;
  }
}

/** Total flux at each face of a link: its columns' flow at their middles, outward by intake. */
export function fluxOf(flow: Flow, { firstColumn, columns: count }: LinkPlan): void {
  const { columns } = flow.plan;
  const { total } = flow.fluxes;
  const { flowMean } = flow.state;
  for (let c = firstColumn; c < firstColumn + count; c++) {
    const { face, half, cells } = columns[c]!;
    total[face + half] = flowMean[c]!;
    if (cells === 0) continue;
    outward(flow, c, -1);
    outward(flow, c, 1);
  }
}

/**
 * From the middle of a column to its start (step -1) or its end (1), by what the cells take in as
 * the pressure of their point moves.
 */
function outward({ plan, state, scratch, heads, fluxes, dt }: Flow, c: number, step: number): void {
  const { gas, pressure, point } = state;
  const { excess } = scratch;
  const { give } = plan;
  const { total } = fluxes;
  const { a, b, cell, cells, half, face } = plan.columns[c]!;
  const lean = step > 0 ? b : a;
  const po = heads.before[lean]!;
  const p = point[lean]!;
  const moved = (p - po) / dt;
  const { heats } = plan;
  const squeezed = (po * (1 - (heats ? heads.squeeze[lean]! : po / p))) / dt;
  const warm = state.warmth[lean]!;
  const cools = heats ? coolingRate(warm, heads.stays[lean]!, dt) : 0;
  let v = step > 0 ? cell + half : cell + half - 1;
  let f = face + half;
  let q = total[f]!;
  for (let k = step > 0 ? cells - half : half; k > 0; k--) {
    const m = gas[v]!;
    let intake = give[v]! * moved - excess[v]!;
    if (m !== 0) {
      const own = pressure[v]!;
      intake += heats
        ? ((m * warm) / own) * (squeezed / own + cools)
        : (m / (own * own)) * squeezed;
    }
    // Before the middle it has come on top of the flow, beyond the middle it is gone.
    q -= step * intake;
    v += step;
    f += step;
    total[f] = q;
  }
}
