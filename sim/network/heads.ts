// Pressure and flow of one tick: momentum of rigid columns between elastic, gassy points.
// Newton passes on the loss until no pressure moves any more, one sparse symmetric solve each. A
// tick in which a pressure moves far is gone through again in quarters. A column whose valve is
// shut, or whose flow is imposed, is not in the matrix.
import { abs, max } from '../base/math.ts';
import { G, P_ATM } from '../base/units.ts';
import {
  NEWTON_PASSES,
  PRESSURE_FALL_MAX,
  PRESSURE_MIN,
  THETA_PIPE,
  VOID_CONDUCTANCE,
} from '../constants.ts';
import { headOf } from '../defects/wheel.ts';
import { SHUT_DEG } from '../laws/fitting.ts';
import { COLUMN_LIQUID_STRIDE, PUMP_STRIDE, type State } from '../state.ts';
import { ENDLESS, mostFlow } from './choke.ts';
import { columnLoss, tankLevel } from './columns.ts';
import { solve } from './matrix.ts';
import type { Heads, Net } from './net.ts';
import { OPEN, RESERVOIR, type Plan } from './plan.ts';
import { STROKED, strokeLine } from './stroke.ts';
import { beginWarmth, squeezeBy, squeezeSlope } from './warmth.ts';

/** Net drive of a column without its ends' pressures, Pa: weight, pump and loss at flow Q. */
function pushAndSlope(net: Net, c: number, Q: number): void {
  const { plan, state, scratch } = net;
  columnLoss(plan, state, scratch, c, Q);
  const { out } = scratch;
  const pump = plan.links[plan.columns[c]!.link]!.pump;
  let push = -out[0]!;
  let slope = out[1]!;
  if (pump >= 0) {
    const at = pump * PUMP_STRIDE;
    const heavy = state.liquid[c * COLUMN_LIQUID_STRIDE]! * G;
    const help = state.pump[at + 1]! * state.pump[at + 2]! * heavy;
    headOf(net, pump, Q);
    // Head below nothing is the casing's own loss: gas does not take that away.
    const scale = out[0]! > 0 ? help : heavy;
    push += scale * out[0]!;
    slope -= scale * out[1]!;
  }
  out[0] = push + scratch.weight[c]! + scratch.teePush[c]!;
  out[1] = slope;
}

function setBoundaries({ plan, state, scratch: { sag } }: Net): void {
  for (let n = 0; n < plan.nodes.length; n++) {
    const node = plan.nodes[n]!;
    if (!node.fixed) continue;
    const given = node.kind === RESERVOIR || node.kind === OPEN;
    state.point[n] = given ? node.pressure - sag[n]! : P_ATM;
  }
}

/** What a tank's port feels above the surface's pressure, at every column that ends there. */
function feelTanks({ plan, state, heads }: Net): void {
  for (let t = 0; t < plan.tanks.length; t++) {
    const { node, ends } = plan.tanks[t]!;
    const surface = plan.nodes[node]!.elevation + tankLevel(plan, state, t);
    for (let e = 0; e < ends.length; e++) {
      const { column, out, z } = ends[e]!;
      const depth = surface - z;
      const p = depth > 0 ? state.density[node]! * G * depth : 0;
      if (out > 0) heads.offsetA[column] = p;
      else heads.offsetB[column] = p;
    }
  }
}

/**
 * Net drive and slope of every column at the tick's start, kept as where they were worked out;
 * and the weight of the tick's end. A water column on a gas cushion swings for long and is
 * followed with little damping. Gas alone rings faster than a tick can follow, and a plastic wall
 * loses what it stores: both are damped by weighing the end fully.
 */
function prepare(net: Net): void {
  const { plan, state, scratch, heads } = net;
  const { offsetA, offsetB, drive, theta, columnA, columnB, columnLength } = heads;
  const { gasC, wet } = scratch;
  const { wallC } = plan;
  for (let c = 0; c < plan.columns.length; c++) {
    const a = columnA[c]!;
    const b = columnB[c]!;
    const length = columnLength[c]!;
    const share = length === 0 ? 0 : wet[c]! / length;
    const atA = gasC[a]! === 0 ? 0 : gasC[a]! / (gasC[a]! + wallC[a]!);
    const atB = gasC[b]! === 0 ? 0 : gasC[b]! / (gasC[b]! + wallC[b]!);
    theta[c] = 1 - (1 - THETA_PIPE) * (share > 0.3 ? 1 : share / 0.3) * (atA > atB ? atA : atB);
    heads.most[c] = mostFlow(plan, scratch, c, heads.mostGas[c]!);
    workOut(net, c, state.flow[c]!);
    const ends = state.point[a]! + offsetA[c]! - state.point[b]! - offsetB[c]!;
    drive[c] = ends + scratch.out[0]!; // Without the choke, which holds at the tick's end.
  }
}

/** Pa. What it takes to push twice the most through; far above what a rig stands at. */
const CHOKE = 1e7;

function workOut(net: Net, c: number, Q: number): void {
  const { scratch, heads } = net;
  pushAndSlope(net, c, Q);
  heads.at[c] = Q;
  heads.push[c] = scratch.out[0]!;
  heads.slope[c] = scratch.out[1]!;
  const most = heads.most[c]!;
  if (abs(Q) <= most) return;
  const steep = CHOKE / most;
  heads.push[c] = scratch.out[0]! - steep * (Q > 0 ? Q - most : Q + most);
  heads.slope[c] = scratch.out[1]! + steep;
}

/** Share of the flow up to which the drive is followed along its slope instead of anew. */
const SAME_FLOW = 1e-3;

function linearise(net: Net, dt: number): void {
  const { plan, state, scratch, heads, trial } = net;
  const { at, push, slope, gain, q0, theta, drive, offsetA, offsetB } = heads;
  const { columnLink, imposed } = heads;
  const { inertia, open } = scratch;
  for (let c = 0; c < plan.columns.length; c++) {
    const link = columnLink[c]!;
    if (imposed[c] === 1) {
      gain[c] = 0;
      q0[c] = state.control[link]!;
      continue;
    }
    if (open[link]! <= SHUT_DEG) {
      gain[c] = 0;
      q0[c] = 0;
      continue;
    }
    if (imposed[c] === STROKED) {
      strokeLine(net, c);
      continue;
    }
    const Q = trial[c]!;
    const off = Q - at[c]!;
    if (abs(off) > SAME_FLOW * abs(at[c]!)) workOut(net, c, Q);
    const th = theta[c]!;
    const I = inertia[c]! / dt;
    const g = th / (I + th * slope[c]!);
    const old = th === 1 ? 0 : ((1 - th) * drive[c]!) / th;
    const known = (I / th) * state.flow[c]! + old + push[c]! + slope[c]! * at[c]!;
    gain[c] = g;
    q0[c] = g * (known + offsetA[c]! - offsetB[c]!);
  }
}

/** Storage of each unknown point between the tick's two ends, linearised at its pressure now. */
function assemblePoints({ plan, state, scratch, heads }: Net, dt: number): void {
  const { factor, unknown, rhs, before, gasNow, exponent } = heads;
  const { source } = scratch;
  for (let p = 0; p < plan.points; p++) {
    const u = unknown[p]!;
    if (u < 0) continue;
    const now = state.point[p]!;
    const po = before[p]!;
    const gas = gasNow[p]! / dt;
    const wall = plan.wallC[p]! / dt;
    const ratio = po / now;
    const a = exponent[p]!; // 1 unless gas heats.
    const left = a === 1 ? ratio : squeezeBy(ratio, a);
    const steep = a === 1 ? 1 : squeezeSlope(ratio, a);
    const stored = gas * po * (1 - left) + wall * (now - po);
    const slope = gas * ratio * ratio * steep + wall;
    const vapour = now < PRESSURE_MIN * 1.2 ? VOID_CONDUCTANCE : 0;
    factor.diagonal[u] = slope + vapour;
    rhs[u] = slope * now - stored + source[p]! + vapour * PRESSURE_MIN * 1.2;
  }
}

function assembleColumns({ plan, state, heads }: Net): void {
  const { factor, edge, rhs, gain, q0, theta, ua, ub, columnA, columnB } = heads;
  const { diagonal, off, edgeSlot } = factor;
  for (let c = 0; c < plan.columns.length; c++) {
    const th = theta[c]!;
    const g = th * gain[c]!;
    const mean = th * q0[c]! + (1 - th) * state.flow[c]!;
    const a = ua[c]!;
    const b = ub[c]!;
    if (a >= 0) {
      diagonal[a] = diagonal[a]! + g;
      rhs[a] = rhs[a]! + (b < 0 ? g * state.point[columnB[c]!]! - mean : -mean);
    }
    if (b >= 0) {
      diagonal[b] = diagonal[b]! + g;
      rhs[b] = rhs[b]! + (a < 0 ? g * state.point[columnA[c]!]! + mean : mean);
    }
    if (edge[c]! >= 0) {
      const slot = edgeSlot[edge[c]!]!;
      off[slot] = off[slot]! - g;
    }
  }
}

/** Takes the solution over; the largest move of a pressure, Pa. */
function take({ plan, state, heads, trial }: Net): number {
  const { unknown, rhs, q0, gain, columnA, columnB, most, imposed } = heads;
  let moved = 0;
  for (let p = 0; p < plan.points; p++) {
    const u = unknown[p]!;
    if (u < 0) continue;
    const was = state.point[p]!;
    const now = max(rhs[u]!, max(PRESSURE_MIN, was * (1 - PRESSURE_FALL_MAX)));
    const move = abs(now - was);
    if (move > moved) moved = move;
    state.point[p] = now;
  }
  for (let c = 0; c < plan.columns.length; c++) {
    const q = q0[c]! + gain[c]! * (state.point[columnA[c]!]! - state.point[columnB[c]!]!);
    const bound = imposed[c] === 1 ? ENDLESS : 2 * most[c]!; // A first pass may overshoot far.
    trial[c] = q > bound ? bound : q < -bound ? -bound : q;
  }
  return moved;
}

/**
 * Pa. Where no pressure moves more in a pass, the next one would change nothing that counts: what
 * is not straight goes with the square of the move, (10/1e5)^2.
 */
const SETTLED = 10;

/** Share of a pressure by which it may move in one step; beyond, the tick is split. */
const FAR = 0.05;
/** Steps of a tick in which a pressure moves far. */
const PARTS = 8;

/**
 * Solves pressure and flow at the end of the tick. Writes point, flow, flowMean; `before` holds
 * the pressures of the tick's start. The gas stays where it is while a tick is split: only its
 * pressure moves, so that what it takes up over the parts is what it takes up over the whole.
 */
export function solveHeads(net: Net): void {
  const { plan, state, heads } = net;
  setBoundaries(net);
  heads.start.set(state.point);
  feelTanks(net);
  if (plan.heats) beginWarmth(net);
  advance(net, net.dt);
  const far = movedFar(net);
  state.flowMean.fill(0);
  if (far) state.point.set(heads.start);
  else keep(net, 1);
  for (let part = 0; far && part < PARTS; part++) {
    advance(net, net.dt / PARTS);
    keep(net, PARTS);
  }
  heads.before.set(heads.start);
}

/** From pressures and flows now to those after dt; flows into `trial`. */
function advance(net: Net, dt: number): void {
  const { state, scratch, heads, trial } = net;
  const { before, start, gasNow } = heads;
  const { heats } = net.plan;
  before.set(state.point);
  for (let p = 0; p < gasNow.length; p++) {
    const risen = start[p]! / before[p]!;
    const left = heats ? heads.squeeze[p]! : risen;
    gasNow[p] = scratch.gasC[p]! * left * risen; // The same amount, at its pressure now.
  }
  prepare(net);
  trial.set(state.flow);
  for (let pass = 0; pass < NEWTON_PASSES; pass++) {
    linearise(net, dt);
    heads.factor.off.fill(0);
    assemblePoints(net, dt);
    assembleColumns(net);
    solve(heads.factor, heads.rhs);
    if (take(net) < SETTLED) break;
  }
}

function movedFar({ state, heads }: Net): boolean {
  const { unknown, start } = heads;
  for (let p = 0; p < unknown.length; p++) {
    if (unknown[p]! >= 0 && abs(state.point[p]! - start[p]!) > FAR * start[p]!) return true;
  }
  return false;
}

/** Takes the flows over, as one of so many parts of the tick. */
function keep({ plan, state, scratch, heads, trial }: Net, parts: number): void {
  for (let c = 0; c < plan.columns.length; c++) {
    const th = heads.theta[c]!;
    const shut = scratch.open[heads.columnLink[c]!]! <= SHUT_DEG;
    const mean = shut ? 0 : th * trial[c]! + (1 - th) * state.flow[c]!;
    state.flowMean[c] = state.flowMean[c]! + mean / parts;
    state.flow[c] = trial[c]!;
  }
  if (plan.heats) squeezeOn(plan, state, heads);
}

/** What has become of the room of each point's gas since the tick began. */
function squeezeOn({ points }: Plan, { point }: State, heads: Heads): void {
  const { squeeze, before, exponent } = heads;
  for (let p = 0; p < points; p++) {
    squeeze[p] = squeeze[p]! * squeezeBy(before[p]! / point[p]!, exponent[p]!);
  }
}
