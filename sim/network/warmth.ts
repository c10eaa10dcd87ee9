// Gas that warms when it is squeezed and cools when it is let go, point by point: fast moves find
// it stiff, slow ones as if it kept the ground's temperature. Only volumes change: what is booked
// is the amount. Heat that gas carries from point to point is left out: it takes the new point's.
// Scheme: dT/T = (1 - 1/1.4) dp/p and a first-order return, both within one implicit tick.
import { max, min } from '../base/math.ts';
import { coolingTime, HEAT_SHARE } from '../laws/elastic.ts';
import type { State } from '../state.ts';
import type { Net, Scratch } from './net.ts';
import type { ColumnPlan, LinkPlan, NodePlan, Plan } from './plan.ts';

/** Bounds of temperature over the ground's, far beyond any that is met: guards of the scheme. */
const COLDEST = 0.3;
const HOTTEST = 4;

/**
 * V2/V1 of gas at r = p1/p2 and exponent 1/a: r^a by the fraction that is r for a = 1, rises and
 * is above nothing for every r; 4e-6 off where a pressure moves by 5 %, within one step.
 */
export function squeezeBy(r: number, a: number): number {
  return ((1 + a) * r + (1 - a)) / ((1 - a) * r + (1 + a));
}

/** Its slope by r. */
export function squeezeSlope(r: number, a: number): number {
  const below = (1 - a) * r + (1 + a);
  return (4 * a) / (below * below);
}

/** s/Pa. Cooling time of a pocket that fills the bore, by its pressure: at each point. */
export function coolingOf(
  nodes: readonly NodePlan[],
  links: readonly LinkPlan[],
  columns: readonly ColumnPlan[],
  points: number,
): Float64Array {
  const bore = new Float64Array(points);
  for (const { a, b, link } of columns) {
    for (const p of [a, b]) bore[p] = max(bore[p]!, links[link]!.bore);
  }
  return bore.map((D, p) => (p < nodes.length && nodes[p]!.fixed ? 0 : coolingTime(D, 1)));
}

/**
 * Before the pressures are solved: the exponent that each point's gas answers with in this tick,
 * and what it shrinks as it cools, as a source. A layer is as much faster to cool as it is thinner
 * [fit: thickness by gas share], so that bubbles keep the water's temperature.
 */
export function beginWarmth({ plan, state, scratch, heads, dt }: Net): void {
  const { gasC, pocket, source } = scratch;
  const { exponent, stays, squeeze } = heads;
  const { warmth, point } = state;
  squeeze.fill(1);
  for (let p = 0; p < plan.points; p++) {
    exponent[p] = 1;
    stays[p] = 0;
    const C = gasC[p]!;
    if (C === 0) continue;
    const V = C * point[p]!;
    const tau = min(1, pocket[p]! / V) * plan.cooling[p]! * point[p]!;
    const stay = tau / (tau + dt);
    stays[p] = stay;
    exponent[p] = 1 - HEAT_SHARE * stay;
    source[p] = source[p]! - V * coolingRate(warmth[p]!, stay, dt);
  }
}

/** 1/s. Share of its room by which gas shrinks as it cools at a standing pressure. */
export function coolingRate(warmth: number, stay: number, dt: number): number {
  return ((1 - stay) * (warmth - 1)) / (warmth * dt);
}

/** After pressures are known: temperatures, and what a cubic metre of each node's gas is. */
export function settleWarmth(net: Net): void {
  const { plan, state, heads } = net;
  const { warmth, point } = state;
  const { stays, squeeze, start } = heads;
  for (let p = 0; p < plan.points; p++) {
    const left = 1 + stays[p]! * (warmth[p]! - 1);
    const now = stays[p] === 0 ? 1 : (left * squeeze[p]! * point[p]!) / start[p]!;
    warmth[p] = max(COLDEST, min(HOTTEST, now));
  }
  warmRoom(net, 0, plan.nodes.length);
}

/** What a cubic metre of gas is in each of some volumes, once their pressure is known. */
export function warmRoom({ plan, state, scratch }: Net, first: number, end: number): void {
  const { leans } = plan;
  const { pressure, warmth } = state;
  const { perRoom } = scratch;
  for (let v = first; v < end; v++) perRoom[v] = pressure[v]! / warmth[leans[v]!]!;
}

/** J in a cubic metre of each volume's gas at the tick's end. */
export function gasPerRoom(plan: Plan, state: State, scratch: Scratch): Float64Array {
  return plan.heats ? scratch.perRoom : state.pressure;
}
