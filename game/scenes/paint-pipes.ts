// Pipes, fittings, valve bodies and dial faces: everything of the piping that keeps its shape.
import type { Conduit, DialMark, ValveMark, YardLayout } from '../yard/layout.ts';
import { paintPart } from './paint-parts.ts';
import type { Pen, Spot } from './pen.ts';
import { RING_WIDTH, ringsOf } from './rings.ts';
import { INK, LINE } from './tokens.ts';

const STEEL = { body: INK.steel, light: INK.steelLight };
const OPAQUE = { body: INK.pipe, light: INK.pipeLight };
const CLEAR = { body: INK.paper, light: null };

export function paintConduit(pen: Pen, conduit: Conduit): void {
  pen.pipe(conduit.points, conduit.width, conduit.clear ? CLEAR : OPAQUE);
}

/** Tape around a hose; what runs inside is drawn over it, and the tape again over that. */
export function paintRings(pen: Pen, conduit: Conduit): void {
  for (const ring of ringsOf(conduit, pen.weight)) pen.stroke(ring, RING_WIDTH * pen.weight);
}

/** Corners of a fitting are drawn as bends. */
function rounded(points: readonly Spot[], r: number): Spot[] {
  if (points.length < 3) return [...points];
  const out: Spot[] = [points[0]!];
  for (let i = 1; i < points.length - 1; i++) {
    const [a, k, b] = [points[i - 1]!, points[i]!, points[i + 1]!];
    const cut = (p: Spot): Spot => {
      const d = Math.hypot(p.x - k.x, p.y - k.y);
      const t = Math.min(1, r / d);
      return { x: k.x + (p.x - k.x) * t, y: k.y + (p.y - k.y) * t };
    };
    const [s, e] = [cut(a), cut(b)];
    for (let n = 0; n <= 8; n++) {
      const t = n / 8;
      const u = 1 - t;
      out.push({
        x: u * u * s.x + 2 * u * t * k.x + t * t * e.x,
        y: u * u * s.y + 2 * u * t * k.y + t * t * e.y,
      });
    }
  }
  out.push(points.at(-1)!);
  return out;
}

/** Two cones point to point: the drawing's sign of a valve, turned with its pipe. */
function valveBody(pen: Pen, valve: ValveMark): void {
  const s = pen.weight;
  const half = valve.size / 2;
  const tall = Math.max(valve.width * 0.75, valve.size * 0.3);
  const cone = (turn: number): void => {
    const [c, n] = [Math.cos(turn), Math.sin(turn)];
    const at = (u: number, v: number): Spot => ({
      x: valve.x + u * c - v * n,
      y: valve.y + u * n + v * c,
    });
    pen.shape([at(half, -tall), at(0, 0), at(half, tall)], INK.paper, LINE.pipe * s * 1.15);
  };
  if (valve.branch !== undefined) {
    for (const turn of [0, Math.PI, valve.branch === 'down' ? Math.PI / 2 : -Math.PI / 2])
      cone(turn);
    return;
  }
  const first = valve.upright === true ? Math.PI / 2 : 0;
  cone(first);
  cone(first + Math.PI);
}

function dialFace(pen: Pen, dial: DialMark): void {
  const { ctx } = pen;
  const s = pen.weight;
  const { r } = dial;
  if (dial.leader !== undefined) {
    for (const tone of [
      [5 * s, INK.ink],
      [2.4 * s, INK.steelLight],
    ] as const) {
      if (dial.leader.length > 1) pen.stroke(dial.leader, tone[0], tone[1]);
    }
  } else if (dial.stem.y !== dial.y) {
    pen.stroke(
      [
        { x: dial.x, y: dial.y + r },
        { x: dial.x, y: dial.stem.y - 8 * s },
      ],
      7 * s,
    );
    pen.stroke(
      [
        { x: dial.x, y: dial.y + r },
        { x: dial.x, y: dial.stem.y - 9 * s },
      ],
      3.4 * s,
      INK.steelLight,
    );
  } else {
    // The meter's body sits in the line, so it shows shoulders on both sides.
    pen.box(
      { x: dial.x - r - 6 * s, y: dial.y - 12 * s, w: 2 * r + 12 * s, h: 24 * s },
      INK.steel,
      4,
      LINE.pipe * s,
    );
  }
  pen.disc(dial, r, INK.shade, LINE.body * s);
  pen.disc(dial, r - 4.5 * s, INK.paper, 1.1 * s);
  const inner = r - 4.5 * s;
  const n = 20;
  ctx.beginPath();
  for (let k = 0; k <= n; k++) {
    const a = dialAngle(k / n);
    const long = k % 5 === 0 ? 0.7 : 0.83;
    ctx.moveTo(dial.x + Math.cos(a) * inner * 0.95, dial.y + Math.sin(a) * inner * 0.95);
    ctx.lineTo(dial.x + Math.cos(a) * inner * long, dial.y + Math.sin(a) * inner * long);
  }
  pen.line(1.5 * s);
  const low = { x: dial.x, y: dial.y + inner * 0.56 };
  if (dial.unit === 'L/min' || dial.unit === 'L') drop(pen, low, inner * 0.26);
  if (dial.unit === 'C') bulb(pen, low, inner * 0.26);
  if (dial.unit === 'A' || dial.unit === 'V') letter(pen, dial.unit, { ...low, size: inner * 0.6 });
}

/** A thermometer's bulb and stem tell it from the other dials. */
function bulb(pen: Pen, at: Spot, r: number): void {
  const s = pen.weight;
  pen.stroke(
    [
      { x: at.x, y: at.y - r * 1.7 },
      { x: at.x, y: at.y },
    ],
    4.4 * s,
  );
  pen.disc(at, r * 0.7, INK.accent, 1.2 * s);
}

function letter(pen: Pen, text: string, at: Spot & { readonly size: number }): void {
  const { ctx } = pen;
  ctx.font = `640 ${at.size}px sans-serif`;
  ctx.fillStyle = INK.ink;
  ctx.textAlign = 'center';
  ctx.textBaseline = 'middle';
  ctx.fillText(text, at.x, at.y);
}

/** A drop on the dial tells the flow meter from the pressure gauges. */
function drop(pen: Pen, at: Spot, r: number): void {
  const { ctx } = pen;
  ctx.beginPath();
  ctx.moveTo(at.x, at.y - r * 1.5);
  ctx.quadraticCurveTo(at.x + r * 1.1, at.y - r * 0.1, at.x + r * 0.75, at.y + r * 0.35);
  ctx.arc(at.x, at.y + r * 0.25, r * 0.76, 0.13, Math.PI - 0.13);
  ctx.quadraticCurveTo(at.x - r * 1.1, at.y - r * 0.1, at.x, at.y - r * 1.5);
  pen.body(INK.back, 1.2 * pen.weight);
}

/** Angle of the needle for a share of the full scale: 270 degrees, zero at the lower left. */
export function dialAngle(share: number): number {
  return Math.PI * (0.75 + 1.5 * share);
}

function coupler(pen: Pen, at: Spot, upright: boolean): void {
  const s = pen.weight;
  const w = (upright ? 26 : 20) * s;
  const h = (upright ? 20 : 26) * s;
  for (const side of [-1, 1]) {
    const arm = upright
      ? [
          { x: at.x + side * 12 * s, y: at.y - 6 * s },
          { x: at.x + side * 19 * s, y: at.y + 4 * s },
          { x: at.x + side * 17 * s, y: at.y + 14 * s },
        ]
      : [
          { x: at.x - 6 * s, y: at.y + side * 12 * s },
          { x: at.x + 4 * s, y: at.y + side * 19 * s },
          { x: at.x + 14 * s, y: at.y + side * 17 * s },
        ];
    pen.stroke(arm, 3 * s);
  }
  pen.box({ x: at.x - w / 2, y: at.y - h / 2, w, h }, INK.board, 3, LINE.pipe * s);
  const line = upright
    ? [
        { x: at.x - w / 2, y: at.y + 3 * s },
        { x: at.x + w / 2, y: at.y + 3 * s },
      ]
    : [
        { x: at.x + 3 * s, y: at.y - h / 2 },
        { x: at.x + 3 * s, y: at.y + h / 2 },
      ];
  pen.stroke(line, 1.4 * s);
}

/** Meters sit astride a hose, so their faces lie over its contents. */
export function paintMeters(pen: Pen, yard: YardLayout): void {
  for (const dial of yard.dials) if (dial.stem.y === dial.y) dialFace(pen, dial);
}

export function paintFittings(pen: Pen, yard: YardLayout): void {
  for (const f of yard.fittings) pen.pipe(rounded(f.points, 16 * pen.weight), f.width, STEEL);
}

/** Collars over the pipes that meet at a tee. */
export function paintJoints(pen: Pen, yard: YardLayout): void {
  for (const j of yard.joints) pen.disc(j, j.r, INK.pipe, LINE.pipe * pen.weight);
}

/** What stands in a tank is drawn in front of its water. */
export const inTank = (yard: YardLayout, at: Spot): boolean =>
  yard.tanks.some((t) => at.x > t.x && at.x < t.x + t.w && at.y > t.y && at.y < t.y + t.h);

/** Bodies in front of the pipes. */
export function paintParts(pen: Pen, yard: YardLayout): void {
  for (const at of yard.couplers) coupler(pen, at, at.upright);
  for (const dial of yard.dials) if (dial.stem.y !== dial.y) dialFace(pen, dial);
  for (const part of yard.parts) if (!inTank(yard, part)) paintPart(pen, part);
  for (const valve of yard.valves) valveBody(pen, valve);
}
