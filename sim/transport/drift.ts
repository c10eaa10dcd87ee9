// What the gas of each cell sends through its faces. Gas leaves a cell only in the direction of
// its own net velocity, so a held pocket does not leak by the grid; slip into an emptier cell
// exchanges more, up to the flooding ceiling. Leaves the liquid, and amounts, to split.ts.
import { min, sqrt } from '../base/math.ts';
import { EXCHANGE_MAX } from '../constants.ts';
import {
  drift,
  entrainment,
  LAYER_STEPS,
  layerTable,
  pocketConstant,
  type GasSection,
} from '../laws/gas.ts';
import { HALVES, type Scratch } from '../network/net.ts';
import { JUNCTION, type LinkPlan } from '../network/plan.ts';
import { SENT, type Flow } from './flow.ts';

/** Gas share of a pocket from which a jump can tear anything; the law's own bound. */
const TORN_ABOVE = 0.2;
/** Gas share of a cell that still counts as full of water below a jump; the law's own bound. */
const FULL_BELOW = 0.06;

/**
 * Gas share below which a cell's gas is haze: it rides with the liquid and rises as small
 * bubbles do. Left out there: the fast middle of rising flow, which carries bubbles up to 1.2 times
 * as fast, and the pocket part of the full law, 0.0012 at most. Most cells of a purge hold no more.
 */
const HAZE = 1e-3;
const HAZE_FOURTH = HAZE * HAZE * HAZE * HAZE;
/** Froude number of the flow from which small bubbles ride in its fast middle [fit]. */
const A_FULL = 0.2;

/**
 * True of half a column, 2c or 2c + 1 of column c, that holds no gas but haze: none of its cells
 * more than the root of the sum of fourth powers.
 */
export function isHazy({ halves }: Scratch, half: number): boolean {
  return halves[HALVES * half + 4]! < HAZE_FOURTH;
}

/** The first half behind a half of a pipe that is not as hazy, or the pipe's end. */
export function stretchOf({ scratch }: Flow, link: LinkPlan, half: number): number {
  const end = 2 * (link.firstColumn + link.columns);
  const { halfAt } = scratch;
  const hazy = isHazy(scratch, half);
  for (let h = half + 1; h < end; h++) {
    if (isHazy(scratch, h) !== hazy && halfAt[h] !== halfAt[h + 1]) return h;
  }
  return end;
}

/**
 * What the gas of every cell of a pipe sends through its two faces, at its mean flux; of stretches
 * of haze only what their first and last cells send, since that is all that is asked for.
 */
export function driftPipe(flow: Flow, link: LinkPlan): void {
  const { plan, scratch } = flow;
  const { runEnd } = plan;
  const { firstColumn, columns, firstCell, cells } = link;
  const last = 2 * (firstColumn + columns);
  for (let h = 2 * firstColumn, next = h; h < last; h = next) {
    next = stretchOf(flow, link, h);
    const first = scratch.halfAt[h]!;
    const end = scratch.halfAt[next]!;
    if (first === end) continue;
    if (isHazy(scratch, h)) {
      sendHaze(flow, first);
      sendHaze(flow, end - 1);
      continue;
    }
    for (let v = first; v < end;) {
      const to = runEnd[v]! < end ? runEnd[v]! : end;
      driftRun(flow, link, v, to);
      v = to;
    }
    const from = first === firstCell ? first + 1 : first;
    addLayers(flow, link, from, end < firstCell + cells ? end + 1 : end);
  }
}

/** What a cell of haze sends: see `driftRun`. */
export function sendHaze({ plan, scratch, fluxes }: Flow, v: number): void {
  const { sent } = fluxes;
  const a = scratch.alpha[v]!;
  const rises = a * plan.section[v]!.bubble;
  sent[SENT * v] = a;
  sent[SENT * v + 1] = rises;
  sent[SENT * v + 2] = -rises;
}

/** The same of a pipe without gas: its ends are all that is asked for. */
export function restPipe({ fluxes }: Flow, { firstCell, cells }: LinkPlan): void {
  const { sent } = fluxes;
  for (let k = 0; k < SENT; k++) {
    sent[SENT * firstCell + k] = 0;
    sent[SENT * (firstCell + cells - 1) + k] = 0;
  }
}

/**
 * The same for neighbours of one slope. It is the law of `drift` for a row of cells, with the same
 * sums in the same order, and so the same bits; in one loop, since a call and a list for each cell
 * cost as much as the law. Quotients that are known to be one or nothing are not worked out.
 */
function driftRun(flow: Flow, link: LinkPlan, first: number, end: number): void {
  const { alpha } = flow.scratch;
  const { sent, total } = flow.fluxes;
  const sec = flow.plan.section[first]!;
  const { lo, hi, r, s, bubble, sinTheta, A_up } = sec;
  const n = link.length / link.cells / link.bore;
  const mean = 1 / (2 * link.area);
  const middle = A_FULL * r;
  const more = A_up - 1;
  const span = hi - lo;
  let face = link.firstFace - link.firstCell + first;
  let at = SENT * first;
  for (let v = first; v < end; v++, at += SENT, face++) {
    const a = alpha[v]!;
    if (a < HAZE) {
      sent[at] = a;
      sent[at + 1] = a * bubble;
      sent[at + 2] = -a * bubble;
      continue;
    }
    const j = (total[face]! + total[face + 1]!) * mean;
    const rising = sinTheta >= 0 ? j : -j;
    let A = 1;
    if (rising > 0) {
      const t = rising >= middle ? 1 : rising / middle;
      A += more * (t * t * (3 - 2 * t));
    }
    const one = 1 - a;
    let u = 0;
    let w = 1;
    if (a - lo < span) {
      const x = (a - lo) / span;
      w = x <= 0 ? 0 : x * x * (3 - 2 * x);
      const half = sqrt(one);
      u = (1 - w) * (A * j + bubble * one * half * sqrt(half));
    }
    if (w > 0) u += w * pocketSpeed(sec, j, a * n);
    let C = A;
    if (a > 0.4 && A > 1) {
      const y = (a - 0.4) / 0.6;
      C = A / (1 + (A - 1) * y * y);
    }
    const slip = u - C * j;
    const full = 1 - a * C;
    const own = full <= 0 ? 0 : a * (full / (full + (1 - full) * s));
    // Share of its slip that gas has where there is room: the room it leaves itself counts, so
    // that a gas-filled leg drains; never above the flooding ceiling.
    const free = min(a > 0.999 ? 1 : own / one, EXCHANGE_MAX);
    sent[at] = a * C;
    sent[at + 1] = (slip > 0 ? free : own) * slip;
    sent[at + 2] = (slip > 0 ? -own : -free) * slip;
  }
}

/** Velocity of a long pocket of size n along +x, m/s, in a flow of j m/s. */
function pocketSpeed(sec: GasSection, j: number, n: number): number {
  const { r, T, Up } = sec;
  const J = j < 0 ? -j : j;
  const a = pocketConstant(n);
  const J0 = r * a;
  const creep = 0.05 * J; // [fit]
  const past = J > J0 ? J - J0 * (J0 / J) * (J0 / J) : creep;
  const level = past > creep ? past : creep;
  let inclined = 0;
  if (j < 0 ? sec.sinTheta <= 0 : sec.sinTheta >= 0) {
    const x = J <= 3 * r ? 0 : J / r - 3; // A quotient costs more than all the rest here.
    const t = x >= 1 ? 1 : x * x * (3 - 2 * x);
    inclined = (sec.C0_slow + (1.2 - sec.C0_slow) * t) * J + Up;
  } else {
    const Jc = r * (sec.F_level * a + sec.F_rest);
    inclined = J <= Jc ? -Up * (1 - J / Jc) : J - Up - (Jc - Up) * (Jc / J) * (Jc / J);
  }
  const speed = (1 - T) * level + T * inclined;
  return j < 0 ? -speed : speed;
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
  if (flow.plan.kinds[v] !== JUNCTION) return flow.fluxes.offered[slot]!;
  return flow.scratch.alpha[v]!;
}

/**
 * What layers and jumps send through the faces before some of a pipe's cells. The law of
 * `levelling`, to the bit, in one loop, since what a call gives back is put on the heap.
 */
function addLayers(flow: Flow, link: LinkPlan, from: number, to: number): void {
  const { layers } = flow.fluxes;
  const { alpha } = flow.scratch;
  const { section } = flow.plan;
  const { section: own } = link;
  const { cap, capShare } = own; // A layer's least share goes by the bore alone.
  const least = min(capShare, TORN_ABOVE);
  const table = layerTable; // What is imported is looked up anew at each use.
  const steps = LAYER_STEPS;
  let a = alpha[from - 1]!;
  let layer = -1; // Thickness of the cell before the face; not looked up yet.
  for (let v = from; v < to; v++) {
    const before = a;
    a = alpha[v]!;
    layers[v] = 0;
    if (a < least && before < least) {
      layer = -1;
      continue;
    }
    const most = before > a ? before : a;
    let last = layer;
    // Twice where the cell before was not looked up: of it, then of this one.
    for (let x = (layer < 0 ? before : a) * steps; ; x = a * steps) {
      const i = x >= steps ? steps - 1 : x | 0;
      layer = table[i]! + (x - i) * (table[i + 1]! - table[i]!);
      if (last >= 0) break;
      last = layer;
    }
    if (most > capShare) {
      const low = before > a ? layer : last;
      const drive = (before > a ? last : layer) - (low > cap ? low : cap);
      if (drive > 0) {
        const j = section[v - 1]!.spread * sqrt(drive);
        layers[v] = before > a ? j : -j;
      }
    }
    if (most >= TORN_ABOVE && (before < a ? before : a) < FULL_BELOW) addTorn(flow, link, v);
  }
}

/** What a jump at a pocket's foot tears off at the face before cell v, m/s along from -> to. */
function addTorn(flow: Flow, link: LinkPlan, v: number): void {
  const { section } = flow.plan;
  const { alpha } = flow.scratch;
  const { layers, total } = flow.fluxes;
  const a = alpha[v - 1]!;
  const b = alpha[v]!;
  const j = total[link.firstFace - link.firstCell + v]! / link.area;
  const torn = j >= 0 ? entrainment(section[v - 1]!, a, b, j) : entrainment(section[v]!, b, a, j);
  layers[v] = layers[v]! + torn;
}

/** Gas flux where a pipe meets a fitting or boundary, m3/s along from -> to. */
export function endGas(flow: Flow, link: LinkPlan, atStart: boolean): number {
  const { plan, scratch, fluxes } = flow;
  const { out, sent } = fluxes;
  const { firstCell, firstFace, cells, area, length, bore } = link;
  const face = atStart ? firstFace : firstFace + cells;
  const cell = atStart ? firstCell : firstCell + cells - 1;
  const slot = 2 * face + (atStart ? 0 : 1);
  const outside = shareAt(flow, atStart ? link.from : link.to, slot);
  const inside = scratch.alpha[cell]!;
  if (inside === 0 && outside <= 0) return 0;
  const j = fluxes.total[face]! / area;
  const toward = atStart ? -1 : 1;
  const at = SENT * cell;
  let gas = sentOn(toward * sent[at]! * j, sent[at + (atStart ? 2 : 1)]!, outside);
  if (outside > 0) {
    out[0] = outside;
    out[1] = j;
    out[2] = (outside * length) / cells / bore;
    drift(plan.section[cell]!, out);
    const along = -toward * out[4]!;
    const phi = out[5]!;
    const push = along > 0 ? freed(outside, phi) * along : outside * phi * along;
    gas -= sentOn(-toward * outside * out[3]! * j, push, inside);
  }
  return toward * gas * area;
}

/** Gas that one side sends through a face, never negative: riding, and by its slip, m/s. */
function sentOn(rides: number, slips: number, sink: number): number {
  const net = rides + (slips > 0 ? slips * (1 - sink) : slips);
  return net > 0 ? net : 0;
}
