// Rows of a band: where a height is too crowded for the page, its parts stand in rows one under the
// other, as few as there can be, and what stands higher is lifted.
import { meets, squeeze, type Field1, type Heights } from './squeeze.ts';
import type { Station } from './stations.ts';

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

const crowds = (s: Station): boolean => s.kind === 'still' || s.kind === 'meter';
/** Gives the most crowded height one more row, and deals its parts out over its rows. */
function crowd(list: readonly Station[], counts: Map<number, number>, rows: Rows): Station[] {
  const width = new Map<number, number>();
  for (const s of list) {
    if (!crowds(s)) continue;
    const z = level(s.z);
    width.set(z, (width.get(z) ?? 0) + (s.left + s.right) / (counts.get(z) ?? 1));
  }
  const worst = [...width].sort((a, b) => b[1] - a[1])[0];
  if (worst === undefined) return [];
  const own = list.filter((s) => crowds(s) && level(s.z) === worst[0]);
  const count = (counts.get(worst[0]) ?? 1) + 1;
  if (own.length < count) return [];
  counts.set(worst[0], count);
  // A branch that goes up must find its way free: what has one stands in the upper row.
  const turn = own.findIndex((s) => s.link?.kind === 'three_way');
  const shift = turn < 0 ? 0 : count - (turn % count);
  own.forEach((s, k) => rows.set(s, (k + shift) % count));
  return own.filter((_, k) => k !== turn);
}

/** A hose starts in the lowest row in which a part of its node stands. */
function besideMates(hose: Station, list: readonly Station[]): number {
  const mates = list.filter(
    (s) => crowds(s) && level(s.z) === level(hose.z) && s.nets.some((n) => hose.nets.includes(n)),
  );
  return mates.length === 0 ? hose.y : Math.max(...mates.map((s) => s.y));
}

/** Gives all stations their heights, and their places across; returns the width taken. */
function place(list: readonly Station[], rows: Rows, field: Field1): number {
  const heights = heightsFor(list, rows, field);
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
  return squeeze(list, field);
}

/** Moves parts to other rows of their height, one at a time, while that makes the band slimmer. */
function deal(list: readonly Station[], own: readonly Station[], rows: Rows, field: Field1) {
  const count = Math.max(...own.map((s) => rows.get(s)!)) + 1;
  const room = field.right - field.left;
  let width = place(list, rows, field);
  for (let pass = 0; pass < PASSES; pass++) {
    const before = width;
    for (const s of own) {
      if (width <= room) return;
      const kept = rows.get(s)!;
      let best = kept;
      for (let row = 0; row < count; row++) {
        if (row === kept) continue;
        rows.set(s, row);
        const now = place(list, rows, field);
        if (now < width - 0.5) [width, best] = [now, row];
      }
      rows.set(s, best);
    }
    if (width > before - 0.5) return;
  }
}

const PASSES = 3;

/** Shares of the gap between parts that are left when a band is too wide for its room. */
const CLOSER = [0.75, 0.5, 0.25, 0] as const;

/** In the room there is: the gaps give way, and no part comes over another. */
function closer(list: readonly Station[], rows: Rows, field: Field1): number {
  let width = 0;
  for (const share of CLOSER) {
    width = place(list, rows, { ...field, gap: field.gap * share });
    if (width <= field.right - field.left) break;
  }
  return width;
}

/** Places one band; says whether it fits, and how far rows have lifted it. */
export function packBand(list: readonly Station[], field: Field1, rounds: number): Packed {
  const room = field.right - field.left;
  const counts = new Map<number, number>();
  const rows: Rows = new Map();
  let best = { rows: new Map(rows), width: place(list, rows, field) };
  for (let round = 1; round < rounds && best.width > room * field.tight; round++) {
    const own = crowd(list, counts, rows);
    if (own.length === 0) break;
    if (field.dealt) deal(list, own, rows, field);
    const width = place(list, rows, field);
    // One more row must be worth its height.
    if (width < best.width - 4) best = { rows: new Map(rows), width };
  }
  let width = place(list, best.rows, field);
  const factorOf = (): number =>
    Math.min(1.3, Math.max(field.closest, room / Math.max(1, width)));
  if (meets(list, field, factorOf())) width = closer(list, best.rows, field);
  const factor = factorOf();
  for (const s of list) s.x = field.left + (s.x - field.left) * factor;
  return { heights: heightsFor(list, best.rows, field), fits: best.width <= room * field.tight };
}

interface Packed {
  readonly heights: Heights;
  readonly fits: boolean;
}
