// Handles that hands turn: along the pipe is open, across it is shut; the T of a three-way valve
// lies as its passages lie. And the sleeve of a coupling, joined or apart.
import type { GameObjects } from 'phaser';
import type { CouplingSeen, ValveSeen } from '../../sim/index.ts';
import type { PartMark, Point, ValveMark } from '../yard/layout.ts';
import { capsule } from './live-parts.ts';
import { INK, num } from './tokens.ts';

type Graphics = GameObjects.Graphics;

const PAPER = num(INK.paper);
const EDGE = num(INK.ink);
const ACCENT = num(INK.accent);
const ACCENT_DEEP = num(INK.accentDeep);
const STEEL = num(INK.steelLight);
const BOARD = num(INK.board);

const radians = (deg: number): number => (deg * Math.PI) / 180;

/** Direction of the handle on the page: 90 lies along the pipe, 0 stands across it. */
function handleAngle(mark: ValveMark, deg: number): number {
  if (mark.branch !== undefined) return armAngles(mark, deg)[2]!;
  return mark.upright === true ? -radians(deg) : -radians(90 - deg);
}

/** Directions of the three passages: of `from`, `to` and the branch when all are joined. */
function armAngles(mark: ValveMark, deg: number): [number, number, number] {
  const left = mark.fromLeft !== false;
  const down = mark.branch !== 'up';
  const turn = radians(deg) * (left === down ? -1 : 1);
  const from = left ? Math.PI : 0;
  const branch = down ? Math.PI / 2 : -Math.PI / 2;
  return [from + turn, from + Math.PI + turn, branch + turn];
}

const onCircle = (mark: Point, a: number, r: number): Point => ({
  x: mark.x + Math.cos(a) * r,
  y: mark.y + Math.sin(a) * r,
});

export function drawValve(g: Graphics, mark: ValveMark, seen: ValveSeen, weight: number): void {
  if (Math.abs(seen.deg - seen.target_deg) > 0.5) ghost(g, mark, seen, weight);
  if (mark.branch === undefined) lever(g, mark, seen, weight);
  else tee(g, mark, seen, weight);
  g.fillStyle(EDGE, 1);
  g.fillCircle(mark.x, mark.y, 5.6 * weight);
  g.fillStyle(STEEL, 1);
  g.fillCircle(mark.x, mark.y, 3.4 * weight);
}

function lever(g: Graphics, mark: ValveMark, seen: ValveSeen, weight: number): void {
  const tip = onCircle(mark, handleAngle(mark, seen.deg), mark.size * 0.66);
  const thick = 9 * weight;
  const back = { x: mark.x - (tip.x - mark.x) * 0.22, y: mark.y - (tip.y - mark.y) * 0.22 };
  capsule(g, back, tip, [thick + 3.2 * weight, EDGE]);
  capsule(g, back, tip, [thick, ACCENT]);
  const near = { x: mark.x + (tip.x - mark.x) * 0.42, y: mark.y + (tip.y - mark.y) * 0.42 };
  const far = { x: mark.x + (tip.x - mark.x) * 0.9, y: mark.y + (tip.y - mark.y) * 0.9 };
  g.lineStyle(1.5 * weight, ACCENT_DEEP, 1);
  g.lineBetween(near.x, near.y, far.x, far.y);
}

/** A T of the handle's colour: each arm points to an end that is joined, or to none. */
function tee(g: Graphics, mark: ValveMark, seen: ValveSeen, weight: number): void {
  const tips = armAngles(mark, seen.deg).map((a) => onCircle(mark, a, mark.size * 0.5));
  for (const [extra, color] of [
    [3.2, EDGE],
    [0, ACCENT],
  ] as const) {
    for (const tip of tips) capsule(g, mark, tip, [(8 + extra) * weight, color]);
  }
}

/** Where the handle is going: an arc of dots from here to there. */
function ghost(g: Graphics, mark: ValveMark, seen: ValveSeen, weight: number): void {
  g.fillStyle(ACCENT, 1);
  const n = Math.max(1, Math.ceil(Math.abs(seen.target_deg - seen.deg) / 11));
  for (let k = 1; k <= n; k++) {
    const deg = seen.deg + ((seen.target_deg - seen.deg) * k) / n;
    const p = onCircle(mark, handleAngle(mark, deg), mark.size * 0.75);
    g.fillCircle(p.x, p.y, (k === n ? 3.4 : 1.7) * weight);
  }
}

/** The sleeve over the two seats where a coupling is made; a gap with open mouths where not. */
export function drawCoupling(g: Graphics, mark: PartMark, seen: CouplingSeen, s: number): void {
  const h = mark.size / 2;
  const tall = mark.width / 2 + 4 * s;
  const upright = mark.way === 'up' || mark.way === 'down';
  const rect = (u: number, v: number, w: number, t: number): [number, number, number, number] =>
    upright ? [mark.x + v, mark.y + u, t, w] : [mark.x + u, mark.y + v, w, t];
  const half = h * (seen.made ? 0.62 : 0.3);
  g.fillStyle(seen.made ? BOARD : PAPER, 1);
  g.fillRect(...rect(-half, -tall, 2 * half, 2 * tall));
  g.lineStyle(1.8 * s, EDGE, 1);
  if (seen.made) g.strokeRect(...rect(-half, -tall, 2 * half, 2 * tall));
  for (const side of seen.made ? [-1, 0, 1] : []) {
    const [x, y, w, t] = rect(side * half * 0.5, -tall, 0, 2 * tall);
    g.lineBetween(x, y, x + w, y + t);
  }
  const way = seen.made === seen.wanted ? null : seen.wanted ? 1 : -1;
  if (way === null) return;
  g.fillStyle(ACCENT, 1);
  for (const side of [-1, 1]) {
    const [x, y] = rect(side * half * 1.6, -tall - 10 * s, 0, 0);
    g.fillCircle(x, y, 3.2 * s);
  }
}
