// What the solver of pressures works with, made once for a plan: which points are unknown, which
// columns couple them, and room for the numbers of a tick. Leaves solving to heads.ts.
import { besideColumns, mostGas } from './choke.ts';
import { makeFactor } from './matrix.ts';
import type { Heads } from './net.ts';
import type { Plan } from './plan.ts';
import { isStroked, STROKED } from './stroke.ts';

/** For a plan; nothing in it is state. */
export function makeHeads(plan: Plan): Heads {
  const unknown = new Int32Array(plan.points).fill(-1);
  let count = 0;
  for (let p = 0; p < plan.points; p++) {
    if (p >= plan.nodes.length || !plan.nodes[p]!.fixed) unknown[p] = count++;
  }
  const edges: [number, number][] = [];
  const n = plan.columns.length;
  const edge = new Int32Array(n).fill(-1);
  plan.columns.forEach((column, c) => {
    const a = unknown[column.a]!;
    const b = unknown[column.b]!;
    if (a >= 0 && b >= 0 && a !== b) edge[c] = edges.push([a, b]) - 1;
  });
  const factor = makeFactor(count, edges);
  return {
    factor,
    unknown,
    slot: edge.map((e) => (e < 0 ? -1 : factor.edgeSlot[e]!)),
    rhs: new Float64Array(count),
    gain: new Float64Array(n),
    q0: new Float64Array(n),
    drive: new Float64Array(n),
    at: new Float64Array(n),
    push: new Float64Array(n),
    slope: new Float64Array(n),
    columnA: Int32Array.from(plan.columns, (c) => c.a),
    columnB: Int32Array.from(plan.columns, (c) => c.b),
    columnLength: Float64Array.from(plan.columns, (c) =>
      c.cells === 0 ? 0 : plan.links[c.link]!.length * c.share,
    ),
    columnLink: Int32Array.from(plan.columns, (c) => c.link),
    columnPump: Int32Array.from(plan.columns, (c) => plan.links[c.link]!.pump),
    imposed: Uint8Array.from(plan.columns, (c) =>
      plan.links[c.link]!.spec.kind === 'fixed_flow' ? 1 : isStroked(plan, c.link) ? STROKED : 0,
    ),
    beside: besideColumns(plan),
    mostGas: mostGas(plan),
    most: new Float64Array(n),
    ua: Int32Array.from(plan.columns, (c) => unknown[c.a]!),
    ub: Int32Array.from(plan.columns, (c) => unknown[c.b]!),
    theta: new Float64Array(n),
    offsetA: new Float64Array(n),
    offsetB: new Float64Array(n),
    before: new Float64Array(plan.points),
    start: new Float64Array(plan.points),
    gasShare: new Float64Array(plan.points),
    exponent: new Float64Array(plan.points).fill(1),
    stays: new Float64Array(plan.points),
    squeeze: new Float64Array(plan.points).fill(1),
    gasNow: new Float64Array(plan.points),
  };
}
