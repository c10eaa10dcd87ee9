// Rings of tape on the hoses across the yard, one on the supply and two on the return, so that each
// can be followed from end to end past the other.
import type { GameObjects } from 'phaser';
import type { Conduit } from '../yard/layout.ts';
import type { Spot } from './pen.ts';
import { INK, num } from './tokens.ts';

/** From one group of rings to the next along a hose, and from an end to the first. */
const EVERY = 420;
const FROM = 74;
const APART = 13;
const OVER = 3.2;
export const RING_WIDTH = 5;

type Ring = readonly [Spot, Spot];
const known = new WeakMap<Conduit, readonly Ring[]>();

/** The rings again, over what runs in the hose. */
export function drawRings(g: GameObjects.Graphics, conduit: Conduit, weight: number): void {
  const rings = known.get(conduit) ?? ringsOf(conduit, weight);
  known.set(conduit, rings);
  if (rings.length === 0) return;
  g.lineStyle(RING_WIDTH * weight, num(INK.ink), 1);
  for (const [a, b] of rings) g.lineBetween(a.x, a.y, b.x, b.y);
}

/** Both ends of each ring, across the hose; drawing units grow with `weight`. */
export function ringsOf(conduit: Conduit, weight: number): readonly Ring[] {
  const { points, width, rings = 0 } = conduit;
  if (rings === 0) return [];
  const far: number[] = [0];
  for (let i = 1; i < points.length; i++) {
    const [a, b] = [points[i - 1]!, points[i]!];
    far.push(far[i - 1]! + Math.hypot(b.x - a.x, b.y - a.y));
  }
  const total = far.at(-1)! - 2 * FROM * weight;
  const groups = Math.max(1, Math.round(total / (EVERY * weight)));
  const out: Ring[] = [];
  for (let k = 0; k <= groups; k++) {
    const middle = FROM * weight + (total * k) / groups;
    for (let ring = 0; ring < rings; ring++) {
      const at = middle + (ring - (rings - 1) / 2) * APART * weight;
      const p =
        points[
          Math.max(
            0,
            far.findIndex((d) => d >= at),
          )
        ]!;
      const half = width / 2 + OVER * weight;
      const [x, y] = [p.nx * half, p.ny * half];
      out.push([
        { x: p.x - x, y: p.y - y },
        { x: p.x + x, y: p.y + y },
      ]);
    }
  }
  return out;
}
