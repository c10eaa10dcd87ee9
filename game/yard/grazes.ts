// How many pipes come out on valves that are not theirs, how many controls one over the other, and
// what stands off the page: by this a drawing is judged before it is taken, or tried once more with
// all packed looser.
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

/** Share of the way from `from` to `to` at which `at` is reached. */
const shareAt = (from: number, to: number, at: number): number => (at - from) / (to - from);

/** True where the straight from a to b comes into a box. */
function cuts(a: Point, b: Point, box: Box): boolean {
  const [right, low] = [box.x + box.w, box.y + box.h];
  if (a.x <= box.x && b.x <= box.x) return false;
  if (a.x >= right && b.x >= right) return false;
  if (a.y <= box.y && b.y <= box.y) return false;
  if (a.y >= low && b.y >= low) return false;
  if (Math.abs(a.x - b.x) < 1e-9 || Math.abs(a.y - b.y) < 1e-9) return true;
  const [x0, x1] = [shareAt(a.x, b.x, box.x), shareAt(a.x, b.x, right)];
  const [y0, y1] = [shareAt(a.y, b.y, box.y), shareAt(a.y, b.y, low)];
  const lo = Math.max(0, Math.min(x0, x1), Math.min(y0, y1));
  return lo < Math.min(1, Math.max(x0, x1), Math.max(y0, y1));
}

/** The room that a run takes. */
function roomOf({ points, width }: Run): Box {
  let [x, y, right, low] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const p of points) {
    x = Math.min(x, p.x);
    y = Math.min(y, p.y);
    right = Math.max(right, p.x);
    low = Math.max(low, p.y);
  }
  const r = width / 2;
  return { x: x - r, y: y - r, w: right - x + width, h: low - y + width };
}

/** True where a run comes into a valve's body and neither begins nor ends at it. */
function passes(valve: ValveMark, { points, width }: Run, pipe: number): boolean {
  const near = valve.size * 0.5 + 16 * pipe;
  const own = boxAt(valve, near, near);
  if (holds(own, points[0]!) || holds(own, points.at(-1)!)) return false;
  const [long, slim] = [valve.size * 0.5 + width / 2, valve.size * 0.3 + width / 2];
  const body = valve.upright === true ? boxAt(valve, slim, long) : boxAt(valve, long, slim);
  for (let i = 1; i < points.length; i++) if (cuts(points[i - 1]!, points[i]!, body)) return true;
  return false;
}

/** Less of one control over another than this is nothing, units. */
const TOUCH = 0.5;

/** Pairs of controls of which one lies over the other. */
function covered(placed: readonly Box[]): number {
  let pairs = 0;
  placed.forEach((a, k) => {
    for (const b of placed.slice(k + 1)) {
      const across = Math.min(a.x + a.w, b.x + b.w) - Math.max(a.x, b.x);
      const down = Math.min(a.y + a.h, b.y + b.h) - Math.max(a.y, b.y);
      if (Math.min(across, down) > TOUCH) pairs++;
    }
  });
  return pairs;
}

/**
 * Pairs of a pipe and a valve, not its own, that it passes through, and of controls one over the
 * other; and parts off the page.
 */
export function grazesOf(sheet: Sheet): number {
  const out = sheet.placed.filter((p) => p.x < 0 || p.x + p.w > sheet.plan.width);
  let pairs = 0;
  for (const run of [...sheet.conduits, ...sheet.fittings]) {
    const { x, y, w, h } = roomOf(run);
    for (const v of sheet.valves) {
      const half = v.size / 2;
      if (v.x + half < x || v.x - half > x + w || v.y + half < y || v.y - half > y + h) continue;
      if (passes(v, run, sheet.plan.pipe)) pairs++;
    }
  }
  return pairs + covered(sheet.placed) + out.length;
}
