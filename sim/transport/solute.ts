// Antifreeze that the liquid carries. Fittings and tanks mix every tick; pipes move it every
// fourth tick with a limiter that keeps fronts sharp. What crosses a pipe's end in between
// waits in `pending`, so nothing is lost and nothing is counted twice.
// Limiter: van Leer (1974) harmonic form on the upwind ratio [VanLeer1974].
import { abs, min } from '../base/math.ts';
import { mixDensity } from '../laws/antifreeze.ts';
import { JUNCTION, OPEN, RESERVOIR, TANK, type LinkPlan, type Plan } from '../network/plan.ts';
import { LEDGER_STRIDE, type State } from '../state.ts';
import type { Moves } from './flow.ts';

/** True where no antifreeze can ever be: then nothing here has to run. */
export function carriesSolute(plan: Plan): boolean {
  return plan.scenario.antifreeze !== 'none';
}

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

/** What a volume can still give, kg. */
function available(plan: Plan, state: State, v: number, face: number): number {
  if (v >= plan.nodes.length) {
    return state.solute[v]! + state.pending[2 * face + (v === plan.faceTo[face] ? 1 : 0)]!;
  }
  const kind = plan.nodes[v]!.kind;
  return kind === RESERVOIR || kind === OPEN ? 1e300 : state.solute[v]!;
}

/** Every tick: across pipe ends and fittings. */
export function mixNodes(plan: Plan, state: State, moves: Moves): void {
  for (const link of plan.links) {
    crossEnd(plan, state, moves, link.firstFace);
    if (link.cells > 0) crossEnd(plan, state, moves, link.firstFace + link.cells);
    for (let k = 1; k < link.cells; k++) {
      const f = link.firstFace + k;
      state.carried[f]! += moves.liquid[f]!;
    }
  }
  for (let n = 0; n < plan.nodes.length; n++) {
    const kind = plan.nodes[n]!.kind;
    if (kind === JUNCTION || kind === TANK) refresh(plan, state, n);
  }
}

function crossEnd(plan: Plan, state: State, moves: Moves, face: number): void {
  const liquid = moves.liquid[face]!;
  if (liquid === 0) return;
  const from = plan.faceFrom[face]!;
  const to = plan.faceTo[face]!;
  const donor = liquid > 0 ? from : to;
  const want = abs(liquid) * fractionAt(plan, state, donor);
  const amount = min(want, available(plan, state, donor, face));
  if (amount <= 0) return;
  give(plan, state, donor, face, -amount);
  give(plan, state, donor === from ? to : from, face, amount);
}

/** Fraction and density from contents. */
function refresh(plan: Plan, state: State, v: number): void {
  const mass = state.mass[v]!;
  if (mass <= 0) return;
  const x = min(1, state.solute[v]! / mass);
  if (x === state.fraction[v]) return;
  state.fraction[v] = x;
  state.density[v] = mixDensity(plan.scenario.antifreeze, plan.scenario.temperature_C, x);
}

/** Every fourth tick: along each pipe. `flux` is scratch, one number a face. */
export function carrySolute(plan: Plan, state: State, flux: Float64Array): void {
  for (const link of plan.links) {
    if (link.cells === 0) continue;
    for (let k = 1; k < link.cells; k++) flux[k] = limitedFlux(state, link, k);
    const last = link.firstCell + link.cells - 1;
    settle(state, link.firstCell, 2 * link.firstFace + 1);
    settle(state, last, 2 * (link.firstFace + link.cells));
    for (let k = 1; k < link.cells; k++) {
      const f = link.firstFace + k;
      const left = link.firstCell + k - 1;
      const donor = flux[k]! >= 0 ? left : left + 1;
      const most = state.solute[donor]!;
      const moved = flux[k]! >= 0 ? min(flux[k]!, most) : -min(-flux[k]!, most);
      state.solute[left]! -= moved;
      state.solute[left + 1]! += moved;
      state.carried[f] = 0;
    }
    for (let v = link.firstCell; v <= last; v++) refresh(plan, state, v);
  }
}

function settle(state: State, v: number, slot: number): void {
  state.solute[v]! += state.pending[slot]!;
  state.pending[slot] = 0;
}

/** kg of solute through inner face k since last time: upwind, sharpened by the limiter. */
function limitedFlux(state: State, link: LinkPlan, k: number): number {
  const liquid = state.carried[link.firstFace + k]!;
  if (liquid === 0) return 0;
  const dir = liquid > 0 ? 1 : -1;
  const up = link.firstCell + (dir > 0 ? k - 1 : k);
  const down = up + dir;
  const far = up - dir;
  const x = state.fraction[up]!;
  const step = state.fraction[down]! - x;
  if (step === 0 || far < link.firstCell || far >= link.firstCell + link.cells) return liquid * x;
  const r = (x - state.fraction[far]!) / step;
  if (r <= 0) return liquid * x;
  const mass = state.mass[up]!;
  const courant = mass > 0 ? min(1, abs(liquid) / mass) : 1;
  const limiter = (2 * r) / (1 + r);
  return liquid * (x + 0.5 * limiter * (1 - courant) * step);
}
