// Splits each face's flux in gas and liquid, as amounts that cross in this tick. Goes face by
// face along a pipe; there each cell hands on at once what crosses, and never more than it holds.
import { abs, min } from '../base/math.ts';
import { EXCHANGE_MAX, GAS_DUST, LIQUID_DUST } from '../constants.ts';
import { SHUT_DEG, valveOpenArea } from '../laws/fitting.ts';
import type { LinkPlan } from '../network/plan.ts';
import { gasPerRoom } from '../network/warmth.ts';
import { sweep } from './carry.ts';
import { driftPipe, endGas, isHazy, restPipe, shareAt, stretchOf } from './drift.ts';
import { carriesLoads, SENT, type Flow } from './flow.ts';

/**
 * kg and J that cross a link's faces in a tick, into `moves`. A pipe's cells hand on to each other
 * what crosses between them; none gives more than it has.
 */
export function splitLink(flow: Flow, l: number): void {
  const link = flow.plan.links[l]!;
  if (link.cells === 0) return splitFitting(flow, link);
  if (flow.scratch.gassy[l] === 0) restPipe(flow, link);
  else driftPipe(flow, link);
  openEnds(flow, link);
  if (link.cells > 1) {
    gasInside(flow, link);
    passOn(flow, link);
  } else closeEnd(flow, link);
}

/** Amounts through face f of `gas` and the rest of the flux, m3/s, each as its donor has it. */
function want(flow: Flow, f: number, gas: number): void {
  const { plan, state, moves, dt } = flow;
  const liquid = flow.fluxes.total[f]! - gas;
  const from = plan.faceFrom[f]!;
  const to = plan.faceTo[f]!;
  moves.liquid[f] = liquid * dt * state.density[liquid >= 0 ? from : to]!;
  const perRoom = gasPerRoom(plan, state, flow.scratch);
  moves.gas[f] = gas === 0 ? 0 : gas * dt * perRoom[gas > 0 ? from : to]!;
}

/**
 * A fitting mixes: gas goes with the flow as the donor holds it, and rises through what is open
 * where one end stands higher. [fit: no correlation covers a valve body]
 */
function splitFitting(flow: Flow, link: LinkPlan): void {
  const { plan, scratch, fluxes, moves } = flow;
  const face = link.firstFace;
  const deg = scratch.open[plan.columns[link.firstColumn]!.link]!;
  if (deg <= SHUT_DEG) {
    moves.gas[face] = 0;
    moves.liquid[face] = 0;
    return;
  }
  const a = shareAt(flow, link.from, 2 * face);
  const b = shareAt(flow, link.to, 2 * face + 1);
  if (a <= 0 && b <= 0) return want(flow, face, 0);
  const q = fluxes.total[face]!;
  if (link.spec.kind === 'neck') return want(flow, face, neckGas(flow, link, link.spec.clears));
  const { sinTheta, Up } = link.section;
  const source = sinTheta >= 0 ? a : b;
  const sink = sinTheta >= 0 ? b : a;
  const open = link.area * valveOpenArea(deg);
  const rise = sinTheta === 0 ? 0 : Up * min(source, EXCHANGE_MAX) * (1 - sink) * open;
  want(flow, face, q * (q >= 0 ? a : b) + (sinTheta >= 0 ? rise : -rise));
}

/** s. In which a flow of twice what it takes carries the air out from under a lid [fit]. */
const SWEEP_S = 1;
/** Gas share of a lid from which air bulges out of it; below, water goes out before the air. */
const BULGES = 0.9;

/** m3/s of gas into a lid: bubbles rise to it; only a fast flow beside it takes air out again. */
function neckGas({ plan, state, scratch, fluxes }: Flow, link: LinkPlan, clears: number): number {
  const q = fluxes.total[link.firstFace]!;
  const beside = scratch.alpha[link.from]!;
  const under = scratch.alpha[link.to]!;
  const fast = abs(state.flow[plan.links[link.control]!.firstColumn]!) / clears - 1;
  const swept = fast > 0 ? (min(fast, 1) * under * plan.room[link.to]!) / SWEEP_S : 0;
  const bulging = under > BULGES ? (under - BULGES) / (1 - BULGES) : 0;
  const rises = link.section.Up * min(beside, EXCHANGE_MAX) * (1 - under) * link.area;
  return q * (q >= 0 ? beside : bulging) + (fast > 0 ? 0 : rises) - swept;
}

/**
 * Gas that rises with the flow goes before the liquid: the surface climbs, and nothing runs over
 * a crest before it stands there. So a side sends what finds room by exchange, or what its own
 * law asks for as far as that is the flow.
 */
function risen(exchanged: number, own: number, flow: number): number {
  const most = own < flow ? own : flow;
  return most > exchanged ? most : exchanged;
}

/** What crosses a pipe's ends. Its first cell gives no more than it has. */
export function openEnds(flow: Flow, link: LinkPlan): void {
  const { gas, liquid } = flow.moves;
  const { firstCell, firstFace, cells } = link;
  want(flow, firstFace, endGas(flow, link, true));
  want(flow, firstFace + cells, endGas(flow, link, false));
  const kg = flow.state.mass[firstCell]!;
  const joule = flow.state.gas[firstCell]!;
  if (liquid[firstFace]! < -kg) liquid[firstFace] = -kg;
  if (gas[firstFace]! < -joule) gas[firstFace] = -joule;
}

/** Its last cell gives no more than what it has not lost already through the face before it. */
export function closeEnd({ state, moves }: Flow, { firstCell, firstFace, cells }: LinkPlan): void {
  const { gas, liquid } = moves;
  const face = firstFace + cells;
  const v = firstCell + cells - 1;
  const kg = state.mass[v]! + below(liquid[face - 1]!);
  const joule = state.gas[v]! + below(gas[face - 1]!);
  if (liquid[face]! > kg) liquid[face] = kg;
  if (gas[face]! > joule) gas[face] = joule;
}

/** m3/s of gas through each face between a pipe's cells. */
function gasInside(flow: Flow, link: LinkPlan): void {
  const { firstColumn, columns, firstCell } = link;
  const last = 2 * (firstColumn + columns);
  for (let h = 2 * firstColumn, next = h; h < last; h = next) {
    next = stretchOf(flow, link, h);
    const first = flow.scratch.halfAt[h]!;
    const end = flow.scratch.halfAt[next]!;
    const hazy = isHazy(flow.scratch, h);
    // Before the first of a stretch of haze stands a cell of another, or the pipe's end.
    if (hazy) gasOfHaze(flow, link, first + 1, end);
    if (!hazy || first > firstCell) {
      gasOf(flow, link, first > firstCell ? first : first + 1, hazy ? first + 1 : end);
    }
  }
}

/** Between cells of haze: it goes with the flow and rises, from the one that the flow leaves. */
export function gasOfHaze(flow: Flow, link: LinkPlan, from: number, to: number): void {
  const { total, rise, gas, sent, layers } = flow.fluxes;
  const { alpha } = flow.scratch;
  const toFace = link.firstFace - link.firstCell;
  for (let v = from; v < to; v++) {
    const q = total[toFace + v]!;
    const up = q > 0 ? v - 1 : v;
    const own = q + rise[up]!;
    const other = q + rise[q > 0 ? v : v - 1]!;
    gas[v] = alpha[up]! * own;
    if (own * q > 0 && other * q > 0) continue;
    // Slower than bubbles rise: by the law for any gas.
    for (let k = v - 1; k <= v; k++) {
      sent[SENT * k] = alpha[k]!;
      sent[SENT * k + 1] = (alpha[k]! * rise[k]!) / link.area;
      sent[SENT * k + 2] = -sent[SENT * k + 1]!;
    }
    layers[v] = 0;
    gasOf(flow, link, v, v + 1);
  }
}

/** Before some cells of a pipe, by what both sides send. */
export function gasOf(flow: Flow, link: LinkPlan, from: number, to: number): void {
  const { total, sent, layers, gas } = flow.fluxes;
  const { alpha } = flow.scratch;
  const { crest } = flow.plan;
  const { area } = link;
  const stride = SENT; // What is imported is looked up anew at each use.
  const size = abs;
  const per = 1 / area;
  let at = stride * (from - 1);
  let f = link.firstFace + from - link.firstCell;
  // What the cell before the face sends: see `sent`.
  let a = alpha[from - 1]!;
  let riding = sent[at]!;
  let on = sent[at + 1]!;
  let against = sent[at + 2]!;
  for (let v = from; v < to; v++, f++) {
    at += stride;
    const b = alpha[v]!;
    const nextRiding = sent[at]!;
    const ahead = sent[at + 1]!;
    const off = sent[at + 2]!;
    let g = 0;
    if (a !== 0 || b !== 0) {
      const j = total[f]! * per;
      const rides = riding * j;
      const returns = -nextRiding * j;
      let left = rides + on;
      if (on > 0) left = risen(rides + on * (1 - b) * crest[2 * f]!, rides - against, j);
      let right = returns + off;
      if (off > 0) right = risen(returns + off * (1 - a) * crest[2 * f + 1]!, returns - ahead, -j);
      // What is above zero of each, exact, and without branches that go now here, now there.
      const net = 0.5 * (left + size(left)) - 0.5 * (right + size(right));
      g = (net + layers[v]!) * area;
    }
    gas[v] = g;
    a = b;
    riding = nextRiding;
    on = ahead;
    against = off;
  }
}

/**
 * Cell by cell, what crosses the face before it goes from the cell before to this one. None gives
 * more than it holds, to both sides together, nor keeps an amount too small to matter.
 */
function passOn(flow: Flow, link: LinkPlan): void {
  const { plan, state, scratch, fluxes, moves, dt } = flow;
  const { total, gas: gasFlux } = fluxes;
  const { density, mass, gas, carried } = state;
  const { liquid, gas: gasMoves } = moves;
  const { firstCell, firstFace, cells } = link;
  const perRoom = gasPerRoom(plan, state, scratch);
  const loaded = carriesLoads(plan);
  const dust = GAS_DUST; // What is imported is looked up anew at each use.
  const drop = LIQUID_DUST;
  // What the cell before the face has got through the face before, and what it has left to give.
  let kgIn = 0;
  let jouleIn = 0;
  let kgHeld = mass[firstCell]!;
  let jouleHeld = gas[firstCell]!;
  let kgLeft = kgHeld + below(liquid[firstFace]!);
  let jouleLeft = jouleHeld + below(gasMoves[firstFace]!);
  let f = firstFace;
  for (let v = firstCell + 1; v < firstCell + cells; v++) {
    f++;
    const g = gasFlux[v]!;
    const l = (total[f]! - g) * dt;
    const kgNext = mass[v]!;
    const jouleNext = gas[v]!;
    let kg = l * density[l >= 0 ? v - 1 : v]!;
    if (kg > kgLeft) kg = kgLeft;
    else if (kg < -kgNext) kg = -kgNext;
    let joule = 0;
    if (g !== 0) {
      joule = g * dt * perRoom[g > 0 ? v - 1 : v]!;
      if (joule > jouleLeft) joule = jouleLeft;
      else if (joule < -jouleNext) joule = -jouleNext;
    }
    liquid[f] = kg;
    gasMoves[f] = joule;
    if (loaded) carried[f] = carried[f]! + kg; // load.ts asks for it later.
    const stays = kgHeld + (kgIn - kg);
    const rests = jouleHeld + (jouleIn - joule);
    mass[v - 1] = stays;
    gas[v - 1] = rests;
    if ((stays < drop || rests < dust) && v - 1 > firstCell) sweep(state, v - 1);
    kgIn = kg;
    jouleIn = joule;
    kgHeld = kgNext;
    jouleHeld = jouleNext;
    kgLeft = kg < 0 ? kgNext + kg : kgNext;
    jouleLeft = joule < 0 ? jouleNext + joule : jouleNext;
  }
  closeEnd(flow, link);
  mass[firstCell + cells - 1] = kgHeld + kgIn;
  gas[firstCell + cells - 1] = jouleHeld + jouleIn;
}

function below(x: number): number {
  return x < 0 ? x : 0;
}
