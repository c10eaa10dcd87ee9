// Parts in the line that no valve's handle turns: check valves, filters, couplings, the unit's coil
// and hand pumps.
import type { PartMark } from '../yard/layout.ts';
import type { Pen, Spot } from './pen.ts';
import { INK, LINE } from './tokens.ts';

const TURN = { right: 0, down: Math.PI / 2, left: Math.PI, up: -Math.PI / 2 } as const;

/** Draws with the part's way to the right, so that each sign is written once. */
function turned(pen: Pen, part: PartMark, draw: (half: number) => void): void {
  const { ctx } = pen;
  ctx.save();
  ctx.translate(part.x, part.y);
  ctx.rotate(TURN[part.way]);
  draw(part.size / 2);
  ctx.restore();
}

/** A flap on its seat: the cone points the way that is free. */
function checkValve(pen: Pen, part: PartMark): void {
  const s = pen.weight;
  turned(pen, part, (h) => {
    const tall = Math.max(part.width * 0.8, h * 0.62);
    pen.box({ x: -h, y: -tall, w: 2 * h, h: 2 * tall }, INK.steelLight, 4 * s, LINE.pipe * s);
    const cone = [
      { x: -h * 0.5, y: -tall * 0.62 },
      { x: h * 0.42, y: 0 },
      { x: -h * 0.5, y: tall * 0.62 },
    ];
    pen.shape(cone, INK.ink, 1 * s);
    const seat: Spot[] = [
      { x: h * 0.5, y: -tall * 0.66 },
      { x: h * 0.5, y: tall * 0.66 },
    ];
    pen.stroke(seat, 3 * s);
  });
}

/** A housing with its woven element seen through the wall. */
function filter(pen: Pen, part: PartMark): void {
  const s = pen.weight;
  const w = part.size * 0.8;
  const h = part.size * 1.25;
  const top = part.y - part.width / 2 - 9 * s;
  const body = { x: part.x - w / 2, y: top, w, h };
  pen.box(body, INK.paper, 8 * s, LINE.pipe * s * 1.2);
  pen.box({ ...body, x: body.x - 4 * s, w: w + 8 * s, h: 11 * s }, INK.steel, 4 * s, LINE.pipe * s);
  const inner = { x: body.x + 7 * s, y: top + 15 * s, w: w - 14 * s, h: h - 24 * s };
  pen.box(inner, INK.shade, 4 * s, 1.2 * s);
  const { ctx } = pen;
  ctx.save();
  ctx.beginPath();
  ctx.rect(inner.x, inner.y, inner.w, inner.h);
  ctx.clip();
  ctx.beginPath();
  for (let d = -inner.h; d < inner.w + inner.h; d += 6 * s) {
    ctx.moveTo(inner.x + d, inner.y);
    ctx.lineTo(inner.x + d + inner.h, inner.y + inner.h);
    ctx.moveTo(inner.x + d, inner.y);
    ctx.lineTo(inner.x + d - inner.h, inner.y + inner.h);
  }
  pen.line(0.9 * s, INK.muted);
  ctx.restore();
}

/** Only the seats of the two halves; whether they are joined is drawn live. */
function coupling(pen: Pen, part: PartMark): void {
  const s = pen.weight;
  turned(pen, part, (h) => {
    const tall = part.width / 2 + 7 * s;
    for (const side of [-1, 1]) {
      const x = side === -1 ? -h : h * 0.45;
      pen.box({ x, y: -tall, w: h * 0.55, h: 2 * tall }, INK.board, 3 * s, LINE.pipe * s);
    }
  });
}

/** The unit cut open: a folded coil between its two pipe ends. */
function coil(pen: Pen, part: PartMark): void {
  const s = Math.sqrt(pen.weight);
  const w = 96;
  const h = 122;
  const body = { x: part.x - w / 2, y: part.y - h / 2, w, h };
  pen.box(body, INK.paper, 9, LINE.body * s * 0.9);
  pen.box({ x: body.x + 8, y: body.y + 8, w: w - 16, h: h - 16 }, INK.shade, 6, 1.2);
  const left = part.x - 44;
  const right = part.x + 26;
  const points: Spot[] = [{ x: left, y: part.y - 30 }];
  const turns = 3;
  for (let k = 0; k <= 2 * turns; k++) {
    const y = part.y - 30 + (60 * k) / (2 * turns);
    const at = k % 2 === 0 ? [left + 22, right] : [right, left + 22];
    points.push({ x: at[0]!, y }, { x: at[1]!, y });
  }
  points.push({ x: left, y: part.y + 30 });
  pen.pipe(points, 6, { body: INK.pipe, light: null });
}

function imposed(pen: Pen, part: PartMark): void {
  turned(pen, part, (h) => {
    pen.disc({ x: 0, y: 0 }, h * 0.8, INK.paper, LINE.pipe * pen.weight);
    const arrow = [
      { x: -h * 0.4, y: -h * 0.34 },
      { x: h * 0.5, y: 0 },
      { x: -h * 0.4, y: h * 0.34 },
    ];
    pen.shape(arrow, INK.ink, 1);
  });
}

/** A barrel on the line with a rod out of its top and an arm across it. */
function handPump(pen: Pen, part: PartMark): void {
  const s = pen.weight;
  const w = part.size * 0.5;
  const low = part.y + part.width / 2 + 4 * s;
  const high = part.y - part.size * 0.42;
  const top = high - part.size * 0.24;
  const rod: Spot[] = [
    { x: part.x, y: high },
    { x: part.x, y: top },
  ];
  pen.stroke(rod, 3 * s);
  const arm: Spot[] = [
    { x: part.x - w * 0.5, y: top + 5 * s },
    { x: part.x + w * 1.1, y: top - 4 * s },
  ];
  pen.stroke(arm, 7 * s);
  pen.stroke(arm, 4 * s, INK.accent);
  const barrel = { x: part.x - w / 2, y: high, w, h: low - high };
  pen.box(barrel, INK.steelLight, 4 * s, LINE.pipe * s);
  pen.box({ ...barrel, x: barrel.x - 3 * s, w: w + 6 * s, h: 6 * s }, INK.steel, 2 * s, 1.2 * s);
}

const PAINT = {
  check_valve: checkValve,
  filter,
  coupling,
  coil,
  fixed_flow: imposed,
  hand_pump: handPump,
} as const;

export function paintPart(pen: Pen, part: PartMark): void {
  PAINT[part.kind](pen, part);
}
