// Pairs of hands: a command sets a target, the hand reaches for the control, then moves it at the
// control's own rate; further commands wait in order. The first pair is one's own, the second a
// helper's, who has to be told first. Leaves out what the controls do.
import { max } from './base/math.ts';
import { HANDS_QUEUE } from './constants.ts';
import type { Command } from './command.ts';
import { tapNeedle } from './defects/gauges.ts';
import { farthest, givesUp } from './defects/handles.ts';
import type { Fact, HeldBy, RefusedReason } from './fact.ts';
import { hasNeedle } from './lens.ts';
import { FULL_DEG } from './network/passage.ts';
import type { Plan } from './network/plan.ts';
import { keptFrom } from './latches.ts';
import { lastPosition, takeOf } from './scenario-devices.ts';
import { beginStrokes, canStroke, stroke } from './strokes.ts';
import { beginWork, canWork, workVessel } from './vessels.ts';
import type { State } from './state.ts';

/** A pair: [0] control or -1; [1] target; [2] time until it moves, s; [3] waiting; then pairs. */
export const BUSY = 0;
export const TARGET = 1;
export const REACH = 2;
const WAITING = 3;
const FIRST = 4;
export const HANDS_STRIDE = FIRST + 2 * HANDS_QUEUE;
/** One's own hands, and a helper's. */
export const PAIRS = 2;

export function restHands(state: State): void {
  state.hands.fill(0);
  for (let pair = 0; pair < PAIRS; pair++) state.hands[pair * HANDS_STRIDE + BUSY] = -1;
}

/** What a pair of hands has under it and before it: control and target each, the first in hand. */
export interface InHand {
  readonly busy: number;
  readonly all: ReadonlyArray<readonly [control: number, target: number]>;
}

export function inHand({ hands }: State, pair: number): InHand {
  const at = pair * HANDS_STRIDE;
  const busy = hands[at + BUSY]!;
  const all: [number, number][] = busy < 0 ? [] : [[busy, hands[at + TARGET]!]];
  for (let k = 0; k < hands[at + WAITING]!; k++) {
    all.push([hands[at + FIRST + 2 * k]!, hands[at + FIRST + 2 * k + 1]!]);
  }
  return { busy, all };
}

/** Controls are links by index, then tank markers, then devices, then instruments to tap. */
function controlIx(plan: Plan, command: Command): number {
  switch (command.kind) {
    case 'valve':
      return linkOf(plan, command.valve, ['valve', 'leg']);
    case 'switch':
      return linkOf(plan, command.pump, ['pump']);
    case 'flow':
      return linkOf(plan, command.link, ['fixed_flow']);
    case 'coupling':
      return linkOf(plan, command.coupling, ['coupling']);
    case 'stroke':
      return linkOf(plan, command.pump, ['hand_pump']);
    case 'mark': {
      const tank = plan.tanks.findIndex((t) => t.id === command.tank);
      return tank < 0 ? -1 : plan.links.length + tank;
    }
    case 'set': {
      const device = plan.deviceIx.get(command.device);
      return device === undefined ? -1 : firstDevice(plan) + device;
    }
    case 'tap': {
      const gauge = plan.scenario.instruments.findIndex((i) => i.id === command.gauge);
      const needle = gauge >= 0 && hasNeedle(plan.scenario.instruments[gauge]!.kind);
      return needle ? firstGauge(plan) + gauge : -1;
    }
    case 'note':
    case 'answer':
    case 'leave':
    case 'done':
      return -1;
  }
}

/** Index as a control of the first device, and of the first instrument. */
export function firstDevice(plan: Plan): number {
  return plan.links.length + plan.tanks.length;
}
function firstGauge(plan: Plan): number {
  return firstDevice(plan) + plan.scenario.devices.length;
}

function linkOf(plan: Plan, id: string, kinds: readonly string[]): number {
  const ix = plan.linkIx.get(id);
  if (ix === undefined || plan.links[ix]!.control !== ix) return -1;
  return kinds.includes(plan.links[ix]!.spec.kind) ? ix : -1;
}

export function controlId(plan: Plan, ix: number): string {
  if (ix < plan.links.length) return plan.links[ix]!.id;
  const gauge = ix - firstGauge(plan);
  if (gauge >= 0) return plan.scenario.instruments[gauge]!.id;
  const device = ix - firstDevice(plan);
  if (device >= 0) return plan.scenario.devices[device]!.id;
  return plan.tanks[ix - plan.links.length]!.id;
}

function targetOf(command: Command): number {
  switch (command.kind) {
    case 'valve':
      return command.target_deg;
    case 'switch':
      return command.on ? 1 : 0;
    case 'flow':
      return command.flow_mL_s / 1e6;
    case 'coupling':
      return command.made ? 1 : 0;
    case 'set':
      return command.position;
    case 'stroke':
      return command.strokes;
    default:
      return 0;
  }
}

/** True where a control has no such position. */
function isBeyond(plan: Plan, ix: number, target: number): boolean {
  if (plan.links[ix]?.spec.kind === 'valve') return target > FULL_DEG;
  const device = plan.scenario.devices[ix - firstDevice(plan)];
  return device !== undefined && target > lastPosition(device);
}

/** Takes a command on: changes the target of a control already in hand or waiting. */
export function instruct(plan: Plan, state: State, command: Command): 'taken' | RefusedReason {
  const { hands } = state;
  const ix = controlIx(plan, command);
  if (ix < 0) return 'unknown_control';
  const target = targetOf(command);
  if (isBeyond(plan, ix, target)) return 'no_such_position';
  const pair = 'by' in command && command.by === 'helper' ? 1 : 0;
  if (pair === 1 && plan.scenario.hands.helper === undefined) return 'no_helper';
  const at = pair * HANDS_STRIDE;
  if (slotOf(state, (1 - pair) * HANDS_STRIDE, ix) >= 0) return 'in_other_hands';
  const slot = slotOf(state, at, ix);
  if (slot >= 0) {
    hands[slot + 1] = target;
    return 'taken';
  }
  const waiting = hands[at + WAITING]!;
  if (waiting >= HANDS_QUEUE) return 'hands_full';
  hands[at + FIRST + 2 * waiting] = ix;
  hands[at + FIRST + 2 * waiting + 1] = target;
  hands[at + WAITING] = waiting + 1;
  return 'taken';
}

/** The control that a pair of hands is at, its way there behind it; -1 where there is none. */
export function atWork({ hands }: State, pair: number): number {
  const at = pair * HANDS_STRIDE;
  return hands[at + REACH]! > 0 ? -1 : hands[at + BUSY]!;
}

/** Share of the time gone by that a pair needs for putting this control to 1; 0 where none does. */
export function wayTo(plan: Plan, { hands }: State, ix: number): number {
  for (let pair = 0; pair < PAIRS; pair++) {
    const at = pair * HANDS_STRIDE;
    if (hands[at + BUSY] !== ix || hands[at + TARGET] !== 1) continue;
    return 1 - max(0, hands[at + REACH]!) / reachFor(plan, ix, pair);
  }
  return 0;
}

/** Where a pair has this control, in hand or waiting; its target lies behind. -1 where not. */
function slotOf({ hands }: State, at: number, ix: number): number {
  if (hands[at + BUSY] === ix) return at + BUSY;
  for (let k = 0; k < hands[at + WAITING]!; k++) {
    if (hands[at + FIRST + 2 * k] === ix) return at + FIRST + 2 * k;
  }
  return -1;
}

/** Moves what is in hand for one tick; takes up the next control when free. */
export function moveHands(plan: Plan, state: State, dt: number, facts: Fact[]): void {
  state.stroke.fill(0);
  const to = { plan, state, dt, facts };
  for (let pair = 0; pair < PAIRS; pair++) movePair(to, pair);
}

interface Tick {
  readonly plan: Plan;
  readonly state: State;
  readonly dt: number;
  readonly facts: Fact[];
}

function movePair(to: Tick, pair: number): void {
  const { plan, state, dt, facts } = to;
  const { hands } = state;
  const at = pair * HANDS_STRIDE;
  if (hands[at + BUSY]! < 0) {
    if (hands[at + WAITING] === 0) return;
    hands[at + BUSY] = hands[at + FIRST]!;
    hands[at + TARGET] = hands[at + FIRST + 1]!;
    hands[at + REACH] = reachFor(plan, hands[at + BUSY]!, pair);
    begin(plan, state, hands[at + BUSY]!, hands[at + TARGET]!);
    hands.copyWithin(at + FIRST, at + FIRST + 2, at + HANDS_STRIDE);
    hands[at + WAITING] = hands[at + WAITING]! - 1;
  }
  if (hands[at + REACH]! > 0) {
    hands[at + REACH] = hands[at + REACH]! - dt;
    return;
  }
  const ix = hands[at + BUSY]!;
  const tick = state.counter[0]!;
  const target = hands[at + TARGET]!;
  const why = holdsFast(plan, state, ix, target);
  const value = why === null ? turn(to, ix, target) : null;
  if (why !== null) {
    hands[at + BUSY] = -1;
    facts.push({ tick, kind: 'held', control: controlId(plan, ix), why });
  } else if (value !== null) {
    hands[at + BUSY] = -1;
    facts.push({ tick, kind: 'moved', control: controlId(plan, ix), value });
    if (ix < plan.links.length && value !== target)
      facts.push({ tick, kind: 'held', control: controlId(plan, ix), why: 'stuck' });
  } else if (plan.mix.carryOf[ix - firstDevice(plan)]! >= 0) {
    hands[at + REACH] = takeOf(plan.scenario.devices[ix - firstDevice(plan)]!); // The next trip.
  }
}

/** What counts from nothing with each command: strokes, trips, what is in a cup. */
function begin(plan: Plan, state: State, ix: number, target: number): void {
  const device = ix - firstDevice(plan);
  if (device >= 0) beginWork(plan, state, device, target);
  else if (ix < plan.links.length) beginStrokes(plan, state, ix);
}

/** s until the control begins to move: reaching for it, telling a helper, a device's own time. */
function reachFor(plan: Plan, ix: number, pair: number): number {
  const { reach_s, helper } = plan.scenario.hands;
  const told = pair === 1 && helper !== undefined ? helper.tell_s : 0;
  const device = plan.scenario.devices[ix - firstDevice(plan)];
  return reach_s + told + (device === undefined ? 0 : takeOf(device));
}

/** Why a control does not give way to a hand, or null. */
function holdsFast(plan: Plan, state: State, ix: number, target: number): HeldBy | null {
  const device = ix - firstDevice(plan);
  const why = device < 0 ? canStroke(plan, state, ix) : canWork(plan, state, device, target);
  return why ?? keptFrom(plan, state, ix, target);
}

/** How fast a control moves, its unit a second; null where it is there at once. */
function rateOf(plan: Plan, ix: number): number | null {
  const { spec, id } = plan.links[ix]!;
  if (spec.kind === 'valve') return spec.rate_deg_s;
  if (spec.kind === 'coupling') return 1 / spec.make_s;
  if (spec.kind !== 'leg') return null;
  const whole = plan.scenario.links.find((link) => link.id === id);
  return whole?.kind === 'three_way' ? whole.rate_deg_s : null;
}

/** One tick of movement; the value reached when it is done, else null. */
function turn({ plan, state, dt }: Tick, ix: number, wanted: number): number | null {
  if (ix >= firstGauge(plan)) {
    tapNeedle(plan, state, ix - firstGauge(plan));
    return 1;
  }
  const device = ix - firstDevice(plan);
  if (device >= 0) {
    if (!workVessel(plan, state, { device, target: wanted, dt })) return null;
    state.device[device] = wanted;
    return wanted;
  }
  if (plan.mix.strokeOf[ix]! >= 0) return stroke(plan, state, { link: ix, target: wanted, dt });
  const target = farthest(plan, state, ix, wanted);
  if (ix >= plan.links.length) {
    const tank = plan.tanks[ix - plan.links.length]!;
    const level = state.mass[tank.node]! / state.density[tank.node]! / tank.spec.area_m2;
    state.mark[ix - plan.links.length] = level;
    return level;
  }
  const rate = rateOf(plan, ix);
  if (rate === null) {
    state.control[ix] = target;
    return target;
  }
  const step = rate * dt;
  const gap = target - state.control[ix]!;
  if (gap > step) state.control[ix] = state.control[ix]! + step;
  else if (gap < -step) state.control[ix] = state.control[ix]! - step;
  else state.control[ix] = target;
  if (state.control[ix] !== target) return null;
  return target === wanted || givesUp(plan, state, ix, dt) ? target : null;
}
