// Pumps: spin-up, what gas in the casing takes from the head, the lock with its hysteresis, what
// a starved suction takes, heat of a pump that turns without through-flow.
// Factors follow their laws with a short lag, so that the solver never sees a step.
import { G } from './base/units.ts';
import { abs, min } from './base/math.ts';
import type { Fact } from './fact.ts';
import { GAS_LOCK, gasFactor, npshFactor, shaftPower } from './laws/pump.ts';
import { wornLeak, wornWheel } from './laws/defect.ts';
import { vapourPressure } from './laws/water.ts';
import { wearOf } from './defects/wheel.ts';
import { bringShaft } from './transport/exchange.ts';
import type { Plan } from './network/plan.ts';
import { COLUMN_LIQUID_STRIDE, PUMP_STRIDE, type State } from './state.ts';

/** Offsets in a pump's part of the state. */
export const SPEED = 0;
export const GAS_FACTOR = 1;
export const NPSH_FACTOR = 2;
export const LOCK_TIMER = 3;
export const LOCKED = 4;
export const HEAT = 5;

/** s. Lag of head behind the casing's gas and the suction's pressure [fit, no source]. */
const FACTOR_LAG = 0.2;
/** J/K. Iron of a small pump's casing, 5 kg at 460 J/kg/K. */
const CASING_HEAT = 2300;
const WATER_HEAT = 4190;

/** One tick of every pump; reads the casing (its from-node) as the last tick left it. */
export function runPumps(args: {
  plan: Plan;
  state: State;
  alpha: Float64Array;
  dt: number;
  facts: Fact[];
}): void {
  const { plan, state, alpha, dt, facts } = args;
  plan.pumps.forEach((pump, ix) => {
    const s = state.pump;
    const at = ix * PUMP_STRIDE;
    const link = plan.links[pump.link]!;
    // A motor of its own has turned it already (power.ts).
    if (plan.power === null || plan.power.motors[ix] === null) spinUp(plan, state, ix, dt);
    const Q = state.flow[link.firstColumn]!;
    const gasIn = alpha[link.from]!;
    const rho = state.liquid[link.firstColumn * COLUMN_LIQUID_STRIDE]!;
    lockPump({ state, at, gasIn, dt, tick: state.counter[0]!, id: pump.id, facts });
    const share = Q / (pump.spec.best_flow_L_s / 1000);
    const gas = s[at + LOCKED] === 1 ? 0 : gasFactor(gasIn, share);
    // Water that has warmed in the casing boils sooner.
    const vapour = vapourPressure(plan.scenario.temperature_C + s[at + HEAT]!);
    const npsh = (state.point[link.from]! - vapour) / (rho * G);
    const lag = min(1, dt / FACTOR_LAG);
    s[at + GAS_FACTOR]! += lag * (gas - s[at + GAS_FACTOR]!);
    const full = npshFactor(npsh / pump.spec.npsh_required_m);
    s[at + NPSH_FACTOR]! += lag * (full - s[at + NPSH_FACTOR]!);
    heatCasing({ plan, state, ix, alpha, dt });
  });
}

/** Towards the speed that its switch asks for, at its own rate. */
function spinUp(plan: Plan, state: State, ix: number, dt: number): void {
  const { spec, link } = plan.pumps[ix]!;
  const s = state.pump;
  const at = ix * PUMP_STRIDE;
  const wanted = state.control[link]!;
  const rate = dt / spec.spin_up_s;
  const gap = wanted - s[at + SPEED]!;
  s[at + SPEED] = abs(gap) <= rate ? wanted : s[at + SPEED]! + (gap > 0 ? rate : -rate);
}

/** Gas lock: breaks down after a while above one share, recovers only below a lower one. */
function lockPump(args: {
  state: State;
  at: number;
  gasIn: number;
  dt: number;
  tick: number;
  id: string;
  facts: Fact[];
}): void {
  const { state, at, gasIn, dt, tick, id, facts } = args;
  const s = state.pump;
  const was = s[at + LOCKED];
  if (s[at + SPEED]! < 0.1) {
    s[at + LOCK_TIMER] = 0; // A standing pump lets its gas rise; it is judged anew when it turns.
    s[at + LOCKED] = 0;
    return;
  }
  if (gasIn > GAS_LOCK.breakdown) {
    s[at + LOCK_TIMER]! += dt;
    if (s[at + LOCK_TIMER]! >= GAS_LOCK.delay_s) s[at + LOCKED] = 1;
  } else {
    s[at + LOCK_TIMER] = 0;
    if (gasIn < GAS_LOCK.recovery) s[at + LOCKED] = 0;
  }
  if (was === 0 && s[at + LOCKED] === 1)
    facts.push({ tick, kind: 'event', event: 'lost_prime', at: id });
  if (was === 1 && s[at + LOCKED] === 0)
    facts.push({ tick, kind: 'event', event: 'primed', at: id });
}

/** Speed share below which a pump takes no power worth counting. */
export const STANDS_BELOW = 0.05;

/**
 * Power at the shaft of pump ix now, W: by affinity with the cube of the speed, and as the casing's
 * contents weigh [fit: gas takes more of the head than of the power].
 */
export function shaftNow(plan: Plan, state: State, alpha: Float64Array, ix: number): number {
  const { curve, spec, link } = plan.pumps[ix]!;
  const wear = wearOf(plan, state, ix);
  const turns = state.pump[ix * PUMP_STRIDE + SPEED]!;
  if (turns < STANDS_BELOW) return 0;
  const speed = turns * wornWheel(wear);
  const back = (wornLeak(wear) * turns * spec.best_flow_L_s) / 1000;
  const { from, firstColumn } = plan.links[link]!;
  const full = shaftPower(curve, (state.flow[firstColumn]! + back) / speed, {
    rho: state.liquid[firstColumn * COLUMN_LIQUID_STRIDE]!,
    Q_bep: spec.best_flow_L_s / 1000,
    eta_max: spec.efficiency_max,
  });
  return speed * speed * speed * full * (1 - alpha[from]!);
}

/** Shaft power warms the casing; through-flow carries the warmth away. */
function heatCasing(args: {
  plan: Plan;
  state: State;
  ix: number;
  alpha: Float64Array;
  dt: number;
}): void {
  const { plan, state, ix, alpha, dt } = args;
  const at = ix * PUMP_STRIDE;
  const link = plan.links[plan.pumps[ix]!.link]!;
  const power = shaftNow(plan, state, alpha, ix);
  if (plan.thermal !== null) {
    // The casing is a volume like any other, its iron with it.
    bringShaft(args, link.from, power * dt);
    state.pump[at + HEAT] = state.temp[link.from]! - plan.scenario.temperature_C;
    return;
  }
  const store = state.mass[link.from]! * WATER_HEAT + CASING_HEAT;
  const rho = state.liquid[link.firstColumn * COLUMN_LIQUID_STRIDE]!;
  const carriedAway = rho * abs(state.flow[link.firstColumn]!) * WATER_HEAT;
  const heat = state.pump[at + HEAT]!;
  state.pump[at + HEAT] = (heat + (power * dt) / store) / (1 + (carriedAway * dt) / store);
}
