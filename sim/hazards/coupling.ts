// Couplings opened with something pressed inside, and arms that are not pinned while it is.
import { log, max, min } from '../base/math.ts';
import { P_ATM } from '../base/units.ts';
import { FRICTION_HOLDS, pressureIn } from '../latches.ts';
import { SHUT_DEG } from '../laws/fitting.ts';
import { openingOf } from '../network/passage.ts';
import { JUNCTION, type Plan } from '../network/plan.ts';
import type { State } from '../state.ts';
import { KEPT, timed, type Hazard, type Judged, type Place, type Watch } from './kind.ts';

/** s that what came of an opening is told for, so that both of its stages are. */
const TOLD_FOR = 2;
/** Share of gas in a fitting above which gas comes out of it first. */
const MOSTLY_GAS = 0.5;

const everyCoupling = (plan: Plan): Place[] =>
  plan.links.flatMap(({ id, spec }, index) =>
    spec.kind === 'coupling' ? [{ at: id, index }] : [],
  );

/**
 * `KEPT` holds 1 and the gauge pressure while the halves are joined; once they are apart, how long
 * that is still to be told, as a number below 0. True in the tick that they part in.
 */
function parts({ plan, state, dt }: Judged, link: number, slot: number): boolean {
  const kept = state.watch[slot + KEPT]!;
  if (state.control[link]! > 0.5) {
    state.watch[slot + KEPT] = 1 + max(0, pressureIn(plan, state, link));
    return false;
  }
  if (kept > 0) return true;
  state.watch[slot + KEPT] = min(0, kept + dt);
  return false;
}

/** After the parting: the measure stands for a while, then the episode ends. */
function lingers({ state }: Judged, slot: number): number {
  return state.watch[slot + KEPT]! < 0 ? state.watch[slot]! : 0;
}

function gasFirst({ plan, alpha }: Judged, link: number): boolean {
  const { from, to } = plan.links[link]!;
  return (alpha[from]! + alpha[to]!) / 2 > MOSTLY_GAS;
}

function blewApart({ facts }: Judged, at: string): boolean {
  return facts.some((f) => f.kind === 'event' && f.event === 'blew_apart' && f.at === at);
}

function openedAt(world: Judged, { index, at }: Watch, slot: number): number {
  const kept = world.state.watch[slot + KEPT]!;
  if (!parts(world, index, slot)) return lingers(world, slot);
  world.state.watch[slot + KEPT] = -TOLD_FOR;
  return gasFirst(world, index) && !blewApart(world, at) ? 0 : kept - 1;
}

function airLetGo(world: Judged, { index }: Watch, slot: number): number {
  if (!parts(world, index, slot)) return lingers(world, slot);
  world.state.watch[slot + KEPT] = -TOLD_FOR;
  return gasFirst(world, index) ? gasEnergy(world.plan, world.state, index) : 0;
}

/** J that a volume's gas can do as work against the air: pV (ln(p/p0) - 1 + p0/p) [Crowl1992]. */
function workOf(state: State, v: number): number {
  const p = state.pressure[v]!;
  if (p <= P_ATM) return 0;
  return state.gas[v]! * (log(p / P_ATM) - 1 + P_ATM / p);
}

/** J in all the gas that finds a way to a coupling's halves. Allocates: asked at a parting only. */
function gasEnergy(plan: Plan, state: State, link: number): number {
  const { from, to } = plan.links[link]!;
  const reached = new Set([from, to]);
  const used = new Set([link]);
  let sum = 0;
  for (const node of reached) {
    if (plan.nodes[node]!.kind !== JUNCTION) continue;
    sum += workOf(state, node);
    plan.links.forEach((way, ix) => {
      if (used.has(ix) || (way.from !== node && way.to !== node)) return;
      if (way.spec.kind === 'gap' || openingOf(plan, state, ix) <= SHUT_DEG) return;
      used.add(ix);
      for (let v = way.firstCell; v < way.firstCell + way.cells; v++) sum += workOf(state, v);
      reached.add(way.from === node ? way.to : way.from);
    });
  }
  return sum;
}

function looseFor(world: Judged, { index, more }: Watch, slot: number): number {
  const { plan, state, dt } = world;
  const link = more[0]!;
  const holds =
    state.device[index]! < 2 &&
    state.control[link]! > 0.5 &&
    pressureIn(plan, state, link) > FRICTION_HOLDS;
  return timed(state.watch[slot]!, holds, dt);
}

/**
 * Pa gauge in the halves when they part. At 50 kPa they are pushed apart by more than a hand holds
 * (FRICTION_HOLDS); a few metres of hose that hang from the halves stay below half of it. What
 * should be there is nothing [common practice, no source].
 */
export const openedUnderPressure: Hazard = {
  kind: 'opened_under_pressure',
  limits: { warn: FRICTION_HOLDS / 2, trip: FRICTION_HOLDS },
  places: everyCoupling,
  measure: openedAt,
};

/**
 * J. A tenth of a kilojoule in what is thrown or whips hurts badly (the 80 J of range safety,
 * from memory); a tenth of the stored work is taken to go there [fit].
 */
export const testAir: Hazard = {
  kind: 'test_air',
  limits: { warn: 500, trip: 1000 },
  places: everyCoupling,
  measure: airLetGo,
};

/** s above the pressure that open arms no longer hold [common practice, no source]. */
export const unpinned: Hazard = {
  kind: 'unpinned',
  limits: { warn: 5, trip: 30 },
  places: (plan) =>
    plan.scenario.devices.flatMap((spec, index) =>
      spec.kind === 'latch' ? [{ at: spec.of, index, more: [plan.linkIx.get(spec.of)!] }] : [],
    ),
  measure: looseFor,
};
