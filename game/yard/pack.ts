// Places the stations of a band: in one band, or on a narrow page on benches below the cart too.
import { packBand } from './shelve.ts';
import type { Field1, Heights } from './squeeze.ts';
import type { Station } from './stations.ts';

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
  const at = (line: number): Field1 => ({
    ...field,
    right: field.right - bench.aside,
    ground: line,
    yOf: (z) => line - z * bench.perMetre,
  });
  for (const list of benchesOf(below, at(ground))) {
    // Hoses leave the cart in lanes over its first bench alone.
    const head = bench.head - (benches.length === 0 ? 0 : bench.lanes);
    const top = Math.max(...list.map((s) => s.z));
    const base = ground + head + top * bench.perMetre;
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
