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

/**
 * Flow of a hand pump's column by the pressure against it, Pa: one line that is cut at the full
 * rate. Beyond it the line goes on below nothing, so that the passes find their point on it; the
 * check valves hold where a step begins beyond.
 */
export function strokeLine({ plan, state, heads }: Net, c: number): void {
  const { columnA, columnB, columnLink, offsetA, offsetB, gain, q0, theta, before } = heads;
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
  const held = before[b]! - before[a]! + lift > none;
  const free = against < none - band;
  gain[c] = held || free ? 0 : rate / band;
  q0[c] = held ? 0 : free ? rate : (rate / band) * (none - lift);
}
