// Finds right-angled ways between parts: the cheapest line on a grid that passes through no part,
// lies on no other pipe, crosses few, bends little, and does not climb above both its ends.
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
  readonly x: readonly number[];
  readonly y: readonly number[];
  readonly step: number;
  readonly near: readonly Rim[];
  /** Pipes keep between these. */
  readonly left: number;
  readonly right: number;
}

/** A straight piece of a pipe that is laid: where across its way, and from where to where. */
interface Laid {
  readonly at: number;
  readonly lo: number;
  readonly hi: number;
  readonly half: number;
  readonly net: string;
}

const BEND = 34;
const CROSS = 46;
const OUTSIDE = 2.2;
const CLOSE = 40;
/** Cost of each unit along the rim of a part. */
const RIM = 8;
/** Room between two pipes that run side by side. */
const APART = 7;

function sorted(values: readonly number[], step: number): Float64Array {
  const exact = [...new Set(values.map((v) => Math.round(v * 100) / 100))].sort((a, b) => a - b);
  const out: number[] = [];
  exact.forEach((v, k) => {
    out.push(v);
    const next = exact[k + 1];
    if (next === undefined) return;
    const n = Math.floor((next - v) / step);
    for (let i = 1; i <= n; i++) {
      const at = v + (i * (next - v)) / (n + 1);
      out.push(at);
    }
  });
  return Float64Array.from(out);
}

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

export class Router {
  private readonly xs: Float64Array;
  private readonly ys: Float64Array;
  private readonly shut: Uint8Array;
  private readonly soft: Uint8Array;
  private readonly rims: readonly Rim[];
  private readonly level: Laid[] = [];
  private readonly upright: Laid[] = [];

  /** @param lines exact coordinates that pins stand on; `step` fills the room between them */
  constructor(lines: Lines, solid: readonly Box[]) {
    const mid = solid.map((b) => ({ x: b.x + b.w / 2, y: b.y + b.h / 2 }));
    const xs0 = [...lines.x, ...mid.map((m) => m.x)];
    const within = xs0.filter((x) => x >= lines.left && x <= lines.right);
    this.xs = sorted(within, lines.step);
    this.ys = sorted([...lines.y, ...mid.map((m) => m.y)], lines.step);
    const { xs, ys } = this;
    this.shut = new Uint8Array(xs.length * ys.length);
    this.soft = new Uint8Array(xs.length * ys.length);
    this.fill(this.shut, solid);
    this.rims = lines.near;
    this.fill(this.soft, lines.near);
  }

  private fill(cells: Uint8Array, boxes: readonly Box[]): void {
    const { xs, ys } = this;
    for (const b of boxes) {
      for (let i = 0; i < xs.length; i++) {
        if (xs[i]! <= b.x || xs[i]! >= b.x + b.w) continue;
        for (let j = 0; j < ys.length; j++) {
          if (ys[j]! > b.y && ys[j]! < b.y + b.h) cells[j * xs.length + i] = 1;
        }
      }
    }
  }

  /** Remembers a pipe, so that later ones keep off it. */
  occupy(line: Line, width: number, net: string): void {
    for (let i = 1; i < line.length; i++) {
      const [a, b] = [line[i - 1]!, line[i]!];
      const flat = Math.abs(a.y - b.y) < 0.01;
      const [p, q] = flat ? [a.x, b.x] : [a.y, b.y];
      const piece = { at: flat ? a.y : a.x, lo: Math.min(p, q), hi: Math.max(p, q) };
      (flat ? this.level : this.upright).push({ ...piece, half: width / 2, net });
    }
  }

  private nearest(list: Float64Array, v: number): number {
    let best = 0;
    for (let i = 1; i < list.length; i++) {
      if (Math.abs(list[i]! - v) < Math.abs(list[best]! - v)) best = i;
    }
    return best;
  }

  private vertex(p: Point): number {
    return this.nearest(this.ys, p.y) * this.xs.length + this.nearest(this.xs, p.x);
  }

  /** What a step costs beside its length; infinite where it would lie on another pipe. */
  private toll(a: Point, b: Point, wanted: Wanted, strict: boolean): number {
    const flat = Math.abs(a.y - b.y) < 0.01;
    const on = flat ? a.y : a.x;
    const lo = flat ? Math.min(a.x, b.x) : Math.min(a.y, b.y);
    const hi = flat ? Math.max(a.x, b.x) : Math.max(a.y, b.y);
    let sum = 0;
    for (const o of flat ? this.level : this.upright) {
      const near = wanted.width / 2 + o.half + APART;
      if (o.net === wanted.net || Math.abs(o.at - on) >= near) continue;
      if (o.lo >= hi - 0.01 || o.hi <= lo + 0.01) continue;
      if (strict) return Infinity;
      sum += CLOSE * (hi - lo);
    }
    for (const o of flat ? this.upright : this.level) {
      if (o.at <= lo || o.at > hi || o.net === wanted.net) continue;
      if (on > o.lo + 0.01 && on < o.hi - 0.01) sum += CROSS;
    }
    return sum;
  }

  /** True inside the rim of a part that the pipe does not belong to. */
  private foreign(p: Point, { ends }: Wanted): boolean {
    return this.rims.some(
      (r) =>
        p.x > r.x &&
        p.x < r.x + r.w &&
        p.y > r.y &&
        p.y < r.y + r.h &&
        !r.nets.some((n) => ends.includes(n)),
    );
  }

  /** The line, or null where there is none; later tries may lie close to pipes, then to parts. */
  route(wanted: Wanted): Line | null {
    const tries = [
      { apart: true, rims: true },
      { apart: false, rims: true },
      { apart: false, rims: false },
    ];
    for (const how of tries) {
      const found = this.search(wanted, how);
      if (found !== null) return found;
    }
    return null;
  }

  private search(wanted: Wanted, how: Strict): Line | null {
    const { xs, ys, shut } = this;
    const w = xs.length;
    const goals = new Map(wanted.to.map((p) => [this.vertex(p), wayOf(p.out, -1)]));
    const starts = new Map(wanted.from.map((p) => [this.vertex(p), wayOf(p.out, 1)]));
    const ends = [...wanted.from, ...wanted.to];
    const low = Math.max(...ends.map((p) => p.y)) + 1;
    const high = Math.min(...ends.map((p) => p.y)) - 1;
    const goalXs = [...goals.keys()].map((v) => xs[v % w]!);
    const goalYs = [...goals.keys()].map((v) => ys[Math.floor(v / w)]!);
    const far = (v: number): number => {
      const x = xs[v % w]!;
      const y = ys[Math.floor(v / w)]!;
      let best = Infinity;
      for (let k = 0; k < goalXs.length; k++) {
        best = Math.min(best, Math.abs(goalXs[k]! - x) + Math.abs(goalYs[k]! - y));
      }
      return best;
    };
    const cost = new Float64Array(w * ys.length * 4).fill(Infinity);
    const from = new Int32Array(cost.length).fill(-1);
    const heap = new Heap();
    for (const p of wanted.from) {
      const v = this.vertex(p);
      for (let d = 0; d < 4; d++) {
        cost[v * 4 + d] = 0;
        heap.push(far(v), v * 4 + d);
      }
    }
    const done = new Uint8Array(cost.length);
    while (heap.size > 0) {
      const state = heap.pop();
      if (done[state] === 1) continue;
      done[state] = 1;
      const v = state >> 2;
      if (goals.has(v)) return this.trace(state, from);
      const i = v % w;
      const j = Math.floor(v / w);
      for (let d = 0; d < 4; d++) {
        if (d === ((state & 3) + 2) % 4 && from[state] !== -1) continue;
        const ii = i + DX[d]!;
        const jj = j + DY[d]!;
        if (ii < 0 || jj < 0 || ii >= w || jj >= ys.length) continue;
        const next = jj * w + ii;
        if (shut[next] === 1 && !goals.has(next)) continue;
        const a = { x: xs[i]!, y: ys[j]! };
        const b = { x: xs[ii]!, y: ys[jj]! };
        const long = Math.abs(a.x - b.x) + Math.abs(a.y - b.y);
        const out = b.y > low || b.y < high ? long * OUTSIDE : 0;
        const before = from[state] === -1 ? starts.get(v)! : state & 3;
        const last = goals.get(next) ?? -1;
        const bend =
          (before >= 0 && before !== d ? BEND : 0) + (last >= 0 && last !== d ? BEND : 0);
        const close = this.soft[next] === 1;
        if (how.rims && close && this.foreign(b, wanted)) continue;
        const rim = close ? RIM * long : 0;
        const key = next * 4 + d;
        const free = cost[state]! + long + out + bend + rim;
        if (free >= cost[key]!) continue; // Whatever the toll, which is dear to work out.
        const sum = free + this.toll(a, b, wanted, how.apart);
        if (sum >= cost[key]!) continue;
        cost[key] = sum;
        from[key] = state;
        heap.push(sum + far(next), key);
      }
    }
    return null;
  }

  private trace(state: number, from: Int32Array): Line {
    const { xs, ys } = this;
    const out: Point[] = [];
    for (let s = state; s !== -1; s = from[s]!) {
      const v = s >> 2;
      out.push({ x: xs[v % xs.length]!, y: ys[Math.floor(v / xs.length)]! });
    }
    return out.reverse();
  }
}
