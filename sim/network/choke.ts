// The most that a column lets through in a tick: what the smaller volume beside it holds. Water
// never comes near it; gas would, at tens to hundreds of metres a second, and what is carried
// explicitly would then be many times what is there. So a filled pipe vents at a cell a tick.
import { min } from '../base/math.ts';
import type { Plan } from './plan.ts';

/** A boundary, or what is not there, holds any amount. */
const ENDLESS = 1e9;

/** m3/s of each column, either way. A fitting also looks at the pipes that begin beside it. */
export function mostFlow(plan: Plan): Float64Array {
  const holds = plan.nodes.map((node) => (node.fixed ? ENDLESS : node.volume));
  const beside = [...holds];
  for (const { from, to, cells, firstCell } of plan.links) {
    if (cells === 0) continue;
    for (const n of [from, to]) {
      if (!plan.nodes[n]!.fixed) beside[n] = min(beside[n]!, plan.room[firstCell]!);
    }
  }
  return Float64Array.from(plan.columns, ({ a, b, cells, cell }) => {
    const own = cells === 0 ? ENDLESS : plan.room[cell]!;
    const ends = cells === 0 ? beside : holds;
    return min(own, min(ends[a] ?? ENDLESS, ends[b] ?? ENDLESS)) / plan.scenario.solver.tick_s;
  });
}
