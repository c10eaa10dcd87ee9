// Hazards of alcohols: their vapour in a room's air, and liquid that can flash near a flame.
import { max } from '../base/math.ts';
import { temperatureOf } from '../instrument.ts';
import { flashShare, isAlcohol } from '../laws/alcohol.ts';
import type { Plan } from '../network/plan.ts';
import { burningShare } from '../rooms.ts';
import type { Hazard, Judged } from './kind.ts';

/**
 * Shares of the lower flammable limit: a tenth makes a hazardous atmosphere [OSHA1910.146], and of
 * methanol as much is at once dangerous to breathe [NIOSH1994]; a quarter is what ventilation must
 * keep below [NFPA30]. Near a flame no more than a tenth. Liquid: vapour at its surface over that
 * at the flash point; the law is within 6 K of measured ones [Astbury2004], which is 0.7 of it.
 */
const VAPOUR_LIMITS = {
  vapour: { warn: 0.1, trip: 0.25 },
  vapour_by_flame: { warn: 0.05, trip: 0.1 },
  neat_alcohol: { warn: 0.7, trip: 1 },
} as const;

/** kg of alcohol that counts as liquid about: less is a wet bucket. */
const SOME = 0.01;

function flames({ scenario }: Plan): { at: string; index: number }[] {
  if (!isAlcohol(scenario.antifreeze)) return [];
  return scenario.devices.flatMap(({ kind, id }, index) =>
    kind === 'flame' ? [{ at: id, index }] : [],
  );
}

const burns = ({ state }: Judged, flame: number): boolean => state.device[flame] === 1;

/** A room's air, whatever else is there. */
export const vapour: Hazard = {
  kind: 'vapour',
  limits: VAPOUR_LIMITS.vapour,
  places: (plan) =>
    plan.mix.room !== null && isAlcohol(plan.scenario.antifreeze)
      ? [{ at: 'room', index: -1 }]
      : [],
  measure: ({ plan, state }) => burningShare(plan, state),
};

/** The same with a flame near: none while it is out or away. */
export const vapourByFlame: Hazard = {
  kind: 'vapour',
  limits: VAPOUR_LIMITS.vapour_by_flame,
  places: (plan) => (plan.mix.room === null ? [] : flames(plan)),
  measure: (world, { index }) => (burns(world, index) ? burningShare(world.plan, world.state) : 0),
};

export const neatAlcohol: Hazard = {
  kind: 'neat_alcohol',
  limits: VAPOUR_LIMITS.neat_alcohol,
  places: flames,
  measure: (world, { index }) => (burns(world, index) ? nearestToFlash(world, index) : 0),
};

/** Of all open tanks, what is nearest to flashing, if it is stronger than the flame allows. */
function nearestToFlash({ plan, state }: Judged, flame: number): number {
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
