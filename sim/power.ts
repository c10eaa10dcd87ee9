// Electricity of the cart, each tick before the pumps: what stands at the outlet and at the motors,
// what they draw and how fast they turn, what trips. A pump that has no motor here turns as it is
// told. Leaves out the law of each (laws/motor.ts) and what it means (hazards/power.ts).
import { clamp, exp, min } from './base/math.ts';
import type { EventKind, Fact } from './fact.ts';
import {
  BREAKER_HOLDS,
  BREAKER_MAGNETIC,
  breakerImage,
  generatorVolts,
  groundFaultTime,
  motorAmps,
  motorSlip,
  motorTorque,
  SLIP_RATED,
  speedAt,
} from './laws/motor.ts';
import type { PowerTruth } from './lens.ts';
import { shaftNow, SPEED, STANDS_BELOW } from './machines.ts';
import type { Plan } from './network/plan.ts';
import type { MotorPlan, PowerPlan } from './network/power.ts';
import { PUMP_STRIDE, type State } from './state.ts';

/** Offsets in the part of the state that is of the supply. */
export const IMAGE = 0; //     of the breaker: square of the current over its rating, lagging
const TOWARDS_TRIP = 1; //     share of the time to a ground fault trip that has gone
const BUTTON_AT = 2; //        where the protector stood before its test was pressed
export const OUTLET_V = 3; //  V behind the breaker
export const MOTOR_V = 4; //   V at the end of the cord
const SUPPLY_A = 5; //  A through the breaker
export const CORD_A = 6; //    A in the cord
/** Offsets in the part of each pump. */
const TURNS = 0; //            speed over rated speed, not held at 1
const AMPS = 1;
/** A that leaks from its winding while it is switched on and alive; defects may change it. */
const LEAK = 2;
export const WINDING = 3; //   square of the current over what it stands for long, lagging
export const WAITING = 4; //   s that its switch has stood on without power; -1 when it starts

const CUT = 5; //              1 while its own heat has cut it out

const HEAD = 7;
const STRIDE = 6;

/** Numbers of the state that so many pumps need. */
export function powerSize(pumps: number): number {
  return HEAD + STRIDE * pumps;
}

/** Where a pump's part of it begins. */
export function powerSlot(pump: number): number {
  return HEAD + STRIDE * pump;
}

/** Image of a breaker or a winding at which it lets go: what holds for long, squared. */
export const LETS_GO = BREAKER_HOLDS * BREAKER_HOLDS;
/** s. How slowly a winding warms [fit, no source: minutes of a small motor]. */
const WINDING_LAG = 600;
/** Image at which its own cutout closes again [fit, no source: ten minutes after it opened]. */
const COOLED = 0.5;
/** Torque over rated torque that turns a standing pump: seal and bearings [fit, no source]. */
const BREAKAWAY = 0.15;
/** s. How fast a motor near its speed of balance comes to it [fit]. */
const SETTLES = 0.15;
/** Ice in a casing, by mass, that holds its wheel fast [fit]. */
const FROZEN = 0.25;
/** Load over rated load that counts at the most: beyond it, it stands as good as still. */
const LOAD_MOST = 50;

interface PowerTick {
  readonly plan: Plan;
  readonly state: State;
  readonly alpha: Float64Array;
  readonly dt: number;
  readonly facts: Fact[];
}

/** How it all stands when the run starts. */
export function startPower(plan: Plan, state: State): void {
  const { power } = plan;
  if (power === null) return;
  state.power[BUTTON_AT] = power.protector < 0 ? 0 : state.device[power.protector]!;
  const alive = isAlive(power, state);
  power.motors.forEach((motor, k) => {
    if (motor === null) return;
    const at = powerSlot(k);
    state.power[at + LEAK] = motor.leak;
    if (!alive) state.pump[k * PUMP_STRIDE + SPEED] = 0;
    state.power[at + TURNS] = state.pump[k * PUMP_STRIDE + SPEED]!;
  });
  setVolts(power, state);
}

/** True where a breaker and a protector that stands before the plug let power through. */
export function isAlive(power: PowerPlan, state: State): boolean {
  const plug = state.device[power.plug]!;
  if (plug === 0 || state.device[power.breaker] !== 1) return false;
  return !isProtected(power, state) || state.device[power.protector] === 1;
}

/** True where the plug is in an outlet that has a ground-fault protector. */
export function isProtected(power: PowerPlan, state: State): boolean {
  return state.device[power.plug] === 1 && power.protector >= 0;
}

/** One tick: voltages by what turned as the last tick left it, then trips, then speeds. */
export function runPower(to: PowerTick): void {
  const { plan, state, dt } = to;
  const power = plan.power!;
  pressTest(to, power);
  setVolts(power, state);
  watchProtector(to, power);
  const share = state.power[SUPPLY_A]! / power.breakerAmps;
  state.power[IMAGE] = breakerImage(state.power[IMAGE]!, share, dt);
  const slow = state.power[IMAGE]! >= LETS_GO;
  if (state.device[power.breaker] === 1 && (slow || share >= BREAKER_MAGNETIC)) {
    state.device[power.breaker] = 0;
    say(to, 'breaker_tripped', plan.scenario.devices[power.breaker]!.id);
  }
  const warms = 1 - exp(-dt / WINDING_LAG);
  for (let k = 0; k < power.motors.length; k++) {
    const motor = power.motors[k]!;
    if (motor === null) continue;
    const at = powerSlot(k);
    const hot = state.power[at + AMPS]! / motor.service;
    state.power[at + WINDING]! += warms * (hot * hot - state.power[at + WINDING]!);
    if (motor.cutout) cutOut(to, motor.id, at);
    turn(to, motor, k);
  }
}

/** Opens at the heat at which a winding is overloaded, and closes by itself. */
function cutOut(to: PowerTick, id: string, at: number): void {
  const { power: p } = to.state;
  if (p[at + CUT] === 0 && p[at + WINDING]! >= LETS_GO) {
    p[at + CUT] = 1;
    say(to, 'motor_cut_out', id);
  } else if (p[at + WINDING]! < COOLED) p[at + CUT] = 0;
}

/** The button makes a fault of its own: a protector that is alive trips, a dead one stays. */
function pressTest(to: PowerTick, power: PowerPlan): void {
  const { plan, state } = to;
  if (power.protector < 0) return;
  const position = state.device[power.protector]!;
  if (position < 2) {
    state.power[BUTTON_AT] = position;
    return;
  }
  const stood = state.power[BUTTON_AT]!;
  const trips = stood === 1 && state.device[power.breaker] === 1;
  state.device[power.protector] = trips ? 0 : stood;
  state.power[BUTTON_AT] = state.device[power.protector]!;
  if (trips) say(to, 'ground_fault_tripped', plan.scenario.devices[power.protector]!.id);
}

/** Volts and amperes for the slip of each motor: at a given slip, current goes with voltage. */
function setVolts(power: PowerPlan, state: State): void {
  const { power: p } = state;
  const alive = isAlive(power, state);
  let Y = 0;
  for (let k = 0; k < power.motors.length; k++) {
    const driven = power.motors[k]!;
    if (driven === null) continue;
    const on = alive && p[powerSlot(k) + CUT] === 0 && state.control[driven.link] === 1;
    const slip = clamp(1 - p[powerSlot(k) + TURNS]! * (1 - SLIP_RATED), 1e-4, 1);
    const y = on ? motorAmps(driven.motor, slip, 1) / driven.motor.V : 0;
    p[powerSlot(k) + AMPS] = y;
    Y += y;
  }
  const closed = state.device[power.breaker] === 1;
  const cordY = Y / (1 + power.cord * Y);
  const { volts: V, droop, most: S } = power;
  const all = cordY + power.otherAmps / V;
  const E = !closed ? 0 : S === Infinity ? V : generatorVolts(V, droop, S, all);
  p[OUTLET_V] = E;
  p[MOTOR_V] = alive ? E / (1 + power.cord * Y) : 0;
  p[CORD_A] = p[MOTOR_V]! * Y;
  p[SUPPLY_A] = E * all;
  for (let k = 0; k < power.motors.length; k++) {
    if (power.motors[k] !== null) p[powerSlot(k) + AMPS]! *= p[MOTOR_V]!;
  }
}

/** A that leaks to earth now: of motors that are switched on and alive. */
export function leakNow(power: PowerPlan, state: State): number {
  if (!isAlive(power, state)) return 0;
  let sum = 0;
  for (let k = 0; k < power.motors.length; k++) {
    const driven = power.motors[k]!;
    if (driven === null || state.control[driven.link] !== 1) continue;
    sum += state.power[powerSlot(k) + LEAK]!;
  }
  return sum;
}

/** Faults that last: each tick brings it nearer by its share of the time that it may take. */
function watchProtector(to: PowerTick, power: PowerPlan): void {
  const { plan, state, dt } = to;
  if (!isProtected(power, state)) return;
  const time = groundFaultTime(leakNow(power, state));
  if (time === Infinity) {
    state.power[TOWARDS_TRIP] = 0;
    return;
  }
  state.power[TOWARDS_TRIP]! += dt / time;
  if (state.power[TOWARDS_TRIP]! < 1 - 1e-9) return;
  state.power[TOWARDS_TRIP] = 0;
  state.device[power.protector] = 0;
  state.power[BUTTON_AT] = 0;
  say(to, 'ground_fault_tripped', plan.scenario.devices[power.protector]!.id);
}

/** Speed of one pump: up as voltage has it, down as today, held where torque and load balance. */
function turn(to: PowerTick, driven: MotorPlan, pump: number): void {
  const { plan, state, alpha, dt } = to;
  const at = powerSlot(pump);
  const on = state.control[driven.link] === 1;
  const fed = on && state.power[at + CUT] === 0 && isAlive(plan.power!, state);
  const v = fed ? state.power[MOTOR_V]! / driven.motor.V : 0;
  wait(to, driven, at, v);
  const turns = state.power[at + TURNS]!;
  const speed = state.pump[pump * PUMP_STRIDE + SPEED]!;
  const load = shaftNow(plan, state, alpha, pump) / driven.motor.P;
  const full = speed < STANDS_BELOW ? 0 : min(LOAD_MOST, load / (speed * speed * speed));
  const wanted = v > 0 && !isHeld(to, driven, turns, v) ? speedAt(motorSlip(full, v)) : 0;
  const gap = wanted - turns;
  const rate = (dt / driven.spinUp) * (gap > 0 ? min(1, v * v) : 1);
  const settled = wanted === 0 ? 1 : 1 - exp(-dt / SETTLES);
  const next = gap > rate ? turns + rate : gap < -rate ? turns - rate : turns + settled * gap;
  state.power[at + TURNS] = next;
  state.pump[pump * PUMP_STRIDE + SPEED] = min(1, next);
}

/** A wheel that ice holds, or that stands and is turned too weakly. */
function isHeld(to: PowerTick, driven: MotorPlan, turns: number, v: number): boolean {
  const { plan, state } = to;
  const casing = plan.links[driven.link]!.from;
  if (plan.thermal !== null && state.ice[casing]! > FROZEN) return true;
  return turns < STANDS_BELOW && motorTorque(1, v) < BREAKAWAY;
}

/** A switch that stands on without power: the pump starts by itself as soon as there is some. */
function wait(to: PowerTick, driven: MotorPlan, at: number, v: number): void {
  const { state, dt } = to;
  const on = state.control[driven.link] === 1;
  const slot = at + WAITING;
  if (on && v === 0) {
    state.power[slot] = state.power[slot]! < 0 ? dt : state.power[slot]! + dt;
  } else if (on && state.power[slot]! > 0) {
    state.power[slot] = -1;
    say(to, 'restarted', driven.id);
  } else state.power[slot] = 0;
}

function say({ state, facts }: PowerTick, event: EventKind, at: string): void {
  facts.push({ tick: state.counter[0]!, kind: 'event', event, at });
}

/** What flows and stands, for the books; null where there is no power. */
export function powerTruth({ power, pumps }: Plan, state: State): PowerTruth | null {
  if (power === null) return null;
  const { power: p } = state;
  return {
    outlet_V: p[OUTLET_V]!,
    motor_V: p[MOTOR_V]!,
    supply_A: p[SUPPLY_A]!,
    cord_A: p[CORD_A]!,
    leak_A: leakNow(power, state),
    breaker: p[IMAGE]! / LETS_GO,
    motors: pumps.flatMap(({ id }, k) =>
      power.motors[k] === null
        ? []
        : [
            {
              id,
              current_A: p[powerSlot(k) + AMPS]!,
              speed: state.pump[k * PUMP_STRIDE + SPEED]!,
            },
          ],
    ),
  };
}
