// Elements of filters, coils and check valves: what they catch of one class of grain, what a flow
// against their own washes off, and what the cake costs. Three amounts a class and catcher: what
// sheds, what stays, and what has come from behind and stands loose on the clean side.
import { DEBRIS_REVERSED, SHED_S } from '../constants.ts';
import { filterLoss, type FilterMedium } from '../laws/solids.ts';
import type { DebrisPlan } from '../network/debris-plan.ts';
import { thicknessOf } from '../network/mixture.ts';
import { JUNCTION, type Plan } from '../network/plan.ts';
import { CAUGHT_STRIDE, FITTED_STRIDE, type State } from '../state.ts';
import type { GrainFlow } from './grain-room.ts';
import { give } from './grain-flux.ts';

const SHEDS = 0;
const STAYS = 1;
const BEHIND = 2;

/** Where the three amounts of class c in catcher k stand. */
export function caughtAt({ catchers }: DebrisPlan, c: number, k: number): number {
  return CAUGHT_STRIDE * (c * catchers.length + k);
}

/** What crosses a fitting: an element keeps its share, a coil counts what comes to it. */
export function passThrough(flow: GrainFlow, debris: DebrisPlan, i: number): void {
  const { plan, state, grainRoom } = flow;
  const { from, to, firstFace } = plan.links[i]!;
  const kg = grainRoom.flux[firstFace]!;
  if (kg === 0) return;
  const on = kg > 0;
  const all = on ? kg : -kg;
  give(flow, on ? from : to, -all);
  const coil = debris.coilOf[i]!;
  if (coil >= 0) state.arrived[coil] = state.arrived[coil]! + all;
  const k = debris.catcherOf[i]!;
  const worn = k < 0 ? -1 : state.fitted[FITTED_STRIDE * k]!;
  if (worn < 0) {
    give(flow, on ? to : from, all);
    return;
  }
  const { keeps, sheds } = debris.elements[worn]!;
  const kept = all * keeps[grainRoom.c]!;
  const at = caughtAt(debris, grainRoom.c, k);
  const { caught } = state;
  if (on) {
    const loose = kept * sheds;
    caught[at + SHEDS] = caught[at + SHEDS]! + loose;
    caught[at + STAYS] = caught[at + STAYS]! + (kept - loose);
  } else caught[at + BEHIND] = caught[at + BEHIND]! + kept;
  give(flow, on ? to : from, all - kept);
}

/** A flow from behind washes off the share that sheds; one from before, what stands behind. */
export function shed(flow: GrainFlow, debris: DebrisPlan): void {
  const { plan, state, grainRoom } = flow;
  const { caught } = state;
  const share = debris.dt / (debris.dt + SHED_S);
  for (let k = 0; k < debris.catchers.length; k++) {
    const { firstFace, area, from, to } = plan.links[debris.catchers[k]!]!;
    const V = state.swept[firstFace]! / (plan.water.rho * area * debris.dt);
    if (V < DEBRIS_REVERSED && V > -DEBRIS_REVERSED) continue;
    const at = caughtAt(debris, grainRoom.c, k) + (V > 0 ? BEHIND : SHEDS);
    if (caught[at] === 0) continue;
    const off = caught[at]! * share;
    caught[at] = caught[at]! - off;
    give(flow, V > 0 ? to : from, off);
  }
}

/** kg of all classes in catcher k. */
export function loadOf(debris: DebrisPlan, { caught }: State, k: number): number {
  let kg = 0;
  for (let c = 0; c < debris.classes.length; c++) {
    const at = caughtAt(debris, c, k);
    kg += caught[at]! + caught[at + 1]! + caught[at + 2]!;
  }
  return kg;
}

const medium = { area: 1, medium: 0, cake: 0 } satisfies FilterMedium;

/** Writes what every element costs by what it has caught and how thick the liquid is. */
export function loadElements(plan: Plan, debris: DebrisPlan, state: State): void {
  const { fitted } = state;
  for (let k = 0; k < debris.catchers.length; k++) {
    const worn = fitted[FITTED_STRIDE * k]!;
    fitted[FITTED_STRIDE * k + 1] = 0;
    fitted[FITTED_STRIDE * k + 2] = worn < 0 ? 0 : debris.elements[worn]!.lossK;
    if (worn < 0) continue;
    const { from, to } = plan.links[debris.catchers[k]!]!;
    const n = plan.kinds[from] === JUNCTION ? from : to;
    medium.cake = debris.elements[worn]!.cake;
    const mu = thicknessOf(plan, state, n);
    fitted[FITTED_STRIDE * k + 1] = filterLoss(1, mu, loadOf(debris, state, k), medium);
  }
}
