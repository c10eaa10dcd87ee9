// Water that runs under a standing pocket of a falling reach weighs nothing to what is above: the
// wall carries it, and the gas has one pressure from the pocket's top to its foot. So a cell's gas
// costs the height over which it would stand as a pocket, not its share of the cell's. At rest, in
// level and rising reaches, and of bubbles that ride, it weighs as weigh.ts has it.
// Scheme: weight by the last tick's flow, answered within the tick along its slope, as a friction.
import { clearingVelocity } from '../laws/gas.ts';
import { fullRun, runningShare } from '../laws/layer.ts';
import { min, smoothstep } from '../base/math.ts';
import { COLUMN_LIQUID_STRIDE, type State } from '../state.ts';
import { HALVES, type Scratch } from './net.ts';
import type { Plan } from './plan.ts';

/** Flow over that of a full bore below which nothing is carried that slope would miss. */
const FAINT = 0.01;
/** Gas share of a cell below which all of it rides. */
const RIDES = 1e-3;

/** Takes from a column's weight what walls carry of running layers; sets its answer to the flow. */
export function carryLayers(plan: Plan, state: State, scratch: Scratch, c: number): void {
  const { alpha, pull, halves, shape, weight, layer } = scratch;
  layer[c] = 0;
  const Q = state.flow[c]!;
  const { link, cell, cells, half } = plan.columns[c]!;
  const { area, length, cells: whole } = plan.links[link]!;
  if (Q === 0 || scratch.wet[c] === (length / whole) * cells) return;
  stream.j = (Q < 0 ? -Q : Q) / area;
  stream.nu = state.liquid[c * COLUMN_LIQUID_STRIDE + 1]! / state.liquid[c * COLUMN_LIQUID_STRIDE]!;
  let all = 0;
  for (let v = cell; v < cell + cells; v++) {
    const a = alpha[v]!;
    const drop = shape[3 * v + 2]!;
    if (a < RIDES || drop === 0 || drop > 0 !== Q > 0) continue;
    const carried = carriedShare(plan, v, a) * state.density[v]! * drop;
    pull[v] = pull[v]! - carried;
    const at = HALVES * (v < cell + half ? 2 * c : 2 * c + 1);
    halves[at] = halves[at]! - carried;
    all += carried;
  }
  if (all === 0) return;
  weight[c] = weight[c]! - all;
  layer[c] = all / Q;
}

/** m/s over the whole bore, and m2/s, of the column that is looked at. */
const stream = { j: 0, nu: 0 };

/** Share of a full cell's weight that the wall carries, beyond that of its gas. */
function carriedShare(plan: Plan, v: number, a: number): number {
  const { j, nu } = stream;
  const sec = plan.section[v]!;
  const { lo, hi, D, Up, sinTheta } = sec;
  const pocket = smoothstep((a - lo) / (hi - lo));
  if (pocket === 0) return 0;
  const fall = sinTheta < 0 ? -sinTheta : sinTheta;
  const x = j / fullRun(D, fall, j, nu);
  if (x >= 1) return 0; // No layer runs that much: the bore is full.
  // Of a pocket that moves with the flow only what the water runs past it.
  const clears = clearingVelocity(sec, (a * plan.cellLength[v]!) / D);
  const fast = clears / j;
  const goes = fast >= 1 ? 0 : j - Up - (clears - Up) * fast * fast;
  const stands = goes <= 0 ? 1 : goes >= j ? 0 : 1 - goes / j;
  const water = runningShare(x, fall) * (x / (x + FAINT));
  const more = (a * water) / (1 - water);
  return pocket * stands * (1 - x * x) * min(1 - a, more);
}
