// The most gas that a column lets through in a tick: what the smaller volume beside it holds. At
// tens to hundreds of metres a second, what is carried explicitly would be many times what is
// there. Water, whose ways the solver follows implicitly, is not held back by it.
import { min } from '../base/math.ts';
import type { Scratch } from './net.ts';
import { JUNCTION, type Plan } from './plan.ts';

/** m3/s, and the room, m3, of a boundary or of what is not there: no bound. */
export const ENDLESS = 1e9;

/** m3/s of gas in each column, either way: its own cell a tick. A fitting looks at pipes beside. */
export function mostGas(plan: Plan): Float64Array {
  const beside = plan.nodes.map(() => ENDLESS);
  for (const { from, to, cells, firstCell } of plan.links) {
    if (cells === 0) continue;
    for (const n of [from, to]) beside[n] = min(beside[n]!, plan.room[firstCell]!);
  }
  return Float64Array.from(plan.columns, ({ a, b, cells, cell }) => {
    const own = cells === 0 ? min(beside[a]!, beside[b]!) : plan.room[cell]!;
    return own / plan.scenario.solver.tick_s;
  });
}

/** Gas share that is taken for none. */
const HAZE = 1e-6;

/** m3/s of anything that column c lets through freely, by the greatest gas share at its ends. */
export function mostFlow(plan: Plan, { alpha }: Scratch, c: number, gas: number): number {
  const { a, b, cell, cells } = plan.columns[c]!;
  let share = 0;
  if (cells > 0) {
    share = alpha[cell]!;
    if (alpha[cell + cells - 1]! > share) share = alpha[cell + cells - 1]!;
  }
  const { kinds } = plan;
  const nodes = plan.nodes.length;
  if (a < nodes && kinds[a] === JUNCTION && alpha[a]! > share) share = alpha[a]!;
  if (b < nodes && kinds[b] === JUNCTION && alpha[b]! > share) share = alpha[b]!;
  return share > HAZE ? gas / share : ENDLESS;
}
