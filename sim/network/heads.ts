// Pressure and flow of one tick: momentum of rigid columns between elastic, gassy points.
// A fixed number of Newton passes on the loss; one sparse symmetric solve each. A column whose
// valve is shut, or whose flow is imposed, is not in the matrix.
import { max } from '../base/math.ts';
import { G, P_ATM } from '../base/units.ts';
import {
  NEWTON_PASSES,
  PRESSURE_FALL_MAX,
  PRESSURE_MIN,
  THETA_PIPE,
  VOID_CONDUCTANCE,
} from '../constants.ts';
import { pumpHead } from '../laws/pump.ts';
import { PUMP_STRIDE, type State } from '../state.ts';
import { columnLoss, endPressure, type Scratch } from './columns.ts';
import { makeFactor, solve, type Factor } from './matrix.ts';
import { isShut } from './passage.ts';
import { OPEN, RESERVOIR, type Plan } from './plan.ts';

export interface Heads {
  readonly factor: Factor;
  /** Unknown's number of each point, or -1 where the pressure is given. */
  readonly unknown: Int32Array;
  /** Edge of each column between two unknowns, or -1. */
  readonly edge: Int32Array;
  readonly rhs: Float64Array;
  /** Linearised column: Q = q0 + gain (p_a - p_b); explicit part of its drive. */
  readonly gain: Float64Array;
  readonly q0: Float64Array;
  readonly drive: Float64Array;
  readonly theta: Float64Array;
  /** Offset of the pressure a column feels at a tank's port against the node's, Pa. */
  readonly offsetA: Float64Array;
  readonly offsetB: Float64Array;
  readonly before: Float64Array;
}

export function makeHeads(plan: Plan): Heads {
  const unknown = new Int32Array(plan.points).fill(-1);
  let count = 0;
  for (let p = 0; p < plan.points; p++) {
    if (p >= plan.nodes.length || !plan.nodes[p]!.fixed) unknown[p] = count++;
  }
  const edges: [number, number][] = [];
  const n = plan.columns.length;
  const edge = new Int32Array(n).fill(-1);
  plan.columns.forEach((column, c) => {
    const a = unknown[column.a]!;
    const b = unknown[column.b]!;
    if (a >= 0 && b >= 0 && a !== b) edge[c] = edges.push([a, b]) - 1;
  });
  return {
    factor: makeFactor(count, edges),
    unknown,
    edge,
    rhs: new Float64Array(count),
    gain: new Float64Array(n),
    q0: new Float64Array(n),
    drive: new Float64Array(n),
    theta: new Float64Array(n),
    offsetA: new Float64Array(n),
    offsetB: new Float64Array(n),
    before: new Float64Array(plan.points),
  };
}

/** Net drive of a column without its ends' pressures, Pa: weight, pump and loss at flow Q. */
function pushAndSlope(plan: Plan, state: State, scratch: Scratch, c: number, Q: number): void {
  columnLoss(plan, state, scratch, c, Q);
  const { out } = scratch;
  const pump = plan.links[plan.columns[c]!.link]!.pump;
  let push = -out[0]!;
  let slope = out[1]!;
  if (pump >= 0) {
    const at = pump * PUMP_STRIDE;
    const help = state.pump[at + 1]! * state.pump[at + 2]! * plan.water.rho * G;
    pumpHead(plan.pumps[pump]!.curve, Q, state.pump[at]!, out);
    // Head below nothing is the casing's own loss: gas does not take that away.
    const scale = out[0]! > 0 ? help : plan.water.rho * G;
    push += scale * out[0]!;
    slope -= scale * out[1]!;
  }
  out[0] = push + scratch.weight[c]! + scratch.teePush[c]!;
  out[1] = slope;
}

function setBoundaries(plan: Plan, state: State): void {
  for (let n = 0; n < plan.nodes.length; n++) {
    const node = plan.nodes[n]!;
    if (!node.fixed) continue;
    state.point[n] = node.kind === RESERVOIR || node.kind === OPEN ? node.pressure : P_ATM;
  }
}

/**
 * Weight of the tick's end. A water column on a gas cushion swings for long and is followed with
 * little damping. Gas alone rings faster than a tick can follow, and a plastic wall loses what it
 * stores: both are damped by weighing the end fully.
 */
function thetaOf(plan: Plan, scratch: Scratch, c: number): number {
  const column = plan.columns[c]!;
  if (column.cells === 0) return 1;
  const wet = scratch.wet[c]! / (plan.links[column.link]!.length * column.share);
  const cushion = max(gasPart(scratch, column.a), gasPart(scratch, column.b));
  return 1 - (1 - THETA_PIPE) * wet * wet * cushion;
}

/** Share of a point's give that is gas. */
function gasPart(scratch: Scratch, point: number): number {
  const gas = scratch.gasC[point]!;
  return gas === 0 ? 0 : gas / (gas + scratch.wallC[point]!);
}

function prepare(plan: Plan, state: State, scratch: Scratch, heads: Heads): void {
  const { offsetA, offsetB, drive, theta } = heads;
  for (let c = 0; c < plan.columns.length; c++) {
    const column = plan.columns[c]!;
    const pa = endPressure(plan, state, c, true);
    const pb = endPressure(plan, state, c, false);
    offsetA[c] = pa - state.point[column.a]!;
    offsetB[c] = pb - state.point[column.b]!;
    theta[c] = thetaOf(plan, scratch, c);
    if (theta[c] === 1) continue;
    pushAndSlope(plan, state, scratch, c, state.flow[c]!);
    drive[c] = pa - pb + scratch.out[0]!;
  }
}

function linearise(args: {
  plan: Plan;
  state: State;
  scratch: Scratch;
  heads: Heads;
  c: number;
  Q: number;
  dt: number;
}): void {
  const { plan, state, scratch, heads, c, Q, dt } = args;
  const spec = plan.links[plan.columns[c]!.link]!.spec;
  if (spec.kind === 'fixed_flow') {
    heads.gain[c] = 0;
    heads.q0[c] = state.control[plan.columns[c]!.link]!;
    return;
  }
  if (isShut(plan, scratch, c)) {
    heads.gain[c] = 0;
    heads.q0[c] = 0;
    return;
  }
  pushAndSlope(plan, state, scratch, c, Q);
  const th = heads.theta[c]!;
  const I = scratch.inertia[c]! / dt;
  const slope = scratch.out[1]!;
  const gain = th / (I + th * slope);
  const old = th === 1 ? 0 : ((1 - th) * heads.drive[c]!) / th;
  heads.gain[c] = gain;
  heads.q0[c] =
    gain *
    ((I / th) * state.flow[c]! +
      old +
      scratch.out[0]! +
      slope * Q +
      heads.offsetA[c]! -
      heads.offsetB[c]!);
}

/** Storage of a point between pressures po and p, m3/s, and its slope in p. */
function storage(scratch: Scratch, n: number, po: number, p: number, dt: number): void {
  const gasC = scratch.gasC[n]! / dt;
  const wallC = scratch.wallC[n]! / dt;
  const { out } = scratch;
  out[0] = gasC * po * (1 - po / p) + wallC * (p - po);
  out[1] = gasC * ((po * po) / (p * p)) + wallC;
}

function assemble(plan: Plan, state: State, scratch: Scratch, heads: Heads, dt: number): void {
  const { factor, unknown, edge, rhs, gain, q0, theta, before } = heads;
  factor.diagonal.fill(0);
  factor.off.fill(0);
  rhs.fill(0);
  for (let p = 0; p < plan.points; p++) {
    const u = unknown[p]!;
    if (u < 0) continue;
    const now = state.point[p]!;
    storage(scratch, p, before[p]!, now, dt);
    const vapour = now < PRESSURE_MIN * 1.2 ? VOID_CONDUCTANCE : 0;
    factor.diagonal[u] = scratch.out[1]! + vapour;
    rhs[u] =
      scratch.out[1]! * now - scratch.out[0]! + scratch.source[p]! + vapour * PRESSURE_MIN * 1.2;
  }
  for (let c = 0; c < plan.columns.length; c++) {
    const column = plan.columns[c]!;
    const th = theta[c]!;
    const g = th * gain[c]!;
    const mean = th * q0[c]! + (1 - th) * state.flow[c]!;
    const a = unknown[column.a]!;
    const b = unknown[column.b]!;
    if (a >= 0) {
      factor.diagonal[a]! += g;
      rhs[a]! += b < 0 ? g * state.point[column.b]! - mean : -mean;
    }
    if (b >= 0) {
      factor.diagonal[b]! += g;
      rhs[b]! += a < 0 ? g * state.point[column.a]! + mean : mean;
    }
    if (edge[c]! >= 0) factor.off[factor.edgeSlot[edge[c]!]!]! -= g;
  }
}

/** Solves pressure and flow at the end of the tick. Writes point, flow, flowMean. */
export function solveHeads(args: {
  plan: Plan;
  state: State;
  scratch: Scratch;
  heads: Heads;
  dt: number;
  trial: Float64Array;
}): void {
  const { plan, state, scratch, heads, dt, trial } = args;
  setBoundaries(plan, state);
  heads.before.set(state.point);
  prepare(plan, state, scratch, heads);
  trial.set(state.flow);
  for (let pass = 0; pass < NEWTON_PASSES; pass++) {
    for (let c = 0; c < plan.columns.length; c++) {
      linearise({ plan, state, scratch, heads, c, Q: trial[c]!, dt });
    }
    assemble(plan, state, scratch, heads, dt);
    solve(heads.factor, heads.rhs);
    for (let p = 0; p < plan.points; p++) {
      const u = heads.unknown[p]!;
      if (u < 0) continue;
      state.point[p] = max(
        heads.rhs[u]!,
        max(PRESSURE_MIN, state.point[p]! * (1 - PRESSURE_FALL_MAX)),
      );
    }
    for (let c = 0; c < plan.columns.length; c++) {
      const { a, b } = plan.columns[c]!;
      trial[c] = heads.q0[c]! + heads.gain[c]! * (state.point[a]! - state.point[b]!);
    }
  }
  for (let c = 0; c < plan.columns.length; c++) {
    const th = heads.theta[c]!;
    state.flowMean[c] = isShut(plan, scratch, c) ? 0 : th * trial[c]! + (1 - th) * state.flow[c]!;
    state.flow[c] = trial[c]!;
  }
}
