// Hazards of electricity: too much current for long, a current to earth that nothing would cut
// off, a pump that starts by itself. Values are shares of what trips.
import { max, min } from '../base/math.ts';
import { BREAKER_HOLDS } from '../laws/motor.ts';
import type { Plan } from '../network/plan.ts';
import { IMAGE, isAlive, isProtected, leakNow, powerSlot, WAITING, WINDING } from '../power.ts';
import type { State } from '../state.ts';

/** Warned from four fifths of what trips on [common practice, no source]. */
export const POWER_LIMITS = { warn: 0.8, trip: 1 } as const;

/** A to earth at which a protector of Class A must trip: what a person can bear [UL943]. */
const MUST_TRIP = 0.006;

/** s that a switch may stand on without power before it is told [common practice, no source]. */
const GRACE = 20;

/** Of a pump, or -1 for the supply. */
interface Place {
  readonly at: string;
  readonly index: number;
}
interface Now {
  readonly plan: Plan;
  readonly state: State;
}

function motorsOf({ power }: Plan): Place[] {
  const motors = power === null ? [] : power.motors;
  return motors.flatMap((motor, index) => (motor === null ? [] : [{ at: motor.id, index }]));
}

function deviceOf({ power, scenario }: Plan, key: 'breaker' | 'plug'): Place[] {
  return power === null ? [] : [{ at: scenario.devices[power[key]]!.id, index: -1 }];
}

/** Heat of a breaker, and of each motor's winding, over that at which it lets go or is spoilt. */
export const overload = {
  kind: 'overload',
  limits: POWER_LIMITS,
  places: (plan: Plan): Place[] => [...deviceOf(plan, 'breaker'), ...motorsOf(plan)],
  measure: ({ state }: Now, { index }: Place): number => {
    const image = index < 0 ? state.power[IMAGE]! : state.power[powerSlot(index) + WINDING]!;
    return image / (BREAKER_HOLDS * BREAKER_HOLDS);
  },
} as const;

/**
 * Current to earth over what must trip, where nothing watches it. To be plugged in without a
 * protector counts as four fifths: nothing flows yet, and nothing would stop it.
 */
export const groundFault = {
  kind: 'ground_fault',
  limits: POWER_LIMITS,
  places: (plan: Plan): Place[] => deviceOf(plan, 'plug'),
  measure: ({ plan, state }: Now): number => {
    const power = plan.power!;
    if (!isAlive(power, state) || isProtected(power, state)) return 0;
    return max(POWER_LIMITS.warn, leakNow(power, state) / MUST_TRIP);
  },
} as const;

/** Time that a switch has stood on without power, held at four fifths; 1 when its pump starts. */
export const restart = {
  kind: 'restart',
  limits: POWER_LIMITS,
  places: motorsOf,
  measure: ({ state }: Now, { index }: Place): number => {
    const waited = state.power[powerSlot(index) + WAITING]!;
    return waited < 0 ? POWER_LIMITS.trip : (POWER_LIMITS.warn * min(waited, GRACE)) / GRACE;
  },
} as const;
