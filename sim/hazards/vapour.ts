// Hazards of alcohols: their vapour in a room's air, and liquid that can flash near a flame. What
// is measured and against what; hazard.ts keeps the episodes.
import { max } from '../base/math.ts';
import type { Watch } from '../hazard.ts';
import { temperatureOf } from '../instrument.ts';
import { flashShare, isAlcohol } from '../laws/alcohol.ts';
import type { Plan } from '../network/plan.ts';
import { burningShare } from '../rooms.ts';
import type { State } from '../state.ts';

/**
 * Shares of the lower flammable limit: a tenth makes a hazardous atmosphere [OSHA1910.146], and of
 * methanol as much is at once dangerous to breathe [NIOSH1994]; a quarter is what ventilation must
 * keep below [NFPA30]. Near a flame no more than a tenth. Liquid: vapour at its surface over that
 * at the flash point; the law is within 6 K of measured ones [Astbury2004], which is 0.7 of it.
 */
export const VAPOUR_LIMITS = {
  vapour: { warn: 0.1, trip: 0.25 },
  vapour_by_flame: { warn: 0.05, trip: 0.1 },
  neat_alcohol: { warn: 0.7, trip: 1 },
} as const;

/** kg of alcohol that counts as liquid about: less is a wet bucket. */
const SOME = 0.01;

/** Of a room one; of each flame one for the room's air and one for each open tank. */
export function vapourWatches(plan: Plan): Watch[] {
  const { antifreeze, devices } = plan.scenario;
  if (!isAlcohol(antifreeze)) return [];
  const watches: Watch[] = [];
  const { vapour, vapour_by_flame, neat_alcohol } = VAPOUR_LIMITS;
  if (plan.mix.room !== null) watches.push({ hazard: 'vapour', at: 'room', index: -1, ...vapour });
  devices.forEach(({ kind, id }, index) => {
    if (kind !== 'flame') return;
    if (plan.mix.room !== null) {
      watches.push({ hazard: 'vapour', at: id, index, ...vapour_by_flame });
    }
    watches.push({ hazard: 'neat_alcohol', at: id, index, ...neat_alcohol });
  });
  return watches;
}

/** The measured share now; none at a flame that is out or away. */
export function vapourNow(plan: Plan, state: State, { hazard, index }: Watch): number {
  if (index >= 0 && state.device[index] !== 1) return 0;
  return hazard === 'vapour' ? burningShare(plan, state) : nearestToFlash(plan, state, index);
}

/** Of all that stands open, what is nearest to flashing, if it is stronger than the flame allows. */
function nearestToFlash(plan: Plan, state: State, flame: number): number {
  const kind = plan.scenario.antifreeze;
  const spec = plan.scenario.devices[flame]!;
  if (!isAlcohol(kind) || spec.kind !== 'flame') return 0;
  let worst = 0;
  for (let k = 0; k < plan.tanks.length; k++) {
    const n = plan.tanks[k]!.node;
    const x = state.fraction[n]!;
    if (state.solute[n]! < SOME || x <= spec.above_fraction) continue;
    worst = max(worst, flashShare(kind, temperatureOf(plan, state, n), x));
  }
  return worst;
}
