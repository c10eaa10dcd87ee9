// Splits each face's flux in gas and liquid, as amounts that cross in this tick. Goes face by
// face along a pipe and notes on the way whether a cell is asked for more than it holds.
import { abs, min } from '../base/math.ts';
import { EXCHANGE_MAX } from '../constants.ts';
import { SHUT_DEG, valveOpenArea } from '../laws/fitting.ts';
import type { LinkPlan } from '../network/plan.ts';
import { gasPerRoom } from '../network/warmth.ts';
import { driftPipe, endGas, restPipe, shareAt } from './drift.ts';
import { SENT, type Flow } from './flow.ts';
import { limitPipe } from './limit.ts';

/** kg and J that cross a link's faces in a tick, into `moves`; no cell gives more than it has. */
export function splitLink(flow: Flow, l: number): void {
  const link = flow.plan.links[l]!;
  if (link.cells === 0) splitFitting(flow, link);
  else if (flow.scratch.gassy[l] === 0 ? splitClear(flow, link) : splitPipe(flow, link))
    limitPipe(flow, link);
}

/** Amounts through face f of `gas` and the rest of the flux, m3/s, each as its donor has it. */
export function want(flow: Flow, f: number, gas: number): void {
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

/** All faces of a pipe; true where one of its cells is asked for more than it holds. */
function splitPipe(flow: Flow, link: LinkPlan): boolean {
  const { firstCell, firstFace, cells } = link;
  driftPipe(flow, link);
  want(flow, firstFace, endGas(flow, link, true));
  want(flow, firstFace + cells, endGas(flow, link, false));
  return cells > 1 ? splitInside(flow, link) : cellShort(flow, firstCell, firstFace);
}

/** The same of a pipe without gas, which can only get some from what it ends in. */
function splitClear(flow: Flow, link: LinkPlan): boolean {
  const { dt } = flow;
  const { total } = flow.fluxes;
  const { gas, liquid } = flow.moves;
  const { density, mass } = flow.state;
  const { firstCell, firstFace, cells } = link;
  restPipe(flow, link);
  want(flow, firstFace, endGas(flow, link, true));
  want(flow, firstFace + cells, endGas(flow, link, false));
  if (cells === 1) return cellShort(flow, firstCell, firstFace);
  let lost = -below(liquid[firstFace]!);
  let held = mass[firstCell]!;
  let short = gas[firstFace]! < 0 || gas[firstFace + cells]! > 0;
  const end = firstCell + cells;
  for (let v = firstCell + 1, f = firstFace + 1; v < end; v++, f++) {
    const l = total[f]! * dt;
    const kg = l * density[l >= 0 ? v - 1 : v]!;
    liquid[f] = kg;
    gas[f] = 0;
    if (lost + (kg > 0 ? kg : 0) > held) short = true;
    lost = kg < 0 ? -kg : 0;
    held = mass[v]!;
  }
  return short || lost + above(liquid[firstFace + cells]!) > held;
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

/** The faces between a pipe's cells; true where one of the cells is short. */
function splitInside(flow: Flow, link: LinkPlan): boolean {
  const { dt } = flow;
  const { total, sent, layers } = flow.fluxes;
  const { alpha } = flow.scratch;
  const { gas, liquid } = flow.moves;
  const { density, gas: gases, mass: masses } = flow.state;
  const perRoom = gasPerRoom(flow.plan, flow.state, flow.scratch);
  const { firstCell, firstFace, cells, area } = link;
  const { crest } = flow.plan;
  const stride = SENT; // What is imported is looked up anew at each use.
  const size = abs;
  // What the cell before the face has lost already, through its other face, and what it holds.
  let lost = -below(liquid[firstFace]!);
  let lostGas = -below(gas[firstFace]!);
  let mass = masses[firstCell]!;
  let held = gases[firstCell]!;
  let short = false;
  let at = stride * firstCell;
  let f = firstFace;
  // What the cell before the face sends: see `sent`.
  let a = alpha[firstCell]!;
  let riding = sent[at]!;
  let on = sent[at + 1]!;
  let against = sent[at + 2]!;
  for (let v = firstCell + 1; v < firstCell + cells; v++) {
    at += stride;
    f++;
    const q = total[f]!;
    const b = alpha[v]!;
    const nextRiding = sent[at]!;
    const ahead = sent[at + 1]!;
    const off = sent[at + 2]!;
    let g = 0;
    if (a !== 0 || b !== 0) {
      const j = q / area;
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
    a = b;
    riding = nextRiding;
    on = ahead;
    against = off;
    const l = (q - g) * dt;
    const kg = l * density[l >= 0 ? v - 1 : v]!;
    const joule = g * dt * perRoom[g > 0 ? v - 1 : v]!;
    liquid[f] = kg;
    gas[f] = joule;
    if (lost + (kg > 0 ? kg : 0) > mass || lostGas + (joule > 0 ? joule : 0) > held) short = true;
    lost = kg < 0 ? -kg : 0;
    lostGas = joule < 0 ? -joule : 0;
    mass = masses[v]!;
    held = gases[v]!;
  }
  const kg = lost + above(liquid[f + 1]!);
  return short || kg > mass || lostGas + above(gas[f + 1]!) > held;
}

function above(x: number): number {
  return x > 0 ? x : 0;
}

function below(x: number): number {
  return x < 0 ? x : 0;
}

/** A pipe of one cell. */
function cellShort(flow: Flow, v: number, f: number): boolean {
  const { gas, liquid } = flow.moves;
  if (above(liquid[f + 1]!) - below(liquid[f]!) > flow.state.mass[v]!) return true;
  return above(gas[f + 1]!) - below(gas[f]!) > flow.state.gas[v]!;
}
