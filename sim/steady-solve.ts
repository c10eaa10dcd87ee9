// Flows and pressures that stand still: Newton on all of them at once, the gradient method that
// [EPANET2.2] describes, each step shortened until it does not overshoot. Laws are a tick's own.
import { abs, max } from './base/math.ts';
import { G } from './base/units.ts';
import { pumpHead } from './laws/pump.ts';
import { columnLoss } from './network/columns.ts';
import { makeFactor, solve, type Factor } from './network/matrix.ts';
import { COLUMN_LIQUID_STRIDE, FRICTION_STRIDE, PUMP_STRIDE } from './state.ts';
import { SPEED } from './machines.ts';
import { NoSteadyFlow, type SteadyNet } from './steady-net.ts';
import type { World } from './world.ts';

/** What one link does to a flow through it: Pa, and Pa s/m3 for the slope. */
export interface LinkPush {
  /** What drives the flow on, from -> to: weight, pump and tees less friction and local losses. */
  push: number;
  /** Fall of push with the flow, positive. */
  slope: number;
  /** Friction, local losses and tees, with the flow's sign. */
  loss: number;
  /** What a pump adds. */
  rise: number;
}

/** Drive of a whole link at flow Q, m3/s; the same laws, column by column, as in a tick. */
export function linkPush(world: World, ix: number, Q: number): LinkPush {
  const { plan, state, scratch } = world;
  const link = plan.links[ix]!;
  const { out } = scratch;
  const told = { push: 0, slope: 0, loss: 0, rise: 0 };
  for (let c = link.firstColumn; c < link.firstColumn + link.columns; c++) {
    state.friction[c * FRICTION_STRIDE] = 0; // Friction anew: a tick may follow its slope instead.
    columnLoss(plan, state, scratch, c, Q);
    told.loss += out[0]! - scratch.teePush[c]!;
    told.slope += out[1]!;
    told.push += scratch.weight[c]!;
  }
  if (link.pump >= 0) {
    pumpHead(plan.pumps[link.pump]!.curve, Q, state.pump[link.pump * PUMP_STRIDE + SPEED]!, out);
    const heavy = state.liquid[link.firstColumn * COLUMN_LIQUID_STRIDE]! * G;
    told.rise = heavy * out[0]!;
    told.slope -= heavy * out[1]!;
  }
  told.push += told.rise - told.loss;
  return told;
}

/** Newton steps before it is given up. */
const STEPS_MAX = 200;
/** m/s. Velocity about which the losses are first taken to be straight. */
const FIRST_VELOCITY = 0.5;
/** Share of the largest flow, and m3/s, that the last full step may move any flow. */
const STEP_SHARE = 1e-9;
export const STEP_LEAST = 1e-11;
/** Share of the largest flow below which a step is not looked at for overshooting. */
const SMALL_STEP = 1e-5;

export interface Solved {
  /** m3/s by link of the net; Pa gauge by unknown. */
  readonly flow: Float64Array;
  readonly pressure: Float64Array;
  readonly steps: number;
  /** Pa, m3/s. Largest error of any link's balance of pressure, any node's of flow. */
  readonly errorPressure: number;
  readonly errorFlow: number;
}

interface Work {
  readonly world: World;
  readonly net: SteadyNet;
  readonly factor: Factor;
  readonly edge: Int32Array;
  readonly flow: Float64Array;
  readonly pressure: Float64Array;
  readonly push: Float64Array;
  readonly slope: Float64Array;
  readonly move: Float64Array;
}

function makeWork(world: World, net: SteadyNet): Work {
  const edges: [number, number][] = [];
  const n = net.links.length;
  const edge = Int32Array.from(net.links, ({ ua, ub }) =>
    ua >= 0 && ub >= 0 && ua !== ub ? edges.push([ua, ub]) - 1 : -1,
  );
  return {
    world,
    net,
    factor: makeFactor(net.unknowns, edges),
    edge,
    flow: new Float64Array(n),
    pressure: new Float64Array(net.unknowns),
    push: new Float64Array(n),
    slope: new Float64Array(n),
    move: new Float64Array(n),
  };
}

function pushAll({ world, net, flow, push, slope }: Work): void {
  net.links.forEach(({ link }, k) => {
    const at = linkPush(world, link, flow[k]!);
    push[k] = at.push;
    slope[k] = at.slope;
  });
}

/** m3/s that arrive at each unknown less what leaves. */
function surplus({ net, flow }: Work): Float64Array {
  const sum = Float64Array.from(net.brought);
  net.links.forEach(({ ua, ub }, k) => {
    if (ua >= 0) sum[ua] = sum[ua]! - flow[k]!;
    if (ub >= 0) sum[ub] = sum[ub]! + flow[k]!;
  });
  return sum;
}

/**
 * Pressures of the linearised net, and by how much they would move each flow. What is solved for is
 * how far the pressures move: then rounding fades with the move, also of nets of very unlike pipes.
 */
function newtonStep(work: Work): void {
  const { net, factor, edge, pressure, push, slope, move } = work;
  factor.diagonal.fill(0);
  factor.off.fill(0);
  const { diagonal, off, edgeSlot } = factor;
  const rhs = surplus(work);
  net.links.forEach(({ ua, ub, pa, pb }, k) => {
    const g = 1 / slope[k]!;
    const drop = (ua < 0 ? pa : pressure[ua]!) - (ub < 0 ? pb : pressure[ub]!);
    if (ua >= 0) {
      diagonal[ua] = diagonal[ua]! + g;
      rhs[ua] = rhs[ua]! - g * (drop + push[k]!);
    }
    if (ub >= 0) {
      diagonal[ub] = diagonal[ub]! + g;
      rhs[ub] = rhs[ub]! + g * (drop + push[k]!);
    }
    if (edge[k]! >= 0) {
      const slot = edgeSlot[edge[k]!]!;
      off[slot] = off[slot]! - g;
    }
  });
  solve(factor, rhs);
  for (let u = 0; u < pressure.length; u++) pressure[u] = pressure[u]! + rhs[u]!;
  net.links.forEach(({ ua, ub, pa, pb }, k) => {
    const a = ua < 0 ? pa : pressure[ua]!;
    const b = ub < 0 ? pb : pressure[ub]!;
    // A link between one unknown and itself, or between two boundaries, moves by its own push.
    move[k] = (a - b + push[k]!) / slope[k]!;
  });
}

/**
 * Power that is left over along the step after a share `t` of it, W: positive at first, falls all
 * the way, since every loss rises with its flow, and is 0 where the step has gone far enough.
 * Pressures of unknowns drop out of the sum, but keep its start free of rounding.
 */
function leftOver({ world, net, flow, pressure, move }: Work, t: number): number {
  let sum = 0;
  net.links.forEach(({ link, ua, ub, pa, pb }, k) => {
    const drop = (ua < 0 ? pa : pressure[ua]!) - (ub < 0 ? pb : pressure[ub]!);
    sum += move[k]! * (drop + linkPush(world, link, flow[k]! + t * move[k]!).push);
  });
  return sum;
}

/** Share of the step to take: all of it, unless that would overshoot by half. */
function shareOf(work: Work): number {
  const start = leftOver(work, 0);
  if (!(leftOver(work, 1) < -start / 2)) return 1;
  let lo = 0;
  let hi = 1;
  for (let k = 0; k < 40; k++) {
    const t = (lo + hi) / 2;
    const left = leftOver(work, t);
    if (left > start / 2) lo = t;
    else if (left < -start / 2) hi = t;
    else return t;
  }
  return lo > 0 ? lo : hi;
}

/** Largest error of pressure along a link. */
function pressureError({ net, pressure, push }: Work): number {
  return net.links.reduce((most, { ua, ub, pa, pb }, k) => {
    const a = ua < 0 ? pa : pressure[ua]!;
    const b = ub < 0 ? pb : pressure[ub]!;
    return max(most, abs(a - b + push[k]!));
  }, 0);
}

/** Flows of straight losses: what every link would pass if it lost as at one velocity. */
function firstFlows(work: Work): void {
  const { world, net, flow, push, slope, move } = work;
  net.links.forEach(({ link }, k) => {
    const Q = FIRST_VELOCITY * world.plan.links[link]!.area;
    push[k] = linkPush(world, link, 0).push;
    const { slope: steep, push: then } = linkPush(world, link, Q);
    slope[k] = max((push[k]! - then) / Q, steep / 4);
  });
  newtonStep(work);
  flow.set(move);
}

/**
 * Solves the net. Done when a full Newton step moved no flow by more than 1e-9 of the largest
 * (and 1e-11 m3/s): the next would move them by the square of that.
 * @throws NoSteadyFlow where 200 steps do not get there.
 */
export function solveSteady(world: World, net: SteadyNet, from?: ArrayLike<number>): Solved {
  const work = makeWork(world, net);
  const { flow, move, pressure } = work;
  if (from === undefined) firstFlows(work);
  else flow.set(from);
  for (let steps = 1; steps <= STEPS_MAX; steps++) {
    pushAll(work);
    newtonStep(work);
    const largest = flow.reduce((most, Q) => max(most, abs(Q)), 0);
    const most = move.reduce((sum, d) => max(sum, abs(d)), 0);
    const t = most > SMALL_STEP * largest + STEP_LEAST ? shareOf(work) : 1;
    for (let k = 0; k < flow.length; k++) flow[k] = flow[k]! + t * move[k]!;
    if (t === 1 && most <= STEP_SHARE * largest + STEP_LEAST) {
      pushAll(work);
      const errorFlow = surplus(work).reduce((sum, s) => max(sum, abs(s)), 0);
      return { flow, pressure, steps, errorPressure: pressureError(work), errorFlow };
    }
  }
  throw new NoSteadyFlow(`not found in ${STEPS_MAX} steps`);
}
