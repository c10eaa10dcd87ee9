// Water hammer in closed form: how high the pressure jumps beside a part that shuts faster than a
// wave comes back. Rigid columns cannot hold the wave, so it is told and held against ratings, and
// moves nothing. Leaves out what comes after the first peak, and the trough on the far side.
import { ceil, max, min, sqrt } from './base/math.ts';
import { P_ATM } from './base/units.ts';
import { UNRATED } from './constants.ts';
import { joukowsky } from './laws/elastic.ts';
import type { ColumnPlan, LinkPlan, NodePlan, Plan, SurgePlan } from './network/plan.ts';
import type { Scratch } from './network/net.ts';
import { COLUMN_LIQUID_STRIDE, type State } from './state.ts';

/** s. No wave is remembered for longer. */
const PERIOD_MOST = 10;
/** Share of the rating below which a jump is none: a needle's flicker. */
const JUMP_LEAST = 0.05;
/** Numbers that are kept of each tick: flow out of the side, degrees open. */
const KEPT = 2;

interface Parts {
  readonly nodes: readonly NodePlan[];
  readonly links: readonly LinkPlan[];
  readonly columns: readonly ColumnPlan[];
  /** Per volume, 1/Pa. */
  readonly compliance: Float64Array;
  readonly rho: number;
  readonly dt: number;
}

const SHUTS = ['valve', 'leg', 'check_valve'];
const isConduit = ({ cells }: LinkPlan): boolean => cells > 0;

/** s that a wave takes along a link: its length over 1/sqrt(rho c) [WylieStreeter1993]. */
function timeAlong({ compliance, rho }: Parts, link: LinkPlan): number {
  return isConduit(link) ? link.length * sqrt(rho * compliance[link.firstCell]!) : 0;
}

/** s from a node to every other, not through one link; waves end at tanks and open ends. */
function timesFrom(parts: Parts, start: number, without: number): Float64Array {
  const times = new Float64Array(parts.nodes.length).fill(Infinity);
  times[start] = 0;
  const waiting = [start];
  for (let n = waiting.pop(); n !== undefined; n = waiting.pop()) {
    if (parts.nodes[n]!.fixed) continue;
    parts.links.forEach((link, ix) => {
      if (ix === without || link.spec.kind === 'gap' || link.spec.kind === 'fixed_flow') return;
      const next = link.from === n ? link.to : link.to === n ? link.from : -1;
      if (next < 0 || times[n]! + timeAlong(parts, link) >= times[next]!) return;
      times[next] = times[n]! + timeAlong(parts, link);
      waiting.push(next);
    });
  }
  return times;
}

/** One side of a part that shuts; null where nothing there is rated or no pipe meets it. */
function planSide(parts: Parts, ix: number, out: 1 | -1): Omit<SurgePlan, 'first'> | null {
  const link = parts.links[ix]!;
  const node = out === 1 ? link.from : link.to;
  if (parts.nodes[node]!.fixed) return null;
  const times = timesFrom(parts, node, ix);
  let back = Infinity;
  let far = 0;
  times.forEach((t, n) => {
    if (t < Infinity) far = max(far, t);
    if (parts.nodes[n]!.fixed) back = min(back, t);
  });
  const reach = min(back, far);
  let rating = Infinity;
  parts.nodes.forEach((one, n) => {
    if (times[n]! <= reach) rating = min(rating, one.rating);
  });
  const columns: number[] = [];
  for (const [k, one] of parts.links.entries()) {
    if (k === ix || !isConduit(one)) continue;
    if (times[one.from] === 0) columns.push(one.firstColumn);
    if (times[one.to] === 0) columns.push(one.firstColumn + one.columns - 1);
  }
  if (columns.length === 0 || !(rating < UNRATED)) return null;
  const period = min(2 * reach, PERIOD_MOST);
  const ticks = ceil(period / parts.dt) + 1;
  return { at: parts.links[link.control]!.id, link: ix, out, node, rating, period, ticks, columns };
}

/** Sides of all parts that can shut, with the pipes that meet there and what is rated there. */
export function planSurges(parts: Parts): SurgePlan[] {
  let first = 0;
  return parts.links.flatMap((link, ix) => {
    if (!SHUTS.includes(link.spec.kind)) return [];
    return ([1, -1] as const).flatMap((out) => {
      const side = planSide(parts, ix, out);
      if (side === null) return [];
      const here = { ...side, first };
      first += sizeOf(here);
      return [here];
    });
  });
}

const sizeOf = ({ ticks }: SurgePlan): number => KEPT * ticks + 1;

/** Numbers that a state keeps for them. */
export const surgeSize = (surges: readonly SurgePlan[]): number =>
  surges.reduce((sum, surge) => sum + sizeOf(surge), 0);

interface Told {
  readonly plan: Plan;
  readonly state: State;
  readonly scratch: Scratch;
  readonly dt: number;
}

function keep({ plan, state, scratch }: Told, surge: SurgePlan, slot: number): void {
  const at = surge.first + KEPT * slot;
  state.surge[at] = surge.out * state.flow[plan.links[surge.link]!.firstColumn]!;
  state.surge[at + 1] = scratch.open[surge.link]!;
}

/** Place of the pressure that stood before the part began to shut. */
const stood = ({ first, ticks }: SurgePlan): number => first + KEPT * ticks;

/** What stands before the first tick has always stood so. */
export function startSurges(world: Told): void {
  for (const surge of world.plan.surges) {
    for (let slot = 0; slot < surge.ticks; slot++) keep(world, surge, slot);
    world.state.surge[stood(surge)] = world.state.point[surge.node]!;
  }
}

/** Remembers this tick; after its flows. */
export function followSurges(world: Told): void {
  const { state, scratch, plan } = world;
  const tick = state.counter[0]!;
  for (let k = 0; k < plan.surges.length; k++) {
    const surge = plan.surges[k]!;
    keep(world, surge, tick % surge.ticks);
    const shutting = then(world, surge, 1) > scratch.open[surge.link]!;
    if (!shutting) state.surge[stood(surge)] = state.point[surge.node]!;
  }
}

/** What was kept a period ago, between two ticks: 0 the flow, 1 the opening. */
function then({ state, dt }: Told, { first, ticks, period }: SurgePlan, which: 0 | 1): number {
  const tick = state.counter[0]!;
  const back = min(period / dt, ticks - 1);
  const near = back | 0;
  const far = min(near + 1, ticks - 1);
  const a = state.surge[first + KEPT * ((tick + ticks - near) % ticks) + which]!;
  const b = state.surge[first + KEPT * ((tick + ticks - far) % ticks) + which]!;
  return a + (back - near) * (b - a);
}

/** m4 s/kg. What a pascal drives into the pipes that meet there: sum of A/(rho a). */
function admittance({ plan, state, scratch }: Told, { columns, node }: SurgePlan): number {
  let sum = 0;
  for (let k = 0; k < columns.length; k++) {
    const column = plan.columns[columns[k]!]!;
    const { length, area } = plan.links[column.link]!;
    // Bubbles make the pipe softer, and slow the wave [WylieStreeter1993].
    const wet = min(1, max(0.01, scratch.wet[columns[k]!]! / (length * column.share)));
    const soft = plan.compliance[column.cell]! + (1 - wet) / state.point[node]!;
    const rho = wet * state.liquid[columns[k]! * COLUMN_LIQUID_STRIDE]!;
    const a = 1 / sqrt(rho * soft);
    sum += 1 / joukowsky(rho, a, 1 / area);
  }
  return sum;
}

/**
 * Peak beside a part that is being shut, Pa gauge, or 0 where nothing jumps: the pressure before
 * it began to, and rho a dV of what the flow has fallen by in the time 2L/a in which the wave
 * comes back [Joukowsky1898]. Of a flow that falls evenly over a longer time that is the share
 * (2L/a)/t of all of it [Michaud1878].
 */
export function surgePeak(world: Told, surge: SurgePlan): number {
  const { state, scratch, plan } = world;
  if (!(then(world, surge, 1) > scratch.open[surge.link]!)) return 0;
  const now = surge.out * state.flow[plan.links[surge.link]!.firstColumn]!;
  const fall = then(world, surge, 0) - max(0, now);
  if (!(fall > 0)) return 0;
  const jump = fall / admittance(world, surge);
  return jump < JUMP_LEAST * surge.rating ? 0 : state.surge[stood(surge)]! - P_ATM + jump;
}
