// What runs to the ground: antifreeze by mass, liquid by volume. Rims have a hazard of their own
// for the liquid that runs over them.
import { max } from '../base/math.ts';
import type { Plan } from '../network/plan.ts';
import { LEDGER_STRIDE, type State } from '../state.ts';
import { partOf, type Hazard, type Judged, type Place, type Watch } from './kind.ts';

/** Ledgers of what goes to the ground, gathered by the part that it leaves from. */
function groundPlaces(plan: Plan, rims: boolean): Place[] {
  const places = new Map<string, number[]>();
  for (const { id, spec, ledger } of plan.nodes) {
    const ground = spec.kind === 'open' && spec.goes_to === 'ground';
    if (!ground && !(rims && spec.kind === 'tank')) continue;
    const at = partOf(id);
    places.set(at, [...(places.get(at) ?? []), ledger]);
  }
  return [...places].map(([at, more]) => ({ at, index: more[0]!, more }));
}

/** kg that went to these ledgers so far; `k` 0 liquid, 1 antifreeze. */
function gone(state: State, ledgers: readonly number[], k: number): number {
  let sum = 0;
  for (let l = 0; l < ledgers.length; l++) {
    sum += max(0, state.ledger[ledgers[l]! * LEDGER_STRIDE + k]!);
  }
  return sum;
}

/**
 * kg of antifreeze on the ground in the whole run; it stays there. A tenth of a kilogram is what
 * drips from hoses, a kilogram some litres of mix [common practice, no source]; what must be
 * reported is what local rules say.
 */
export const toGround: Hazard = {
  kind: 'to_ground',
  limits: { warn: 0.1, trip: 1 },
  places: (plan) => (plan.scenario.antifreeze === 'none' ? [] : groundPlaces(plan, true)),
  measure: ({ state }: Judged, { more }: Watch) => gone(state, more, 1),
};

/**
 * m3 of liquid let out on the ground in the whole run. A few litres come out of every hose
 * [common practice, no source].
 */
export const wasteToGround: Hazard = {
  kind: 'waste_to_ground',
  limits: { warn: 0.005, trip: 0.05 },
  places: (plan) => groundPlaces(plan, false),
  measure: ({ plan, state }: Judged, { more }: Watch) => gone(state, more, 0) / plan.water.rho,
};
