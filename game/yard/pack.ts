// Gives stations their place across the page: in the order of the flow, close but never one over
// the other. Where a height is too crowded for the page, its parts stand in two rows.
import { dropsStraight, type Station } from './stations.ts';
import type { TankStation } from './tanks.ts';

export interface Bench {
  /** True where drums and pails go there before all else. */
  readonly stores: boolean;
  readonly head: number;
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
  /** Shift of a second row. */
  readonly row: number;
  /** True where heights close to each other are drawn apart once there are rows. */
  readonly spread: boolean;
  /** Rows that parts beside these have at a height, so that equal heights stay equal. */
  readonly beside?: Deepest;
}

/** Rows over the first at each height that has such. */
export type Deepest = ReadonlyMap<number, number>;

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

const level = (z: number): number => Math.round(Math.max(0.05, z) * 1000);
type Rows = Map<Station, number>;

/** Heights so close over another one with parts that the two would not stand over each other. */
function closeAbove(stations: readonly Station[], field: Field1): number[] {
  const zs = [...new Set(stations.filter(crowds).map((s) => Math.max(0.05, s.z)))].sort(
    (a, b) => a - b,
  );
  return zs
    .filter((z, k) => k > 0 && field.yOf(zs[k - 1]!) - field.yOf(z) < field.row * 0.8)
    .map(level);
}

/** A height with a second row is lifted with all that stands higher, so that lower ones keep. */
function heightsFor(stations: readonly Station[], rows: Rows, field: Field1): Heights {
  const deepest = new Map<number, number>(field.beside ?? []);
  const closest = new Set(field.spread && rows.size > 0 ? closeAbove(stations, field) : []);
  for (const z of closest) deepest.set(z, Math.max(1, deepest.get(z) ?? 0));
  for (const s of stations) {
    const row = rows.get(s) ?? 0;
    const spare = closest.has(level(s.z)) ? 1 : 0;
    if (row > 0) deepest.set(level(s.z), Math.max(deepest.get(level(s.z)) ?? 0, row + spare));
  }
  const lifted = [...deepest];
  const lift = lifted.reduce((sum, [, row]) => sum + row, 0) * field.row;
  const yOf = (z: number): number => {
    const own = level(z);
    const rise = lifted.reduce((sum, [at, row]) => sum + (own >= at ? row : 0), 0);
    return field.yOf(Math.max(0.05, z)) - rise * field.row;
  };
  return { yOf, ground: field.ground, lift, benches: [], rows: deepest };
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
function squeeze(list: readonly Station[], field: Field1): number {
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

const crowds = (s: Station): boolean => s.kind === 'still' || s.kind === 'meter';
/** Gives the most crowded height one more row, and deals its parts out over its rows. */
function crowd(list: readonly Station[], counts: Map<number, number>, rows: Rows): boolean {
  const width = new Map<number, number>();
  for (const s of list) {
    if (!crowds(s)) continue;
    const z = level(s.z);
    width.set(z, (width.get(z) ?? 0) + (s.left + s.right) / (counts.get(z) ?? 1));
  }
  const worst = [...width].sort((a, b) => b[1] - a[1])[0];
  if (worst === undefined) return false;
  const own = list.filter((s) => crowds(s) && level(s.z) === worst[0]);
  const count = (counts.get(worst[0]) ?? 1) + 1;
  if (own.length < count) return false;
  counts.set(worst[0], count);
  // A branch that goes up must find its way free: what has one stands in the upper row.
  const turn = own.findIndex((s) => s.link?.kind === 'three_way');
  const shift = turn < 0 ? 0 : count - (turn % count);
  own.forEach((s, k) => rows.set(s, (k + shift) % count));
  return true;
}

/** The least width that the stations take side by side in one row a height. */
export function leastWidth(stations: readonly Station[], field: Field1): number {
  const list = [...stations].sort((a, b) => a.order - b.order);
  for (const s of list) s.y = field.yOf(Math.max(0.05, s.z));
  return squeeze(list, field);
}

/** A hose starts in the lowest row in which a part of its node stands. */
function besideMates(hose: Station, list: readonly Station[]): number {
  const mates = list.filter(
    (s) => crowds(s) && level(s.z) === level(hose.z) && s.nets.some((n) => hose.nets.includes(n)),
  );
  return mates.length === 0 ? hose.y : Math.max(...mates.map((s) => s.y));
}

/** Places one band; says whether it fits, and how far rows have lifted it. */
function packBand(list: readonly Station[], field: Field1, rounds: number): Packed {
  const rows: Rows = new Map();
  const room = field.right - field.left;
  const counts = new Map<number, number>();
  let heights: Heights = heightsFor(list, rows, field);
  let fits = false;
  for (let round = 0; round < rounds; round++) {
    heights = heightsFor(list, rows, field);
    for (const s of list) {
      s.y = heights.yOf(s.z) + (rows.get(s) ?? 0) * field.row;
      s.ground = field.ground;
      s.yOf = heights.yOf;
    }
    for (const s of list) if (s.kind === 'hose') s.y = besideMates(s, list);
    for (const s of list) {
      if (s.foot_m === undefined) continue;
      const foot = heights.yOf(s.foot_m);
      s.y = Math.min(s.y, foot - (s.least ?? 0));
      s.down = foot - s.y + 8;
    }
    fits = squeeze(list, field) <= room;
    if (fits || !crowd(list, counts, rows)) break;
  }
  const width = squeeze(list, field);
  const factor = Math.min(1.3, room / Math.max(1, width));
  if (factor > 1) for (const s of list) s.x = field.left + (s.x - field.left) * factor;
  return { heights, fits };
}

interface Packed {
  readonly heights: Heights;
  readonly fits: boolean;
}

/** Order from which on parts can stand on a bench of their own: what follows the pumps. */
const BENCH_FROM = 3000;
/** Drums, pails and what only they lead to; and what stands between the tank and its pump. */
const SUCTION_FROM = 900;
const STORES_FROM = 70000;
/** What stands beside the cart, for instance a pail with a hand pump, comes after its drums. */
export const ASIDE = 84000;
const ROWS_MAX = 7;

/**
 * Places all stations; returns the heights to draw by. On a narrow page that two rows do not
 * help, what follows the pump stands on a bench below the cart, in the same order.
 */
export function pack(stations: readonly Station[], field: Field1): Heights {
  const list = [...stations].sort((a, b) => a.order - b.order);
  const { bench } = field;
  const first = packBand(list, field, bench === null ? ROWS_MAX : 2);
  if (first.fits || bench === null) return first.heights;
  const pumps = list.filter((s) => s.kind === 'pump' && s.order < STORES_FROM);
  const onBench = (from: number): Station[] => list.filter((s) => s.order >= from && s.order < 1e5);
  const second = pumps[1]?.order ?? BENCH_FROM;
  let below: Station[] = [];
  let cart = first;
  for (const from of [bench.stores ? STORES_FROM : BENCH_FROM, BENCH_FROM, second, SUCTION_FROM]) {
    const next = onBench(from);
    if (cart.fits || next.length < (bench.stores ? 1 : 3)) continue;
    below = next;
    const rest = list.filter((s) => !below.includes(s));
    cart = packBand(rest, field, bench.stores && from !== BENCH_FROM ? 2 : ROWS_MAX);
  }
  if (below.length === 0) return packBand(list, field, ROWS_MAX).heights;
  const benches: number[] = [];
  let ground = field.ground;
  for (const list of benchesOf(below, { ...field, right: field.right - bench.aside })) {
    const top = Math.max(...list.map((s) => s.z));
    const base = ground + bench.head + top * bench.perMetre;
    const at = (line: number): Field1 => ({
      ...field,
      right: field.right - bench.aside,
      ground: line,
      yOf: (z) => line - z * bench.perMetre,
    });
    ground = base + packBand(list, at(base), ROWS_MAX).heights.lift;
    packBand(list, at(ground), ROWS_MAX);
    benches.push(ground);
  }
  return { ...cart.heights, benches };
}

/** One bench, or more where one is too narrow: for drums, and for what stands beside the cart. */
function benchesOf(below: readonly Station[], field: Field1): Station[][] {
  const out: Station[][] = [];
  let rest = [...below];
  for (const from of [STORES_FROM, ASIDE]) {
    if (packBand(rest, field, 2).fits) break;
    out.push(rest.filter((s) => s.order < from));
    rest = rest.filter((s) => s.order >= from);
  }
  return [...out, rest].filter((list) => list.length > 0);
}
