// The deck cart: what stands behind the water, and what stands in front of it.
import type { FrameMark, OutletMark, PumpMark, TankMark, YardLayout } from '../yard/layout.ts';
import { paintPart } from './paint-parts.ts';
import { inTank } from './paint-pipes.ts';
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

/** What a part stands on: the deck under it, or the ground. */
function under(yard: YardLayout, part: { x: number; y: number }): number {
  const deck = yard.frames.find((f) => part.x > f.deck.x - 60 && part.x < f.deck.x + f.deck.w);
  return deck !== undefined && deck.deck.y > part.y ? deck.deck.y : yard.ground.line;
}

/** The inside of the cut tank as it looks without water. */
function tankBack(pen: Pen, yard: YardLayout, tank: TankMark): void {
  const floor = tank.y + tank.h;
  const deckTop = under(yard, tank);
  const foot = (x: number): void => {
    pen.box({ x: x - 9, y: floor, w: 18, h: deckTop - floor }, INK.steel, 0, 1.5 * pen.weight);
  };
  foot(tank.x + 24);
  foot(tank.x + tank.w / 2);
  foot(tank.x + tank.w - 24);
  pen.box(tank, '#EFE9DC', 0, 0);
  const { ctx } = pen;
  ctx.fillStyle = 'rgba(38,40,43,0.05)';
  ctx.fillRect(tank.x, tank.y, 12, tank.h);
}

/** Walls, rim and the sight tube with its scale, in front of the water. */
function tankFront(pen: Pen, tank: TankMark): void {
  const { ctx } = pen;
  const floor = tank.y + tank.h;
  const w = LINE.body * pen.weight;
  ctx.lineJoin = 'miter';
  pen.stroke(
    [
      { x: tank.x, y: tank.y },
      { x: tank.x, y: floor },
      { x: tank.x + tank.w, y: floor },
      { x: tank.x + tank.w, y: tank.y },
    ],
    w * 1.25,
  );
  ctx.lineJoin = 'round';
  const lip = 9 * pen.weight;
  for (const [x, way] of [
    [tank.x, -1],
    [tank.x + tank.w, 1],
  ] as const) {
    pen.stroke(
      [
        { x, y: tank.y },
        { x: x + way * lip * 0.7, y: tank.y },
      ],
      w * 1.4,
    );
  }
  if (tank.level !== null) sightTube(pen, tank);
}

function sightTube(pen: Pen, tank: TankMark): void {
  const { ctx } = pen;
  const { tubeX: x } = tank;
  const s = pen.weight;
  const floor = tank.y + tank.h;
  const half = 6 * s;
  pen.stroke(
    [
      { x: x - half, y: tank.y + 4 },
      { x: x - half, y: floor - 6 },
    ],
    1.6 * s,
  );
  pen.stroke(
    [
      { x: x + half, y: tank.y + 4 },
      { x: x + half, y: floor - 6 },
    ],
    1.6 * s,
  );
  pen.box({ x: x - half - 2, y: floor - 12 * s, w: 2 * half + 4, h: 8 * s }, INK.steel, 2, 1.4 * s);
  const n = Math.round(tank.height_m / 0.02);
  const plate = { x: x + half + 2 * s, y: tank.y + 8, w: 16 * s, h: tank.h - 16 };
  ctx.globalAlpha = 0.92;
  pen.box(plate, INK.paper, 2, 1 * s);
  ctx.globalAlpha = 1;
  ctx.beginPath();
  for (let k = 1; k < n; k++) {
    const y = floor - (k * 0.02 * tank.h) / tank.height_m;
    if (y < plate.y + 3 || y > plate.y + plate.h - 3) continue;
    ctx.moveTo(plate.x, y);
    ctx.lineTo(plate.x + (k % 5 === 0 ? 12 : 6) * s, y);
  }
  pen.line(1.2 * s);
}

function pump(pen: Pen, yard: YardLayout, mark: PumpMark): void {
  const { x, y, r, motor } = mark;
  const s = pen.weight;
  const deckTop = under(yard, mark);
  pen.shape(
    [
      { x: x - r * 0.55, y: y + r * 0.5 },
      { x: x + r * 0.55, y: y + r * 0.5 },
      { x: x + r * 0.8, y: deckTop },
      { x: x - r * 0.8, y: deckTop },
    ],
    INK.steel,
    LINE.pipe * s,
  );
  pen.box(
    {
      x: motor.x + 12,
      y: motor.y + motor.h - 2,
      w: motor.w - 20,
      h: deckTop - motor.y - motor.h + 2,
    },
    INK.steel,
    0,
    1.6 * s,
  );
  pen.box(motor, INK.steelLight, 8 * s, LINE.pipe * s * 1.3);
  const { ctx } = pen;
  ctx.beginPath();
  for (let mx = motor.x + 22; mx < motor.x + motor.w - 14; mx += 8 * s) {
    ctx.moveTo(mx, motor.y + 6);
    ctx.lineTo(mx, motor.y + motor.h - 6);
  }
  pen.line(1.3 * s, INK.muted);
  pen.box(
    { x: motor.x + motor.w - 9 * s, y: motor.y + 5, w: 9 * s, h: motor.h - 10 },
    INK.pipe,
    3,
    1.6 * s,
  );
  const box = { x: motor.x + motor.w * 0.4, y: motor.y - 12 * s, w: 26 * s, h: 13 * s };
  pen.box(box, INK.paper, 2, 1.6 * s);
  pen.disc(mark, r, INK.steelLight, LINE.body * s);
}

function drum(pen: Pen, outlet: OutletMark): void {
  const { drum: d } = outlet;
  pen.box(d, '#EFE9DC', 3, 0);
}

function drumFront(pen: Pen, outlet: OutletMark): void {
  const { drum: d } = outlet;
  const s = pen.weight;
  pen.path([
    { x: d.x, y: d.y },
    { x: d.x, y: d.y + d.h },
    { x: d.x + d.w, y: d.y + d.h },
    { x: d.x + d.w, y: d.y },
  ]);
  pen.line(LINE.body * s);
  for (const t of [0.33, 0.67]) {
    const y = d.y + d.h * t;
    pen.stroke(
      [
        { x: d.x, y },
        { x: d.x + 7 * s, y },
      ],
      LINE.pipe * s,
    );
    pen.stroke(
      [
        { x: d.x + d.w, y },
        { x: d.x + d.w - 7 * s, y },
      ],
      LINE.pipe * s,
    );
  }
}

export function paintCartBack(pen: Pen, yard: YardLayout): void {
  for (const frame of yard.frames) {
    shadow(pen, yard, frame);
    for (const at of frame.rig === 'barrow' ? [] : frame.wheels) {
      const far = { x: at.x + (yard.shape === 'wide' ? 26 : 10), y: at.y - 9 * pen.weight };
      pen.disc(far, frame.wheelR * 0.94, '#6A6A66', LINE.pipe * pen.weight);
    }
    gantry(pen, frame);
    if (frame.rig === 'barrow') legs(pen, yard, frame);
  }
  for (const tank of yard.tanks) tankBack(pen, yard, tank);
  for (const outlet of yard.outlets) if (outlet.goesTo !== 'ground') drum(pen, outlet);
}

/** Deck and pump stand over hoses that lie under the cart. */
export function paintCartMiddle(pen: Pen, yard: YardLayout): void {
  for (const frame of yard.frames) {
    deckBoard(pen, frame);
    if (frame.rig === 'barrow') handles(pen, frame);
    else drawbar(pen, yard, frame);
  }
  for (const mark of yard.pumps) pump(pen, yard, mark);
}

export function paintCartFront(pen: Pen, yard: YardLayout): void {
  for (const frame of yard.frames) for (const at of frame.wheels) wheel(pen, at, frame.wheelR);
  for (const part of yard.parts) if (inTank(yard, part)) paintPart(pen, part);
  for (const tank of yard.tanks) tankFront(pen, tank);
  for (const outlet of yard.outlets) if (outlet.goesTo !== 'ground') drumFront(pen, outlet);
}
