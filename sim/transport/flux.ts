// Volume flux of everything at every face: a column's flow at its middle, and outward from there
// by what each cell takes in as it is squeezed, stretched or put right.
import { DRIFT } from '../laws/gas.ts';
import type { Heads } from '../network/heads.ts';
import type { Plan } from '../network/plan.ts';
import type { Scratch } from '../network/weigh.ts';
import type { State } from '../state.ts';
import type { Moves } from './carry.ts';

export interface Fluxes {
  /** m3/s of everything through each face, along from -> to. */
  readonly total: Float64Array;
  /** Gas share that a boundary offers to a face that draws from it; from side, to side. */
  readonly offered: Float64Array;
  readonly out: Float64Array;
  /** Per volume: what it takes in beyond the flow, m3/s. */
  readonly intake: Float64Array;
  /**
   * Per volume: gas that rides with a flow of 1 m/s; gas that its slip sends ahead (towards the
   * end) and back, m/s. Above zero the slip goes that way, into what room there is; below zero
   * it holds back what the flow would carry.
   */
  readonly riding: Float64Array;
  readonly ahead: Float64Array;
  readonly back: Float64Array;
}

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

/** What moving the contents needs; a world is one. */
export interface Flow {
  readonly plan: Plan;
  readonly state: State;
  readonly scratch: Scratch;
  readonly fluxes: Fluxes;
  readonly heads: Heads;
  readonly moves: Moves;
  readonly dt: number;
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
