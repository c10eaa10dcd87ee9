// What carries the cart: a deck on four wheels, a barrow on its legs, or a trailer; wheels in
// front of the water, everything else behind it.
import type { FrameMark, YardLayout } from '../yard/layout.ts';
import type { Pen, Spot } from './pen.ts';
import { INK, LINE } from './tokens.ts';

function wheel(pen: Pen, at: Spot, r: number): void {
  pen.disc(at, r, INK.rubber, LINE.pipe * pen.weight);
  pen.disc(at, r * 0.62, INK.paper, LINE.pipe * pen.weight);
  const { ctx } = pen;
  ctx.beginPath();
  for (let k = 0; k < 5; k++) {
    const a = (k * 2 * Math.PI) / 5 + 0.4;
    ctx.moveTo(at.x + Math.cos(a) * r * 0.2, at.y + Math.sin(a) * r * 0.2);
    ctx.lineTo(at.x + Math.cos(a) * r * 0.58, at.y + Math.sin(a) * r * 0.58);
  }
  pen.line(LINE.pipe * pen.weight);
  pen.disc(at, r * 0.2, INK.board, 1.5 * pen.weight);
}

function shadow(pen: Pen, yard: YardLayout, { deck }: FrameMark): void {
  const { ctx } = pen;
  ctx.fillStyle = 'rgba(60,62,40,0.2)';
  ctx.beginPath();
  const at = { x: deck.x + deck.w / 2, y: yard.ground.line + 3 };
  ctx.ellipse(at.x, at.y, deck.w * 0.53, 13 * pen.weight, 0, 0, 2 * Math.PI);
  ctx.fill();
}

/** Posts and a rail carry the pipes; thin, so that the pipes are what one sees. */
function gantry(pen: Pen, frame: FrameMark): void {
  const { deck, posts, railY } = frame;
  const [a, b] = posts;
  if (a === undefined || b === undefined || railY === null) return;
  const s = pen.weight;
  const w = 7 * s;
  const top = railY - 17 * s;
  for (const x of [a, b]) {
    pen.box({ x: x - w / 2, y: top, w, h: deck.y - top }, INK.steelLight, 1, 1.5 * s);
  }
  pen.box({ x: a - 16, y: top - w / 2, w: b - a + 32, h: w }, INK.steelLight, w / 2, 1.5 * s);
  const { ctx } = pen;
  ctx.beginPath();
  const brace = 26 * s;
  for (const [x, way] of [
    [a, 1],
    [b, -1],
  ] as const) {
    ctx.moveTo(x, deck.y - brace);
    ctx.lineTo(x + way * brace, deck.y);
  }
  pen.line(3 * s, INK.ink);
  for (const x of [a, b]) pen.disc({ x, y: top }, 3.4 * s, INK.paper, 1.4 * s);
}

function deckBoard(pen: Pen, frame: FrameMark): void {
  const { deck } = frame;
  pen.box(deck, INK.board, 3, LINE.body * pen.weight);
  const { ctx } = pen;
  ctx.beginPath();
  for (let k = 1; k < 4; k++) {
    const x = deck.x + (deck.w * k) / 4;
    ctx.moveTo(x, deck.y + 2);
    ctx.lineTo(x, deck.y + deck.h - 2);
  }
  pen.line(1.2, INK.boardDeep);
  for (let k = 0; k < 8; k++) {
    const x = deck.x + 14 + ((deck.w - 28) * k) / 7;
    pen.disc({ x, y: deck.y + deck.h / 2 }, 1.5 * pen.weight, INK.ink, 0);
  }
}

/** The drawbar with its ring lies at the right-hand end. */
function drawbar(pen: Pen, yard: YardLayout, { deck }: FrameMark): void {
  const end = deck.x + deck.w;
  const y = deck.y + deck.h / 2;
  const s = pen.weight;
  const ring = Math.min(yard.shape === 'wide' ? 40 : 14, yard.width - end - 14);
  const line = [
    { x: end, y },
    { x: end + ring - 6, y: y + 12 * s },
  ];
  pen.stroke(line, 5 * s);
  pen.ctx.beginPath();
  pen.ctx.arc(end + ring, y + 14 * s, 6 * s, 0, 2 * Math.PI);
  pen.line(3.4 * s);
}

/** Handles: a barrow that is lifted at its left-hand end. */
function handles(pen: Pen, { deck }: FrameMark): void {
  const s = pen.weight;
  const y = deck.y + deck.h / 2;
  const grip = { x: deck.x - 54 * s, y: y - 16 * s };
  pen.stroke([{ x: deck.x + 10, y }, { x: deck.x - 14 * s, y }, grip], 6 * s);
  pen.stroke([{ x: grip.x + 20 * s, y: grip.y + 7 * s }, grip], 9 * s, INK.accentDeep);
}

/** Legs under a barrow: one down to its foot, one to the wheel, braced where they are long. */
function legs(pen: Pen, yard: YardLayout, { deck, wheels }: FrameMark): void {
  const s = pen.weight;
  const foot = yard.ground.line - 2;
  const left = deck.x + 20 * s;
  const axle = wheels[0] ?? { x: deck.x + deck.w - 20 * s, y: foot };
  const top = deck.y + deck.h;
  const right = deck.x + deck.w - 24 * s;
  const bars = [
    [
      { x: left, y: top },
      { x: left, y: foot },
    ],
    [{ x: right, y: top }, axle],
  ];
  if (foot - top > 90 * s) {
    const y = top + (foot - top) * 0.62;
    const t = (y - top) / Math.max(1, axle.y - top);
    bars.push([
      { x: left, y },
      { x: right + (axle.x - right) * t, y },
    ]);
    bars.push([
      { x: left, y: top + 8 * s },
      { x: right + (axle.x - right) * t, y },
    ]);
  }
  for (const bar of bars) pen.stroke(bar, 8 * s);
  for (const bar of bars) pen.stroke(bar, 4.4 * s, INK.steelLight);
  pen.stroke(
    [
      { x: left - 14 * s, y: foot },
      { x: left + 14 * s, y: foot },
    ],
    5 * s,
  );
}

export function paintFramesBack(pen: Pen, yard: YardLayout): void {
  for (const frame of yard.frames) {
    shadow(pen, yard, frame);
    for (const at of frame.rig === 'barrow' ? [] : frame.wheels) {
      const far = { x: at.x + (yard.shape === 'wide' ? 26 : 10), y: at.y - 9 * pen.weight };
      pen.disc(far, frame.wheelR * 0.94, '#6A6A66', LINE.pipe * pen.weight);
    }
    gantry(pen, frame);
    if (frame.rig === 'barrow') legs(pen, yard, frame);
  }
}

/** The deck lies over hoses that lie under the cart. */
export function paintDecks(pen: Pen, yard: YardLayout): void {
  for (const frame of yard.frames) {
    deckBoard(pen, frame);
    if (frame.rig === 'barrow') handles(pen, frame);
    else drawbar(pen, yard, frame);
  }
}

export function paintWheels(pen: Pen, yard: YardLayout): void {
  for (const frame of yard.frames) for (const at of frame.wheels) wheel(pen, at, frame.wheelR);
}
