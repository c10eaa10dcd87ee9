// One pair of hands: a command sets a target, the hand reaches for the control, then moves it at
// the control's own rate; further commands wait in order. Leaves out what the controls do.
import { HANDS_QUEUE } from './constants.ts';
import type { Command } from './command.ts';
import { tapNeedle } from './defects/gauges.ts';
import { farthest, givesUp } from './defects/handles.ts';
import type { Fact } from './fact.ts';
import { hasNeedle } from './lens.ts';
import { FULL_DEG } from './network/passage.ts';
import type { Plan } from './network/plan.ts';
import type { State } from './state.ts';

/** hands[0] control or -1; [1] target; [2] reach left, s; [3] waiting; then pairs. */
const BUSY = 0;
const TARGET = 1;
const REACH = 2;
const WAITING = 3;
const FIRST = 4;

export function restHands(state: State): void {
  state.hands.fill(0);
  state.hands[BUSY] = -1;
}

/** Controls are links (valve, pump, imposed flow) by index, then tank markers, then gauges. */
export function controlIx(plan: Plan, command: Command): number {
  switch (command.kind) {
    case 'valve':
      return linkOf(plan, command.valve, ['valve', 'leg']);
    case 'switch':
      return linkOf(plan, command.pump, ['pump']);
    case 'flow':
      return linkOf(plan, command.link, ['fixed_flow']);
    case 'coupling':
      return linkOf(plan, command.coupling, ['coupling']);
    case 'mark': {
      const tank = plan.tanks.findIndex((t) => t.id === command.tank);
      return tank < 0 ? -1 : plan.links.length + tank;
    }
    case 'tap': {
      const gauge = plan.scenario.instruments.findIndex((i) => i.id === command.gauge);
      const needle = gauge >= 0 && hasNeedle(plan.scenario.instruments[gauge]!.kind);
      return needle ? plan.links.length + plan.tanks.length + gauge : -1;
    }
    case 'done':
      return -1;
  }
}

function linkOf(plan: Plan, id: string, kinds: readonly string[]): number {
  const ix = plan.linkIx.get(id);
  if (ix === undefined || plan.links[ix]!.control !== ix) return -1;
  return kinds.includes(plan.links[ix]!.spec.kind) ? ix : -1;
}

export function controlId(plan: Plan, ix: number): string {
  const { links, tanks, scenario } = plan;
  if (ix < links.length) return links[ix]!.id;
  const other = ix - links.length;
  return other < tanks.length ? tanks[other]!.id : scenario.instruments[other - tanks.length]!.id;
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
    default:
      return 0;
  }
}

/** Takes a command on: changes the target of a control already in hand or waiting. */
export function instruct(
  plan: Plan,
  state: State,
  command: Command,
): 'taken' | 'unknown_control' | 'no_such_position' | 'hands_full' {
  const { hands } = state;
  const ix = controlIx(plan, command);
  if (ix < 0) return 'unknown_control';
  const target = targetOf(command);
  if (plan.links[ix]?.spec.kind === 'valve' && target > FULL_DEG) return 'no_such_position';
  if (hands[BUSY] === ix) {
    hands[TARGET] = target;
    return 'taken';
  }
  const waiting = hands[WAITING]!;
  for (let k = 0; k < waiting; k++) {
    if (hands[FIRST + 2 * k] === ix) {
      hands[FIRST + 2 * k + 1] = target;
      return 'taken';
    }
  }
  if (waiting >= HANDS_QUEUE) return 'hands_full';
  hands[FIRST + 2 * waiting] = ix;
  hands[FIRST + 2 * waiting + 1] = target;
  hands[WAITING] = waiting + 1;
  return 'taken';
}

/** Moves what is in hand for one tick; takes up the next control when free. */
export function moveHands(plan: Plan, state: State, dt: number, facts: Fact[]): void {
  const { hands } = state;
  if (hands[BUSY]! < 0) {
    if (hands[WAITING] === 0) return;
    hands[BUSY] = hands[FIRST]!;
    hands[TARGET] = hands[FIRST + 1]!;
    hands[REACH] = plan.scenario.hands.reach_s;
    hands.copyWithin(FIRST, FIRST + 2);
    hands[WAITING] = hands[WAITING]! - 1;
  }
  if (hands[REACH]! > 0) {
    hands[REACH] = hands[REACH]! - dt;
    return;
  }
  const ix = hands[BUSY]!;
  const value = turn(plan, state, ix, dt);
  if (value === null) return;
  hands[BUSY] = -1;
  const tick = state.counter[0]!;
  facts.push({ tick, kind: 'moved', control: controlId(plan, ix), value });
  const target_deg = hands[TARGET]!;
  if (ix >= plan.links.length || value === target_deg) return;
  const command: Command = { kind: 'valve', valve: controlId(plan, ix), target_deg };
  facts.push({ tick, kind: 'refused', command, reason: 'stuck' });
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
function turn(plan: Plan, state: State, ix: number, dt: number): number | null {
  const wanted = state.hands[TARGET]!;
  const tanks = plan.links.length + plan.tanks.length;
  if (ix >= tanks) {
    tapNeedle(plan, state, ix - tanks);
    return 1;
  }
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
