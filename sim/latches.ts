// Locks, arms and hatches that keep a hand from a control. A coupling that stands with open arms is
// held by friction alone, and what is pressed inside pushes it apart. Leaves to hazards what that
// does to people.
import { max } from './base/math.ts';
import { P_ATM } from './base/units.ts';
import type { Fact, HeldBy } from './fact.ts';
import type { Plan } from './network/plan.ts';
import type { State } from './state.ts';

/**
 * Pa gauge. What the seal's friction holds with open arms; more pushes the halves apart [fit, no
 * source: a hand's pull of 100 N on the area of a 50 mm coupling].
 */
export const FRICTION_HOLDS = 50e3;

/** Gauge pressure in a coupling, Pa: of the side that has more. */
export function pressureIn(plan: Plan, state: State, link: number): number {
  const { from, to } = plan.links[link]!;
  return max(state.point[from]!, state.point[to]!) - P_ATM;
}

/** Why another device keeps a hand from this control; null where none does. */
export function keptFrom(plan: Plan, state: State, ix: number, target: number): HeldBy | null {
  const { devices } = plan.scenario;
  for (let d = 0; d < devices.length; d++) {
    const spec = devices[d]!;
    const position = state.device[d]!;
    if (spec.kind === 'entry' && position !== 1) {
      const id = plan.links[ix]?.id;
      if (id !== undefined && spec.inside.includes(id)) return 'outside';
    }
    if (plan.deviceOf[d] !== ix) continue;
    if (spec.kind === 'lock' && position === 1 && target === 1) return 'locked';
    if (spec.kind === 'latch' && position > 0 && target === 0) return 'latched';
  }
  return null;
}

/** Each tick: what does not hold is apart at once. */
export function tryLatches(plan: Plan, state: State, facts: Fact[]): void {
  const { devices } = plan.scenario;
  for (let d = 0; d < devices.length; d++) {
    if (devices[d]!.kind !== 'latch' || state.device[d]! > 0) continue;
    const link = plan.deviceOf[d]!;
    if (state.control[link]! < 1) continue;
    if (pressureIn(plan, state, link) <= FRICTION_HOLDS) continue;
    state.control[link] = 0;
    const at = plan.links[link]!.id;
    facts.push({ tick: state.counter[0]!, kind: 'event', event: 'blew_apart', at });
  }
}
