// Antifreeze that the liquid carries. Fittings and tanks mix every tick; pipes move it five
// times a second with a limiter that keeps fronts sharp. What crosses a pipe's end in between
// waits in `pending`, so nothing is lost and nothing is counted twice.
// Limiter: van Leer (1974) harmonic form on the upwind ratio [VanLeer1974].
import { abs, min } from '../base/math.ts';
import { atFraction } from '../network/mixture.ts';
import {
  JUNCTION,
  LEDGER_DUST,
  OPEN,
  RESERVOIR,
  TANK,
  type LinkPlan,
  type Plan,
} from '../network/plan.ts';
import { LEDGER_STRIDE, type State } from '../state.ts';
import type { Moves } from './flow.ts';

function fractionAt(plan: Plan, state: State, v: number): number {
  if (v < plan.nodes.length) {
    const node = plan.nodes[v]!;
    if (node.kind === RESERVOIR) return node.fraction;
    if (node.kind === OPEN) return 0;
  }
  return state.fraction[v]!;
}

/** Books `amount` kg into a node, an endless boundary, or a pipe end's waiting room. */
function give(plan: Plan, state: State, v: number, face: number, amount: number): void {
  if (v >= plan.nodes.length) {
    state.pending[2 * face + (v === plan.faceTo[face] ? 1 : 0)]! += amount;
    return;
  }
  const node = plan.nodes[v]!;
  if (node.kind === JUNCTION || node.kind === TANK) state.solute[v]! += amount;
  else state.ledger[node.ledger * LEDGER_STRIDE + 1]! += amount;
}

/** What a volume can still give, kg: of a pipe's end cell, what has not been promised yet. */
function available(plan: Plan, state: State, v: number, slot: number, other: number): number {
  if (v >= plan.nodes.length) {
    return state.solute[v]! + state.pending[slot]! + (other < 0 ? 0 : state.pending[other]!);
  }
  const kind = plan.nodes[v]!.kind;
  return kind === RESERVOIR || kind === OPEN ? 1e300 : state.solute[v]!;
}

/** Every tick: across pipe ends and fittings. */
export function mixNodes(plan: Plan, state: State, moves: Moves): void {
  for (let i = 0; i < plan.links.length; i++) {
    const { firstFace, cells } = plan.links[i]!;
    const last = firstFace + cells;
    // A pipe of one cell promises the same solute at both of its ends.
    crossEnd(plan, state, moves, firstFace, cells === 1 ? 2 * last : -1);
    if (cells > 0) crossEnd(plan, state, moves, last, cells === 1 ? 2 * firstFace + 1 : -1);
  }
  for (let n = 0; n < plan.nodes.length; n++) {
    const kind = plan.nodes[n]!.kind;
    if (kind === JUNCTION || kind === TANK) refresh(plan, state, n);
  }
}

function crossEnd(plan: Plan, state: State, moves: Moves, face: number, other: number): void {
  const liquid = moves.liquid[face]!;
  if (liquid === 0) return;
  const from = plan.faceFrom[face]!;
  const to = plan.faceTo[face]!;
  const donor = liquid > 0 ? from : to;
  const want = abs(liquid) * fractionAt(plan, state, donor);
  const slot = 2 * face + (donor === from ? 0 : 1);
  const amount = min(want, available(plan, state, donor, slot, other));
  if (amount <= 0) return;
  give(plan, state, donor, face, -amount);
  give(plan, state, donor === from ? to : from, face, amount);
}

/** kg. What a dry volume keeps for the next liquid to take up; less goes to the dust. */
const RESIDUE_DUST = 1e-9;
const DUST = LEDGER_DUST * LEDGER_STRIDE;

/** Fraction and density from contents. */
function refresh(plan: Plan, state: State, v: number): void {
  const mass = state.mass[v]!;
  const solute = state.solute[v]!;
  if (mass <= 0) {
    if (solute === 0 || solute > RESIDUE_DUST) return;
    state.ledger[DUST + 1]! += solute;
    state.solute[v] = 0;
    return;
  }
  const share = solute / mass;
  const x = share < 1 ? share : 1;
  if (x === state.fraction[v]) return;
  state.fraction[v] = x;
  state.density[v] = atFraction(plan.mixture, x);
}

/** Five times a second: along each pipe. `flux` is scratch, one number a face. */
export function carrySolute(plan: Plan, state: State, flux: Float64Array): void {
  for (let i = 0; i < plan.links.length; i++) {
    const link = plan.links[i]!;
    if (link.cells === 0) continue;
    limitedFluxes(state, link, flux);
    settle(state, link.firstCell, 2 * link.firstFace + 1);
    settle(state, link.firstCell + link.cells - 1, 2 * (link.firstFace + link.cells));
    moveAlong(state, link, flux);
    for (let k = 0; k < link.cells; k++) refresh(plan, state, link.firstCell + k);
  }
}

function moveAlong({ solute, carried }: State, link: LinkPlan, flux: Float64Array): void {
  for (let k = 1; k < link.cells; k++) {
    const right = link.firstCell + k;
    const wanted = flux[k]!;
    const most = wanted >= 0 ? solute[right - 1]! : -solute[right]!;
    const moved = wanted >= 0 ? (wanted < most ? wanted : most) : wanted > most ? wanted : most;
    solute[right - 1] = solute[right - 1]! - moved;
    solute[right] = solute[right]! + moved;
    carried[link.firstFace + k] = 0;
  }
}

function settle(state: State, v: number, slot: number): void {
  state.solute[v] = state.solute[v]! + state.pending[slot]!;
  state.pending[slot] = 0;
}

/** kg of solute through inner faces since last time: upwind, sharpened by the limiter. */
function limitedFluxes(
  { carried, fraction, mass }: State,
  link: LinkPlan,
  flux: Float64Array,
): void {
  const first = link.firstCell;
  const end = first + link.cells;
  for (let k = 1; k < link.cells; k++) {
    const liquid = carried[link.firstFace + k]!;
    const up = liquid > 0 ? first + k - 1 : first + k;
    const down = liquid > 0 ? up + 1 : up - 1;
    const far = liquid > 0 ? up - 1 : up + 1;
    const x = fraction[up]!;
    const step = fraction[down]! - x;
    flux[k] = liquid * x;
    if (step === 0 || far < first || far >= end) continue;
    const r = (x - fraction[far]!) / step;
    if (r <= 0) continue;
    const held = mass[up]!;
    const share = held > 0 ? (liquid < 0 ? -liquid : liquid) / held : 1;
    const courant = share < 1 ? share : 1;
    flux[k] = liquid * (x + (r / (1 + r)) * (1 - courant) * step);
  }
}
