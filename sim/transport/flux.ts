// Volume flux of everything at every face: a column's flow at its middle, and outward from there
// by what each cell takes in as it is squeezed, stretched or put right.
import { DRIFT } from '../laws/gas.ts';
import type { Plan } from '../network/plan.ts';
import type { Flow, Fluxes } from './flow.ts';

export function makeFluxes(plan: Plan): Fluxes {
  const volumes = () => new Float64Array(plan.volumes);
  return {
    total: new Float64Array(plan.faces),
    offered: new Float64Array(2 * plan.faces),
    out: new Float64Array(DRIFT.size),
    intake: volumes(),
    riding: volumes(),
    ahead: volumes(),
    back: volumes(),
  };
}

/** Total flux at each face: the column's flow at its middle, outward by each cell's intake. */
export function totalFlux(flow: Flow): void {
  const { plan, state, fluxes } = flow;
  const { total, intake } = fluxes;
  for (let c = 0; c < plan.columns.length; c++) {
    const { face, half, cells, cell, a, b } = plan.columns[c]!;
    const shift = face - cell;
    total[face + half] = state.flowMean[c]!;
    takeIn(flow, a, cell, cell + half);
    for (let v = cell + half - 1; v >= cell; v--) {
      total[shift + v] = total[shift + v + 1]! + intake[v]!;
    }
    takeIn(flow, b, cell + half, cell + cells);
    for (let v = cell + half; v < cell + cells; v++) {
      total[shift + v + 1] = total[shift + v]! - intake[v]!;
    }
  }
}

/** m3/s that the cells from `first` to before `end` take in, as their point's pressure moves. */
function takeIn(flow: Flow, lean: number, first: number, end: number): void {
  const { plan, state, scratch, heads, dt } = flow;
  const { gas, pressure } = state;
  const { excess } = scratch;
  const { give } = plan;
  const { intake } = flow.fluxes;
  const po = heads.before[lean]!;
  const p = state.point[lean]!;
  const moved = (p - po) / dt;
  const squeezed = (po * (1 - po / p)) / dt;
  for (let v = first; v < end; v++) {
    const m = gas[v]!;
    const own = pressure[v]!;
    const wall = give[v]! * moved - excess[v]!;
    intake[v] = m === 0 ? wall : wall + (m / (own * own)) * squeezed;
  }
}
