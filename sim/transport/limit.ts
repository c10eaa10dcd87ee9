// Scales the outflow of a fitting or tank to what it holds, each phase by itself, and only where
// one is short. A pipe's cells are looked after where they are moved (split.ts, clear.ts).
import { JUNCTION, TANK, type LinkPlan, type Plan } from '../network/plan.ts';
import type { Flow } from './flow.ts';

/** Share of what is asked that can be given. */
function share(asked: number, held: number): number {
  return asked <= held ? 1 : held / asked;
}

/** Rounds in which what arrives through fittings is counted; a chain of so many is served. */
const ROUNDS = 4;

/**
 * Fittings and tanks. Boundaries never run out; gas of a tank is its bubbles and then air, which
 * tank.ts settles. What arrives in a tick may leave in it: what comes from pipes is settled by
 * now, and what comes from other fittings is at least what they can give as far as is known, so
 * each round allows no less than the last, and never more than there is.
 */
export function limitFittings(flow: Flow): void {
  const { plan, state, moves } = flow;
  const { gas, gasOut, liquid, liquidOut } = moves;
  sumAsked(flow);
  const liquidShort = isShort(plan, moves.liquidAsked, state.mass, true);
  const gasShort = isShort(plan, moves.gasAsked, state.gas, false);
  if (liquidShort) {
    settleShares(plan, {
      amount: liquid,
      asked: moves.liquidAsked,
      held: state.mass,
      out: liquidOut,
      arrived: moves.arrived,
      tanks: true,
    });
    for (let i = 0; i < plan.links.length; i++) scaleEnds(liquid, liquidOut, plan.links[i]!);
  }
  if (gasShort) {
    settleShares(plan, {
      amount: gas,
      asked: moves.gasAsked,
      held: state.gas,
      out: gasOut,
      arrived: moves.arrived,
      tanks: false,
    });
    for (let i = 0; i < plan.links.length; i++) scaleEnds(gas, gasOut, plan.links[i]!);
  }
}

/** One phase: what crosses faces, and of each node what it is asked for, holds, gives, gets. */
interface Phase {
  readonly amount: Float64Array;
  readonly asked: Float64Array;
  readonly held: Float64Array;
  readonly out: Float64Array;
  readonly arrived: Float64Array;
  /** Whether a tank can run out of it. */
  readonly tanks: boolean;
}

function settleShares(plan: Plan, phase: Phase): void {
  const { asked, held, out, arrived, tanks } = phase;
  out.fill(1);
  for (let round = 0; round < ROUNDS; round++) {
    arrivals(plan, phase, round > 0);
    let same = round > 0;
    for (let n = 0; n < plan.nodes.length; n++) {
      if (!canRunOut(plan, n, tanks)) continue;
      const own = share(asked[n]!, held[n]! + arrived[n]!);
      if (own !== out[n]) same = false;
      out[n] = own;
    }
    if (same) return; // The next round would count the same.
  }
}

/** Whether a node can run out. */
function canRunOut({ kinds }: Plan, n: number, tanks: boolean): boolean {
  return kinds[n] === JUNCTION || (tanks && kinds[n] === TANK);
}

/** What arrives at each node: from pipes; from fittings too, as far as their donors can give. */
function arrivals(plan: Plan, { amount, arrived, out }: Phase, fittings: boolean): void {
  arrived.fill(0);
  for (let i = 0; i < plan.links.length; i++) {
    const { from, to, firstFace, cells } = plan.links[i]!;
    if (cells > 0) {
      const back = amount[firstFace]!;
      const on = amount[firstFace + cells]!;
      if (back < 0) arrived[from] = arrived[from]! - back;
      if (on > 0) arrived[to] = arrived[to]! + on;
    } else if (fittings) {
      const x = amount[firstFace]!;
      if (x < 0) arrived[from] = arrived[from]! - x * out[to]!;
      if (x > 0) arrived[to] = arrived[to]! + x * out[from]!;
    }
  }
}

function scaleEnds(
  amount: Float64Array,
  out: Float64Array,
  { from, to, firstFace, cells }: LinkPlan,
): void {
  const end = firstFace + cells;
  if (amount[firstFace]! > 0) amount[firstFace] = amount[firstFace]! * out[from]!;
  if (amount[end]! < 0) amount[end] = amount[end]! * out[to]!;
}

/** What is asked from each fitting and tank. */
function sumAsked({ plan, moves }: Flow): void {
  const { gasAsked, liquidAsked, gas, liquid } = moves;
  gasAsked.fill(0);
  liquidAsked.fill(0);
  for (let i = 0; i < plan.links.length; i++) {
    const { from, to, firstFace, cells } = plan.links[i]!;
    const end = firstFace + cells;
    if (liquid[firstFace]! > 0) liquidAsked[from] = liquidAsked[from]! + liquid[firstFace]!;
    if (gas[firstFace]! > 0) gasAsked[from] = gasAsked[from]! + gas[firstFace]!;
    if (liquid[end]! < 0) liquidAsked[to] = liquidAsked[to]! - liquid[end]!;
    if (gas[end]! < 0) gasAsked[to] = gasAsked[to]! - gas[end]!;
  }
}

/** True where a fitting, or a tank, has less than what is asked from it. */
function isShort(plan: Plan, asked: Float64Array, held: Float64Array, tanks: boolean): boolean {
  for (let n = 0; n < plan.nodes.length; n++) {
    if (asked[n]! > held[n]! && canRunOut(plan, n, tanks)) return true;
  }
  return false;
}
