// The house at the edge of the yard, its wall cut open to the plant room.
import type { YardLayout } from '../yard/layout.ts';
import type { Area, Pen } from './pen.ts';
import { INK, LINE, scatter } from './tokens.ts';

function paintWall(pen: Pen, area: Area): void {
  const { ctx } = pen;
  pen.box(area, INK.wall, 0, LINE.body * pen.weight * 0.8);
  const skin = area.w * 0.36;
  const course = 13 * pen.weight;
  ctx.save();
  ctx.beginPath();
  ctx.rect(area.x, area.y, skin, area.h);
  ctx.clip();
  ctx.fillStyle = INK.brick;
  ctx.fillRect(area.x, area.y, skin, area.h);
  ctx.beginPath();
  for (let y = area.y; y < area.y + area.h; y += course) {
    ctx.moveTo(area.x, y);
    ctx.lineTo(area.x + skin, y);
  }
  pen.line(1, 'rgba(38,40,43,0.55)');
  ctx.restore();
  // The insulation's wave fills the rest of the cut wall.
  ctx.beginPath();
  const mid = area.x + skin + (area.w - skin) / 2;
  const swing = (area.w - skin) / 2 - 3;
  const n = Math.floor(area.h / 9);
  ctx.moveTo(mid - swing, area.y + 5);
  for (let k = 0; k < n; k++) {
    const y = area.y + 5 + k * 9;
    const side = k % 2 === 0 ? 1 : -1;
    ctx.quadraticCurveTo(
      mid + side * swing * 1.5,
      y + 4.5,
      mid + (k % 2 === 0 ? 1 : -1) * swing * 0.2,
      y + 9,
    );
  }
  pen.line(1, 'rgba(38,40,43,0.5)');
  const x = area.x + skin;
  pen.stroke(
    [
      { x, y: area.y },
      { x, y: area.y + area.h },
    ],
    1.4,
  );
}

function paintRoof(pen: Pen, yard: YardLayout): void {
  const { house } = yard;
  const over = 34 * Math.sqrt(pen.weight);
  const rise = 58 * Math.sqrt(pen.weight);
  const far = yard.width + 40;
  const y = house.y;
  pen.shape(
    [
      { x: house.x - over, y: y - 2 },
      { x: house.x - over + 6, y: y - 15 },
      { x: far, y: y - rise - 15 },
      { x: far, y: y - 2 },
    ],
    INK.shade,
    LINE.body * pen.weight * 0.8,
  );
  const { ctx } = pen;
  ctx.beginPath();
  for (let k = 0; k < 12; k++) {
    const x = house.x - over + 24 + k * 24;
    const top = y - 15 - ((x - house.x + over) / (far - house.x + over)) * rise;
    ctx.moveTo(x, top + 4);
    ctx.lineTo(x, Math.min(y - 5, top + 10 + scatter(k) * 16));
  }
  pen.line(1, 'rgba(38,40,43,0.4)');
  pen.box({ x: house.x - over + 2, y: y - 4, w: over + house.wall + 6, h: 9 }, INK.paper, 3);
}

/** The unit waits with both its pipe tails capped: nothing is coupled to it. */
function paintUnit(pen: Pen, yard: YardLayout, unit: Area): void {
  const { ctx } = pen;
  const foot = yard.ground.house;
  pen.box(
    { x: unit.x - 8, y: unit.y + unit.h + 8, w: unit.w + 16, h: foot - unit.y - unit.h - 9 },
    INK.shade,
    2,
  );
  pen.box(unit, INK.paper, 8, LINE.body * pen.weight * 0.8);
  pen.box({ x: unit.x + 9, y: unit.y + 9, w: unit.w - 18, h: unit.h * 0.42 }, INK.shade, 5, 1.3);
  ctx.beginPath();
  for (let k = 0; k < 5; k++) {
    const y = unit.y + unit.h * 0.62 + k * unit.h * 0.07;
    ctx.moveTo(unit.x + 18, y);
    ctx.lineTo(unit.x + unit.w - 18, y);
  }
  pen.line(1.4, INK.faint);
  // A folded coil seen through the panel says what the unit is.
  ctx.beginPath();
  const { x, w } = unit;
  const top = unit.y + 9 + unit.h * 0.1;
  for (let k = 0; k < 3; k++) {
    const y = top + k * unit.h * 0.11;
    ctx.moveTo(x + 20, y);
    ctx.lineTo(x + w - 20, y);
    if (k < 2) {
      const right = k % 2 === 0;
      const cx = right ? x + w - 20 : x + 20;
      const r = unit.h * 0.055;
      ctx.moveTo(cx, y);
      ctx.arc(cx, y + r, r, -Math.PI / 2, Math.PI / 2, !right);
    }
  }
  pen.line(1.8 * Math.sqrt(pen.weight), INK.muted);
  for (const t of [0.62, 0.86])
    tail(pen, { x: unit.x, y: unit.y + unit.h * t, w: 20 * Math.sqrt(pen.weight) });
}

function tail(pen: Pen, at: { x: number; y: number; w: number }): void {
  const thick = 9 * Math.sqrt(pen.weight);
  pen.box({ x: at.x - at.w, y: at.y - thick / 2, w: at.w, h: thick }, INK.pipe, 0, 1.6);
  pen.box({ x: at.x - at.w - 6, y: at.y - thick / 2 - 3, w: 7, h: thick + 6 }, INK.accent, 2, 1.6);
}

function paintTap(pen: Pen, at: { x: number; y: number }): void {
  const s = Math.sqrt(pen.weight);
  pen.box({ x: at.x - 12 * s, y: at.y - 5 * s, w: 14 * s, h: 9 * s }, INK.steel, 2, 1.6);
  pen.box({ x: at.x - 20 * s, y: at.y - 4 * s, w: 9 * s, h: 14 * s }, INK.steel, 2, 1.6);
  // The vacuum breaker under the spout guards the mains against what is in the tank.
  pen.box({ x: at.x - 22 * s, y: at.y + 8 * s, w: 13 * s, h: 10 * s }, INK.board, 2, 1.6);
  pen.stroke(
    [
      { x: at.x - 15 * s, y: at.y - 6 * s },
      { x: at.x - 15 * s, y: at.y - 11 * s },
    ],
    2,
  );
  pen.stroke(
    [
      { x: at.x - 22 * s, y: at.y - 12 * s },
      { x: at.x - 8 * s, y: at.y - 12 * s },
    ],
    3.4,
  );
}

export function paintHouse(pen: Pen, yard: YardLayout): void {
  const { house } = yard;
  const { ctx } = pen;
  const base = yard.ground.house;
  const room = {
    x: house.x + house.wall,
    y: house.y,
    w: house.w - house.wall + 10,
    h: base - house.y,
  };
  ctx.fillStyle = INK.room;
  ctx.fillRect(room.x, room.y, room.w, room.h);
  const foot = {
    x: house.x - 9,
    y: base - 3,
    w: yard.width,
    h: (base < yard.ground.front ? 0 : yard.ground.cut - base) + 24 * pen.weight,
  };
  pen.box(foot, INK.soils[2], 0, LINE.pipe * pen.weight);
  ctx.beginPath();
  for (let k = 0; k < 60; k++) {
    const x = foot.x + 6 + scatter(k + 11) * (foot.w - 10);
    const y = foot.y + 6 + scatter(k + 77) * (foot.h - 12);
    ctx.moveTo(x + 3, y);
    ctx.arc(x, y, 2 + scatter(k) * 2, 0, 2 * Math.PI);
  }
  pen.line(1, 'rgba(38,40,43,0.35)');
  paintWall(pen, { x: house.x, y: house.y - 4, w: house.wall, h: base - house.y + 1 });
  paintRoof(pen, yard);
  if (house.unit !== null) paintUnit(pen, yard, house.unit);
  for (const tap of house.taps) paintTap(pen, tap);
}
