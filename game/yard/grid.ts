// The router's grid: lines across and down, what is shut, and how many laid pipes lie too close to
// each of its edges or cross it. Counts are kept up as pipes are laid, for each width asked for.
import type { Box, Point } from './types.ts';

/** A straight piece of a pipe that is laid: where across its way, and from where to where. */
export interface Laid {
  readonly flat: boolean;
  readonly at: number;
  readonly lo: number;
  readonly hi: number;
  readonly half: number;
  readonly net: string;
}

/** Room between two pipes that run side by side. */
const APART = 7;
/** Touching ends are neither beside nor across each other. */
const TOUCH = 0.01;
/** A line that no pin stands on is left out where another one is as near as this. */
const SAME = 2.5;

/** Lines that pins stand on, others that are of use, and steps in the room between. */
export interface Across {
  readonly pins: readonly number[];
  readonly more: readonly number[];
}

const rising = (values: readonly number[]): number[] =>
  [...new Set(values.map((v) => Math.round(v * 100) / 100))].sort((a, b) => a - b);

function linesOf({ pins, more }: Across, step: number): Float64Array {
  const kept = rising(pins);
  const all = [...kept];
  let k = 0;
  let last = -Infinity;
  for (const v of rising(more)) {
    while (k < kept.length && kept[k]! < v - SAME) k++;
    if ((kept[k] ?? Infinity) <= v + SAME || v - last < SAME) continue;
    all.push(v);
    last = v;
  }
  all.sort((a, b) => a - b);
  const out: number[] = [];
  all.forEach((v, i) => {
    out.push(v);
    const next = all[i + 1];
    if (next === undefined) return;
    const n = Math.floor((next - v) / step);
    for (let j = 1; j <= n; j++) out.push(v + (j * (next - v)) / (n + 1));
  });
  return Float64Array.from(out);
}

/** First index whose value is `v` or greater; with `beyond`, greater. */
function first(list: Float64Array, v: number, beyond = false): number {
  let lo = 0;
  let hi = list.length;
  while (lo < hi) {
    const middle = (lo + hi) >> 1;
    const at = list[middle]!;
    if (at > v || (at === v && !beyond)) hi = middle;
    else lo = middle + 1;
  }
  return lo;
}

function nearest(list: Float64Array, v: number): number {
  const k = Math.min(list.length - 1, first(list, v));
  return k > 0 && v - list[k - 1]! <= list[k]! - v ? k - 1 : k;
}

/** Counts by edge: `right` from a vertex to the next in its row, `down` to the one below. */
export interface Counts {
  readonly right: Uint8Array;
  readonly down: Uint8Array;
}

export class Grid {
  readonly xs: Float64Array;
  readonly ys: Float64Array;
  readonly w: number;
  readonly size: number;
  /** Pipes that each edge crosses. */
  readonly crossed: Counts;
  private readonly close = new Map<number, Counts>();
  private readonly laid: Laid[] = [];

  constructor(x: Across, y: Across, step: number) {
    this.xs = linesOf(x, step);
    this.ys = linesOf(y, step);
    this.w = this.xs.length;
    this.size = this.w * this.ys.length;
    this.crossed = this.counts();
  }

  private counts(): Counts {
    return { right: new Uint8Array(this.size), down: new Uint8Array(this.size) };
  }

  /** Sets every vertex inside a box. */
  fill(cells: Uint8Array, b: Box): void {
    const [i0, i1] = [first(this.xs, b.x, true), first(this.xs, b.x + b.w)];
    const [j0, j1] = [first(this.ys, b.y, true), first(this.ys, b.y + b.h)];
    if (i1 <= i0) return;
    for (let j = j0; j < j1; j++) cells.fill(1, j * this.w + i0, j * this.w + i1);
  }

  vertex(p: Point): number {
    return nearest(this.ys, p.y) * this.w + nearest(this.xs, p.x);
  }

  /** Remembers a pipe's piece, so that later ones keep off it. */
  lay(piece: Laid): void {
    this.laid.push(piece);
    this.count(piece, 1);
  }

  /** How many pipes lie too close to each edge for a pipe of this width. */
  closeTo(width: number): Counts {
    const known = this.close.get(width);
    if (known !== undefined) return known;
    const counts = this.counts();
    for (const piece of this.laid) this.countClose(counts, piece, width, 1);
    this.close.set(width, counts);
    return counts;
  }

  /** Does something while a net's own pipes do not count. */
  without<T>(net: string, act: () => T): T {
    const own = this.laid.filter((p) => p.net === net);
    for (const piece of own) this.count(piece, -1);
    const found = act();
    for (const piece of own) this.count(piece, 1);
    return found;
  }

  private count(piece: Laid, by: 1 | -1): void {
    this.countCross(piece, by);
    for (const [width, counts] of this.close) this.countClose(counts, piece, width, by);
  }

  /** Edges along a piece, in rows or columns too near to it. */
  private countClose(counts: Counts, p: Laid, width: number, by: 1 | -1): void {
    const near = width / 2 + p.half + APART;
    const [over, along] = p.flat ? [this.ys, this.xs] : [this.xs, this.ys];
    const [j0, j1] = [first(over, p.at - near, true), first(over, p.at + near)];
    // Edge k runs from line k to the next one.
    const k0 = Math.max(0, first(along, p.lo + TOUCH, true) - 1);
    const k1 = Math.min(along.length - 1, first(along, p.hi - TOUCH));
    const { w } = this;
    for (let j = j0; j < j1; j++) {
      for (let k = k0; k < k1; k++) {
        if (p.flat) counts.right[j * w + k]! += by;
        else counts.down[k * w + j]! += by;
      }
    }
  }

  /** Edges across a piece. */
  private countCross(p: Laid, by: 1 | -1): void {
    const [over, along] = p.flat ? [this.ys, this.xs] : [this.xs, this.ys];
    const j = first(over, p.at) - 1;
    if (j < 0 || j >= over.length - 1) return;
    const [k0, k1] = [first(along, p.lo + TOUCH, true), first(along, p.hi - TOUCH)];
    const { w } = this;
    for (let k = k0; k < k1; k++) {
      if (p.flat) this.crossed.down[j * w + k]! += by;
      else this.crossed.right[k * w + j]! += by;
    }
  }
}
