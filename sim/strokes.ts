// A hand at a hand pump: stroke by stroke, until those asked for are done or the arm can do no
// more. A pump's control counts the strokes of the last command.
import { P_ATM } from './base/units.ts';
import type { HeldBy } from './fact.ts';
import { endPressure } from './network/columns.ts';
import type { LinkPlan, Plan } from './network/plan.ts';
import { armsMost, isStroked } from './network/stroke.ts';
import type { State } from './state.ts';

/** Strokes. Less is the rounding of a tenth of a second. */
const DONE = 1e-9;

export function beginStrokes(plan: Plan, state: State, link: number): void {
  if (isStroked(plan, link)) state.control[link] = 0;
}

function strokeOf({ spec }: LinkPlan): { rate: number; time: number } {
  if (spec.kind !== 'hand_pump') return { rate: 0, time: 1 };
  return { rate: spec.stroke_mL / 1e6 / spec.stroke_s, time: spec.stroke_s };
}

/** `too_hard` where more stands behind the pump than an arm can push against. */
export function canStroke(plan: Plan, state: State, link: number): HeldBy | null {
  if (link >= plan.links.length || plan.mix.strokeOf[link]! < 0) return null;
  const { firstColumn } = plan.links[link]!;
  const behind = endPressure(plan, state, firstColumn, false) - P_ATM;
  return behind >= armsMost(plan, link, strokeOf(plan.links[link]!).rate) ? 'too_hard' : null;
}

/** One tick of it; the count when those asked for are done, else null. */
export function stroke(
  plan: Plan,
  state: State,
  work: { link: number; target: number; dt: number },
): number | null {
  const { link, target, dt } = work;
  const { rate, time } = strokeOf(plan.links[link]!);
  const left = target - state.control[link]!;
  const share = dt / time;
  const now = left < share ? left : share;
  if (now > DONE) state.stroke[plan.mix.strokeOf[link]!] = (rate * now) / share;
  state.control[link] = left - now < DONE ? target : state.control[link]! + now;
  return state.control[link]! >= target ? target : null;
}
