// Handles that do not turn as a hand wants: how far one gets, and when the hand gives up.
import { max, min } from '../base/math.ts';
import type { Plan } from '../network/plan.ts';
import type { State } from '../state.ts';
import { DEFECT_STRIDE, FIRST, LEVEL } from './types.ts';

/** s. How long a hand pushes at what does not move [common practice, no source]. */
const PUSHES_S = 3;

/** Where the control of link `ix` gets on its way to `wanted`. */
export function farthest(plan: Plan, state: State, ix: number, wanted: number): number {
  const k = ix < plan.links.length ? plan.defects.stuck[ix]! : -1;
  if (k < 0 || state.defect[k * DEFECT_STRIDE + LEVEL] === 0) return wanted;
  const { spec } = plan.defects.timed[k]!;
  const now = state.control[ix]!;
  if (spec.kind !== 'stuck_valve' || spec.stop_deg === undefined) return now;
  // Past its stop it comes back, but not farther out.
  if (spec.turns === 'below') return wanted > now ? min(wanted, max(now, spec.stop_deg)) : wanted;
  return wanted < now ? max(wanted, min(now, spec.stop_deg)) : wanted;
}

/** True once a hand has pushed long enough at the handle of link `ix` that is stuck. */
export function givesUp(plan: Plan, state: State, ix: number, dt: number): boolean {
  const at = plan.defects.stuck[ix]! * DEFECT_STRIDE + FIRST;
  const pushed = state.defect[at]! + dt;
  state.defect[at] = pushed >= PUSHES_S ? 0 : pushed;
  return pushed >= PUSHES_S;
}
