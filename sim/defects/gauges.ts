// Needles that do not tell the truth: off, sticking, dead, slow, or of the wrong scale. What they
// are held against stays as it is; only what is shown changes.
import { abs, min } from '../base/math.ts';
import type { Plan } from '../network/plan.ts';
import type { State } from '../state.ts';
import { scaleOf } from './drawn.ts';
import { DEFECT_STRIDE, FIRST, LEVEL } from './types.ts';

/** An instrument by its number, what it is held against, SI, its lag and the time gone by, s. */
interface Needle {
  readonly i: number;
  readonly truth: number;
  readonly lag: number;
  readonly dt: number;
}

/** Moves what a needle shows. */
export function followNeedle(plan: Plan, state: State, { i, truth, lag: own, dt }: Needle): void {
  const { gauges, timed, errors } = plan.defects;
  const scale = scaleOf(plan.scenario.instruments[i]!);
  let goal = truth;
  let lag = own;
  let sticks = -1;
  let off = errors[i]!;
  for (const k of gauges[i]!) {
    const { spec } = timed[k]!;
    const level = state.defect[k * DEFECT_STRIDE + LEVEL]!;
    if (level === 0) continue;
    if (spec.kind === 'gauge_offset') off += level * spec.by_share * scale.range;
    if (spec.kind === 'meter_scale') goal *= 1 + level * (spec.factor - 1);
    if (spec.kind === 'gauge_slow') lag += level * spec.lag_s;
    if (spec.kind === 'gauge_sticks') sticks = k;
    if (spec.kind === 'gauge_dead') {
      if (spec.at_share !== undefined) state.shown[i] = scale.from + spec.at_share * scale.range;
      return;
    }
  }
  goal += off;
  if (sticks >= 0 && held(plan, state, { k: sticks, i, goal, range: scale.range })) return;
  state.shown[i]! += (lag === 0 ? 1 : min(1, dt / (lag + dt))) * (goal - state.shown[i]!);
}

/** What a counter counts of what passes: less by a wrong scale, nothing once it is dead. */
export function countedOf({ defects }: Plan, state: State, i: number): number {
  let share = 1;
  for (const k of defects.gauges[i]!) {
    const { spec } = defects.timed[k]!;
    const level = state.defect[k * DEFECT_STRIDE + LEVEL]!;
    if (spec.kind === 'meter_scale') share *= 1 + level * (spec.factor - 1);
    if (spec.kind === 'gauge_dead' && level > 0) return 0;
  }
  return share;
}

/** Of its band: so near to where it should stand a needle on its way sticks again. */
const SETTLES = 0.01;

/** Whether friction holds a needle: it jumps free of its band, and sticks where it arrives. */
function held(
  { defects }: Plan,
  state: State,
  { k, i, goal, range }: { k: number; i: number; goal: number; range: number },
): boolean {
  const { spec } = defects.timed[k]!;
  if (spec.kind !== 'gauge_sticks') return false;
  const at = k * DEFECT_STRIDE;
  const band = state.defect[at + LEVEL]! * spec.band_share * range;
  const far = abs(goal - state.shown[i]!);
  if (far > band) state.defect[at + FIRST] = 1;
  else if (far <= SETTLES * band) state.defect[at + FIRST] = 0;
  return state.defect[at + FIRST] === 0;
}

/** A knuckle on the glass of instrument `i`: a needle that sticks comes free. */
export function tapNeedle({ defects }: Plan, state: State, i: number): void {
  for (const k of defects.gauges[i]!) {
    if (defects.timed[k]!.spec.kind === 'gauge_sticks') state.defect[k * DEFECT_STRIDE + FIRST] = 1;
  }
}
