// Sky, moor, turf and soil: the ground the yard stands on.
import type { YardLayout } from '../yard/layout.ts';
import type { Pen, Spot } from './pen.ts';
import { INK, LINE, scatter } from './tokens.ts';

function paintSky(pen: Pen, yard: YardLayout): void {
  const { ctx } = pen;
  const sky = ctx.createLinearGradient(0, 0, 0, yard.ground.back + 20);
  sky.addColorStop(0, INK.sky);
  sky.addColorStop(1, INK.skyLow);
  ctx.fillStyle = sky;
  ctx.fillRect(0, 0, yard.width, yard.ground.cut);
}

/** Flat-footed clouds in thin ink, high where no part of the cart reaches. */
function paintClouds(pen: Pen, yard: YardLayout): void {
  const { ctx } = pen;
  const clouds =
    yard.shape === 'wide'
      ? [
          [1216, 104, 1],
          [1112, 196, 0.62],
        ]
      : [[420, 30, 0.5]];
  for (const [x = 0, y = 0, s = 1] of clouds) {
    if (yard.shape === 'wide' && x + 90 * s > yard.house.x && yard.house.y < yard.ground.line)
      continue;
    ctx.beginPath();
    ctx.moveTo(x - 70 * s, y);
    ctx.bezierCurveTo(x - 84 * s, y - 22 * s, x - 46 * s, y - 34 * s, x - 36 * s, y - 22 * s);
    ctx.bezierCurveTo(x - 28 * s, y - 54 * s, x + 22 * s, y - 54 * s, x + 28 * s, y - 26 * s);
    ctx.bezierCurveTo(x + 50 * s, y - 42 * s, x + 84 * s, y - 24 * s, x + 70 * s, y);
    ctx.closePath();
    ctx.globalAlpha = 0.75;
    pen.body('#F4F3EC', 1.1, '#A9B0AE');
    ctx.globalAlpha = 1;
  }
}

/** A long low line of hills, built of a few slow waves. */
function hill(yard: YardLayout, base: number, height: number, seed: number): Spot[] {
  const points: Spot[] = [{ x: -4, y: yard.ground.cut }];
  for (let x = -4; x <= yard.width + 8; x += 8) {
    const a = Math.sin(x / 230 + seed) * 0.3 + Math.sin(x / 97 + seed * 2.3) * 0.16;
    const b = Math.sin(x / 33 + seed * 5.1) * 0.06;
    points.push({ x, y: base - height * (0.6 + a * 0.6 + b) });
  }
  points.push({ x: yard.width + 8, y: yard.ground.cut });
  return points;
}

function paintMoor(pen: Pen, yard: YardLayout): void {
  const { back } = yard.ground;
  pen.shape(hill(yard, back - 34, 66, 0.4), INK.hill, 0);
  const near = hill(yard, back - 6, 40, 2.2);
  pen.shape(near, INK.hillNear, 0);
  // A hedge and a few wind-bent trees stand along the near hill.
  for (let k = 0; k < yard.width / 26; k++) {
    const x = k * 26 + scatter(k) * 22;
    const ridge = near.find((p) => p.x >= x);
    if (ridge === undefined || scatter(k + 900) < 0.35) continue;
    const y = ridge.y + 2;
    const r = 2.5 + scatter(k + 40) * 4;
    pen.ctx.beginPath();
    pen.ctx.ellipse(x, y - r * 0.5, r * 1.5, r, -0.2, 0, 2 * Math.PI);
    pen.body('#B4BFA8', 0);
  }
}

function paintTurf(pen: Pen, yard: YardLayout): void {
  const { ctx } = pen;
  const { back, cut } = yard.ground;
  const turf = ctx.createLinearGradient(0, back, 0, cut);
  turf.addColorStop(0, '#DAD9BC');
  turf.addColorStop(1, INK.turf);
  ctx.fillStyle = turf;
  ctx.fillRect(0, back, yard.width, cut - back);
  const count = Math.round(((cut - back) * yard.width) / 620);
  for (let k = 0; k < count; k++) {
    const x = scatter(k * 3 + 1) * yard.width;
    const t = scatter(k * 3 + 2);
    tuft(pen, { x, y: back + 4 + t * (cut - back - 8) }, (0.5 + 0.6 * t) * pen.weight);
  }
  edgeGrass(pen, yard.width, back, 0.55);
}

function tuft(pen: Pen, at: Spot, size: number): void {
  const { ctx } = pen;
  ctx.beginPath();
  for (const lean of [-3, 0, 3]) {
    ctx.moveTo(at.x + lean * 0.5 * size, at.y);
    ctx.quadraticCurveTo(
      at.x + lean * 0.6 * size,
      at.y - 4 * size,
      at.x + lean * 1.3 * size,
      at.y - 6 * size,
    );
  }
  ctx.globalAlpha = 0.5;
  pen.line(1, INK.grass);
  ctx.globalAlpha = 1;
}

/** Blades along an edge of the turf. */
function edgeGrass(pen: Pen, width: number, y: number, size: number): void {
  const { ctx } = pen;
  ctx.beginPath();
  for (let x = 0, k = 0; x < width; x += 4 + scatter(k + 17) * 9, k++) {
    const h = (5 + scatter(k) * 8) * size * pen.weight;
    const lean = (scatter(k + 70) - 0.4) * 6;
    ctx.moveTo(x, y + 1);
    ctx.quadraticCurveTo(x + lean * 0.3, y - h * 0.6, x + lean, y - h);
  }
  ctx.globalAlpha = 0.8;
  pen.line(1.1 * pen.weight, INK.grass);
  ctx.globalAlpha = 1;
}

/** Boundary between two soils: a slow uneven line. */
function seam(width: number, y: number, seed: number): Spot[] {
  const points: Spot[] = [];
  for (let x = -10; x <= width + 20; x += 10) {
    const wave = Math.sin(x / 140 + seed) * 9 + Math.sin(x / 53 + seed * 3) * 4;
    points.push({ x, y: y + wave });
  }
  return points;
}

function paintSoil(pen: Pen, yard: YardLayout): void {
  const { cut, frostY } = yard.ground;
  const { width, height } = yard;
  const depth = height - frostY;
  const tops = [cut, frostY + depth * 0.3, frostY + depth * 0.72];
  INK.soils.forEach((soil, k) => {
    const top =
      k === 0
        ? [
            { x: -10, y: cut },
            { x: width + 20, y: cut },
          ]
        : seam(width, tops[k]!, k * 1.7);
    const area = [...top, { x: width + 20, y: height + 10 }, { x: -10, y: height + 10 }];
    pen.shape(area, soil, 0);
    pen.within(area, () => hatch(pen, k, { x: 0, y: tops[k]! - 16, w: width, h: height }));
    if (k > 0) pen.stroke(top, 1, 'rgba(38,40,43,0.28)');
  });
  topsoil(pen, yard);
}

/** Dark crumbly top layer under the turf, then the cut edge itself. */
function topsoil(pen: Pen, yard: YardLayout): void {
  const { cut } = yard.ground;
  const { ctx } = pen;
  const low = seam(yard.width, cut + 15 * pen.weight, 0.9).map((p) => ({
    x: p.x,
    y: (p.y + cut + 15 * pen.weight) / 2,
  }));
  pen.shape([{ x: -10, y: cut }, ...low, { x: yard.width + 20, y: cut }], '#A8916B', 0);
  ctx.beginPath();
  for (let k = 0; k < yard.width / 7; k++) {
    const x = k * 7 + scatter(k) * 6;
    const y = cut + 3 + scatter(k + 300) * 10 * pen.weight;
    ctx.moveTo(x, y);
    ctx.lineTo(x + 2 + scatter(k + 5) * 5, y + 4);
  }
  pen.line(1, 'rgba(38,40,43,0.35)');
  pen.stroke(
    [
      { x: -4, y: cut },
      { x: yard.width + 4, y: cut },
    ],
    LINE.body * pen.weight * 0.8,
  );
  edgeGrass(pen, yard.width, cut - 1, 0.8);
}

/** One pattern a soil: slanting dashes, then clay strokes, then stones. */
function hatch(pen: Pen, kind: number, area: { x: number; y: number; w: number; h: number }): void {
  const { ctx } = pen;
  const pitch = [15, 21, 30][kind]! * Math.sqrt(pen.weight);
  ctx.beginPath();
  const limit = area.y + area.h;
  for (let y = area.y, row = 0; y < limit; y += pitch, row++) {
    for (let x = -(row % 2) * pitch * 0.5, k = 0; x < area.w + pitch; x += pitch * 1.5, k++) {
      const seed = row * 977 + k * 13 + kind * 7919;
      mark(ctx, kind, {
        x: x + scatter(seed) * pitch * 0.8,
        y: y + scatter(seed + 5) * pitch * 0.7,
      });
    }
  }
  pen.line(1, 'rgba(70,58,36,0.26)');
}

function mark(ctx: CanvasRenderingContext2D, kind: number, at: Spot): void {
  ctx.moveTo(at.x, at.y);
  if (kind === 0) ctx.lineTo(at.x + 4, at.y - 5);
  else if (kind === 1) ctx.quadraticCurveTo(at.x + 5, at.y - 2.5, at.x + 10, at.y);
  else {
    ctx.moveTo(at.x + 6, at.y);
    ctx.ellipse(at.x, at.y, 6, 3.6, scatter(at.x | 0) * 3, 0, 2 * Math.PI);
  }
}

function paintFrost(pen: Pen, yard: YardLayout): void {
  const { ctx } = pen;
  const y = yard.ground.frostY;
  ctx.setLineDash([2, 7]);
  pen.stroke(
    [
      { x: 0, y },
      { x: yard.width, y },
    ],
    1.8 * pen.weight,
    '#4E6F86',
  );
  ctx.setLineDash([]);
  // Small frost stars sit on the line, so that it is not told by its colour alone.
  const star = 4.2 * pen.weight;
  for (let x = 34; x < yard.width - 320 * Math.sqrt(pen.weight); x += 210) {
    ctx.beginPath();
    for (let k = 0; k < 3; k++) {
      const a = (k * Math.PI) / 3 + Math.PI / 6;
      ctx.moveTo(x - Math.cos(a) * star, y - Math.sin(a) * star);
      ctx.lineTo(x + Math.cos(a) * star, y + Math.sin(a) * star);
    }
    pen.line(1.5 * pen.weight, '#4E6F86');
  }
}

export function paintLand(pen: Pen, yard: YardLayout): void {
  paintSky(pen, yard);
  paintClouds(pen, yard);
  paintMoor(pen, yard);
  paintTurf(pen, yard);
  paintSoil(pen, yard);
  paintFrost(pen, yard);
}
