// Ribbons along a pipe's path: pieces of fill, edge lines, and the casing where pipes cross.
import type { GameObjects } from 'phaser';
import type { Conduit, PathPoint } from '../yard/layout.ts';
import { INK, num } from './tokens.ts';

type Graphics = GameObjects.Graphics;

type Edges = readonly [number, number, number, number];

/** A piece of ribbon between two points; edges measured towards the crown. */
export function quad(g: Graphics, a: PathPoint, b: PathPoint, e: Edges): void {
  const ax = a.x + a.nx * e[0];
  const ay = a.y + a.ny * e[0];
  const bx = b.x + b.nx * e[3];
  const by = b.y + b.ny * e[3];
  // Where the crown changes sides the two normals point apart, and the edges swap.
  const swap = a.nx * b.nx + a.ny * b.ny < 0;
  const [i, j] = swap ? [e[3], e[2]] : [e[2], e[3]];
  if (swap) {
    g.fillTriangle(ax, ay, a.x + a.nx * e[1], a.y + a.ny * e[1], b.x - b.nx * i, b.y - b.ny * i);
    g.fillTriangle(ax, ay, b.x - b.nx * i, b.y - b.ny * i, b.x - b.nx * j, b.y - b.ny * j);
    return;
  }
  g.fillTriangle(ax, ay, a.x + a.nx * e[1], a.y + a.ny * e[1], bx, by);
  g.fillTriangle(ax, ay, bx, by, b.x + b.nx * i, b.y + b.ny * i);
}

export function edge(g: Graphics, a: PathPoint, b: PathPoint, o: readonly [number, number]): void {
  const flip = a.nx * b.nx + a.ny * b.ny < 0 ? -1 : 1;
  g.lineBetween(
    a.x + a.nx * o[0],
    a.y + a.ny * o[0],
    b.x + b.nx * o[1] * flip,
    b.y + b.ny * o[1] * flip,
  );
}

/** The casing of the stretches that cross over another pipe, drawn again over its contents. */
export function casing(
  g: Graphics,
  conduit: Conduit,
  ranges: readonly (readonly [number, number])[],
  weight: number,
): void {
  const h = conduit.width / 2;
  const { points } = conduit;
  for (const [color, w] of [
    [num(INK.ink), h + 2 * weight],
    [num(conduit.clear ? INK.paper : INK.pipe), h],
  ] as const) {
    g.fillStyle(color, 1);
    for (const [from, to] of ranges) {
      for (let i = from + 1; i <= to; i++) quad(g, points[i - 1]!, points[i]!, [-w, w, -w, w]);
    }
  }
}

/** Stretches of `over` that cross one of `under`: ranges of its point numbers. */
export function crossings(over: Conduit, under: readonly Conduit[]): [number, number][] {
  const hit = over.points.map((p) =>
    under.some((u) =>
      u.points.some(
        (q) => Math.abs(p.x - q.x) + Math.abs(p.y - q.y) < (over.width + u.width) / 2 + 8,
      ),
    ),
  );
  const out: [number, number][] = [];
  for (let i = 1; i < hit.length; i++) {
    if (!hit[i]) continue;
    const last = out.at(-1);
    if (last !== undefined && i - last[1] <= 1) last[1] = i;
    else out.push([i - 1, i]);
  }
  return out;
}
