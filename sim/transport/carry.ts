// Moves gas and liquid across the ends of links for one tick, exactly conservatively: what leaves
// one side arrives at the other or in a named ledger. Leaves solutes to solute.ts, what crosses
// between a pipe's cells to split.ts and clear.ts, and the tank's bubbles to tank.ts.
import { GAS_DUST, LIQUID_DUST } from '../constants.ts';
import { JUNCTION, LEDGER_DUST, OPEN, RESERVOIR, type Plan } from '../network/plan.ts';
import { LEDGER_STRIDE, type State } from '../state.ts';
import type { Flow, Moves } from './flow.ts';

export function makeMoves(plan: Plan): Moves {
  return {
    gas: new Float64Array(plan.faces),
    liquid: new Float64Array(plan.faces),
    gasOut: new Float64Array(plan.volumes),
    liquidOut: new Float64Array(plan.volumes),
    gasAsked: new Float64Array(plan.nodes.length),
    liquidAsked: new Float64Array(plan.nodes.length),
    arrived: new Float64Array(plan.nodes.length),
  };
}

/** Moves contents across all ends of links; tank.ts, which knows the surface, moves tanks' gas. */
export function carryEnds(flow: Flow): void {
  const { links, nodes } = flow.plan;
  for (let i = 0; i < links.length; i++) {
    const { firstFace, firstCell, cells } = links[i]!;
    cross(flow, firstFace);
    if (cells === 0) continue;
    cross(flow, firstFace + cells);
    sweep(flow.state, firstCell);
    sweep(flow.state, firstCell + cells - 1);
  }
  for (let n = 0; n < nodes.length; n++) sweep(flow.state, n);
}

/** A face at a fitting or a boundary. */
function cross({ plan, state, moves }: Flow, f: number): void {
  const l = moves.liquid[f]!;
  const g = moves.gas[f]!;
  book(plan, state, plan.faceFrom[f]!, -g, -l);
  book(plan, state, plan.faceTo[f]!, g, l);
}

/** Adds to a volume's contents, or to a boundary's ledger (positive: went there). */
function book(plan: Plan, state: State, v: number, gas: number, liquid: number): void {
  const kind = plan.kinds[v]!;
  if (kind === RESERVOIR || kind === OPEN) {
    const at = plan.nodes[v]!.ledger * LEDGER_STRIDE;
    state.ledger[at] = state.ledger[at]! + liquid;
    state.ledger[at + 2] = state.ledger[at + 2]! + gas;
    return;
  }
  state.mass[v] = state.mass[v]! + liquid;
  if (kind === JUNCTION) state.gas[v] = state.gas[v]! + gas;
}

/** Contents too small to matter go to a ledger, so that no denormal numbers arise. */
export function sweep(state: State, v: number): void {
  if (state.gas[v]! < GAS_DUST && state.gas[v] !== 0) sweepGas(state, v);
  if (state.mass[v]! < LIQUID_DUST && state.mass[v] !== 0) sweepLiquid(state, v);
}

const DUST = LEDGER_DUST * LEDGER_STRIDE;

function sweepGas(state: State, v: number): void {
  state.ledger[DUST + 2] = state.ledger[DUST + 2]! + state.gas[v]!;
  state.gas[v] = 0;
}

/** What was dissolved in it has not crossed yet: solute.ts looks after it. */
function sweepLiquid(state: State, v: number): void {
  state.ledger[DUST] = state.ledger[DUST]! + state.mass[v]!;
  state.mass[v] = 0;
}
