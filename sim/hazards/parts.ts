// What becomes of tanks, fittings and housings: a rim run over, a rating passed, a casing frozen.
import { exp, max } from '../base/math.ts';
import { P_ATM } from '../base/units.ts';
import { UNRATED } from '../constants.ts';
import { tankLevel } from '../network/columns.ts';
import { JUNCTION, type Plan } from '../network/plan.ts';
import { STAGE, type Hazard, type Judged, type Place, type Watch } from './kind.ts';

/** m below the rim at which a tank no longer overflows. */
const RIM_CLEAR = 0.02;
/** s. A needle's flicker is no overload: the share must stand for about this long. */
const NEEDLE = 0.25;

function overRim({ plan, state, dt }: Judged, { index }: Watch, slot: number): number {
  const before = state.watch[slot]!;
  const rate = state.tankRate[2 * index]!;
  if (rate > 0) return before + rate * dt;
  const { spec } = plan.tanks[index]!;
  return tankLevel(plan, state, index) < spec.height_mm / 1000 - RIM_CLEAR ? 0 : before;
}

function shareOfRating({ plan, state, dt }: Judged, { index }: Watch, slot: number): number {
  const before = state.watch[slot]!;
  const share = (state.point[index]! - P_ATM) / plan.nodes[index]!.rating;
  return before + (1 - exp(-dt / NEEDLE)) * (share - before);
}

const HOUSINGS = ['pump', 'valve', 'leg', 'filter', 'check_valve'];

/** What is of iron or brass and cannot stretch; polyethylene and hose do, and live. */
function housings(plan: Plan): Place[] {
  if (plan.thermal === null) return [];
  return plan.links.flatMap(({ spec, id, control }, index) =>
    HOUSINGS.includes(spec.kind) && control === index ? [{ at: id, index }] : [],
  );
}

/** Share of a housing that may hold gas and yet crack: ice takes 9 % more room than water. */
const ROOM_FOR_ICE = 0.083;

function iceAt({ plan, state, alpha }: Judged, n: number): number {
  const full = alpha[n]! < ROOM_FOR_ICE && state.mass[n]! > 0;
  return full && plan.nodes[n]!.kind === JUNCTION ? state.ice[n]! : 0;
}

/** Ice in a housing by mass, of the side that has more; none where it has room to grow. */
function iceIn(world: Judged, { index }: Watch, slot: number): number {
  const { from, to, pump } = world.plan.links[index]!;
  const ice = pump >= 0 ? iceAt(world, from) : max(iceAt(world, from), iceAt(world, to));
  // What has cracked stays so: no thaw makes it whole.
  return max(ice, world.state.watch[slot + STAGE]! === 2 ? world.state.watch[slot]! : 0);
}

/** m3 over the rim [common practice, no source]. */
export const overflow: Hazard = {
  kind: 'overflow',
  limits: { warn: 0.00002, trip: 0.0005 },
  places: (plan) => plan.tanks.map((tank, index) => ({ at: tank.id, index })),
  measure: overRim,
};

/** Share of the rating that the part bears. */
export const overPressure: Hazard = {
  kind: 'over_pressure',
  limits: { warn: 0.9, trip: 1 },
  places: (plan) =>
    plan.nodes.flatMap(({ id, rating }, index) => (rating < UNRATED ? [{ at: id, index }] : [])),
  measure: shareOfRating,
};

/** Ice by mass: from a quarter on it blocks; nine tenths have used up what gives [fit]. */
export const cracked: Hazard = {
  kind: 'cracked',
  limits: { warn: 0.25, trip: 0.9 },
  places: housings,
  measure: iceIn,
};
