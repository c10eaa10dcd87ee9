// What liquid carries along a pipe, five times a second: upwind, with a limiter that keeps fronts
// sharp: van Leer (1974) harmonic form on the upwind ratio [VanLeer1974].
import type { LinkPlan } from '../network/plan.ts';
import type { State } from '../state.ts';
import { TRACE, type Load } from './load.ts';

/** Five times a second: along one pipe. `flux` is scratch, one number a face. */
export function carryAlong(state: State, link: LinkPlan, load: Load, flux: Float64Array): void {
  limitedFluxes(state, link, load, flux);
  settle(load, link.firstCell, 2 * link.firstFace + 1);
  settle(load, link.firstCell + link.cells - 1, 2 * (link.firstFace + link.cells));
  moveAlong(state, load, link, flux);
  lend(load, link.firstCell, link.cells, 1);
  lend(load, link.firstCell + link.cells - 1, link.cells, -1);
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
