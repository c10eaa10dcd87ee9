// Gas share of one volume as its contents are now: the law of weigh.ts, to the bit, for eyes that
// look at a few volumes between two ticks.
import { min } from '../base/math.ts';
import { P_ATM } from '../base/units.ts';
import type { State } from '../state.ts';
import type { Scratch } from './net.ts';
import { JUNCTION, type Plan } from './plan.ts';

/** Boundaries and tanks give liquid. */
export function shareNow(plan: Plan, state: State, { shape }: Scratch, v: number): number {
  const gas = state.gas[v]!;
  const p = state.pressure[v]!;
  if (v < plan.nodes.length) {
    if (plan.kinds[v] !== JUNCTION || gas === 0) return 0;
    const stretched = plan.room[v]! + plan.give[v]! * (p - P_ATM);
    return min(1, (gas * state.warmth[v]!) / p / stretched);
  }
  if (gas === 0) return 0;
  const stretched = shape[3 * v]! + shape[3 * v + 1]! * (p - P_ATM);
  const per = 1 / p;
  return min(1, (gas * state.warmth[plan.leans[v]!]! * per) / stretched);
}
