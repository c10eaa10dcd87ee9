// Moves gas and liquid across faces for one tick, exactly conservatively: what leaves one side
// arrives at the other or in a named ledger. Each phase's outflow is scaled to what its donor
// holds. Leaves solutes to solute.ts and the tank's bubbles to tank.ts.
import { GAS_DUST, LIQUID_DUST } from '../constants.ts';
import { JUNCTION, LEDGER_DUST, OPEN, RESERVOIR, type Plan } from '../network/topology.ts';
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
  moves.gasOut.fill(0);
  moves.liquidOut.fill(0);
  for (let f = 0; f < plan.faces; f++) {
    const qg = fluxes.gas[f]!;
    const ql = fluxes.liquid[f]!;
    const from = plan.faceFrom[f]!;
    const to = plan.faceTo[f]!;
    const gasDonor = qg >= 0 ? from : to;
    const liquidDonor = ql >= 0 ? from : to;
    const g = qg === 0 ? 0 : qg * donorPressure(plan, state, gasDonor) * dt;
    const l = ql * state.density[liquidDonor]! * dt;
    moves.gas[f] = g;
    moves.liquid[f] = l;
    moves.gasOut[gasDonor]! += g >= 0 ? g : -g;
    moves.liquidOut[liquidDonor]! += l >= 0 ? l : -l;
  }
}

function share(plan: Plan, held: number, out: number, v: number): number {
  return out <= held || endless(plan, v) ? 1 : held / out;
}

/** Scales, then moves. Tanks' gas is moved by tank.ts, which knows the surface. */
export function carry(args: {
  plan: Plan; state: State; fluxes: Fluxes; moves: Moves; dt: number;
}): void {
  const { plan, state, fluxes, moves, dt } = args;
  wanted(plan, state, fluxes, moves, dt);
  for (let f = 0; f < plan.faces; f++) {
    const from = plan.faceFrom[f]!;
    const to = plan.faceTo[f]!;
    let g = moves.gas[f]!;
    let l = moves.liquid[f]!;
    if (g !== 0) {
      const donor = g > 0 ? from : to;
      const tank = donor < plan.nodes.length && plan.nodes[donor]!.tank >= 0;
      if (!tank) g *= share(plan, state.gas[donor]!, moves.gasOut[donor]!, donor);
      moves.gas[f] = g;
    }
    if (l !== 0) {
      const donor = l > 0 ? from : to;
      l *= share(plan, state.mass[donor]!, moves.liquidOut[donor]!, donor);
      moves.liquid[f] = l;
    }
  }
  for (let f = 0; f < plan.faces; f++) {
    book(plan, state, plan.faceFrom[f]!, -moves.gas[f]!, -moves.liquid[f]!);
    book(plan, state, plan.faceTo[f]!, moves.gas[f]!, moves.liquid[f]!);
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
