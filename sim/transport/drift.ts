// What the gas of each cell sends through its faces. Gas leaves a cell only in the direction of
// its own net velocity, so a held pocket does not leak by the grid; slip into an emptier cell
// exchanges more, up to the flooding ceiling. Leaves the liquid, and amounts, to split.ts.
import { EXCHANGE_MAX } from '../constants.ts';
import { drift, entrainment, levelling } from '../laws/gas.ts';
import { JUNCTION, type LinkPlan } from '../network/plan.ts';
import type { Flow } from './flow.ts';

/** Gas share of a pocket from which a jump can tear anything; the law's own bound. */
const TORN_ABOVE = 0.2;
/** Gas share of a cell that still counts as full of water below a jump; the law's own bound. */
const FULL_BELOW = 0.06;
/** Gas share of the thinnest layer that can level itself in a bore of half a metre. */
export const LAYER_ABOVE = 0.0015;

/**
 * Gas share below which a cell's gas is haze: it rides with the liquid and rises as small
 * bubbles do. Left out there: the fast middle of rising flow, which carries bubbles up to 1.2 times
 * as fast, and the pocket part of the full law, 0.0012 at most. Most cells of a purge hold no more.
 */
const HAZE = 1e-3;

/** What the gas of every cell of a pipe sends through its two faces, at its mean flux. */
export function driftPipe(flow: Flow, link: LinkPlan): void {
  const { plan, scratch, fluxes } = flow;
  const { out, riding, ahead, back, total } = fluxes;
  const { alpha } = scratch;
  const { firstCell, firstFace, cells, area, length, bore } = link;
  const n = length / cells / bore;
  const half = 1 / (2 * area);
  const shift = firstFace - firstCell;
  for (let v = firstCell; v < firstCell + cells; v++) {
    const a = alpha[v]!;
    if (a === 0) {
      riding[v] = ahead[v] = back[v] = 0;
      continue;
    }
    const sec = plan.section[v]!;
    const j = (total[shift + v]! + total[shift + v + 1]!) * half;
    if (a < HAZE) {
      const held = a * sec.bubble;
      riding[v] = a;
      ahead[v] = held;
      back[v] = -held;
      continue;
    }
    out[0] = a;
    out[1] = j;
    out[2] = a * n;
    drift(sec, out);
    const slip = out[4]!;
    const held = a * out[5]! * slip;
    // Share of its slip that gas has where there is room: the room it leaves itself counts, so
    // that a gas-filled leg drains; never above the flooding ceiling.
    let free = a > 0.999 ? 1 : (a * out[5]!) / (1 - a);
    if (free > EXCHANGE_MAX) free = 0.88;
    riding[v] = a * out[3]!;
    ahead[v] = slip > 0 ? free * slip : held;
    back[v] = slip > 0 ? -held : -free * slip;
  }
}

/** The same for gas that a pipe's end draws from a fitting or a boundary. */
function freed(a: number, phi: number): number {
  if (a > 0.999) return EXCHANGE_MAX;
  const free = (a * phi) / (1 - a);
  return free < EXCHANGE_MAX ? free : EXCHANGE_MAX;
}

/**
 * Gas share of the volume on one side of a face (slot: twice the face, 1 more on its to side);
 * boundaries offer what they hold there.
 */
export function shareAt(flow: Flow, v: number, slot: number): number {
  const { nodes } = flow.plan;
  if (v < nodes.length && nodes[v]!.kind !== JUNCTION) return flow.fluxes.offered[slot]!;
  return flow.scratch.alpha[v]!;
}

/** out[1] = what layers and jumps add at the face before cell v, m/s; out[0] = the flow, m/s. */
export function layered(flow: Flow, v: number): void {
  const { out } = flow.fluxes;
  const j = out[0]!;
  const { section } = flow.plan;
  const a = flow.scratch.alpha[v - 1]!;
  const b = flow.scratch.alpha[v]!;
  const left = section[v - 1]!;
  const most = a > b ? a : b;
  let added = most > left.capShare ? levelling(left, a, b) : 0;
  if (most >= TORN_ABOVE && (a < b ? a : b) < FULL_BELOW) {
    added += j >= 0 ? entrainment(left, a, b, j) : entrainment(section[v]!, b, a, j);
  }
  out[1] = added;
}

/** Gas flux where a pipe meets a fitting or boundary, m3/s along from -> to. */
export function endGas(flow: Flow, link: LinkPlan, atStart: boolean): number {
  const { plan, scratch, fluxes } = flow;
  const { out, riding, ahead, back } = fluxes;
  const { firstCell, firstFace, cells, area, length, bore } = link;
  const face = atStart ? firstFace : firstFace + cells;
  const cell = atStart ? firstCell : firstCell + cells - 1;
  const slot = 2 * face + (atStart ? 0 : 1);
  const outside = shareAt(flow, atStart ? link.from : link.to, slot);
  const inside = scratch.alpha[cell]!;
  if (inside === 0 && outside <= 0) return 0;
  const j = fluxes.total[face]! / area;
  const toward = atStart ? -1 : 1;
  const own = (atStart ? back : ahead)[cell]!;
  let gas = sent(toward * riding[cell]! * j, own, outside);
  if (outside > 0) {
    out[0] = outside;
    out[1] = j;
    out[2] = (outside * length) / cells / bore;
    drift(plan.section[cell]!, out);
    const along = -toward * out[4]!;
    const phi = out[5]!;
    const push = along > 0 ? freed(outside, phi) * along : outside * phi * along;
    gas -= sent(-toward * outside * out[3]! * j, push, inside);
  }
  return toward * gas * area;
}

/** Gas that one side sends through a face, never negative: riding, and by its slip, m/s. */
function sent(rides: number, slips: number, sink: number): number {
  const net = rides + (slips > 0 ? slips * (1 - sink) : slips);
  return net > 0 ? net : 0;
}
