// The tank: bubbles that rise out of it or are carried under to the suction, air that a shallow
// outlet draws in, liquid over the rim. Tank gas in the state is bubbles in the liquid only.
// Unless a tank asks for two sizes, arriving gas leaves at once but for a fine share. Foam stays on
// the surface until it falls in, and is gas of the tank's own beside the bubbles.
import { max } from '../base/math.ts';
import { P_ATM } from '../base/units.ts';
import { FINE_SHARE, FOAM_SHARE } from '../constants.ts';
import {
  plungeDepth,
  plungeEntrainment,
  vortexAirFraction,
  vortexSubmergence,
} from '../laws/tank.ts';
import { tankLevel } from '../network/columns.ts';
import { OPEN, TANK, type EndPlan, type Plan, type TankPlan } from '../network/plan.ts';
import { LEDGER_STRIDE, type State } from '../state.ts';
import type { Flow, Fluxes } from './flow.ts';

const LN2 = 0.6931471805599453;

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
  const vortex = airDrawn(plan, state, end, max(0, end.out * fluxes.total[end.face]!));
  const liquid = state.mass[end.node]! / state.density[end.node]!;
  const bubbles = liquid > 0 ? suspended(plan, state, fluxes, end) / P_ATM / liquid : 0;
  return vortex > bubbles ? vortex : bubbles > 1 ? 1 : bubbles;
}

/** Share of air in what a tank's outlet gives at so much flow, m3/s: one that is bare gives air. */
export function airDrawn(plan: Plan, state: State, end: EndPlan, drawn: number): number {
  const { elevation, tank } = plan.nodes[end.node]!;
  const depth = elevation + tankLevel(plan, state, tank) - end.z;
  const needed = vortexSubmergence(end.bore, drawn / end.area);
  return drawn > 0 ? vortexAirFraction(needed, depth) : depth <= 0 ? 1 : 0;
}

/** J. Bubbles an outlet can draw: fine ones, and coarse ones that a jet or the flow brings. */
function suspended(plan: Plan, state: State, fluxes: Fluxes, end: EndPlan): number {
  const { tank: ix, elevation } = plan.nodes[end.node]!;
  const { ends, spec } = plan.tanks[ix]!;
  const coarse = state.tankGas[2 * ix]!;
  const all = state.gas[end.node]!;
  if (coarse === 0) return all;
  if (end.out * fluxes.total[end.face]! > plan.coarseRise * spec.area_m2) return all;
  const surface = elevation + tankLevel(plan, state, ix);
  for (let e = 0; e < ends.length; e++) {
    const jet = ends[e]!;
    const inflow = -jet.out * fluxes.total[jet.face]!;
    if (inflow <= 0 || jet.z <= surface) continue;
    if (surface - end.z < plungeDepth(inflow / jet.area, jet.bore)) return all;
  }
  return all - coarse;
}

/** Settles every tank after its faces' liquid has been moved. */
export function settleTanks(load: Flow): void {
  const { plan, state, dt } = load;
  for (let ix = 0; ix < plan.tanks.length; ix++) {
    const tank = plan.tanks[ix]!;
    const arrived = takeGas(load, tank);
    const at = plan.nodes[tank.node]!.ledger * LEDGER_STRIDE;
    const rises = risen(load, tank, ix);
    state.tankRate[2 * ix + 1] = (rises + arrived) / P_ATM / dt;
    state.ledger[at + 2]! += rises - foamed(load, tank, ix, rises + arrived);
    spillOver(plan, state, ix, dt);
  }
}

/** J of bubbles that break the surface in a tick, each size by its own rise from all depths. */
function risen({ plan, state, dt }: Flow, { node, spec }: TankPlan, ix: number): number {
  const liquid = state.mass[node]! / state.density[node]!;
  const held = state.gas[node]!;
  const coarse = state.tankGas[2 * ix]!;
  const depth = max(0.01, liquid / spec.area_m2);
  const dry = liquid <= 0;
  const big = coarse * (dry ? 1 : 1 - 1 / (1 + (plan.coarseRise * dt) / depth));
  const leaves = (held - coarse) * (dry ? 1 : 1 - 1 / (1 + (plan.fineRise * dt) / depth)) + big;
  state.tankGas[2 * ix] = coarse - big;
  state.gas[node] = held - leaves;
  return leaves;
}

/** J that foam takes from what breaks the surface, less what falls in, in a tick. */
function foamed({ state, dt }: Flow, { spec }: TankPlan, ix: number, breaks: number): number {
  if (spec.foam_half_life_s === undefined) return 0;
  const at = 2 * ix + 1;
  const foam = state.tankGas[at]!;
  const falls = (foam * LN2 * dt) / (spec.foam_half_life_s + LN2 * dt);
  const more = FOAM_SHARE * breaks - falls;
  state.tankGas[at] = foam + more;
  return more;
}

/** Gas through the tank's faces: in, a fine share stays as bubbles; out, bubbles then air. */
function takeGas(load: Flow, tank: TankPlan): number {
  const { plan, state, moves, dt } = load;
  const { node } = tank;
  const { ledger, elevation, tank: ix } = plan.nodes[node]!;
  const at = ledger * LEDGER_STRIDE + 2;
  const sizes = tank.spec.bubble_sizes === 2;
  let straight = 0;
  for (let e = 0; e < tank.ends.length; e++) {
    const end = tank.ends[e]!;
    const gas = -end.out * moves.gas[end.face]!;
    const depth = elevation + tankLevel(plan, state, ix) - end.z;
    if (gas >= 0) {
      const stays = depth > 0 ? gas * (sizes ? 1 : FINE_SHARE) : 0;
      state.gas[node]! += stays;
      if (sizes) state.tankGas[2 * ix]! += stays * (1 - FINE_SHARE);
      state.ledger[at]! += gas - stays;
      straight += gas - stays;
    } else {
      const bubbles = -gas < state.gas[node]! ? -gas : state.gas[node]!;
      const fine = state.gas[node]! - state.tankGas[2 * ix]!;
      if (bubbles > fine) state.tankGas[2 * ix]! -= bubbles - fine;
      state.gas[node]! -= bubbles;
      state.ledger[at]! -= -gas - bubbles;
    }
    const inflow = (-end.out * moves.liquid[end.face]!) / state.density[node]! / dt;
    if (inflow > 0 && depth < 0) {
      const drawn = plungeEntrainment(inflow / end.area, end.bore, -depth) * inflow * dt * P_ATM;
      state.gas[node]! += drawn;
      if (sizes) state.tankGas[2 * ix]! += drawn * (1 - FINE_SHARE);
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
  if (state.air.length > 0) spillAir(plan, state, node, over / (most + over));
  if (plan.thermal !== null) spillHeat(plan, state, node, over);
}

/** Air in solution goes over the rim with its share of the liquid. */
function spillAir(plan: Plan, state: State, node: number, share: number): void {
  const J = state.air[node]! * share;
  state.air[node] = state.air[node]! - J;
  const at = plan.nodes[node]!.ledger * LEDGER_STRIDE + 2;
  state.ledger[at] = state.ledger[at]! + J;
}

/** J over the rim: a kilogram of what stands in the tank holds its share. */
function spillHeat(plan: Plan, state: State, node: number, over: number): void {
  const J = over * state.heatShare[node]!;
  state.heat[node] = state.heat[node]! - J;
  const at = plan.nodes[node]!.ledger;
  state.heatBook[at] = state.heatBook[at]! + J;
}
