// The tank: bubbles that rise out of it or are carried under to the suction, air that a shallow
// outlet draws in, liquid over the rim. Tank gas in the state is bubbles in the liquid only.
// Simplification: arriving gas leaves at once but for a fine share; no foam, no second size.
import { max } from '../base/math.ts';
import { P_ATM } from '../base/units.ts';
import { FINE_SHARE } from '../constants.ts';
import {
  plungeEntrainment,
  vortexAirFraction,
  vortexSubmergence,
} from '../laws/tank.ts';
import { tankLevel } from '../network/columns.ts';
import { OPEN, TANK, type EndPlan, type Plan, type TankPlan } from '../network/plan.ts';
import { LEDGER_STRIDE, type State } from '../state.ts';
import type { Flow, Fluxes } from './flow.ts';

/** What a face at a boundary offers to a pipe that draws from it: gas share by volume. */
export function offerBoundaries(plan: Plan, state: State, fluxes: Fluxes): void {
  for (let e = 0; e < plan.ends.length; e++) {
    const end = plan.ends[e]!;
    fluxes.offered[end.slot] = offerOf(plan, state, fluxes, end);
  }
}

function offerOf(plan: Plan, state: State, fluxes: Fluxes, end: EndPlan): number {
  const node = plan.nodes[end.node]!;
  // A reservoir gives liquid only; an open end stands in air.
  if (node.kind !== TANK) return node.kind === OPEN ? 1 : 0;
  const depth = node.elevation + tankLevel(plan, state, node.tank) - end.z;
  const drawn = max(0, end.out * fluxes.total[end.face]!);
  const needed = vortexSubmergence(end.bore, drawn / end.area);
  const vortex = drawn > 0 ? vortexAirFraction(needed, depth) : depth <= 0 ? 1 : 0;
  const liquid = state.mass[end.node]! / state.density[end.node]!;
  const bubbles = liquid > 0 ? state.gas[end.node]! / P_ATM / liquid : 0;
  return vortex > bubbles ? vortex : bubbles > 1 ? 1 : bubbles;
}

/** Settles every tank after its faces' liquid has been moved. */
export function settleTanks(load: Flow): void {
  const { plan, state, dt } = load;
  for (let ix = 0; ix < plan.tanks.length; ix++) {
    const tank = plan.tanks[ix]!;
    const arrived = takeGas(load, tank);
    const at = plan.nodes[tank.node]!.ledger * LEDGER_STRIDE;
    const liquid = state.mass[tank.node]! / state.density[tank.node]!;
    const held = state.gas[tank.node]!;
    const depth = max(0.01, liquid / tank.spec.area_m2);
    const leaves = liquid > 0 ? held * (1 - 1 / (1 + (plan.fineRise * dt) / depth)) : held;
    state.gas[tank.node] = held - leaves;
    state.ledger[at + 2]! += leaves;
    state.tankRate[2 * ix + 1] = (leaves + arrived) / P_ATM / dt;
    spillOver(plan, state, ix, dt);
  }
}

/** Gas through the tank's faces: in, a fine share stays as bubbles; out, bubbles then air. */
function takeGas(load: Flow, tank: TankPlan): number {
  const { plan, state, moves, dt } = load;
  const { node } = tank;
  const { ledger, elevation, tank: ix } = plan.nodes[node]!;
  const at = ledger * LEDGER_STRIDE + 2;
  let straight = 0;
  for (let e = 0; e < tank.ends.length; e++) {
    const end = tank.ends[e]!;
    const gas = -end.out * moves.gas[end.face]!;
    const depth = elevation + tankLevel(plan, state, ix) - end.z;
    if (gas >= 0) {
      const stays = depth > 0 ? gas * FINE_SHARE : 0;
      state.gas[node]! += stays;
      state.ledger[at]! += gas - stays;
      straight += gas - stays;
    } else {
      const bubbles = -gas < state.gas[node]! ? -gas : state.gas[node]!;
      state.gas[node]! -= bubbles;
      state.ledger[at]! -= -gas - bubbles;
    }
    const inflow = (-end.out * moves.liquid[end.face]!) / state.density[node]! / dt;
    if (inflow > 0 && depth < 0) {
      const drawn = plungeEntrainment(inflow / end.area, end.bore, -depth) * inflow * dt * P_ATM;
      state.gas[node]! += drawn;
      state.ledger[at]! -= drawn;
    }
  }
  return straight;
}

/** What stands above the rim runs over, with what it carries. */
function spillOver(plan: Plan, state: State, ix: number, dt: number): void {
  const { node, spec } = plan.tanks[ix]!;
  const at = plan.nodes[node]!.ledger * LEDGER_STRIDE;
  const most = (spec.height_mm / 1000) * spec.area_m2 * state.density[node]!;
  const over = state.mass[node]! - most;
  state.tankRate[2 * ix] = over > 0 ? over / state.density[node]! / dt : 0;
  if (over <= 0) return;
  const solute = (state.solute[node]! * over) / state.mass[node]!;
  state.mass[node] = most;
  state.solute[node]! -= solute;
  state.ledger[at]! += over;
  state.ledger[at + 1]! += solute;
  if (plan.thermal !== null) spillHeat(plan, state, node, over);
}

/** J over the rim: a kilogram of what stands in the tank holds its share. */
function spillHeat(plan: Plan, state: State, node: number, over: number): void {
  const J = over * state.heatShare[node]!;
  state.heat[node] = state.heat[node]! - J;
  const at = plan.nodes[node]!.ledger;
  state.heatBook[at] = state.heatBook[at]! + J;
}
