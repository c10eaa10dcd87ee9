// Tank, pumps and containers: what stands behind the water, and what stands in front of it.
import type { OutletMark, PumpMark, TankMark, YardLayout } from '../yard/layout.ts';
import { paintDecks, paintFramesBack, paintWheels } from './paint-frames.ts';
import { paintPart } from './paint-parts.ts';
import { inTank } from './paint-pipes.ts';
import type { Pen } from './pen.ts';
import { INK, LINE } from './tokens.ts';

/** What a part stands on: the deck under it, or the ground. */
function under(yard: YardLayout, part: { x: number; y: number }): number {
  const { line, benches } = yard.ground;
  const bench = benches.find((b) => part.y < b);
  if (bench !== undefined && part.y > line) return Math.min(bench, part.y + 74 * yard.pipe);
  // In a plant room it hangs on the wall by a short bracket.
  if (part.y > line) return Math.min(yard.ground.house, part.y + 44 * yard.pipe);
  const deck = yard.frames.find((f) => part.x > f.deck.x - 60 && part.x < f.deck.x + f.deck.w);
  return deck !== undefined && deck.deck.y > part.y ? deck.deck.y : line;
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
  paintFramesBack(pen, yard);
  for (const tank of yard.tanks) tankBack(pen, yard, tank);
  for (const outlet of yard.outlets) if (outlet.goesTo !== 'ground') drum(pen, outlet);
}

/** Deck and pumps stand over hoses that lie under the cart. */
export function paintCartMiddle(pen: Pen, yard: YardLayout): void {
  paintDecks(pen, yard);
  for (const mark of yard.pumps) pump(pen, yard, mark);
}

export function paintCartFront(pen: Pen, yard: YardLayout): void {
  paintWheels(pen, yard);
  for (const part of yard.parts) if (inTank(yard, part)) paintPart(pen, part);
  for (const tank of yard.tanks) tankFront(pen, tank);
  for (const outlet of yard.outlets) if (outlet.goesTo !== 'ground') drumFront(pen, outlet);
}
