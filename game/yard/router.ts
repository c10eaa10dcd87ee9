// Finds right-angled ways between parts: the cheapest line on a grid that passes through no part,
// lies on no other pipe, crosses few, bends little, and does not climb above both its ends.
import { Grid, type Counts } from './grid.ts';
import { Heap } from './heap.ts';
import type { Line } from './trace.ts';
import type { Box, Point } from './types.ts';

/** A place to start or end at; from a pin pipes rather leave straight on, towards (dx, dy). */
export interface Mouth extends Point {
  readonly out?: Point;
}

export interface Wanted {
  readonly from: readonly Mouth[];
  readonly to: readonly Mouth[];
  readonly width: number;
  /** Pipes of its own that it may touch, and nets whose parts it may come close to. */
  readonly net: string;
  readonly ends: readonly string[];
}

/** Around a part: only pipes of its own nets may come so close. */
export interface Rim extends Box {
  readonly nets: readonly string[];
}

/** The grid's own lines, and the rims of parts. */
export interface Lines {
  /** Coordinates that pins stand on, and others on which a pipe may well run. */
  readonly x: readonly number[];
  readonly y: readonly number[];
  readonly moreX: readonly number[];
  readonly moreY: readonly number[];
  readonly step: number;
  readonly near: readonly Rim[];
  /** Pipes keep between these. */
  readonly left: number;
  readonly right: number;
}

const BEND = 34;
const CROSS = 46;
const OUTSIDE = 2.2;
const CLOSE = 40;
/** Cost of each unit along the rim of a part. */
const RIM = 8;

/** Number of the direction of a mouth, seen by who leaves (1) or arrives (-1); -1 for any. */
function wayOf(out: Point | undefined, sign: 1 | -1): number {
  if (out === undefined) return -1;
  if (Math.abs(out.x) > Math.abs(out.y)) return out.x * sign > 0 ? 0 : 2;
  return out.y * sign > 0 ? 1 : 3;
}

const DX = [1, 0, -1, 0] as const;
const DY = [0, 1, 0, -1] as const;

interface Strict {
  readonly apart: boolean;
  readonly rims: boolean;
}

const TRIES: readonly Strict[] = [
  { apart: true, rims: true },
  { apart: false, rims: true },
  { apart: false, rims: false },
];

/** What a search looks at: ends by vertex, and what lies in the way. */
interface Search {
  readonly starts: ReadonlyMap<number, number>;
  readonly goals: ReadonlyMap<number, number>;
  readonly low: number;
  readonly high: number;
  readonly close: Counts;
}

export class Router {
  private readonly grid: Grid;
  private readonly shut: Uint8Array;
  private readonly soft: Uint8Array;
  /** Inside the rims of parts that the pipe does not belong to. */
  private readonly foreign: Uint8Array;
  /** One at each goal of the search. */
  private readonly goal: Uint8Array;
  /** Least distance to a goal; negative where it is not worked out yet. */
  private readonly far: Float64Array;
  private readonly cost: Float64Array;
  private readonly from: Int32Array;
  private readonly done: Uint8Array;
  private readonly rims: readonly Rim[];
  private readonly heap = new Heap();

  /** @param lines coordinates of the grid; `step` fills the room between them */
  constructor(lines: Lines, solid: readonly Box[]) {
    const within = (x: number): boolean => x >= lines.left && x <= lines.right;
    const across = { pins: lines.x.filter(within), more: lines.moreX.filter(within) };
    const grid = new Grid(across, { pins: lines.y, more: lines.moreY }, lines.step);
    this.grid = grid;
    this.shut = new Uint8Array(grid.size);
    this.soft = new Uint8Array(grid.size);
    this.foreign = new Uint8Array(grid.size);
    this.goal = new Uint8Array(grid.size);
    this.far = new Float64Array(grid.size);
    this.cost = new Float64Array(grid.size * 4);
    this.from = new Int32Array(grid.size * 4);
    this.done = new Uint8Array(grid.size * 4);
    this.rims = lines.near;
    for (const box of solid) grid.fill(this.shut, box);
    for (const rim of lines.near) grid.fill(this.soft, rim);
  }

  /** Remembers a pipe, so that later ones keep off it. */
  occupy(line: Line, width: number, net: string): void {
    for (let i = 1; i < line.length; i++) {
      const [a, b] = [line[i - 1]!, line[i]!];
      const flat = Math.abs(a.y - b.y) < 0.01;
      const [p, q] = flat ? [a.x, b.x] : [a.y, b.y];
      const piece = { at: flat ? a.y : a.x, lo: Math.min(p, q), hi: Math.max(p, q) };
      this.grid.lay({ ...piece, flat, half: width / 2, net });
    }
  }

  /** The line, or null where there is none; later tries may lie close to pipes, then to parts. */
  route(wanted: Wanted): Line | null {
    const { grid } = this;
    const vertices = (list: readonly Mouth[], sign: 1 | -1): Map<number, number> =>
      new Map(list.map((p) => [grid.vertex(p), wayOf(p.out, sign)]));
    const ends = [...wanted.from, ...wanted.to];
    const search: Search = {
      starts: vertices(wanted.from, 1),
      goals: vertices(wanted.to, -1),
      low: Math.max(...ends.map((p) => p.y)) + 1,
      high: Math.min(...ends.map((p) => p.y)) - 1,
      close: grid.closeTo(wanted.width),
    };
    this.foreign.fill(0);
    for (const rim of this.rims) {
      if (!rim.nets.some((n) => wanted.ends.includes(n))) grid.fill(this.foreign, rim);
    }
    for (const v of search.goals.keys()) this.goal[v] = 1;
    this.far.fill(-1);
    const found = grid.without(wanted.net, () => {
      for (const how of TRIES) {
        const state = this.reaches(search, how) ? this.search(search, how) : -1;
        if (state >= 0) return this.trace(state);
      }
      return null;
    });
    for (const v of search.goals.keys()) this.goal[v] = 0;
    return found;
  }

  /** True where a step may be taken; the toll is not asked for. */
  private open(v: number, next: number, { close }: Search, how: Strict): boolean {
    if (this.shut[next] === 1 && this.goal[next] === 0) return false;
    if (how.rims && this.foreign[next] === 1) return false;
    if (!how.apart) return true;
    const flat = Math.abs(next - v) === 1;
    return (flat ? close.right : close.down)[Math.min(v, next)] === 0;
  }

  /** True where a goal can be come to at all: far cheaper to know than the best way there. */
  private reaches(search: Search, how: Strict): boolean {
    const { done, goal, grid } = this;
    const { w, size } = grid;
    done.fill(0, 0, size);
    const queue = [...search.starts.keys()];
    for (const v of queue) done[v] = 1;
    for (let v = queue.pop(); v !== undefined; v = queue.pop()) {
      if (goal[v] === 1) return true;
      const i = v % w;
      for (let d = 0; d < 4; d++) {
        const next = v + DX[d]! + DY[d]! * w;
        if (next < 0 || next >= size || done[next] === 1) continue;
        if ((d === 0 && i === w - 1) || (d === 2 && i === 0)) continue;
        if (!this.open(v, next, search, how)) continue;
        done[next] = 1;
        queue.push(next);
      }
    }
    return false;
  }

  /** Least distance from a vertex to a goal. */
  private farFrom(v: number, goals: ReadonlyMap<number, number>): number {
    const known = this.far[v]!;
    if (known >= 0) return known;
    const { xs, ys, w } = this.grid;
    const x = xs[v % w]!;
    const y = ys[Math.floor(v / w)]!;
    let best = Infinity;
    for (const g of goals.keys()) {
      best = Math.min(best, Math.abs(xs[g % w]! - x) + Math.abs(ys[Math.floor(g / w)]! - y));
    }
    this.far[v] = best;
    return best;
  }

  /** The state at the end of the cheapest way, or -1; a state is a vertex and a direction. */
  private search(search: Search, how: Strict): number {
    const { cost, from, done, heap, grid, goal } = this;
    const { starts, goals } = search;
    const { w, size } = grid;
    cost.fill(Infinity);
    from.fill(-1);
    done.fill(0);
    heap.clear();
    for (const v of starts.keys()) {
      for (let d = 0; d < 4; d++) {
        cost[v * 4 + d] = 0;
        heap.push(this.farFrom(v, goals), v * 4 + d);
      }
    }
    while (heap.size > 0) {
      const state = heap.pop();
      if (done[state] === 1) continue;
      done[state] = 1;
      const v = state >> 2;
      if (goal[v] === 1) return state;
      const i = v % w;
      const before = from[state] === -1 ? starts.get(v)! : state & 3;
      for (let d = 0; d < 4; d++) {
        if (d === ((state & 3) + 2) % 4 && from[state] !== -1) continue;
        const next = v + DX[d]! + DY[d]! * w;
        if (next < 0 || next >= size) continue;
        if ((d === 0 && i === w - 1) || (d === 2 && i === 0)) continue;
        const key = next * 4 + d;
        if (done[key] === 1) continue;
        if (!this.open(v, next, search, how)) continue;
        const last = goal[next] === 1 ? goals.get(next)! : -1;
        const bends = Number(before >= 0 && before !== d) + Number(last >= 0 && last !== d);
        const sum = cost[state]! + this.step(v, next, search) + bends * BEND;
        if (sum >= cost[key]!) continue;
        cost[key] = sum;
        from[key] = state;
        heap.push(sum + this.farFrom(next, goals), key);
      }
    }
    return -1;
  }

  /** What a step costs beside its bends: length, and what it passes. */
  private step(v: number, next: number, { low, high, close }: Search): number {
    const { xs, ys, w, crossed } = this.grid;
    const edge = Math.min(v, next);
    const y = ys[Math.floor(next / w)]!;
    const flat = Math.abs(next - v) === 1;
    const long = flat ? Math.abs(xs[next % w]! - xs[v % w]!) : Math.abs(y - ys[Math.floor(v / w)]!);
    const over = y > low || y < high ? OUTSIDE : 0;
    const rim = this.soft[next] === 1 ? RIM : 0;
    const beside = (flat ? close.right : close.down)[edge]!;
    const across = (flat ? crossed.right : crossed.down)[edge]!;
    return long * (1 + over + rim + CLOSE * beside) + CROSS * across;
  }

  private trace(state: number): Line {
    const { xs, ys, w } = this.grid;
    const out: Point[] = [];
    for (let s = state; s !== -1; s = this.from[s]!) {
      const v = s >> 2;
      out.push({ x: xs[v % w]!, y: ys[Math.floor(v / w)]! });
    }
    return out.reverse();
  }
}
