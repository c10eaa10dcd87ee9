// Stations side by side: in the order of the flow, close but never one over the other.
import { dropsStraight, type Station } from './stations.ts';
import type { TankStation } from './tanks.ts';

export interface Bench {
  /** True where drums and pails go there before all else. */
  readonly stores: boolean;
  readonly head: number;
  /** Part of the head that is for hoses. */
  readonly lanes: number;
  readonly perMetre: number;
  readonly aside: number;
}

export interface Field1 {
  readonly left: number;
  readonly right: number;
  /** Height on the page of an elevation, and of the ground. */
  readonly yOf: (z: number) => number;
  readonly ground: number;
  /** Upper edge of the patch, where hoses from above come in. */
  readonly top: number;
  readonly gap: number;
  /** From a valve's middle to its pins, and from a pump's middle to its outlet. */
  readonly reach: number;
  readonly outlet: number;
  /** True where a pipe joins two nets. */
  readonly linked: (a: string, b: string) => boolean;
  /** Room over a bench, its units per metre, and room kept at its right; null without one. */
  readonly bench: Bench | null;
  /** How much wider than its room a band may be, to be drawn closer then; and how close at most. */
  readonly tight: number;
  readonly closest: number;
  /** True where parts may change rows to make the band slimmer. */
  readonly dealt: boolean;
  /** Shift of a second row. */
  readonly row: number;
  /** True where heights close to each other are drawn apart once there are rows. */
  readonly spread: boolean;
  /** Rows that parts beside these have at a height, so that equal heights stay equal. */
  readonly beside?: Deepest;
}

/** Rows over the first at each height that has such. */
type Deepest = ReadonlyMap<number, number>;

/** Height on the page with rows taken into account: higher stays higher. */
export interface Heights {
  readonly yOf: (z: number) => number;
  readonly ground: number;
  /** How far second rows have lifted the highest parts. */
  readonly lift: number;
  /** Ground lines under the benches, from above. */
  readonly benches: readonly number[];
  readonly rows: Deepest;
}

const isTank = (s: Station): s is TankStation => s.kind === 'tank';
interface Span {
  readonly top: number;
  readonly bottom: number;
  readonly left: number;
  readonly right: number;
}

const endsAtPart = (s: Station): boolean =>
  s.toTop === true && s.link !== null && dropsStraight(s.link);

/** The room a station takes: one span, and one for a stem under it. */
function spansOf(s: Station, { ground, top }: Field1): Span[] {
  const { left, right } = s;
  const low = s.y + s.down;
  const main = {
    left,
    right,
    top: s.toTop === true ? Math.min(top, s.y - s.up) : s.y - s.up,
    bottom: s.toGround && !endsAtPart(s) ? Math.max(ground, low) : low,
  };
  if (s.stem === undefined) return [main];
  return [main, { left: s.stem, right: s.stem, top: low, bottom: s.y - 8 }];
}

/** Least distance from `a` on the left to `b` on the right. */
function apart(a: readonly Span[], b: readonly Span[], gap: number): number {
  let least = 0;
  for (const p of a) {
    for (const q of b) {
      if (p.top < q.bottom && q.top < p.bottom) least = Math.max(least, p.right + gap + q.left);
    }
  }
  return least;
}

/** A valve on a pipe over the rim stands so far aside that the pipe goes straight down. */
function overRim(tank: TankStation, s: Station, reach: number): number {
  const inlet = tank.inlets.find((i) => i.over && i.link.id === s.id);
  if (inlet === undefined) return 0;
  const off = inlet.dx - tank.width / 2;
  return s.order < tank.order ? reach - off : reach + off;
}

/** What must come up beside a pump's outlet stands beyond it. */
function besidePump(s: Station, o: Station, field: Field1): number {
  const pump = o.kind === 'pump' ? o : null;
  if (pump === null || s.kind === 'pump') return 0;
  const out = pump.nets[1]!;
  const joined = s.nets.some((n) => n === out || field.linked(out, n));
  return joined && (s.kind === 'still' || s.kind === 'meter') ? field.outlet + field.reach + 8 : 0;
}

/** An open end stands so far aside that the pipe to it can turn down. */
function turn(a: Station, b: Station): number {
  const open = a.kind === 'open' ? a : b.kind === 'open' ? b : null;
  if (open === null || !a.nets.some((n) => b.nets.includes(n))) return 0;
  const other = open === a ? b : a;
  return (open.order < other.order ? other.left : other.right) + 9;
}

/** Least places from left to right; returns the width taken. */
export function squeeze(list: readonly Station[], field: Field1): number {
  let right = field.left;
  const spans = list.map((s) => spansOf(s, field));
  list.forEach((s, i) => {
    // A pump at the page's edge keeps room for the pipe that comes to it.
    let x = field.left + s.left + (s.kind === 'pump' ? field.reach * 0.8 : 0);
    for (let j = 0; j < i; j++) {
      const o = list[j]!;
      const least = apart(spans[j]!, spans[i]!, field.gap);
      const tank = isTank(o)
        ? overRim(o, s, field.reach)
        : isTank(s)
          ? overRim(s, o, field.reach)
          : 0;
      x = Math.max(x, o.x + Math.max(least, turn(s, o), tank, besidePump(s, o, field)));
    }
    s.x = x;
    right = Math.max(right, x + Math.max(s.right, s.edge ?? 0));
  });
  return right - field.left;
}

/** True where parts would come one over the other if all were drawn closer by a factor. */
export function meets(list: readonly Station[], field: Field1, factor: number): boolean {
  if (factor >= 1) return false;
  const spans = list.map((s) => spansOf(s, field));
  return list.some((s, i) => list.slice(0, i).some((o, j) =>
    (s.x - o.x) * factor < apart(spans[j]!, spans[i]!, 0) - 0.5));
}

/** The least width that the stations take side by side in one row a height. */
export function leastWidth(stations: readonly Station[], field: Field1): number {
  const list = [...stations].sort((a, b) => a.order - b.order);
  for (const s of list) s.y = field.yOf(Math.max(0.05, s.z));
  return squeeze(list, field);
}
