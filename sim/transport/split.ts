// Splits each face's flux in gas and liquid, as amounts that cross in this tick. Goes face by
// face along a pipe and notes on the way whether a cell is asked for more than it holds.
import { abs, max, min } from '../base/math.ts';
import { EXCHANGE_MAX } from '../constants.ts';
import { SHUT_DEG, valveOpenArea } from '../laws/fitting.ts';
import type { LinkPlan } from '../network/plan.ts';
import { gasPerRoom } from '../network/warmth.ts';
import { driftPipe, endGas, shareAt } from './drift.ts';
import { SENT, type Flow } from './flow.ts';
import { limitPipe, limitFittings } from './limit.ts';

/** kg and J that cross each face in this tick, into `moves`; never more than a donor holds. */
export function splitFlux(flow: Flow): void {
  const { links } = flow.plan;
  for (let l = 0; l < links.length; l++) {
    const link = links[l]!;
    if (link.cells === 0) splitFitting(flow, link);
    else if (splitPipe(flow, link)) limitPipe(flow, link);
  }
  limitFittings(flow);
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

/** All faces of a pipe; true where one of its cells is asked for more than it holds. */
function splitPipe(flow: Flow, link: LinkPlan): boolean {
  const { firstCell, firstFace, cells } = link;
  driftPipe(flow, link);
  want(flow, firstFace, endGas(flow, link, true));
  want(flow, firstFace + cells, endGas(flow, link, false));
  return cells > 1 ? splitInside(flow, link) : cellShort(flow, firstCell, firstFace);
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
  const { total, sent } = flow.fluxes;
  const { gas, liquid } = flow.moves;
  const { density, gas: held, mass } = flow.state;
  const perRoom = gasPerRoom(flow.plan, flow.state, flow.scratch);
  const { firstCell, firstFace, cells, area } = link;
  const { crest } = flow.plan;
  // What the cell before the face has lost already, through its other face.
  let lost = liquid[firstFace]! < 0 ? -liquid[firstFace]! : 0;
  let lostGas = gas[firstFace]! < 0 ? -gas[firstFace]! : 0;
  let short = false;
  let at = SENT * firstCell;
  let f = firstFace;
  // What the cell before the face holds and sends: see `sent`.
  let a = sent[at]!;
  let riding = sent[at + 1]!;
  let on = sent[at + 2]!;
  let against = sent[at + 3]!;
  for (let v = firstCell + 1; v < firstCell + cells; v++) {
    at += SENT;
    f++;
    const q = total[f]!;
    const b = sent[at]!;
    const nextRiding = sent[at + 1]!;
    const ahead = sent[at + 2]!;
    const off = sent[at + 3]!;
    let g = 0;
    if (a !== 0 || b !== 0) {
      const j = q / area;
      const rides = riding * j;
      const returns = -nextRiding * j;
      let left = rides + on;
      if (on > 0) {
        const exchange = on * (1 - b) * crest[2 * f]!;
        left = risen(rides + exchange, rides - against, j);
      }
      let right = returns + off;
      if (off > 0) {
        const exchange = off * (1 - a) * crest[2 * f + 1]!;
        right = risen(returns + exchange, returns - ahead, -j);
      }
      g = (positive(left) - positive(right) + sent[at + 4]!) * area;
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
    if (lost + positive(kg) > mass[v - 1]!) short = true;
    if (lostGas + positive(joule) > held[v - 1]!) short = true;
    lost = positive(-kg);
    lostGas = positive(-joule);
  }
  lost += positive(liquid[f + 1]!);
  lostGas += positive(gas[f + 1]!);
  const last = firstCell + cells - 1;
  return short || lost > mass[last]! || lostGas > held[last]!;
}

/** x above zero, else 0; exact, and without a branch that goes now here, now there. */
function positive(x: number): number {
  return 0.5 * (x + abs(x));
}

/** A pipe of one cell. */
function cellShort(flow: Flow, v: number, f: number): boolean {
  const { gas, liquid } = flow.moves;
  const out = (amounts: Float64Array) => max(0, -amounts[f]!) + max(0, amounts[f + 1]!);
  return out(liquid) > flow.state.mass[v]! || out(gas) > flow.state.gas[v]!;
}
