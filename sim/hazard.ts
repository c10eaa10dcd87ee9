// Hazards as conditions on truth with a warning band, a threshold, persistence and recovery.
// Each says what was measured and what it is held against. Leaves marks to the rules.
import { abs, exp, max } from './base/math.ts';
import { P_ATM } from './base/units.ts';
import type { Fact, HazardKind } from './fact.ts';
import { groundFault, overload, restart } from './hazards/power.ts';
import { HEAT, NPSH_FACTOR, SPEED } from './machines.ts';
import { tankLevel } from './network/columns.ts';
import { JUNCTION, type Plan } from './network/plan.ts';
import { PUMP_STRIDE, WATCH_STRIDE, type State } from './state.ts';

/** One condition that is watched. Values are SI; `warn` and `trip` in the same unit. */
export interface Watch {
  readonly hazard: HazardKind;
  readonly at: string;
  readonly index: number;
  readonly warn: number;
  readonly trip: number;
}

/**
 * Thresholds. Seconds of dry running: seals fail in seconds to a few minutes [common practice,
 * no source]. Starved: as long. Deadhead: a proof of 10 to 60 s is harmless, minutes are not
 * [common practice, no source]. Overflow: litres over the rim [common practice].
 */
export const HAZARD_LIMITS = {
  dry_run: { warn: 5, trip: 30 }, //          s
  starved: { warn: 5, trip: 30 }, //          s
  deadhead: { warn: 60, trip: 300 }, //       s
  overflow: { warn: 0.00002, trip: 0.0005 }, // m3
  over_pressure: { warn: 0.9, trip: 1 }, //   share of the rating
  // Ice by mass: from a quarter on it blocks; nine tenths have used up what gives [fit].
  cracked: { warn: 0.25, trip: 0.9 },
} as const;

/** Share of liquid below which a casing counts as dry, and of best flow as no flow. */
const DRY_ABOVE = 0.5;
const NO_FLOW_BELOW = 0.04;
const STARVED_BELOW = 0.6;
/** Casing this much above the ground's temperature also counts as deadheaded too long, K. */
const HOT_CASING = 45;
/** s. How fast a timer runs back once the condition is gone. */
const RECOVERY = 5;

export function makeWatches(plan: Plan): Watch[] {
  const watches: Watch[] = [];
  plan.pumps.forEach((pump, index) => {
    for (const hazard of ['dry_run', 'starved', 'deadhead'] as const) {
      watches.push({ hazard, at: pump.id, index, ...HAZARD_LIMITS[hazard] });
    }
  });
  plan.tanks.forEach((tank, index) =>
    watches.push({ hazard: 'overflow', at: tank.id, index, ...HAZARD_LIMITS.overflow }),
  );
  plan.nodes.forEach((node, index) => {
    if (node.rating < 1e11)
      watches.push({ hazard: 'over_pressure', at: node.id, index, ...HAZARD_LIMITS.over_pressure });
  });
  if (plan.thermal !== null) watchHousings(plan, watches);
  for (const { kind, limits, places } of [overload, groundFault, restart]) {
    watches.push(...places(plan).map((place) => ({ hazard: kind, ...place, ...limits })));
  }
  return watches;
}

const HOUSINGS = ['pump', 'valve', 'leg', 'filter', 'check_valve'];

/** What is of iron or brass and cannot stretch; polyethylene and hose do, and live. */
function watchHousings(plan: Plan, watches: Watch[]): void {
  plan.links.forEach(({ spec, id }, index) => {
    if (!HOUSINGS.includes(spec.kind)) return;
    watches.push({ hazard: 'cracked', at: id, index, ...HAZARD_LIMITS.cracked });
  });
}

/** Share of a housing that may hold gas and yet crack: ice takes 9 % more room than water. */
const ROOM_FOR_ICE = 0.083;

/** Ice in a housing by mass, of the side that has more; none where it has room to grow. */
function iceIn({ plan, state, alpha }: Judged, index: number): number {
  const { from, to, pump } = plan.links[index]!;
  const iceAt = (n: number): number =>
    plan.nodes[n]!.kind === JUNCTION && alpha[n]! < ROOM_FOR_ICE && state.mass[n]! > 0
      ? state.ice[n]!
      : 0;
  return pump >= 0 ? iceAt(from) : max(iceAt(from), iceAt(to));
}

interface Judged {
  readonly plan: Plan;
  readonly state: State;
  readonly alpha: Float64Array;
  readonly dt: number;
}

/** True while a pump's condition holds. */
function pumpCondition(plan: Plan, state: State, alpha: Float64Array, watch: Watch): boolean {
  const at = watch.index * PUMP_STRIDE;
  if (state.pump[at + SPEED]! < 0.5) return false;
  const pump = plan.pumps[watch.index]!;
  const link = plan.links[pump.link]!;
  const dry = alpha[link.from]! > DRY_ABOVE;
  if (watch.hazard === 'dry_run') return dry;
  if (dry) return false;
  const starved = state.pump[at + NPSH_FACTOR]! < STARVED_BELOW;
  if (watch.hazard === 'starved') return starved;
  const still =
    abs(state.flow[link.firstColumn]!) < (NO_FLOW_BELOW * pump.spec.best_flow_L_s) / 1000;
  // Shut valves or air in the casing: either way the same water is stirred, and warms.
  return !starved && still;
}

/** The watched quantity now: a timer for pumps, litres over the rim, share of a rating. */
function measure(
  world: Judged,
  watch: Watch,
  slot: number,
): number {
  const { plan, state, alpha, dt } = world;
  const timer = state.watch[slot]!;
  switch (watch.hazard) {
    case 'overflow': {
      const rate = state.tankRate[2 * watch.index]!;
      if (rate > 0) return timer + rate * dt;
      const { spec } = plan.tanks[watch.index]!;
      return tankLevel(plan, state, watch.index) < spec.height_mm / 1000 - 0.02 ? 0 : timer;
    }
    case 'over_pressure': {
      const share = (state.point[watch.index]! - P_ATM) / plan.nodes[watch.index]!.rating;
      // A needle's flicker is no overload: the share must stand for about a quarter second.
      return timer + (1 - exp(-dt / 0.25)) * (share - timer);
    }
    case 'cracked': // What has cracked stays so: no thaw makes it whole.
      return max(iceIn(world, watch.index), state.watch[slot + 1]! === 2 ? timer : 0);
    case 'overload':
      return overload.measure(world, watch);
    case 'ground_fault':
      return groundFault.measure(world);
    case 'restart':
      return restart.measure(world, watch);
    default: {
      const holds = pumpCondition(plan, state, alpha, watch);
      if (!holds) return max(0, timer - RECOVERY * dt);
      const hot =
        watch.hazard === 'deadhead' && state.pump[watch.index * PUMP_STRIDE + HEAT]! > HOT_CASING;
      return hot ? max(timer + dt, watch.trip) : timer + dt;
    }
  }
}

/** Judges every watch for this tick. Stages only rise within an episode, and end together. */
export function watchHazards(args: {
  plan: Plan;
  state: State;
  alpha: Float64Array;
  watches: readonly Watch[];
  dt: number;
  facts: Fact[];
}): void {
  const { state, watches } = args;
  for (let k = 0; k < watches.length; k++) {
    const watch = watches[k]!;
    const slot = k * WATCH_STRIDE;
    const value = measure(args, watch, slot);
    const stage = state.watch[slot + 1]!;
    state.watch[slot] = value;
    if (value > state.watch[slot + 2]!) state.watch[slot + 2] = value;
    if (stage === 0 && value >= watch.warn) {
      state.watch[slot + 1] = 1;
      say(args, watch, 'warning', value);
    } else if (stage === 1 && value >= watch.trip) {
      state.watch[slot + 1] = 2;
      say(args, watch, 'tripped', value);
    } else if (stage > 0 && value < watch.warn * 0.5) {
      endEpisode(args, watch, slot);
    }
  }
}

/** What still goes on when the run is over ends with it. */
export function endHazards(to: { state: State; watches: readonly Watch[]; facts: Fact[] }): void {
  to.watches.forEach((watch, k) => {
    if (to.state.watch[k * WATCH_STRIDE + 1]! > 0) endEpisode(to, watch, k * WATCH_STRIDE);
  });
}

/** Its fact tells how far it went at the most. */
function endEpisode(to: { state: State; facts: Fact[] }, watch: Watch, slot: number): void {
  say(to, watch, 'ended', to.state.watch[slot + 2]!);
  to.state.watch[slot + 1] = 0;
  to.state.watch[slot + 2] = 0;
}

function say(
  to: { state: State; facts: Fact[] },
  watch: Watch,
  stage: 'warning' | 'tripped' | 'ended',
  value: number,
): void {
  const limit = stage === 'tripped' ? watch.trip : watch.warn;
  const { hazard, at } = watch;
  to.facts.push({ tick: to.state.counter[0]!, kind: 'hazard', hazard, at, stage, value, limit });
}
