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

interface PowerWatch {
  readonly hazard: 'overload' | 'ground_fault' | 'restart';
  readonly at: string;
  /** Of the pump, or -1 for the supply. */
  readonly index: number;
  readonly warn: number;
  readonly trip: number;
}

/** The breaker and each motor, the plug, each switch. */
export function watchPower(plan: Plan): PowerWatch[] {
  const { breaker, plug, motors } = plan.power!;
  const idOf = (device: number): string => plan.scenario.devices[device]!.id;
  const pumps = motors.flatMap((motor, index) => (motor === null ? [] : [{ id: motor.id, index }]));
  return [
    { hazard: 'overload', at: idOf(breaker), index: -1, ...POWER_LIMITS },
    { hazard: 'ground_fault', at: idOf(plug), index: -1, ...POWER_LIMITS },
    ...pumps.map(
      ({ id: at, index }) => ({ hazard: 'overload', at, index, ...POWER_LIMITS }) as const,
    ),
    ...pumps.map(
      ({ id: at, index }) => ({ hazard: 'restart', at, index, ...POWER_LIMITS }) as const,
    ),
  ];
}

export function measurePower(
  plan: Plan,
  state: State,
  watch: { readonly hazard: string; readonly index: number },
): number {
  if (watch.hazard === 'ground_fault') return exposure(plan, state);
  const at = powerSlot(watch.index);
  if (watch.hazard === 'restart') {
    const waited = state.power[at + WAITING]!;
    return waited < 0
      ? POWER_LIMITS.trip
      : (POWER_LIMITS.warn * min(waited, GRACE)) / GRACE;
  }
  const image = watch.index < 0 ? state.power[IMAGE]! : state.power[at + WINDING]!;
  return image / (BREAKER_HOLDS * BREAKER_HOLDS);
}

/**
 * Current to earth over what must trip, where nothing watches it. To be plugged in without a
 * protector counts as four fifths: nothing flows yet, and nothing would stop it.
 */
function exposure(plan: Plan, state: State): number {
  const power = plan.power!;
  if (!isAlive(power, state) || isProtected(power, state)) return 0;
  return max(POWER_LIMITS.warn, leakNow(power, state) / MUST_TRIP);
}
