// How many pipes come out on valves that are not theirs, and what stands off the page: by this a
// drawing is judged before it is taken, or tried once more with all packed looser.
import type { Sheet } from './sheet.ts';
import type { Box, Point, ValveMark } from './types.ts';

interface Run {
  readonly points: readonly Point[];
  readonly width: number;
}

const holds = (b: Box, p: Point): boolean =>
  p.x > b.x && p.x < b.x + b.w && p.y > b.y && p.y < b.y + b.h;

const boxAt = (p: Point, w: number, h: number): Box => ({
  x: p.x - w,
  y: p.y - h,
  w: 2 * w,
  h: 2 * h,
});

/** True where the straight from a to b comes into a box. */
function cuts(a: Point, b: Point, box: Box): boolean {
  let [lo, hi] = [0, 1];
  const axes = [
    [a.x, b.x - a.x, box.x, box.x + box.w],
    [a.y, b.y - a.y, box.y, box.y + box.h],
  ] as const;
  for (const [from, way, least, most] of axes) {
    if (Math.abs(way) < 1e-9) {
      if (from <= least || from >= most) return false;
      continue;
    }
    const [p, q] = [(least - from) / way, (most - from) / way];
    lo = Math.max(lo, Math.min(p, q));
    hi = Math.min(hi, Math.max(p, q));
  }
  return lo < hi;
}

function passes(valve: ValveMark, { points, width }: Run, pipe: number): boolean {
  const near = valve.size * 0.5 + 16 * pipe;
  const own = boxAt(valve, near, near);
  if (holds(own, points[0]!) || holds(own, points.at(-1)!)) return false;
  const [long, slim] = [valve.size * 0.5 + width / 2, valve.size * 0.3 + width / 2];
  const body = valve.upright === true ? boxAt(valve, slim, long) : boxAt(valve, long, slim);
  for (let i = 1; i < points.length; i++) if (cuts(points[i - 1]!, points[i]!, body)) return true;
  return false;
}

/** Pairs of a pipe and a valve, not its own, that it passes through; and parts off the page. */
export function grazesOf(sheet: Sheet): number {
  const out = sheet.placed.filter((p) => p.x < 0 || p.x + p.w > sheet.plan.width);
  const runs: Run[] = [...sheet.conduits, ...sheet.fittings];
  const pairs = sheet.valves.flatMap((v) => runs.filter((r) => passes(v, r, sheet.plan.pipe)));
  return pairs.length + out.length;
}
