// Hazards as conditions on truth with a warning band, a threshold, persistence and recovery: the
// episodes, from a warning to an end. Leaves what is measured, and against what, to hazards/, and
// marks to the rules.
import type { Fact } from './fact.ts';
import { STAGE, VALUE, WORST, type Judged, type Watch } from './hazards/kind.ts';
import { REGISTRY } from './hazards/registry.ts';
import type { Plan } from './network/plan.ts';
import { WATCH_STRIDE, type State } from './state.ts';

export type { Watch } from './hazards/kind.ts';

/** Share of the warning below which an episode is over. */
const OVER_BELOW = 0.5;

/** Every place that is watched in a world of this plan. */
export function makeWatches(plan: Plan): Watch[] {
  return REGISTRY.flatMap(({ kind, limits, places, measure }) =>
    places(plan).map(({ at, index, more, limits: own }): Watch => ({
      hazard: kind,
      at,
      index,
      more: more ?? [],
      warn: (own ?? limits).warn,
      trip: (own ?? limits).trip,
      measure,
    })),
  );
}

/** Judges every watch for this tick. Stages only rise within an episode, and end together. */
export function watchHazards(
  world: Judged & { readonly watches: readonly Watch[]; readonly facts: Fact[] },
): void {
  const { state, watches } = world;
  for (let k = 0; k < watches.length; k++) {
    const watch = watches[k]!;
    const slot = k * WATCH_STRIDE;
    const value = watch.measure(world, watch, slot);
    const stage = state.watch[slot + STAGE]!;
    state.watch[slot + VALUE] = value;
    if (value > state.watch[slot + WORST]!) state.watch[slot + WORST] = value;
    if (stage === 0 && value >= watch.warn) {
      state.watch[slot + STAGE] = 1;
      say(world, watch, 'warning', value);
    } else if (stage === 1 && value >= watch.trip) {
      state.watch[slot + STAGE] = 2;
      say(world, watch, 'tripped', value);
    } else if (stage > 0 && value < watch.warn * OVER_BELOW) {
      endEpisode(world, watch, slot);
    }
  }
}

/** What still goes on when the run is over ends with it. */
export function endHazards(to: { state: State; watches: readonly Watch[]; facts: Fact[] }): void {
  to.watches.forEach((watch, k) => {
    if (to.state.watch[k * WATCH_STRIDE + STAGE]! > 0) endEpisode(to, watch, k * WATCH_STRIDE);
  });
}

/** Its fact tells how far it went at the most. */
function endEpisode(to: { state: State; facts: Fact[] }, watch: Watch, slot: number): void {
  say(to, watch, 'ended', to.state.watch[slot + WORST]!);
  to.state.watch[slot + STAGE] = 0;
  to.state.watch[slot + WORST] = 0;
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
