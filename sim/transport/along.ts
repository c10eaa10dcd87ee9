// What liquid carries along a pipe, five times a second: upwind, with a limiter that keeps fronts
// sharp: van Leer (1974) harmonic form on the upwind ratio [VanLeer1974].
import { atFraction, MIXTURE_STEPS } from '../network/mixture.ts';
import type { LinkPlan } from '../network/plan.ts';
import type { State } from '../state.ts';
import { TRACE, type Load } from './load.ts';

export interface Means {
  /** Scratch, one number a face. */
  readonly flux: Float64Array;
  /** Density by share, where this load alone is carried and rules it; else null. */
  readonly mixture: Float64Array | null;
}

/**
 * Five times a second: along one pipe. True where fractions and densities are worked out as well
 * and what has crossed is forgotten, while each cell was at hand: of antifreeze alone in a pipe
 * that runs one way.
 */
export function carryAlong(state: State, link: LinkPlan, load: Load, means: Means): boolean {
  const { firstCell, firstFace, cells } = link;
  const { amount } = load;
  const last = firstCell + cells - 1;
  settle(load, firstCell, 2 * firstFace + 1);
  settle(load, last, 2 * (firstFace + cells));
  const owes = amount[firstCell]! < 0 || amount[last]! < 0;
  if (isOneWay(state, link)) {
    const whole = moveOn(state, link, load, owes ? null : means.mixture);
    if (!owes) return whole;
  } else {
    limitedFluxes(state, link, load, means.flux);
    moveAlong(state, load, link, means.flux);
  }
  lend(load, firstCell, cells, 1);
  lend(load, last, cells, -1);
  return false;
}

/** True where all that has crossed faces between cells goes one way. */
function isOneWay({ carried }: State, { firstFace, cells }: LinkPlan): boolean {
  const end = firstFace + cells;
  const step = cells > 1 && carried[firstFace + 1]! < 0 ? -1 : 1;
  for (let f = firstFace + 1; f < end; f++) if (carried[f]! * step < 0) return false;
  return true;
}

/**
 * What limitedFluxes and moveAlong do, with the same sums, where all goes one way: then each cell
 * has what comes to it before it gives, in one pass. Most pipes of most ticks. With a mixture its
 * density follows, unless a cell is dry: what stands there is looked after elsewhere.
 */
function moveOn(state: State, link: LinkPlan, load: Load, mixture: Float64Array | null): boolean {
  const { carried, mass, density } = state;
  const { amount, share } = load;
  const { firstCell, firstFace, cells } = link;
  const step = cells > 1 && carried[firstFace + 1]! < 0 ? -1 : 1;
  const first = step > 0 ? firstCell : firstCell + cells - 1;
  const end = step > 0 ? firstCell + cells - 1 : firstCell;
  let f = step > 0 ? firstFace + 1 : firstFace + cells - 1;
  const steps = MIXTURE_STEPS; // What is imported is looked up anew at each use.
  let far = share[first]!;
  let x = far;
  let had = amount[first]!;
  let dry = !(mass[end]! > 0);
  for (let v = first; v !== end; v += step, f += step) {
    const liquid = carried[f]! * step;
    const next = share[v + step]!;
    const came = amount[v + step]!;
    const ahead = next - x;
    const behind = x - far;
    const held = mass[v]!;
    far = x;
    x = next;
    let asked = liquid * far;
    if (!(liquid < held)) asked = through(had, held + liquid, liquid);
    else if (ahead > 0 ? behind > 0 : ahead < 0 && behind < 0) {
      asked += liquid * (((held - liquid) * behind) / ((ahead + behind) * held)) * ahead;
    }
    const moved = asked < had ? asked : had > 0 ? had : 0;
    const left = had - moved;
    amount[v] = left;
    had = came + moved;
    if (mixture === null) continue;
    carried[f] = 0;
    if (held <= 0) dry = true;
    const part = left / held;
    const own = part > 1 ? 1 : part > 0 ? part : 0;
    if (own === far || dry) continue;
    share[v] = own;
    const i = own < 1 ? (own * steps) | 0 : steps - 1; // As `atFraction`, which is not inlined.
    density[v] = mixture[i]! + (own * steps - i) * (mixture[i + 1]! - mixture[i]!);
  }
  amount[end] = had;
  if (mixture === null || dry) return false;
  const part = had / mass[end]!;
  share[end] = part > 1 ? 1 : part > 0 ? part : 0;
  density[end] = atFraction(mixture, share[end]!);
  return true;
}

/**
 * An end that gave on more than came to it, since what was on its way came thinner, has it from
 * the cells behind: nothing is held that is less than nothing.
 */
function lend({ amount }: Load, end: number, cells: number, step: number): void {
  for (let k = 1, v = end; k < cells && amount[v]! < 0; k++, v += step) {
    amount[v + step] = amount[v + step]! + amount[v]!;
    amount[v] = 0;
  }
}

/** Once all has been carried: nothing has crossed since. */
export function forgetCarried({ carried }: State, link: LinkPlan): void {
  for (let k = 1; k < link.cells; k++) carried[link.firstFace + k] = 0;
}

/**
 * First all that goes on, from the start; then all that goes back, from the end: so a cell has
 * what comes to it before it gives. One that more runs through than it holds gives the mean of
 * what it held and what came.
 */
function moveAlong(state: State, load: Load, link: LinkPlan, flux: Float64Array): void {
  const { carried } = state;
  const { amount } = load;
  const { firstCell, firstFace, cells } = link;
  for (let k = 1; k < cells; k++) {
    const liquid = carried[firstFace + k]!;
    if (liquid <= 0) continue;
    const up = firstCell + k - 1;
    const back = k > 1 && carried[firstFace + k - 1]! < 0 ? -carried[firstFace + k - 1]! : 0;
    const held = state.mass[up]! + liquid + back;
    const asked = liquid < state.mass[up]! ? flux[k]! : through(amount[up]!, held, liquid);
    const moved = asked < amount[up]! ? asked : amount[up]! > 0 ? amount[up]! : 0;
    amount[up] = amount[up]! - moved;
    amount[up + 1] = amount[up + 1]! + moved;
  }
  for (let k = cells - 1; k > 0; k--) {
    const liquid = -carried[firstFace + k]!;
    if (liquid <= 0) continue;
    const up = firstCell + k;
    const held = state.mass[up]! + liquid;
    const asked = liquid < state.mass[up]! ? -flux[k]! : through(amount[up]!, held, liquid);
    const moved = asked < amount[up]! ? asked : amount[up]! > 0 ? amount[up]! : 0;
    amount[up] = amount[up]! - moved;
    amount[up - 1] = amount[up - 1]! + moved;
  }
}

function through(amount: number, held: number, liquid: number): number {
  return held < TRACE ? 0 : (liquid * amount) / held;
}

function settle({ amount, pending }: Load, v: number, slot: number): void {
  amount[v] = amount[v]! + pending[slot]!;
  pending[slot] = 0;
}

/** What crosses inner faces since last time: upwind, sharpened by the limiter. */
function limitedFluxes(
  { carried, mass }: State,
  link: LinkPlan,
  { share: shares }: Load,
  flux: Float64Array,
): void {
  const first = link.firstCell;
  const end = first + link.cells;
  for (let k = 1; k < link.cells; k++) {
    const liquid = carried[link.firstFace + k]!;
    const up = liquid > 0 ? first + k - 1 : first + k;
    const down = liquid > 0 ? up + 1 : up - 1;
    const far = liquid > 0 ? up - 1 : up + 1;
    const x = shares[up]!;
    const step = shares[down]! - x;
    flux[k] = liquid * x;
    if (step === 0 || far < first || far >= end) continue;
    const behind = x - shares[far]!;
    if (step > 0 ? behind <= 0 : behind >= 0) continue;
    const held = mass[up]!;
    const size = liquid < 0 ? -liquid : liquid;
    if (size < held)
      flux[k] = flux[k]! + liquid * (((held - size) * behind) / ((step + behind) * held)) * step;
  }
}
