// Lines of straight pieces: their length, parts of them, and lines as knots of a pipe.
import type { Knot } from './path.ts';
import type { Point } from './types.ts';

export type Line = readonly Point[];

export const gapOf = (a: Point, b: Point): number => Math.hypot(b.x - a.x, b.y - a.y);

export function lineLength(line: Line): number {
  let sum = 0;
  for (let i = 1; i < line.length; i++) sum += gapOf(line[i - 1]!, line[i]!);
  return sum;
}

/** Drops doubled points and points in the middle of a straight. */
export function tidy(line: Line): Point[] {
  const out: Point[] = [];
  for (const p of line) {
    const last = out.at(-1);
    if (last !== undefined && gapOf(last, p) < 0.5) continue;
    const before = out.at(-2);
    if (before !== undefined && last !== undefined) {
      const cross = (last.x - before.x) * (p.y - last.y) - (last.y - before.y) * (p.x - last.x);
      const ahead = (last.x - before.x) * (p.x - last.x) + (last.y - before.y) * (p.y - last.y) > 0;
      if (Math.abs(cross) < 0.5 && ahead) out.pop();
    }
    out.push({ x: p.x, y: p.y });
  }
  if (out.length === 1) out.push({ ...out[0]! });
  return out;
}

/** The part of a line between two distances along it. */
export function partOf(line: Line, from: number, to: number): Point[] {
  const out: Point[] = [];
  let at = 0;
  for (let i = 1; i < line.length; i++) {
    const [a, b] = [line[i - 1]!, line[i]!];
    const len = gapOf(a, b);
    const t0 = Math.max(0, (from - at) / (len || 1));
    const t1 = Math.min(1, (to - at) / (len || 1));
    if (t0 <= 1 && t1 >= 0 && t0 <= t1) {
      const on = (t: number): Point => ({ x: a.x + (b.x - a.x) * t, y: a.y + (b.y - a.y) * t });
      if (out.length === 0) out.push(on(t0));
      out.push(on(t1));
    }
    at += len;
  }
  return out.length < 2 ? [line[0]!, line.at(-1)!] : tidy(out);
}

export interface Straight {
  readonly from: number;
  readonly length: number;
  readonly upright: boolean;
}

export interface Standing {
  /** Which way it should run; null for any. */
  readonly upright: boolean | null;
  /** Height on the page from which on down it may be used. */
  readonly below: number;
}

/**
 * The last straight piece that is long enough and stands as wanted; else the last that is long
 * enough; else the longest.
 */
export function straightFor(line: Line, room: number, how: Standing): Straight {
  const { upright, below } = how;
  const all: Straight[] = [];
  let at = 0;
  for (let i = 1; i < line.length; i++) {
    const [a, b] = [line[i - 1]!, line[i]!];
    const length = gapOf(a, b);
    const stands = Math.abs(b.y - a.y) > Math.abs(b.x - a.x);
    const above = stands ? Math.min(length, Math.max(0, below - a.y)) : a.y < below ? length : 0;
    all.push({ from: at + above, length: length - above, upright: stands });
    at += length;
  }
  const fits = all.filter((s) => s.length >= room - 0.5);
  const wanted = fits.filter((s) => upright === null || s.upright === upright);
  const longest = all.reduce((a, b) => (b.length > a.length ? b : a));
  return wanted.at(-1) ?? fits.at(-1) ?? longest;
}

/** A line as knots of a pipe; `sAt` gives metres along the pipe at a distance along the line. */
export function knotsOf(line: Line, sAt: (at: number) => number, r: number): Knot[] {
  let at = 0;
  return line.map((p, i) => {
    if (i > 0) at += gapOf(line[i - 1]!, p);
    const inner = i > 0 && i < line.length - 1;
    return { x: p.x, y: p.y, s: sAt(at), ...(inner ? { r } : {}) };
  });
}
