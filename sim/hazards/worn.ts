// Eyes and hands without protection: at couplings and drains, beside a test, on antifreeze, which
// is also in cups and pails.
import { atWork, PAIRS } from '../hands.ts';
import { pressureIn } from '../latches.ts';
import { isAway } from '../night.ts';
import { OPEN, type Plan } from '../network/plan.ts';
import { dips, MIXED_ABOVE } from './dips.ts';
import { KEPT, timed, type Hazard, type Judged, type Place, type Watch } from './kind.ts';

/** s that near something that can splash, unprotected, count as much as one parting does. */
const EXPOSED_S = 30;
/** s with bare hands in antifreeze: four couplings' worth [common practice, no source]. */
const HANDS_S = 30;
/** Share that a parting without protection counts, a little over the limit so that it lasts. */
const PARTED = 1.1;
/** Pa gauge at a coupling or hose from which on it is a test [common practice, no source]. */
const TEST_ABOVE = 300e3;

/** Couplings, and valves with an open end: what hands get wet at. */
function wetting(plan: Plan): number[] {
  return plan.links.flatMap(({ spec, from, to }, ix) => {
    const drains = plan.nodes[from]!.kind === OPEN || plan.nodes[to]!.kind === OPEN;
    return spec.kind === 'coupling' || (spec.kind === 'valve' && drains) ? [ix] : [];
  });
}

function worn(plan: Plan, what: string): Place[] {
  return plan.scenario.devices.flatMap((spec, index) =>
    spec.kind === 'wear' && spec.what === what ? [{ at: spec.id, index, more: wetting(plan) }] : [],
  );
}

/** True while a pair works at one of these, or has a cup or a pail of antifreeze in its hands. */
function handled({ plan, state }: Judged, links: readonly number[], mixed: boolean): boolean {
  for (let pair = 0; pair < PAIRS; pair++) {
    if (dips(plan, state, pair)) return true;
    const ix = atWork(state, pair);
    if (ix < 0 || !links.includes(ix)) continue;
    if (!mixed || isMixed({ plan, state }, ix)) return true;
  }
  return false;
}

function isMixed({ plan, state }: Pick<Judged, 'plan' | 'state'>, link: number): boolean {
  const { from, to } = plan.links[link]!;
  return state.fraction[from]! > MIXED_ABOVE || state.fraction[to]! > MIXED_ABOVE;
}

/** True while a joined coupling stands under test pressure. */
function underTest({ plan, state }: Judged, links: readonly number[]): boolean {
  if (isAway(state)) return false; // Nobody is near.
  for (let k = 0; k < links.length; k++) {
    const link = links[k]!;
    if (plan.links[link]!.spec.kind !== 'coupling' || state.control[link]! <= 0.5) continue;
    if (pressureIn(plan, state, link) > TEST_ABOVE) return true;
  }
  return false;
}

/** `KEPT` counts the joined couplings and one. True in a tick in which one of them parted. */
function oneParted({ plan, state }: Judged, links: readonly number[], slot: number): boolean {
  let joined = 1;
  for (let k = 0; k < links.length; k++) {
    if (plan.links[links[k]!]!.spec.kind === 'coupling' && state.control[links[k]!]! > 0.5)
      joined++;
  }
  const before = state.watch[slot + KEPT]!;
  state.watch[slot + KEPT] = joined;
  return joined < before;
}

function eyesBare(world: Judged, { index, more }: Watch, slot: number): number {
  const { state, dt } = world;
  const before = state.watch[slot]!;
  const bare = state.device[index] === 0;
  if (oneParted(world, more, slot) && bare) return PARTED;
  const near = bare && (underTest(world, more) || handled(world, more, false));
  return timed(before, near, dt / EXPOSED_S);
}

function handsBare(world: Judged, { index, more }: Watch, slot: number): number {
  const { state, dt } = world;
  const near = state.device[index] === 0 && handled(world, more, true);
  return timed(state.watch[slot]!, near, dt / HANDS_S);
}

/**
 * Share of what unprotected eyes are allowed: one coupling parted, or 30 s at couplings, drains
 * or beside a test [common practice, no source].
 */
export const noEyes: Hazard = {
  kind: 'no_eyes',
  limits: { warn: 0.1, trip: 1 },
  places: (plan) => worn(plan, 'eyes'),
  measure: eyesBare,
};

/** Share of 30 s with bare hands on what drips of antifreeze [common practice, no source]. */
export const noGloves: Hazard = {
  kind: 'no_gloves',
  limits: { warn: 0.1, trip: 1 },
  places: (plan) => worn(plan, 'gloves'),
  measure: handsBare,
};
