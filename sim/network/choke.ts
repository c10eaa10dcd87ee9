// The most gas that a column lets through in a tick: what the smaller volume beside it holds. At
// tens to hundreds of metres a second, what is carried explicitly would be many times what is
// there. Water, whose ways the solver follows implicitly, is not held back by it.
import { min } from '../base/math.ts';
import type { Heads, Scratch } from './net.ts';
import { JUNCTION, type Plan } from './plan.ts';

/** m3/s, and the room, m3, of a boundary or of what is not there: no bound. */
const ENDLESS = 1e9;

/** m3/s of gas in each column, either way: its own cell a tick. A fitting looks at pipes beside. */
export function mostGas(plan: Plan): Float64Array {
  const beside = plan.nodes.map(() => ENDLESS);
  for (const { from, to, cells, firstCell } of plan.links) {
    if (cells === 0) continue;
    for (const n of [from, to]) beside[n] = min(beside[n]!, plan.room[firstCell]!);
  }
  return Float64Array.from(plan.columns, ({ a, b, cells, cell }) => {
    const own = cells === 0 ? min(beside[a]!, beside[b]!) : plan.room[cell]!;
    return own / plan.tick;
  });
}

/** Per column: the volumes whose gas it can let through, four at most; -1 where there are less. */
export function besideColumns({ columns, nodes, kinds }: Plan): Int32Array {
  const holds = (n: number): number => (n < nodes.length && kinds[n] === JUNCTION ? n : -1);
  return Int32Array.from(
    columns.flatMap(({ a, b, cell, cells }) => {
      const own = cells > 0 ? [cell, cell + cells - 1] : [-1, -1];
      return [...own, holds(a), holds(b)];
    }),
  );
}

/** Gas share that is taken for none. */
const HAZE = 1e-6;

/** m3/s of anything that each column lets through freely, by the greatest gas share at its ends. */
export function mostFlow({ alpha }: Scratch, { beside, most, mostGas, imposed }: Heads): void {
  for (let c = 0; c < most.length; c++) {
    let share = 0;
    for (let k = 4 * c; k < 4 * c + 4; k++) {
      const v = beside[k]!;
      if (v >= 0 && alpha[v]! > share) share = alpha[v]!;
    }
    most[c] = ENDLESS;
    if (share > HAZE && imposed[c] === 0) most[c] = mostGas[c]! / share;
  }
}
