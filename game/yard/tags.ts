// Gives names their place: tries places around each thing, keeps off pipes, parts and other
// names, and takes the cheapest. What finds no room gets a letter, told in a key.
import { formsOf } from './text.ts';
import type { Align, Box, Label, Plate, Point } from './types.ts';

export interface Named {
  readonly id: string;
  readonly key: string;
  readonly text: string;
  /** The thing that is named, and the box its leader ends on. */
  readonly box: Box;
  /** The area of its own that its leader may cross. */
  readonly own: Box;
  readonly tone: Label['tone'];
  /** Sides in the order in which a name looks best there. */
  readonly sides: readonly Side[];
}

export const TAG_SIDES = ['above', 'below', 'left', 'right'] as const;
export type Side = (typeof TAG_SIDES)[number];

const CELL = 4;

/** A page in small cells, each free or taken. */
export class Taken {
  private readonly w: number;
  private readonly h: number;
  private readonly cells: Uint8Array;

  constructor(width: number, height: number) {
    this.w = Math.ceil(width / CELL);
    this.h = Math.ceil(height / CELL);
    this.cells = new Uint8Array(this.w * this.h);
  }

  add(box: Box, kind: 1 | 2 = 1): void {
    const { cells, w } = this;
    const [i0, j0, i1, j1] = this.rangeOf(box);
    for (let j = j0; j <= j1; j++) {
      for (let k = j * w + i0; k <= j * w + i1; k++) if (cells[k]! < kind) cells[k] = kind;
    }
  }

  /** A thick line: a pipe. */
  line(a: Point, b: Point, width: number): void {
    if (a.x === b.x || a.y === b.y) {
      const [x, y] = [Math.min(a.x, b.x) - width / 2, Math.min(a.y, b.y) - width / 2];
      this.add({ x, y, w: Math.abs(a.x - b.x) + width, h: Math.abs(a.y - b.y) + width });
      return;
    }
    const n = Math.max(1, Math.ceil(Math.hypot(b.x - a.x, b.y - a.y) / CELL));
    for (let k = 0; k <= n; k++) {
      const x = a.x + ((b.x - a.x) * k) / n;
      const y = a.y + ((b.y - a.y) * k) / n;
      this.add({ x: x - width / 2, y: y - width / 2, w: width, h: width });
    }
  }

  free(box: Box): boolean {
    if (box.x < 4 || box.y < 4) return false;
    if (box.x + box.w > this.w * CELL - 4 || box.y + box.h > this.h * CELL - 4) return false;
    const { cells, w } = this;
    const [i0, j0, i1, j1] = this.rangeOf(pad(box, -0.8));
    for (let j = j0; j <= j1; j++) {
      for (let k = j * w + i0; k <= j * w + i1; k++) if (cells[k] !== 0) return false;
    }
    return true;
  }

  /** How much of a line lies on something; infinite where it crosses a part or a name. */
  crossed([a, b]: readonly [Point, Point], own: Box): number {
    const n = Math.max(1, Math.ceil(Math.hypot(b.x - a.x, b.y - a.y) / CELL));
    let sum = 0;
    for (let k = 0; k < n - 1; k++) {
      const p = { x: a.x + ((b.x - a.x) * k) / n, y: a.y + ((b.y - a.y) * k) / n };
      const inside =
        p.x >= own.x - CELL &&
        p.x <= own.x + own.w + CELL &&
        p.y >= own.y - CELL &&
        p.y <= own.y + own.h + CELL;
      if (inside) continue;
      const cell = this.cells[Math.floor(p.y / CELL) * this.w + Math.floor(p.x / CELL)] ?? 0;
      if (cell === 2) return Infinity;
      if (cell === 1) sum += CELL;
    }
    return sum;
  }

  /** First and last cell of a box, across and down. */
  private rangeOf(box: Box): readonly [number, number, number, number] {
    return [
      Math.max(0, Math.floor(box.x / CELL)),
      Math.max(0, Math.floor(box.y / CELL)),
      Math.min(this.w - 1, Math.floor((box.x + box.w - 0.01) / CELL)),
      Math.min(this.h - 1, Math.floor((box.y + box.h - 0.01) / CELL)),
    ];
  }
}

interface Try {
  readonly box: Box;
  readonly align: Align;
  readonly leader: readonly [Point, Point];
  readonly cost: number;
}

const middle = (b: Box): Point => ({ x: b.x + b.w / 2, y: b.y + b.h / 2 });

interface Size {
  readonly w: number;
  readonly h: number;
}

/** Boxes of a size beside a thing, at growing distance and shifted along it, below a cost. */
function* tries(named: Named, size: Size, type: number, most: () => number): Generator<Try> {
  const { box } = named;
  const m = middle(box);
  const shifts = [0, 0.2, -0.2, 0.4, -0.4, 0.6, -0.6, 0.8, -0.8, 1.1, -1.1, 1.5, -1.5];
  const { w, h } = size;
  for (const [rank, side] of named.sides.entries()) {
    for (const far of [0.35, 0.65, 1, 1.5, 2.1, 2.9, 3.8, 4.8, 6]) {
      const d = far * type;
      for (const shift of shifts) {
        const cost = rank * 26 + d * 1.1 + Math.abs(shift) * type * 1.4;
        if (cost >= most()) break;
        if (side === 'above' || side === 'below') {
          const x = m.x - w / 2 + shift * (w / 2 + type);
          const y = side === 'above' ? box.y - d - h : box.y + box.h + d;
          const from = {
            x: Math.min(x + w - 4, Math.max(x + 4, m.x)),
            y: side === 'above' ? y + h + 1 : y - 1,
          };
          const to = { x: m.x, y: side === 'above' ? box.y : box.y + box.h };
          const off = m.x - (x + w / 2);
          const align = Math.abs(off) < w * 0.2 ? 'center' : off > 0 ? 'right' : 'left';
          yield { box: { x, y, w, h }, align, leader: [from, to], cost };
        } else {
          const x = side === 'left' ? box.x - d - w : box.x + box.w + d;
          const y = m.y - h / 2 + shift * (h / 2 + type);
          const from = {
            x: side === 'left' ? x + w + 3 : x - 3,
            y: y + Math.min(h, type * 1.2) / 2,
          };
          const to = { x: side === 'left' ? box.x : box.x + box.w, y: m.y };
          yield {
            box: { x, y, w, h },
            align: side === 'left' ? 'right' : 'left',
            leader: [from, to],
            cost,
          };
        }
      }
    }
  }
}

export interface Tagged {
  readonly labels: Label[];
  readonly plates: Plate[];
  /** What each plate's number stands for. */
  readonly rows: { text: string; key: string }[];
}

export interface TagHow {
  readonly type: number;
  /** Largest cost of a name before a number is better. */
  readonly limit: number;
  readonly plateR: number;
}

const pad = (b: Box, by: number): Box => ({
  x: b.x - by,
  y: b.y - by,
  w: b.w + 2 * by,
  h: b.h + 2 * by,
});

function best(taken: Taken, named: Named, how: TagHow): Try | null {
  let found: Try | null = null as Try | null;
  for (const form of formsOf(named.text)) {
    const size = { w: form.w * how.type + 5, h: form.lines * how.type * 1.14 + 4 };
    const more = (form.lines - 1) * 9;
    const most = (): number => (found === null ? how.limit + 1e-9 : found.cost) - more;
    for (const one of tries(named, size, how.type, most)) {
      const cost = one.cost + more;
      if (!taken.free(one.box)) continue;
      const cross = taken.crossed(one.leader, named.own);
      if (cross === Infinity) continue;
      const sum = cost + cross * 2.4;
      if (sum <= how.limit && (found === null || sum < found.cost)) found = { ...one, cost: sum };
    }
  }
  return found;
}

/** Rings of places around a thing, nearest first. */
function* rings(m: Point, r: number): Generator<Point> {
  for (let far = r * 1.2; far < r * 24; far += r * 0.6) {
    const n = Math.max(8, Math.round((far * 2 * Math.PI) / (r * 0.8)));
    for (let k = 0; k < n; k++) {
      const a = (2 * Math.PI * (k + 0.37)) / n;
      yield { x: m.x + Math.cos(a) * far, y: m.y + Math.sin(a) * far };
    }
  }
}

/**
 * Middle of the nearest free place of this size, off pipes, parts and names; null where there is
 * none in reach.
 */
export function nearestFree(
  taken: Taken,
  anchor: Point,
  how: { w: number; h: number; own: Box; within: Box },
): Point | null {
  const { w, h, own, within } = how;
  let found: { at: Point; cost: number } | null = null;
  for (const at of rings(anchor, Math.max(w, h) * 0.5)) {
    const far = Math.hypot(at.x - anchor.x, at.y - anchor.y);
    if (found !== null && far > found.cost) break;
    const box = { x: at.x - w / 2, y: at.y - h / 2, w, h };
    const inside =
      box.x >= within.x &&
      box.y >= within.y &&
      box.x + w <= within.x + within.w &&
      box.y + h <= within.y + within.h;
    if (!inside || !taken.free(box)) continue;
    const cross = taken.crossed([at, anchor], own);
    const cost = far + (cross === Infinity ? 220 : cross * 0.8);
    if (found === null || cost < found.cost) found = { at, cost };
  }
  return found?.at ?? null;
}

/** A round plate with a number, as close to the thing as there is room. */
function plateFor(taken: Taken, named: Named, how: TagHow, text: string): Plate {
  const r = how.plateR;
  const m = middle(named.box);
  let found: { at: Point; cost: number } | null = null;
  for (const at of rings(m, r)) {
    const far = Math.hypot(at.x - m.x, at.y - m.y);
    if (found !== null && far > found.cost) break;
    if (!taken.free({ x: at.x - r - 1, y: at.y - r - 1, w: 2 * r + 2, h: 2 * r + 2 })) continue;
    const cross = taken.crossed([at, m], named.own);
    const cost = far + (cross === Infinity ? 160 : cross);
    if (found === null || cost < found.cost) found = { at, cost };
  }
  const at = found?.at ?? m;
  taken.add({ x: at.x - r - 2, y: at.y - r - 2, w: 2 * r + 4, h: 2 * r + 4 }, 2);
  return { id: named.id, text, r, ...at, leader: leaderTo(at, r, named.box) };
}

/** From a plate's rim to the nearest point of a box. */
export function leaderTo(at: Point, r: number, box: Box): Point[] {
  const to = {
    x: Math.min(box.x + box.w, Math.max(box.x, at.x)),
    y: Math.min(box.y + box.h, Math.max(box.y, at.y)),
  };
  const d = Math.hypot(to.x - at.x, to.y - at.y);
  if (d < r + 4) return [];
  return [{ x: at.x + ((to.x - at.x) * r) / d, y: at.y + ((to.y - at.y) * r) / d }, to];
}

/** Letters, since numbers are those of circuits: a to z, then aa. */
function letterOf(n: number): string {
  const own = String.fromCharCode(97 + (n % 26));
  return n < 26 ? own : letterOf(Math.floor(n / 26) - 1) + own;
}

/** Names all things, the most crowded first; those without room get letters if they must. */
export function tagAll(taken: Taken, list: readonly Named[], how: TagHow, must = true): Tagged {
  const out: Tagged = { labels: [], plates: [], rows: [] };
  for (const named of list) {
    const one = best(taken, named, how);
    if (one === null && !must) continue;
    if (one === null) {
      const text = letterOf(out.rows.length);
      out.plates.push(plateFor(taken, named, how, text));
      out.rows.push({ text, key: named.key });
      continue;
    }
    const { x, y, w, h } = one.box;
    const air = how.type * 0.24;
    taken.add({ x: x - 4, y: y - air, w: w + 8, h: h + 2 * air }, 2);
    const short =
      Math.hypot(one.leader[0].x - one.leader[1].x, one.leader[0].y - one.leader[1].y) <
      how.type * 0.55;
    out.labels.push({
      ...one.box,
      key: named.key,
      values: {},
      align: one.align,
      tone: named.tone,
      leader: short ? [] : one.leader,
    });
    if (!short) taken.line(...one.leader, 4);
  }
  return out;
}
