// What liquid carries along a pipe, five times a second: upwind, with a limiter that keeps fronts
// sharp: van Leer (1974) harmonic form on the upwind ratio [VanLeer1974].
import type { LinkPlan } from '../network/plan.ts';
import type { State } from '../state.ts';
import { TRACE, type Load } from './load.ts';

/** Five times a second: along one pipe. `flux` is scratch, one number a face. */
export function carryAlong(state: State, link: LinkPlan, load: Load, flux: Float64Array): void {
  const last = link.firstCell + link.cells - 1;
  settle(load, link.firstCell, 2 * link.firstFace + 1);
  settle(load, last, 2 * (link.firstFace + link.cells));
  const step = load.amount[link.firstCell]! < 0 || load.amount[last]! < 0 ? 0 : oneWay(state, link);
  if (step !== 0) return moveOn(state, link, load, step);
  limitedFluxes(state, link, load, flux);
  moveAlong(state, load, link, flux);
  lend(load, link.firstCell, link.cells, 1);
  lend(load, last, link.cells, -1);
}

/** 1 where nothing has crossed a face between cells backward, -1 where nothing forward; or 0. */
function oneWay({ carried }: State, { firstFace, cells }: LinkPlan): number {
  const end = firstFace + cells;
  const step = cells > 1 && carried[firstFace + 1]! < 0 ? -1 : 1;
  for (let f = firstFace + 1; f < end; f++) if (carried[f]! * step < 0) return 0;
  return step;
}

/**
 * What limitedFluxes and moveAlong do, with the same sums, where all goes one way: then each cell
 * has what comes to it before it gives, in one pass. Most pipes of most ticks.
 */
function moveOn({ carried, mass }: State, link: LinkPlan, load: Load, step: number): void {
  const { amount, share } = load;
  const { firstCell, firstFace, cells } = link;
  const first = step > 0 ? firstCell : firstCell + cells - 1;
  const end = step > 0 ? firstCell + cells - 1 : firstCell;
  let f = step > 0 ? firstFace + 1 : firstFace + cells - 1;
  let far = share[first]!;
  let x = far;
  let had = amount[first]!;
  for (let v = first; v !== end; v += step, f += step) {
    const liquid = carried[f]! * step;
    const next = share[v + step]!;
    const came = amount[v + step]!;
    const ahead = next - x;
    const behind = x - far;
    far = x;
    x = next;
    if (liquid === 0) {
      amount[v] = had;
      had = came;
      continue;
    }
    const held = mass[v]!;
    let asked = liquid * far;
    if (!(liquid < held)) asked = through(had, held + liquid, liquid);
    else if (ahead !== 0 && behind !== 0) {
      const r = behind / ahead;
      if (r > 0) asked = liquid * (far + (r / (1 + r)) * (1 - liquid / held) * ahead);
    }
    const moved = asked < had ? asked : had > 0 ? had : 0;
    amount[v] = had - moved;
    had = came + moved;
  }
  amount[end] = had;
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
    const r = (x - shares[far]!) / step;
    if (r <= 0) continue;
    const held = mass[up]!;
    const share = held > 0 ? (liquid < 0 ? -liquid : liquid) / held : 1;
    const courant = share < 1 ? share : 1;
    flux[k] = liquid * (x + (r / (1 + r)) * (1 - courant) * step);
  }
}
