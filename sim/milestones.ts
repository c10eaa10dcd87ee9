// Milestones: what must have happened on the way, watched on truth tick by tick, each told once.
// What they are worth, and whether their order was kept, is a matter of marks (score-goals.ts).
import { assert } from './base/assert.ts';
import { abs } from './base/math.ts';
import { P_ATM } from './base/units.ts';
import type { Fact } from './fact.ts';
import { LOCKED, SPEED } from './machines.ts';
import type { Plan } from './network/plan.ts';
import type { MilestoneKind } from './scenario-goals.ts';
import type { MilestoneSpec } from './scenario.ts';
import { COLUMN_LIQUID_STRIDE, GOAL_STRIDE, PUMP_STRIDE, type State } from './state.ts';

/** A milestone as the engine sees it; what a kind does not need stands at 0 or empty. */
export interface Goal {
  readonly id: string;
  readonly kind: MilestoneKind;
  /** Node, link, pump, device or control, by index; line of the sheet. */
  readonly index: number;
  /** Other links: those that are still, the valve that is shut. */
  readonly more: readonly number[];
  /** The milestone during which a line has to be written, by place in the list; -1 at any time. */
  readonly during: number;
  /** Goes on being watched when it has been reached, because a line is written during it. */
  readonly watched: boolean;
  /** Entry of the sheet, by id. */
  readonly entry: string;
  /** Band or threshold, SI; +1 forth, -1 back, 0 either. */
  readonly low: number;
  readonly high: number;
  readonly way: number;
  /** s without a break, m3, or hours: what the sum of the state is held against. */
  readonly enough: number;
}

/** What is watched; a world is one. */
export interface Watched {
  readonly plan: Plan;
  readonly state: State;
  readonly goals: readonly Goal[];
  readonly scratch: { readonly alpha: Float64Array };
  /** kg through each face in this tick. */
  readonly moves: { readonly liquid: Float64Array };
  readonly dt: number;
}

/** Offsets in a milestone's part of the state: a sum, and the tick it was reached in, plus 1. */
const SUM = 0;
const REACHED = 1;

/** Degrees by which a handle may stand off. */
const HANDLE = 2;
/** Share of its flow above which another link is not still. */
const STILL = 0.05;
/** A pump turns above that speed; its casing is dry above that share of gas. */
const TURNS_ABOVE = 0.5;
const DRY_ABOVE = 0.5;

const NOTHING = {
  ...{ index: 0, more: [], during: -1, watched: false },
  ...{ entry: '', low: 0, high: 0, way: 0, enough: 0 },
};
const WAYS = { forth: 1, back: -1, either: 0 } as const;

/** Every milestone of the job, in its order. */
export function makeGoals(plan: Plan): Goal[] {
  const specs = plan.scenario.job?.milestones ?? [];
  const during = specs.map((spec) =>
    spec.kind === 'noted' ? specs.findIndex(({ id }) => id === spec.during) : -1,
  );
  return specs.map((spec, k) => ({
    ...NOTHING,
    id: spec.id,
    kind: spec.kind,
    during: during[k]!,
    watched: during.includes(k),
    ...lookedAt(plan, spec),
  }));
}

function lookedAt(plan: Plan, spec: MilestoneSpec): Partial<Goal> {
  const link = (id: string): number => found(plan.linkIx.get(id), id);
  switch (spec.kind) {
    case 'held': {
      const index = found(plan.nodeIx.get(spec.node), spec.node);
      const [low, high] = [P_ATM + 1000 * spec.from_kPa, P_ATM + 1000 * spec.to_kPa];
      return { index, low, high, enough: spec.for_s };
    }
    case 'ran': {
      const more = spec.still.filter((id) => id !== spec.link).map(link);
      const low = spec.above_L_s / 1000;
      return { index: link(spec.link), more, low, way: WAYS[spec.way], enough: spec.for_s };
    }
    case 'passed':
      return { index: link(spec.link), enough: spec.litres / 1000 };
    case 'shut_in': {
      const index = plan.pumps.findIndex(({ id }) => id === spec.pump);
      assert(index >= 0, `no pump ${spec.pump}`);
      return { index, more: [link(spec.valve)], enough: spec.for_s };
    }
    case 'noted':
      return { entry: spec.entry };
    case 'stood': {
      const device = plan.deviceIx.get(spec.control);
      if (device !== undefined) return { index: device, way: 1, low: spec.at };
      const index = link(spec.control);
      const { kind } = plan.links[index]!.spec;
      return { index, low: spec.at, high: kind === 'valve' || kind === 'leg' ? HANDLE : 0 };
    }
    case 'left':
      return { enough: spec.hours };
  }
}

function found(index: number | undefined, id: string): number {
  assert(index !== undefined, `no part ${id}`);
  return index;
}

/**
 * Watches every milestone on truth that has not been reached yet, when a tick has been gone
 * through. Allocates only when it tells one.
 */
export function watchMilestones(world: Watched, facts: Fact[]): void {
  const { goals } = world;
  const { goal, counter } = world.state;
  const tick = counter[0]!;
  for (let k = 0; k < goals.length; k++) {
    const at = k * GOAL_STRIDE;
    const one = goals[k]!;
    const reached = goal[at + REACHED] !== 0;
    if (reached && !one.watched) continue;
    if (one.kind === 'noted' || one.kind === 'left') continue;
    if (moveOn(world, one, at) && !reached) facts.push(reach(world, one, at, tick));
  }
}

/**
 * Those that go by what has been told in this tick: lines written, nights gone by. At the end of a
 * tick, and before "done", so that what is written in the tick of the hand-over counts.
 */
export function heedFacts(world: Watched, facts: Fact[]): void {
  const { goals } = world;
  const { goal } = world.state;
  for (let k = 0; k < goals.length; k++) {
    const at = k * GOAL_STRIDE;
    const one = goals[k]!;
    if (goal[at + REACHED] !== 0) continue;
    if (one.kind === 'noted') tellNoted(world, one, at, facts);
    if (one.kind === 'left') followNight(world, one, at, facts);
  }
}

/** Moves its sum on; true once that is enough. */
function moveOn(world: Watched, one: Goal, at: number): boolean {
  const { goal } = world.state;
  switch (one.kind) {
    case 'held': {
      const p = world.state.point[one.index]!;
      goal[at + SUM] = p >= one.low && p <= one.high ? goal[at + SUM]! + world.dt : 0;
      break;
    }
    case 'ran':
      goal[at + SUM] = runs(world, one) ? goal[at + SUM]! + world.dt : 0;
      break;
    case 'passed':
      goal[at + SUM] = goal[at + SUM]! + abs(liquidFlow(world, one.index)) * world.dt;
      break;
    case 'shut_in':
      goal[at + SUM] = isShutIn(world, one) ? goal[at + SUM]! + world.dt : 0;
      break;
    case 'stood':
      return stands(world, one, at);
    default:
  }
  // Tenths of a second do not sum up exactly.
  return goal[at + SUM]! >= one.enough * (1 - 1e-9);
}

/** m3/s of liquid through the middle of a link, along from -> to. */
function liquidFlow({ plan, state, moves, dt }: Watched, ix: number): number {
  const { firstColumn, columns } = plan.links[ix]!;
  const c = firstColumn + (columns >> 1);
  const { face, half } = plan.columns[c]!;
  return moves.liquid[face + half]! / state.liquid[c * COLUMN_LIQUID_STRIDE]! / dt;
}

function runs(world: Watched, { index, low, way, more }: Goal): boolean {
  const along = liquidFlow(world, index);
  const flow = way === 0 ? abs(along) : way * along;
  if (flow < low) return false;
  for (let k = 0; k < more.length; k++) {
    if (abs(liquidFlow(world, more[k]!)) >= STILL * flow) return false;
  }
  return true;
}

function isShutIn({ plan, state, scratch }: Watched, { index, more }: Goal): boolean {
  const at = index * PUMP_STRIDE;
  const casing = plan.links[plan.pumps[index]!.link]!.from;
  if (state.pump[at + SPEED]! < TURNS_ABOVE || state.pump[at + LOCKED] === 1) return false;
  return scratch.alpha[casing]! <= DRY_ABOVE && state.control[more[0]!]! <= HANDLE;
}

/**
 * A handle that only turns past it does not stand there: it must be found so twice, but at the
 * start, where nothing has turned yet.
 */
function stands({ state }: Watched, { index, way, low, high }: Goal, at: number): boolean {
  const now = way === 1 ? state.device[index]! : state.control[index]!;
  const before = state.goal[at + SUM]!;
  const there = abs(now - low) <= high;
  state.goal[at + SUM] = there ? 1 + now : 0;
  return there && (high === 0 || before === 1 + now || state.counter[0] === 0);
}

function tellNoted(world: Watched, one: Goal, at: number, facts: Fact[]): void {
  const { during } = one;
  if (during >= 0 && world.state.goal[during * GOAL_STRIDE + SUM] === 0) return;
  for (let k = 0; k < facts.length; k++) {
    const fact = facts[k]!;
    if (fact.kind !== 'noted' || fact.entry !== one.entry) continue;
    world.state.goal[at + SUM] = fact.value;
    facts.push(reach(world, one, at, fact.tick));
    return;
  }
}

/** Hours stand in the state from when everybody left until they are back. */
function followNight(world: Watched, one: Goal, at: number, facts: Fact[]): void {
  for (let k = 0; k < facts.length; k++) {
    const fact = facts[k]!;
    if (fact.kind === 'left') world.state.goal[at + SUM] = fact.hours;
    if (fact.kind !== 'back' || world.state.goal[at + SUM]! < one.enough) continue;
    facts.push(reach(world, one, at, fact.tick));
    return;
  }
}

function reach(world: Watched, one: Goal, at: number, tick: number): Fact {
  world.state.goal[at + REACHED] = tick + 1;
  return { tick, kind: 'reached', milestone: one.id, value: valueOf(world, one, at) };
}

/** What there was when it was reached, SI: Pa gauge, m3/s, m3, s, a note, a place; s away. */
function valueOf(world: Watched, one: Goal, at: number): number {
  const sum = world.state.goal[at + SUM]!;
  switch (one.kind) {
    case 'held':
      return world.state.point[one.index]! - P_ATM;
    case 'ran':
      return liquidFlow(world, one.index);
    case 'stood':
      return one.low;
    case 'left':
      return 3600 * sum;
    default:
      return sum;
  }
}
