// What hands do to a housing that they have opened: take out what its element has caught, and put
// in another element, or none; and when a lid holds against them.
import { FITTED_STRIDE } from './state.ts';
import { caughtAt, loadElements } from './transport/catch.ts';
import type { HeldBy } from './fact.ts';
import { pressureIn } from './latches.ts';
import type { World } from './world-parts.ts';

type Rig = Pick<World, 'plan' | 'state'>;

/** Pa gauge from which on a lid does not come off by hand [common practice, no source]. */
const LID_HOLDS = 20e3;

/** Why a housing does not open; null where it does, and of what is none. */
export function canOpen({ plan, state }: Rig, device: number): HeldBy | null {
  if (plan.scenario.devices[device]?.kind !== 'housing') return null;
  return pressureIn(plan, state, plan.deviceOf[device]!) > LID_HOLDS ? 'pressed' : null;
}

/** Takes out what stands in a housing and puts in its element `position`; 0 leaves it empty. */
export function openHousing(rig: Rig, device: number, position: number): void {
  const spec = rig.plan.scenario.devices[device]!;
  if (spec.kind === 'housing') service(rig, spec.of, spec.elements[position - 1] ?? null);
}

/**
 * Empties the element of a filter, coil or check valve into the book of what hands took out, and
 * puts in the one with this id; `null` leaves the housing without one. kg taken out, or `null`
 * where the link can wear none or there is no such element: then nothing has changed.
 */
export function service(world: Rig, linkId: string, element: string | null): number | null {
  const { plan, state } = world;
  const { debris } = plan;
  const k = debris?.catcherOf[plan.linkIx.get(linkId) ?? -1] ?? -1;
  if (debris === null || k < 0) return null;
  const worn = debris.elements.findIndex(({ id }) => id === element);
  if (worn < 0 && element !== null) return null;
  let taken = 0;
  for (let c = 0; c < debris.classes.length; c++) {
    const at = caughtAt(debris, c, k);
    const kg = state.caught[at]! + state.caught[at + 1]! + state.caught[at + 2]!;
    state.caught.fill(0, at, at + 3);
    const book = c * (plan.ledgers.length + 1) + plan.ledgers.length;
    state.grainBook[book] = state.grainBook[book]! + kg;
    taken += kg;
  }
  state.fitted[FITTED_STRIDE * k] = worn;
  loadElements(plan, debris, state);
  return taken;
}
