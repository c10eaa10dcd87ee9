// Points as the debrief writes them: tenths that add up, from dimension to total and from deduction
// to dimension. Rounding each by itself would leave a sum that is off by a tenth or two.
import type { Score } from '../../sim/index.ts';

export interface ShownPoints {
  /** Of 100; never rounded up. */
  readonly total: number;
  /** By dimension, in the score's order. */
  readonly dimensions: readonly { readonly points: number; readonly max: number }[];
  /** By deduction, in the score's order; 0 of one that took less than a tenth. */
  readonly lost: readonly number[];
}

const SLACK = 1e-6;

/**
 * Whole numbers near `values` that add up to `sum`: each rounded down, and what is left given to
 * those that lost most by it, to those at their cap last.
 */
export function spread(
  values: readonly number[],
  sum: number,
  caps: readonly number[] = values.map(() => Infinity),
): readonly number[] {
  const shown = values.map((value) => Math.floor(value + SLACK));
  const rest = (k: number): number => values[k]! - shown[k]!;
  let left = sum - shown.reduce((all, one) => all + one, 0);
  const order = values.map((_, k) => k);
  while (left !== 0 && order.length > 0) {
    const [up, down] = [left > 0, left < 0];
    const free = order.filter((k) => (up ? shown[k]! < caps[k]! : shown[k]! > 0));
    const from = free.length > 0 || down ? free : order;
    if (from.length === 0) break;
    const next = from.reduce((a, b) => ((up ? rest(b) > rest(a) : rest(b) < rest(a)) ? b : a));
    shown[next] = shown[next]! + (up ? 1 : -1);
    left += up ? -1 : 1;
  }
  return shown;
}

export function shownPoints({ total, dimensions, deductions }: Score): ShownPoints {
  const whole = Math.floor(total * 10 + SLACK);
  const all = dimensions.reduce((sum, { max }) => sum + max, 0);
  const most = spread(dimensions.map(({ max }) => 10 * max), Math.round(10 * all));
  const caps = dimensions.map(({ points, max }, k) =>
    (points < max - SLACK ? most[k]! - 1 : most[k]!)); // What is not full does not show as full.
  const got = spread(dimensions.map(({ points }) => 10 * points), whole, caps);
  const lost = deductions.map(() => 0);
  dimensions.forEach(({ dimension }, k) => {
    const own = deductions.flatMap((one, nth) => (one.dimension === dimension ? [nth] : []));
    const parts = spread(own.map((nth) => 10 * deductions[nth]!.points), most[k]! - got[k]!);
    own.forEach((nth, at) => { lost[nth] = parts[at]! / 10; });
  });
  return {
    total: whole / 10,
    dimensions: got.map((points, k) => ({ points: points / 10, max: most[k]! / 10 })),
    lost,
  };
}
