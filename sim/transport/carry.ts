// Moves gas and liquid across faces for one tick, exactly conservatively: what leaves one side
// arrives at the other or in a named ledger. Each phase's outflow is scaled to what its donor
// holds. Leaves solutes to solute.ts and the tank's bubbles to tank.ts.
import { GAS_DUST, LIQUID_DUST } from '../constants.ts';
import { JUNCTION, LEDGER_DUST, OPEN, RESERVOIR, type Plan } from '../network/plan.ts';
import { LEDGER_STRIDE, type State } from '../state.ts';
import { donorPressure, type Fluxes } from './flux.ts';

export interface Moves {
  /** J and kg through each face in this tick, along from -> to. */
  readonly gas: Float64Array;
  readonly liquid: Float64Array;
  /** What each volume would lose, J and kg. */
  readonly gasOut: Float64Array;
  readonly liquidOut: Float64Array;
}

export function makeMoves(plan: Plan): Moves {
  return {
    gas: new Float64Array(plan.faces),
    liquid: new Float64Array(plan.faces),
    gasOut: new Float64Array(plan.volumes),
    liquidOut: new Float64Array(plan.volumes),
  };
}

/** A boundary without a store of its own never runs out. */
function endless(plan: Plan, v: number): boolean {
  if (v >= plan.nodes.length) return false;
  const kind = plan.nodes[v]!.kind;
  return kind === RESERVOIR || kind === OPEN;
}

function wanted(plan: Plan, state: State, fluxes: Fluxes, moves: Moves, dt: number): void {
  const { gasOut, liquidOut } = moves;
  const { faceFrom, faceTo } = plan;
  const { density } = state;
  gasOut.fill(0);
  liquidOut.fill(0);
  for (let f = 0; f < plan.faces; f++) {
    const qg = fluxes.gas[f]!;
    const ql = fluxes.liquid[f]!;
    const liquidDonor = ql >= 0 ? faceFrom[f]! : faceTo[f]!;
    const l = ql * density[liquidDonor]! * dt;
    moves.liquid[f] = l;
    liquidOut[liquidDonor]! += l >= 0 ? l : -l;
    if (qg === 0) {
      moves.gas[f] = 0;
      continue;
    }
    const gasDonor = qg >= 0 ? faceFrom[f]! : faceTo[f]!;
    const g = qg * donorPressure(plan, state, gasDonor) * dt;
    moves.gas[f] = g;
    gasOut[gasDonor]! += g >= 0 ? g : -g;
  }
}

/** Share of what is wanted from each volume that it can give; boundaries never run out. */
function limit(plan: Plan, state: State, moves: Moves): void {
  const { gasOut, liquidOut } = moves;
  for (let v = 0; v < plan.volumes; v++) {
    const node = v < plan.nodes.length ? plan.nodes[v]! : null;
    const free = node !== null && node.kind !== JUNCTION;
    const tank = free && node.tank >= 0;
    gasOut[v] = free || gasOut[v]! <= state.gas[v]! ? 1 : state.gas[v]! / gasOut[v]!;
    liquidOut[v] =
      (free && !tank) || liquidOut[v]! <= state.mass[v]! ? 1 : state.mass[v]! / liquidOut[v]!;
  }
}

/** Scales, then moves. Tanks' gas is moved by tank.ts, which knows the surface. */
export function carry(args: {
  plan: Plan;
  state: State;
  fluxes: Fluxes;
  moves: Moves;
  dt: number;
}): void {
  const { plan, state, fluxes, moves, dt } = args;
  const { faceFrom, faceTo } = plan;
  const { gas, mass } = state;
  const nodes = plan.nodes.length;
  wanted(plan, state, fluxes, moves, dt);
  limit(plan, state, moves);
  for (let f = 0; f < plan.faces; f++) {
    const from = faceFrom[f]!;
    const to = faceTo[f]!;
    const l = moves.liquid[f]! * moves.liquidOut[moves.liquid[f]! >= 0 ? from : to]!;
    const g =
      moves.gas[f]! === 0 ? 0 : moves.gas[f]! * moves.gasOut[moves.gas[f]! >= 0 ? from : to]!;
    moves.liquid[f] = l;
    moves.gas[f] = g;
    if (from >= nodes) {
      mass[from]! -= l;
      gas[from]! -= g;
    } else book(plan, state, from, -g, -l);
    if (to >= nodes) {
      mass[to]! += l;
      gas[to]! += g;
    } else book(plan, state, to, g, l);
  }
  sweepDust(plan, state);
}

/** Adds to a volume's contents, or to a boundary's ledger (positive: went there). */
function book(plan: Plan, state: State, v: number, gas: number, liquid: number): void {
  if (endless(plan, v)) {
    const at = plan.nodes[v]!.ledger * LEDGER_STRIDE;
    state.ledger[at]! += liquid;
    state.ledger[at + 2]! += gas;
    return;
  }
  state.mass[v]! += liquid;
  if (v < plan.nodes.length && plan.nodes[v]!.kind !== JUNCTION) return;
  state.gas[v]! += gas;
}

/** Contents too small to matter go to a ledger, so that no denormal numbers arise. */
function sweepDust(plan: Plan, state: State): void {
  const at = LEDGER_DUST * LEDGER_STRIDE;
  for (let v = 0; v < plan.volumes; v++) {
    const gas = state.gas[v]!;
    if (gas !== 0 && gas < GAS_DUST) {
      state.ledger[at + 2]! += gas;
      state.gas[v] = 0;
    }
    const mass = state.mass[v]!;
    if (mass !== 0 && mass < LIQUID_DUST) {
      state.ledger[at]! += mass;
      state.ledger[at + 1]! += state.solute[v]!;
      state.mass[v] = 0;
      state.solute[v] = 0;
    }
  }
}
