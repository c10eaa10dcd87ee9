// The deck cart: what stands behind the water, and what stands in front of it.
import type { OutletMark, PumpMark, TankMark, YardLayout } from '../yard/layout.ts';
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

function shadow(pen: Pen, yard: YardLayout): void {
  const { deck } = yard.cart;
  const { ctx } = pen;
  ctx.fillStyle = 'rgba(60,62,40,0.2)';
  ctx.beginPath();
  ctx.ellipse(
    deck.x + deck.w / 2,
    yard.ground.line + 3,
    deck.w * 0.53,
    13 * pen.weight,
    0,
    0,
    2 * Math.PI,
  );
  ctx.fill();
}

/** Two posts and a rail carry the pipes; thin, so that the pipes are what one sees. */
function gantry(pen: Pen, yard: YardLayout): void {
  const { cart } = yard;
  const w = 7 * pen.weight;
  const top = cart.railY - 17 * pen.weight;
  const [a, b] = cart.posts;
  if (a === undefined || b === undefined) return;
  for (const post of [a, b]) {
    pen.box(
      { x: post.x - w / 2, y: top, w, h: cart.deck.y - top },
      INK.steelLight,
      1,
      1.5 * pen.weight,
    );
  }
  pen.box(
    { x: a.x - 16, y: top - w / 2, w: b.x - a.x + 32, h: w },
    INK.steelLight,
    w / 2,
    1.5 * pen.weight,
  );
  const { ctx } = pen;
  ctx.beginPath();
  const brace = 26 * pen.weight;
  for (const [post, way] of [
    [a, 1],
    [b, -1],
  ] as const) {
    ctx.moveTo(post.x, cart.deck.y - brace);
    ctx.lineTo(post.x + way * brace, cart.deck.y);
  }
  pen.line(3 * pen.weight, INK.ink);
  for (const post of [a, b]) {
    pen.disc({ x: post.x, y: top }, 3.4 * pen.weight, INK.paper, 1.4 * pen.weight);
  }
}

function deckBoard(pen: Pen, yard: YardLayout): void {
  const { deck } = yard.cart;
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
  // The drawbar with its ring lies at the right-hand end.
  const end = deck.x + deck.w;
  const y = deck.y + deck.h / 2;
  const s = pen.weight;
  const ring = yard.shape === 'wide' ? 40 : 14;
  pen.stroke(
    [
      { x: end, y },
      { x: end + ring - 6, y: y + 12 * s },
    ],
    5 * s,
  );
  pen.ctx.beginPath();
  pen.ctx.arc(end + ring, y + 14 * s, 6 * s, 0, 2 * Math.PI);
  pen.line(3.4 * s);
}

/** The inside of the cut tank as it looks without water. */
function tankBack(pen: Pen, yard: YardLayout, tank: TankMark): void {
  const floor = tank.y + tank.h;
  const deckTop = yard.cart.deck.y;
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
  const deckTop = yard.cart.deck.y;
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
  shadow(pen, yard);
  const { wheels, wheelR } = yard.cart;
  for (const at of wheels) {
    const far = { x: at.x + (yard.shape === 'wide' ? 26 : 10), y: at.y - 9 * pen.weight };
    pen.disc(far, wheelR * 0.94, '#6A6A66', LINE.pipe * pen.weight);
  }
  gantry(pen, yard);
  for (const tank of yard.tanks) tankBack(pen, yard, tank);
  for (const outlet of yard.outlets) drum(pen, outlet);
}

/** Deck and pump stand over hoses that lie under the cart. */
export function paintCartMiddle(pen: Pen, yard: YardLayout): void {
  deckBoard(pen, yard);
  for (const mark of yard.pumps) pump(pen, yard, mark);
}

export function paintCartFront(pen: Pen, yard: YardLayout): void {
  for (const at of yard.cart.wheels) wheel(pen, at, yard.cart.wheelR);
  for (const tank of yard.tanks) tankFront(pen, tank);
  for (const outlet of yard.outlets) drumFront(pen, outlet);
}
