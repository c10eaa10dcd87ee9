// Paths of pipes: knots with rounded corners become dense points, each with its distance along
// the pipe and the direction of the pipe's crown.
import type { PathPoint, Point } from './types.ts';

/** A corner of a path: `s` metres along the pipe, rounded with radius `r` (0 = sharp). */
export interface Knot extends Point {
  readonly s: number;
  readonly r?: number;
}

interface Sample extends Point {
  readonly s: number;
}

const mix = (a: Sample, b: Sample, t: number): Sample => ({
  x: a.x + (b.x - a.x) * t,
  y: a.y + (b.y - a.y) * t,
  s: a.s + (b.s - a.s) * t,
});

function gap(a: Point, b: Point): number {
  const [dx, dy] = [b.x - a.x, b.y - a.y];
  return Math.sqrt(dx * dx + dy * dy); // Far quicker than `hypot`.
}

/** Points from a to b no further apart than `step`, without a itself. */
function along(a: Sample, b: Sample, step: number): Sample[] {
  const n = Math.max(1, Math.ceil(gap(a, b) / step));
  const out: Sample[] = [];
  for (let i = 1; i <= n; i++) out.push(mix(a, b, i / n));
  return out;
}

/** Rounds the corner at `k` by a quadratic curve between points `r` before and after it. */
function corner(before: Sample, k: Knot, after: Sample, step: number): Sample[] {
  const r = k.r ?? 0;
  const toIn = gap(before, k);
  const toOut = gap(k, after);
  const start = mix(k, before, Math.min(0.5, r / Math.max(toIn, 1e-6)));
  const end = mix(k, after, Math.min(0.5, r / Math.max(toOut, 1e-6)));
  const n = Math.max(3, Math.ceil((gap(start, k) + gap(k, end)) / step));
  const curve = Array.from({ length: n + 1 }, (_, i) => {
    const t = i / n;
    return mix(mix(start, k, t), mix(k, end, t), t);
  });
  return curve;
}

/** Dense samples of a path with rounded corners, `step` units apart at most. */
export function roundedSamples(knots: readonly Knot[], step: number): Sample[] {
  const first = knots[0];
  const last = knots[knots.length - 1];
  if (first === undefined || last === undefined || knots.length < 2) {
    throw new Error('a path needs two knots');
  }
  const out: Sample[] = [first];
  let at: Sample = first;
  for (let i = 1; i < knots.length - 1; i++) {
    const k = knots[i]!;
    if ((k.r ?? 0) <= 0) {
      out.push(...along(at, k, step));
      at = k;
      continue;
    }
    const curve = corner(knots[i - 1]!, k, knots[i + 1]!, step);
    if (gap(at, curve[0]!) > 0.5) out.push(...along(at, curve[0]!, step));
    out.push(...curve.slice(1));
    at = curve[curve.length - 1]!;
  }
  if (gap(at, last) > 0.01) out.push(...along(at, last, step));
  return out;
}

/** How far the crown is seen from the side: 0 where the drawn pipe runs straight up or down. */
function crownShare(ny: number): number {
  const t = Math.min(1, Math.max(0, (Math.abs(ny) - 0.12) / 0.35));
  return t * t * (3 - 2 * t);
}

/**
 * Points of a pipe with normals towards its crown.
 * @param slopeAt true steepness |dz/ds| at s metres; above `STEEP` gas travels as slugs
 */
export function pipePath(
  knots: readonly Knot[],
  step: number,
  slopeAt: (s: number) => number,
): PathPoint[] {
  const samples = roundedSamples(knots, step);
  return samples.map((p, i) => {
    const a = samples[Math.max(0, i - 1)]!;
    const b = samples[Math.min(samples.length - 1, i + 1)]!;
    const len = gap(a, b) || 1;
    let nx = (b.y - a.y) / len;
    let ny = -(b.x - a.x) / len;
    if (ny > 0) {
      nx = -nx;
      ny = -ny;
    }
    const { x, y } = p;
    return { x, y, s: p.s, nx, ny, crown: crownShare(ny), steep: slopeAt(p.s) > STEEP };
  });
}

/** sin of the angle above which a layer cannot lie along the crown in the drawing. */
export const STEEP = 0.5;

/**
 * Smooth heights through all given points, level at every crest and low, so that the drawn
 * crests stand exactly where the profile has them (monotone cubic after Fritsch & Carlson 1980).
 */
export function smoothHeights(s: readonly number[], z: readonly number[]): (at: number) => number {
  const n = s.length;
  const rise = Array.from({ length: n - 1 }, (_, i) => (z[i + 1]! - z[i]!) / (s[i + 1]! - s[i]!));
  const slope = Array.from({ length: n }, (_, i) => {
    if (i === 0) return rise[0]!;
    if (i === n - 1) return rise[n - 2]!;
    const a = rise[i - 1]!;
    const b = rise[i]!;
    return a * b <= 0 ? 0 : (2 * a * b) / (a + b);
  });
  return (at) => {
    let i = 0;
    let beyond = n - 1;
    while (beyond - i > 1) {
      const middle = (i + beyond) >> 1;
      if (at > s[middle]!) i = middle;
      else beyond = middle;
    }
    const h = s[i + 1]! - s[i]!;
    const t = Math.min(1, Math.max(0, (at - s[i]!) / h));
    const u = 1 - t;
    return (
      u * u * (1 + 2 * t) * z[i]! +
      t * t * (3 - 2 * t) * z[i + 1]! +
      h * t * u * (u * slope[i]! - t * slope[i + 1]!)
    );
  };
}
