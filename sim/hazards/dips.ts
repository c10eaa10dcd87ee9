// Hands in antifreeze away from couplings and drains: with a cup of it, or a pail.
import { BUSY, firstDevice, HANDS_STRIDE, REACH, TARGET } from '../hands.ts';
import type { Plan } from '../network/plan.ts';
import { takeOf } from '../scenario-devices.ts';
import { CUP_STRIDE, type State } from '../state.ts';

/** Antifreeze by mass from which on liquid counts as such [common practice, no source]. */
export const MIXED_ABOVE = 0.05;

/** True while a pair fills or empties a cup of antifreeze, or carries it; not on the way there. */
export function dips(plan: Plan, state: State, pair: number): boolean {
  const { hands, fraction } = state;
  const at = pair * HANDS_STRIDE;
  const device = hands[at + BUSY]! - firstDevice(plan);
  const spec = plan.scenario.devices[device];
  if (spec === undefined || hands[at + REACH]! > takeOf(spec)) return false;
  const carry = plan.mix.carries[plan.mix.carryOf[device]!];
  if (carry !== undefined) return fraction[carry.from]! > MIXED_ABOVE;
  const ix = plan.mix.cupOf[device]!;
  if (ix < 0) return false;
  const place = hands[at + TARGET]! - 1;
  if (place < 0) return state.cup[ix * CUP_STRIDE + 1]! > MIXED_ABOVE;
  return fraction[plan.mix.cups[ix]!.places[place]!]! > MIXED_ABOVE;
}
