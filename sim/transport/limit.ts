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
  if (!fittingsShort(flow)) return;
  settleShares(plan, {
    amount: liquid,
    asked: moves.liquidAsked,
    held: state.mass,
    out: liquidOut,
    arrived: moves.arrived,
    tanks: true,
  });
  settleShares(plan, {
    amount: gas,
    asked: moves.gasAsked,
    held: state.gas,
    out: gasOut,
    arrived: moves.arrived,
    tanks: false,
  });
  for (let i = 0; i < plan.links.length; i++) scaleEnds(flow, plan.links[i]!);
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
  for (let round = 0; round < ROUNDS; round++) {
    arrivals(plan, phase, round > 0);
    for (let n = 0; n < plan.nodes.length; n++) {
      const kind = plan.kinds[n]!;
      const finite = kind === JUNCTION || (tanks && kind === TANK);
      out[n] = finite ? share(asked[n]!, held[n]! + arrived[n]!) : 1;
    }
  }
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

function scaleEnds({ moves }: Flow, { from, to, firstFace, cells }: LinkPlan): void {
  const { gasOut, liquidOut, gas, liquid } = moves;
  const end = firstFace + cells;
  if (liquid[firstFace]! > 0) liquid[firstFace] = liquid[firstFace]! * liquidOut[from]!;
  if (gas[firstFace]! > 0) gas[firstFace] = gas[firstFace]! * gasOut[from]!;
  if (liquid[end]! < 0) liquid[end] = liquid[end]! * liquidOut[to]!;
  if (gas[end]! < 0) gas[end] = gas[end]! * gasOut[to]!;
}

/** Sums what is asked from each fitting and tank; true where one has less. */
function fittingsShort(flow: Flow): boolean {
  const { plan, state, moves } = flow;
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
  for (let n = 0; n < plan.nodes.length; n++) {
    const kind = plan.kinds[n]!;
    if (kind === JUNCTION && gasAsked[n]! > state.gas[n]!) return true;
    if ((kind === JUNCTION || kind === TANK) && liquidAsked[n]! > state.mass[n]!) return true;
  }
  return false;
}
