// Hazards of electricity: too much current for long, a current to earth that nothing would cut
// off, a pump that starts by itself. Values are shares of what trips.
import { max, min } from '../base/math.ts';
import type { Plan } from '../network/plan.ts';
import {
  IMAGE,
  isAlive,
  isProtected,
  leakNow,
  LETS_GO,
  powerSlot,
  WAITING,
  WINDING,
} from '../power.ts';
import type { PowerPlan } from '../network/power.ts';
import type { State } from '../state.ts';
import type { Hazard, Place } from './kind.ts';

/** Warned from four fifths of what trips on [common practice, no source]. */
export const POWER_LIMITS = { warn: 0.8, trip: 1 } as const;

/** A to earth at which a protector of Class A must trip: what a person can bear [UL943]. */
const MUST_TRIP = 0.006;

/** s that a switch may stand on without power before it is told [common practice, no source]. */
const GRACE = 20;

/** The pumps that have a motor, by their place in the state. */
function motorsOf(power: PowerPlan | null): Place[] {
  const motors = power?.motors ?? [];
  return motors.flatMap((motor, index) => (motor === null ? [] : [{ at: motor.id, index }]));
}

function deviceOf(plan: Plan, key: 'breaker' | 'plug'): Place[] {
  if (plan.power === null) return [];
  return [{ at: plan.scenario.devices[plan.power[key]]!.id, index: -1 }];
}

/** Warmth of a breaker or a winding over that at which it lets go. */
export const overload: Hazard = {
  kind: 'overload',
  limits: POWER_LIMITS,
  places: (plan) => [...deviceOf(plan, 'breaker'), ...motorsOf(plan.power)],
  measure: ({ state }, { index }) => {
    const image = index < 0 ? state.power[IMAGE]! : state.power[powerSlot(index) + WINDING]!;
    return image / LETS_GO;
  },
};

export const groundFault: Hazard = {
  kind: 'ground_fault',
  limits: POWER_LIMITS,
  places: (plan) => deviceOf(plan, 'plug'),
  measure: ({ plan, state }) => exposure(plan, state),
};

/** How long a switch has stood on without power; at its limit once the pump starts by itself. */
export const restart: Hazard = {
  kind: 'restart',
  limits: POWER_LIMITS,
  places: ({ power }) => motorsOf(power),
  measure: ({ state }, { index }) => {
    const waited = state.power[powerSlot(index) + WAITING]!;
    return waited < 0 ? POWER_LIMITS.trip : (POWER_LIMITS.warn * min(waited, GRACE)) / GRACE;
  },
};

/**
 * Current to earth over what must trip, where nothing watches it. To be plugged in without a
 * protector counts as four fifths: nothing flows yet, and nothing would stop it.
 */
function exposure(plan: Plan, state: State): number {
  const power = plan.power!;
  if (!isAlive(power, state) || isProtected(power, state)) return 0;
  return max(POWER_LIMITS.warn, leakNow(power, state) / MUST_TRIP);
}
