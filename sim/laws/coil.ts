// Loss of a heat exchanger, a coil or any part of which only a table of loss by flow is known.
import { sqrt } from '../base/math.ts';

/** m3/s. Flow below which the loss turns straight, so that its slope is finite at rest. */
const STRAIGHT_BELOW = 1e-6;

/** Rising pairs of flow, m3/s, and loss, Pa, as flat lists of equal length, at least one. */
export interface LossTable {
  readonly flow: readonly number[];
  readonly loss: readonly number[];
}

/**
 * Straight in Q|Q| between the table's points, from nothing at rest, beyond the last point by
 * the square of the flow: what a turbulent passage does. [common practice, no source]
 * out[0] = Pa with the sign of Q (m3/s), out[1] = slope in Pa s/m3, positive for every Q.
 */
export function tableLoss(Q: number, table: LossTable, out: Float64Array): void {
  const r = sqrt(Q * Q + STRAIGHT_BELOW * STRAIGHT_BELOW);
  const square = Q * Q;
  const { flow, loss } = table;
  const last = flow.length - 1;
  let at = 0;
  while (at < last && square > flow[at]! * flow[at]!) at += 1;
  const q1 = flow[at]! * flow[at]!;
  const q0 = at === 0 ? 0 : flow[at - 1]! * flow[at - 1]!;
  const p0 = at === 0 ? 0 : loss[at - 1]!;
  const beyond = at === last && square > q1;
  const k = beyond ? loss[last]! / q1 : (loss[at]! - p0) / (q1 - q0);
  const offset = beyond ? 0 : p0 - k * q0;
  // offset * sign(Q) is only met where |Q| stands above the first point.
  out[0] = k * Q * r + (Q > 0 ? offset : -offset);
  out[1] = k * (r + square / r);
}
