// Things that go wrong while a world runs: looks whether each has begun or ended, lets it grow,
// and turns it into what the engine computes with: losses, openings, supplies. Leaves hands to
// defects/handles.ts, needles to defects/gauges.ts, and wheels to machines.ts, which ask the state.
import { max, min } from './base/math.ts';
import { P_ATM } from './base/units.ts';
import type { CyclingSpec } from './scenario-defects.ts';
import { leakArea, pinchK, vesselPressure } from './laws/defect.ts';
import { tankLevel } from './network/columns.ts';
import { FULL_DEG } from './network/passage.ts';
import type { World } from './world-parts.ts';
import {
  BEGAN,
  DEFECT_STRIDE,
  ENDED,
  FIRST,
  LEVEL,
  SECOND,
  type Moment,
  type TimedDefect,
} from './defects/types.ts';

/** Nothing has begun yet; then what begins with the run does. Once controls and contents stand. */
export function startDefects(world: World): void {
  const { plan, state } = world;
  plan.defects.timed.forEach(({ spec, link }, k) => {
    const at = k * DEFECT_STRIDE;
    state.defect[at + BEGAN] = -1;
    state.defect[at + ENDED] = -1;
    if (spec.kind !== 'handle_slips') return;
    state.defect[at + FIRST] = state.control[link]!;
    state.defect[at + SECOND] = state.control[link]!;
  });
  followDefects(world, 0);
}

/** Every tick, once valves are set: `dt` s later. */
export function followDefects(world: World, dt: number): void {
  const { timed } = world.plan.defects;
  for (let k = 0; k < timed.length; k++) {
    const before = world.state.defect[k * DEFECT_STRIDE + LEVEL]!;
    grow(world, k, dt);
    act(world, k, before, dt);
  }
}

/** Begins and ends; once ended it does not come back. */
function grow({ plan, state }: World, k: number, dt: number): void {
  const { tick_s } = plan.scenario.solver;
  const at = k * DEFECT_STRIDE;
  const { defect: s, counter } = state;
  const tick = counter[0]!;
  const { spec, from, until } = plan.defects.timed[k]!;
  if (s[at + BEGAN]! < 0 && holds(plan, state, from, tick * tick_s)) s[at + BEGAN] = tick;
  const since = (tick - s[at + BEGAN]!) * tick_s;
  if (until !== null && s[at + BEGAN]! >= 0 && s[at + ENDED]! < 0) {
    if (holds(plan, state, until, since)) s[at + ENDED] = tick;
  }
  const goal = s[at + BEGAN]! >= 0 && s[at + ENDED]! < 0 ? spec.share : 0;
  const step = spec.ramp_s === 0 ? 1 : (spec.share * dt) / spec.ramp_s;
  const level = s[at + LEVEL]!;
  s[at + LEVEL] = level < goal ? min(goal, level + step) : max(goal, level - step);
}

/** Whether it is so now, by the truth; `time` in s. */
function holds(plan: World['plan'], state: World['state'], moment: Moment, time: number): boolean {
  const { index, above, below } = moment;
  switch (moment.look) {
    case 'time':
      return time >= above - 1e-9; // Ticks and tenths do not meet to the last bit.
    case 'pressure':
      return state.point[index]! > above && state.point[index]! < below;
    case 'flow':
      return state.flow[index]! > above && state.flow[index]! < below;
    case 'level': {
      const level = tankLevel(plan, state, index);
      return level > above && level < below;
    }
    case 'valve':
    case 'pump':
      return state.control[index]! > above && state.control[index]! < below;
  }
}

/** `before` is how bad it was a tick ago. */
function act(world: World, k: number, before: number, dt: number): void {
  const { plan, state, scratch } = world;
  const defect = plan.defects.timed[k]!;
  const at = k * DEFECT_STRIDE;
  const level = state.defect[at + LEVEL]!;
  const { spec, link, column, node } = defect;
  switch (spec.kind) {
    case 'blocked':
      scratch.pinch[column] = level === 0 ? 0 : pinchK(level);
      return;
    case 'handle_slips':
      return slip(world, link, at);
    case 'clogged_filter':
      return clog(world, link, before, level);
    case 'leak':
    case 'suction_air_leak': {
      const leak = spec.kind === 'leak';
      const opens = leak && spec.opens_at_kPa !== undefined ? spec.opens_at_kPa * 1000 : -P_ATM;
      const grows = leak ? spec.grows_per_100kPa / 1e5 : 0;
      const area = level * leakArea(state.point[node]! - P_ATM, opens, grows);
      state.control[link] = area;
      scratch.open[link] = area > 0 ? FULL_DEG : 0;
      return;
    }
    case 'weak_supply':
      scratch.sag[node] = level * (plan.nodes[node]!.pressure - P_ATM);
      return;
    case 'cycling_supply':
      scratch.sag[node] = level * cycle(world, defect, at, dt);
      return;
    default: // Handles, needles and wheels ask the state.
      return;
  }
}

/** The ball takes no more of a turn than the stem hands on; a mended one sits as its handle. */
function slip({ state, scratch }: World, link: number, at: number): void {
  const { defect: s } = state;
  const level = s[at + LEVEL]!;
  const handle = state.control[link]!;
  const turned = (1 - level) * (handle - s[at + SECOND]!);
  const ball = level === 0 ? handle : min(FULL_DEG, max(0, s[at + FIRST]! + turned));
  s[at + FIRST] = ball;
  s[at + SECOND] = handle;
  scratch.open[link] = ball;
}

/** Share of a filter that may be blocked at most, as at the start of a run. */
const BLOCKED_MOST = 0.99;

/** Takes its share of what is free; whoever cleans the element takes it out. */
function clog({ state }: World, link: number, before: number, level: number): void {
  if (level === before) return;
  const free = (1 - state.control[link]!) * (1 - min(BLOCKED_MOST, level));
  const clear = free / (1 - min(BLOCKED_MOST, before));
  state.control[link] = max(0, min(BLOCKED_MOST, 1 - clear));
}

/** m3. A vessel nearly full counts as full: a pump that makes exactly up would never stop. */
const FULL = 1e-9;

/** Pa that a well's vessel stands below the supply's own pressure; fills and empties it. */
function cycle(
  { plan, state }: World,
  { spec, node }: TimedDefect,
  at: number,
  dt: number,
): number {
  const { low_kPa, drawdown_L, pump_L_min } = spec as CyclingSpec;
  const s = state.defect;
  const drawdown = drawdown_L / 1000;
  let drawn = s[at + FIRST]!;
  for (let e = 0; e < plan.ends.length; e++) {
    const end = plan.ends[e]!;
    if (end.node === node) drawn += end.out * state.flowMean[end.column]! * dt;
  }
  if (s[at + SECOND] === 1) drawn -= (pump_L_min / 60000) * dt;
  drawn = max(0, drawn); // What comes back into a full vessel leaves by its relief valve.
  if (drawn >= drawdown) s[at + SECOND] = 1;
  if (drawn <= FULL) s[at + SECOND] = 0;
  s[at + FIRST] = drawn;
  const high = plan.nodes[node]!.pressure;
  return high - vesselPressure(drawn / drawdown, high, P_ATM + 1000 * low_kPa);
}
