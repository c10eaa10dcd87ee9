// What lenses show of debris: kilograms by place and element, and what eyes make of grains that
// go by in a clear section. Nothing where it is not followed.
import { min, round } from './base/math.ts';
import { debrisBalance } from './books.ts';
import type { ElementInside, Grit, Truth } from './lens.ts';
import type { LinkPlan, Plan } from './network/plan.ts';
import { FITTED_STRIDE, type State } from './state.ts';
import { loadOf } from './transport/catch.ts';
import type { World } from './world-parts.ts';

/** kg/m3 that move: so few that eyes must look for them, and so many that the water is dull with
 *  them [fit, no source]; and m of the section that eyes take in. */
const SOME = 0.002;
const MUCH = 0.1;
const SIGHT_LENGTH = 2;

/** kg of all classes in a volume: what moves (0), what lies (1). */
export function debrisAt({ plan, state }: World, v: number, k: 0 | 1): number {
  let kg = 0;
  for (let c = 0; c < (plan.debris?.classes.length ?? 0); c++) {
    kg += state.grains[(2 * c + k) * plan.volumes + v]!;
  }
  return kg;
}

/** The same of so many volumes. */
export function debrisCells(world: World, v: number, count: number) {
  const of = (k: 0 | 1) => Array.from({ length: count }, (_, at) => debrisAt(world, v + at, k));
  return { debris_moving: of(0), debris_lying: of(1) };
}

/** What eyes make of the grains that go by in the last two metres of a clear hose. */
export function gritOf(plan: Plan, state: State, link: LinkPlan): Grit {
  if (plan.debris === null) return 'none';
  const dx = link.length / link.cells;
  const cells = min(link.cells, round(SIGHT_LENGTH / dx) || 1);
  const last = link.firstCell + link.cells - 1;
  let kg = 0;
  for (let c = 0; c < plan.debris.classes.length; c++) {
    for (let k = 0; k < cells; k++) kg += state.grains[2 * c * plan.volumes + last - k]!;
  }
  const thick = kg / (cells * dx * link.area);
  return thick >= MUCH ? 'much' : thick >= SOME ? 'some' : 'none';
}

/** The books of debris. */
export function debrisTruth(
  world: World,
): Pick<Truth, 'debris' | 'debris_by_link' | 'debris_ledgers' | 'elements'> {
  const { plan, state } = world;
  const { debris } = plan;
  if (debris === null) {
    return { debris: null, debris_by_link: {}, debris_ledgers: {}, elements: [] };
  }
  const sum = (list: readonly number[]) => list.reduce((s, x) => s + x, 0);
  const places = [...plan.ledgers, 'taken_out'];
  return {
    debris: debrisBalance(world),
    debris_by_link: Object.fromEntries(
      plan.links.map(({ id, firstCell, cells }, i) => {
        const { debris_moving, debris_lying } = debrisCells(world, firstCell, cells);
        const k = debris.catcherOf[i]!;
        const caught = k < 0 ? 0 : loadOf(debris, state, k);
        return [id, { moving: sum(debris_moving), lying: sum(debris_lying), caught }];
      }),
    ),
    debris_ledgers: Object.fromEntries(
      places.map((id, l) => [
        id,
        sum(debris.classes.map((_, c) => state.grainBook[c * places.length + l]!)),
      ]),
    ),
    elements: Array.from(debris.catchers, (i, k): ElementInside => {
      const link = plan.links[i]!;
      const element = debris.elements[state.fitted[FITTED_STRIDE * k]!]?.id ?? null;
      const loss = state.fitted[FITTED_STRIDE * k + 1]! * state.flow[link.firstColumn]!;
      return { link: link.id, element, load: loadOf(debris, state, k), loss };
    }),
  };
}
