// What hands do with vessels: a cup filled for a sample, a pail carried from tank to tank. Liquid,
// antifreeze, heat and bubbles go where they go exactly. Leaves reading a sample to samples.ts.
import { min, PI, sqrt } from './base/math.ts';
import { P_ATM } from './base/units.ts';
import type { HeldBy } from './fact.ts';
import { temperatureOf } from './instrument.ts';
import type { CarryPlan, CupPlan } from './network/vessel-plan.ts';
import { TANK, type Plan } from './network/plan.ts';
import { canOpen, openHousing } from './service.ts';
import { CUP_STRIDE, LEDGER_STRIDE, type State } from './state.ts';

/** m2 and share of its flow: a sample cock's bore of 4 mm, as a sharp-edged hole. */
const COCK = (PI * 0.004 * 0.004) / 4;
const HOLE = 0.6;
/** m3/s. What a hand lets run into a cup at the most [common practice, no source]. */
const HAND_LETS = 5e-5;
/** Pa gauge below which nothing runs; share of gas above which only air comes. */
const TRICKLE = 200;
const ONLY_AIR = 0.95;
/** kg. Less is an empty tank to a pail or a cup. */
const EMPTY = 1e-3;

/** Before the hand gets there: a cup for a new sample is emptied, trips count from none. */
export function beginWork(plan: Plan, state: State, device: number, target: number): void {
  const cup = plan.mix.cupOf[device]!;
  if (cup < 0 && plan.mix.carryOf[device]! < 0) return;
  state.device[device] = 0;
  if (cup >= 0 && target > 0) state.cup.fill(0, cup * CUP_STRIDE, (cup + 1) * CUP_STRIDE);
}

/** Why there is nothing to fill a cup or a pail with; null where there is. */
export function canWork(plan: Plan, state: State, device: number, target: number): HeldBy | null {
  const lid = canOpen({ plan, state }, device);
  if (lid !== null) return lid;
  const cup = plan.mix.cups[plan.mix.cupOf[device]!];
  if (cup !== undefined && target > 0) return canFill(plan, state, cup.places[target - 1]!);
  const carry = plan.mix.carries[plan.mix.carryOf[device]!];
  if (carry === undefined || state.device[device]! >= target) return null;
  return state.mass[carry.from]! < EMPTY ? 'empty' : null;
}

function canFill(plan: Plan, state: State, n: number): HeldBy | null {
  if (plan.nodes[n]!.kind === TANK) return state.mass[n]! < EMPTY ? 'empty' : null;
  const runs = state.point[n]! - P_ATM > TRICKLE && gasShare(plan, state, n) < ONLY_AIR;
  return runs ? null : 'nothing_comes';
}

function gasShare(plan: Plan, state: State, n: number): number {
  return min(1, (state.gas[n]! * state.warmth[n]!) / state.pressure[n]! / plan.room[n]!);
}

/** One tick of work on a device; true when it stands where it is to stand. */
export function workVessel(
  plan: Plan,
  state: State,
  work: { device: number; target: number; dt: number },
): boolean {
  const { device, target, dt } = work;
  const carry = plan.mix.carries[plan.mix.carryOf[device]!];
  if (carry !== undefined) return trip(plan, state, carry, target);
  openHousing({ plan, state }, device, target);
  const cup = plan.mix.cups[plan.mix.cupOf[device]!];
  if (cup === undefined) return true;
  if (target > 0) return fillCup(plan, state, { cup, n: cup.places[target - 1]!, dt });
  const at = plan.mix.cupOf[device]! * CUP_STRIDE;
  state.cup.fill(0, at, at + CUP_STRIDE);
  return true;
}

/** True once the cup is full. A tank is dipped into; elsewhere a cock gives what its hole lets. */
function fillCup(
  plan: Plan,
  state: State,
  { cup, n, dt }: { cup: CupPlan; n: number; dt: number },
): boolean {
  const at = plan.mix.cupOf[cup.device]! * CUP_STRIDE;
  const rho = state.density[n]!;
  const wanted = cup.room - state.cup[at]! / rho;
  if (plan.nodes[n]!.kind === TANK) {
    takeLiquid(plan, state, { at, n, kg: min(wanted * rho, state.mass[n]!) });
    return true;
  }
  const over = state.point[n]! - P_ATM;
  const runs = min(HAND_LETS, HOLE * COCK * sqrt((2 * over) / rho)) * dt;
  const gas = gasShare(plan, state, n);
  const liquid = min(wanted, runs * (1 - gas));
  takeLiquid(plan, state, { at, n, kg: min(liquid * rho, 0.5 * state.mass[n]!) });
  if (gas > 0) {
    const J = min((runs * gas * state.pressure[n]!) / state.warmth[n]!, 0.5 * state.gas[n]!);
    state.gas[n] = state.gas[n]! - J;
    state.ledger[plan.mix.sample * LEDGER_STRIDE + 2]! += J;
  }
  return state.cup[at]! / rho > cup.room * (1 - 1e-6);
}

/** Into a cup: what it takes is gone from the rig, and mixes with what is in the cup. */
function takeLiquid(
  plan: Plan,
  state: State,
  { at, n, kg }: { at: number; n: number; kg: number },
): void {
  if (kg <= 0) return;
  const share = kg / state.mass[n]!;
  const solute = state.solute[n]! * share;
  const ledger = plan.mix.sample * LEDGER_STRIDE;
  state.mass[n] = state.mass[n]! - kg;
  state.solute[n] = state.solute[n]! - solute;
  state.ledger[ledger] = state.ledger[ledger]! + kg;
  state.ledger[ledger + 1] = state.ledger[ledger + 1]! + solute;
  if (plan.thermal !== null) {
    const J = kg * state.heatShare[n]!;
    state.heat[n] = state.heat[n]! - J;
    state.heatBook[plan.mix.sample] = state.heatBook[plan.mix.sample]! + J;
  }
  const held = state.cup[at]!;
  const all = held + kg;
  state.cup[at] = all;
  state.cup[at + 1] = (held * state.cup[at + 1]! + solute) / all;
  state.cup[at + 2] = (held * state.cup[at + 2]! + kg * temperatureOf(plan, state, n)) / all;
}

/** One pailful from tank to tank; true after the last trip. What finds no room runs over. */
function trip(plan: Plan, state: State, carry: CarryPlan, target: number): boolean {
  const { device, from, to, room } = carry;
  if (state.device[device]! >= target) return true;
  const kg = min(room * state.density[from]!, state.mass[from]!);
  const share = kg / state.mass[from]!;
  pass(state.mass, carry, kg);
  pass(state.solute, carry, state.solute[from]! * share);
  pass(state.gas, carry, state.gas[from]! * share);
  const a = 2 * plan.nodes[from]!.tank;
  const b = 2 * plan.nodes[to]!.tank;
  const coarse = state.tankGas[a]! * share;
  state.tankGas[a] = state.tankGas[a]! - coarse;
  state.tankGas[b] = state.tankGas[b]! + coarse;
  if (plan.thermal !== null) pass(state.heat, carry, kg * state.heatShare[from]!);
  state.device[device] = state.device[device]! + 1;
  return state.device[device]! >= target;
}

function pass(list: Float64Array, { from, to }: CarryPlan, amount: number): void {
  list[from] = list[from]! - amount;
  list[to] = list[to]! + amount;
}

/** J/kg/K, W/m2/K in still air, and the surface of a ball over the two-thirds of its room. */
const SAMPLE_HEAT = 4000;
const STILL_AIR = 10;
const BALL = 4.836;

/** Once a tick: what stands in a cup takes the warmth of the air, in the better part of an hour. */
export function coolCups(plan: Plan, state: State, dt: number): void {
  const { heat } = plan.scenario;
  if (heat === undefined) return;
  for (let k = 0; k < plan.mix.cups.length; k++) {
    const at = k * CUP_STRIDE;
    const kg = state.cup[at]!;
    if (kg <= 0) continue;
    const side = plan.mix.cups[k]!.side;
    const rate = (STILL_AIR * BALL * side * side) / (kg * SAMPLE_HEAT);
    const gap = heat.air_C - state.cup[at + 2]!;
    state.cup[at + 2] = state.cup[at + 2]! + (gap * rate * dt) / (1 + rate * dt);
  }
}
