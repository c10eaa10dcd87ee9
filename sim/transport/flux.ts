// Volume flux of everything at every face: a column's flow at its middle, and outward from there
// by what each cell takes in as it is squeezed, stretched or put right.
import { DRIFT } from '../laws/gas.ts';
import type { LinkPlan, Plan } from '../network/plan.ts';
import { coolingRate } from '../network/warmth.ts';
import { givesOf } from './clear.ts';
import { SENT, type Flow, type Fluxes } from './flow.ts';

export function makeFluxes(plan: Plan): Fluxes {
  return {
    total: new Float64Array(plan.faces),
    offered: new Float64Array(2 * plan.faces),
    out: new Float64Array(DRIFT.size),
    gives: givesOf(plan),
    sent: new Float64Array(SENT * plan.volumes),
    layers: new Float64Array(plan.volumes),
  };
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
