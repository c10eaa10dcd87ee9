// How far each link stands open: valves by their handle, legs of a three-way valve by where the
// ball's passages lie, check valves by the flow itself, couplings by whether they are joined.
// Leaves losses to columns.ts and what hands do to hands.ts.
import { abs, max, min } from '../base/math.ts';
import { G } from '../base/units.ts';
import { SHUT_DEG } from '../laws/fitting.ts';
import type { State } from '../state.ts';
import { endPressure } from './columns.ts';
import type { PartSpec } from './expand.ts';
import type { LinkPlan, Plan } from './plan.ts';
import type { Scratch } from './net.ts';

export const FULL_DEG = 90;

/** Passages of a T-port ball with its handle at 0, degrees on its circle. */
const PASSAGES = [0, 90, 180] as const;

/** Degrees open, 0..90, of the end at `at` with the handle at `handle`. */
export function portOpening(at: number, handle: number): number {
  let nearest = 360;
  for (const passage of PASSAGES) {
    const turn = abs(passage + handle - at) % 360;
    nearest = min(nearest, min(turn, 360 - turn));
  }
  return max(0, FULL_DEG - nearest);
}

/** True for links that do not always stand open. */
export function turns(spec: PartSpec): boolean {
  switch (spec.kind) {
    case 'valve':
    case 'leg':
    case 'check_valve':
    case 'coupling':
    case 'gap':
    case 'hole':
    case 'hand_pump':
      return true;
    default:
      return false;
  }
}

/** Degrees open, 0..90, of a link as its control stands. */
export function openingOf(plan: Plan, state: State, ix: number): number {
  const link = plan.links[ix]!;
  const at = state.control[link.control]!;
  switch (link.spec.kind) {
    case 'valve':
      return at;
    case 'leg':
      return portOpening(link.spec.at_deg, at);
    case 'check_valve':
      return at > 0.5 ? FULL_DEG : 0;
    case 'coupling':
      return at > 0.5 ? FULL_DEG : 0;
    case 'gap':
      return at > 0.5 ? 0 : FULL_DEG;
    case 'hole':
      return at > 0 ? FULL_DEG : 0;
    case 'hand_pump': // Its check valves part the two sides but while it is worked.
      return state.stroke[plan.mix.strokeOf[ix]!]! > 0 ? FULL_DEG : 0;
    default:
      return FULL_DEG;
  }
}

/** Before a tick's flows: check valves answer to the last tick, then openings are written. */
export function setOpenings(plan: Plan, state: State, scratch: Scratch): void {
  for (const ix of plan.turning) {
    const link = plan.links[ix]!;
    if (link.spec.kind === 'check_valve') answer(plan, state, link, link.spec.opens_at_kPa * 1000);
    scratch.open[ix] = openingOf(plan, state, ix);
  }
}

/** Shuts once its flow has turned; opens once the pressure before it stands high enough. */
function answer(plan: Plan, state: State, link: LinkPlan, opensAt: number): void {
  const c = link.firstColumn;
  if (state.control[link.control]! > 0.5) {
    if (state.flow[c]! < 0) state.control[link.control] = 0;
    return;
  }
  const rise = state.density[link.from]! * G * (link.zFrom - link.zTo);
  const ahead = endPressure(plan, state, c, true) - endPressure(plan, state, c, false) + rise;
  if (ahead > opensAt) state.control[link.control] = 1;
}

/** True where a column passes nothing this tick. */
export function isShut(plan: Plan, scratch: Scratch, c: number): boolean {
  return scratch.open[plan.columns[c]!.link]! <= SHUT_DEG;
}
