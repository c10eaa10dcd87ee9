// Hand pumps in the network: while a hand works one, it gives what the stroke gives, less and less
// from a little below the most that the arm can push against. Leaves the hand to hands.ts.
import { G } from '../base/units.ts';
import type { Net } from './net.ts';
import type { Plan } from './plan.ts';

/** How `imposed` marks a hand pump's column. */
export const STROKED = 2;

/** Share of the most pressure over which the flow falls: full below, half at it, none above. */
const BAND = 0.1;

export function isStroked(plan: Plan, link: number): boolean {
  return plan.links[link]!.spec.kind === 'hand_pump';
}

/** Pa. What an arm can push at the rate of a stroke: valves take their part of it. */
export function armsMost(plan: Plan, link: number, rate: number): number {
  const { spec, area } = plan.links[link]!;
  if (spec.kind !== 'hand_pump') return 0;
  const v = rate / area;
  return spec.max_kPa * 1000 - 0.5 * spec.loss_k * plan.water.rho * v * v;
}

/** Where the last pass of a step found a hand pump's column; kept where others keep a flow. */
const FULL = -1;
const FALLING = -2;
const HELD = -3;

/**
 * Flow of a hand pump's column by the pressure against it, Pa: the full rate, then a line that
 * falls to nothing. The line goes on below nothing, so that a pass that came from the full rate
 * finds its point on it; where that point is below nothing, the check valves hold in the next.
 */
export function strokeLine({ plan, state, heads }: Net, c: number): void {
  const { columnA, columnB, columnLink, offsetA, offsetB, gain, q0, theta, at } = heads;
  const link = columnLink[c]!;
  const { zFrom, zTo, from } = plan.links[link]!;
  const a = columnA[c]!;
  const b = columnB[c]!;
  const rate = state.stroke[plan.mix.strokeOf[link]!]!;
  const lift = state.density[from]! * G * (zTo - zFrom) + offsetB[c]! - offsetA[c]!;
  const most = armsMost(plan, link, rate);
  const band = BAND * most;
  const none = most + 0.5 * band;
  theta[c] = 1; // What a stroke gives comes in its own tick.
  const against = state.point[b]! - state.point[a]! + lift;
  if (against < none - band) at[c] = FULL;
  else at[c] = against <= none || at[c]! > FALLING ? FALLING : HELD;
  const falling = at[c] === FALLING;
  gain[c] = falling ? rate / band : 0;
  q0[c] = falling ? (rate / band) * (none - lift) : at[c] === FULL ? rate : 0;
}
