// Pressure and flow of one tick: momentum of rigid columns between elastic, gassy points.
// Newton passes on the loss until hardly anything is left, one sparse symmetric solve each. A
// tick in which a pressure moves far is gone through again in parts. A column whose valve is
// shut, or whose flow is imposed, is not in the matrix.
import { clamp, round } from '../base/math.ts';
import { G } from '../base/units.ts';
import { NEWTON_PASSES, PRESSURE_FALL_MAX, PRESSURE_MIN, VOID_CONDUCTANCE } from '../constants.ts';
import { SHUT_DEG } from '../laws/fitting.ts';
import type { State } from '../state.ts';
import { tankLevel } from './columns.ts';
import { prepare, workOut } from './drive.ts';
import { solve } from './matrix.ts';
import type { Heads, Net } from './net.ts';
import { JUNCTION, type Plan } from './plan.ts';
import { STROKED, strokeLine } from './stroke.ts';
import { beginWarmth, squeezeBy, squeezeSlope } from './warmth.ts';

function setBoundaries({ plan, state, scratch: { sag } }: Net): void {
  for (let n = 0; n < plan.nodes.length; n++) {
    const kind = plan.kinds[n]!;
    if (kind === JUNCTION) continue;
    state.point[n] = plan.nodes[n]!.pressure - sag[n]!;
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

/** Share of the flow up to which the drive is followed along its slope instead of anew. */
const SAME_FLOW = 1e-3;

function linearise(net: Net, dt: number): void {
  const { state, scratch, heads, trial } = net;
  const { at, push, slope, gain, q0, theta, drive, offsetA, offsetB } = heads;
  const { columnLink, imposed } = heads;
  const { inertia, open } = scratch;
  const { flow, control } = state;
  const shut = SHUT_DEG; // What is imported is looked up anew at each use.
  for (let c = 0; c < gain.length; c++) {
    const link = columnLink[c]!;
    if (imposed[c] === 1) {
      gain[c] = 0;
      q0[c] = control[link]!;
      continue;
    }
    if (open[link]! <= shut) {
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
    const same = SAME_FLOW * (at[c]! < 0 ? -at[c]! : at[c]!);
    if (off > same || off < -same) workOut(net, c);
    const th = theta[c]!;
    const I = inertia[c]! / dt;
    const g = th / (I + th * slope[c]!);
    const old = th === 1 ? 0 : ((1 - th) * drive[c]!) / th;
    const known = (I / th) * flow[c]! + old + push[c]! + slope[c]! * at[c]!;
    gain[c] = g;
    q0[c] = g * (known + offsetA[c]! - offsetB[c]!);
  }
}

/** Storage of each unknown point between the tick's two ends, linearised at its pressure now. */
function assemblePoints({ plan, state, scratch, heads }: Net, dt: number): void {
  const { factor, unknown, rhs, before, gasNow, exponent } = heads;
  const { source } = scratch;
  const { point } = state;
  const { wallC } = plan;
  const { diagonal } = factor;
  const least = PRESSURE_MIN;
  const conductance = VOID_CONDUCTANCE;
  for (let p = 0; p < unknown.length; p++) {
    const u = unknown[p]!;
    if (u < 0) continue;
    const now = point[p]!;
    const po = before[p]!;
    const gas = gasNow[p]! / dt;
    const wall = wallC[p]! / dt;
    const ratio = po / now;
    const a = exponent[p]!; // 1 unless gas heats.
    const left = a === 1 ? ratio : squeezeBy(ratio, a);
    const steep = a === 1 ? 1 : squeezeSlope(ratio, a);
    const stored = gas * po * (1 - left) + wall * (now - po);
    const slope = gas * ratio * ratio * steep + wall;
    const vapour = now < least * 1.2 ? conductance : 0;
    diagonal[u] = slope + vapour;
    rhs[u] = slope * now - stored + source[p]! + vapour * least * 1.2;
  }
}

function assembleColumns({ state, heads }: Net): void {
  const { factor, slot, rhs, gain, q0, theta, ua, ub, columnA, columnB } = heads;
  const { diagonal, off } = factor;
  const { flow, point } = state;
  for (let c = 0; c < gain.length; c++) {
    const th = theta[c]!;
    const g = th * gain[c]!;
    const mean = th * q0[c]! + (1 - th) * flow[c]!;
    const a = ua[c]!;
    const b = ub[c]!;
    if (a >= 0) {
      diagonal[a] = diagonal[a]! + g;
      rhs[a] = rhs[a]! + (b < 0 ? g * point[columnB[c]!]! - mean : -mean);
    }
    if (b >= 0) {
      diagonal[b] = diagonal[b]! + g;
      rhs[b] = rhs[b]! + (a < 0 ? g * point[columnA[c]!]! + mean : mean);
    }
    const at = slot[c]!;
    if (at >= 0) off[at] = off[at]! - g;
  }
}

/**
 * Pa. Where no more is left, by estimate, no further pass is made: a tenth of a millimetre.
 * Passes converge with the square of a move: what gas leaves is the move's square over its
 * pressure, and what a loss leaves is as much of its slope's as the flow moved of itself.
 */
const LEFT = 1;

/** Takes the solution over; true where another pass is called for. */
function take(net: Net): boolean {
  const moves = takePressures(net);
  return takeFlows(net) || moves;
}

function takePressures({ state, heads }: Net): boolean {
  const { unknown, rhs } = heads;
  const { point } = state;
  const least = PRESSURE_MIN;
  const keeps = 1 - PRESSURE_FALL_MAX;
  let again = false;
  for (let p = 0; p < unknown.length; p++) {
    const u = unknown[p]!;
    if (u < 0) continue;
    const was = point[p]!;
    let now = rhs[u]!;
    if (now < was * keeps) now = was * keeps;
    point[p] = now;
    if (now < least) point[p] = least;
    const move = point[p]! - was;
    if (move * move > LEFT * was) again = true;
  }
  return again;
}

function takeFlows({ state, heads, trial }: Net): boolean {
  const { q0, gain, columnA, columnB, most, at, slope, imposed } = heads;
  const { point } = state;
  let again = false;
  for (let c = 0; c < gain.length; c++) {
    const q = q0[c]! + gain[c]! * (point[columnA[c]!]! - point[columnB[c]!]!);
    const bound = 2 * most[c]!; // A first pass may overshoot far.
    trial[c] = q > bound ? bound : q < -bound ? -bound : q;
    if (gain[c] === 0 || imposed[c] === STROKED) continue;
    const from = at[c]!;
    const off = q - from;
    const size = from < 0 ? -from : from;
    if (slope[c]! * off * off > LEFT * size || size > most[c]!) again = true;
  }
  return again;
}

/** Share of a pressure by which it may move in one step; beyond, the tick is split. */
const FAR = 0.05;
/** s and fewest, most: steps of a tick in which a pressure moves far. A night's are not so fine. */
const PART_S = 0.0125;
const PARTS_LEAST = 8;
const PARTS_MOST = 16;

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
  const parts = partsOf(net);
  state.flowMean.fill(0);
  if (parts > 1) state.point.set(heads.start);
  else keep(net, 1);
  for (let part = 0; parts > 1 && part < parts; part++) {
    advance(net, net.dt / parts);
    keep(net, parts);
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
  trial.set(state.flow);
  prepare(net);
  for (let pass = 0; pass < NEWTON_PASSES; pass++) {
    linearise(net, dt);
    heads.factor.off.fill(0);
    assemblePoints(net, dt);
    assembleColumns(net);
    solve(heads.factor, heads.rhs);
    if (!take(net)) break;
  }
}

/** In how many steps the tick is to be gone through, so that none moves a pressure far. */
function partsOf({ dt, state, heads }: Net): number {
  const { unknown, start } = heads;
  const { point } = state;
  for (let p = 0; p < unknown.length; p++) {
    const from = start[p]!;
    const move = point[p]! - from;
    const far = (move < 0 ? -move : move) > FAR * from;
    if (far && unknown[p]! >= 0) return clamp(round(dt / PART_S), PARTS_LEAST, PARTS_MOST);
  }
  return 1;
}

/** Takes the flows over, as one of so many parts of the tick. */
function keep({ plan, state, scratch, heads, trial }: Net, parts: number): void {
  const { theta, columnLink } = heads;
  const { open } = scratch;
  const { flow, flowMean } = state;
  const shut = SHUT_DEG;
  for (let c = 0; c < theta.length; c++) {
    const th = theta[c]!;
    const mean = open[columnLink[c]!]! <= shut ? 0 : th * trial[c]! + (1 - th) * flow[c]!;
    flowMean[c] = flowMean[c]! + mean / parts;
    flow[c] = trial[c]!;
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
