// Water in the open: the tank with its level, bubbles and foam, the sight tube and its marker,
// water over the rim, the puddle it makes, and the waste container as it fills.
import type { GameObjects } from 'phaser';
import type { OutletSeen, TankSeen } from '../../sim/index.ts';
import type { OutletMark, TankMark, YardLayout } from '../yard/layout.ts';
import type { Frame } from './live-tones.ts';
import { INK, num, scatter } from './tokens.ts';

type Graphics = GameObjects.Graphics;

const WATER = num(INK.water);
const LIGHT = num(INK.back);
const PAPER = num(INK.paper);
const EDGE = num(INK.ink);
const ACCENT = num(INK.accent);
const L_PER_M3 = 1000;

export class LiveTank {
  readonly mark: TankMark;
  private readonly weight: number;
  private readonly plumeX: number;
  private rise = 0;
  private ripple = 0;

  constructor(mark: TankMark, yard: YardLayout) {
    this.mark = mark;
    this.weight = yard.pipe;
    const drop = yard.conduits.find((c) => c.inTank && c.side === 'return');
    this.plumeX = drop?.points.at(-1)?.x ?? mark.x + mark.w / 2;
  }

  private yOf(level: number): number {
    const share = Math.min(1, Math.max(0, level / this.mark.height_m));
    return this.mark.y + this.mark.h * (1 - share);
  }

  draw(g: Graphics, seen: TankSeen, frame: Frame): void {
    const { mark } = this;
    const y = this.yOf(seen.level);
    const floor = mark.y + mark.h;
    const pace = Math.min(4, frame.speed);
    // Only what the lens reports ruffles the water: bubbles that break, water over the rim.
    const stir = Math.min(1, seen.fizz * 4000 + seen.overflow * 2000);
    if (!frame.still) {
      this.rise += frame.seconds * pace;
      this.ripple += frame.seconds * 3;
    }
    if (seen.level <= 0.001) return;
    const left = mark.x + 2;
    const width = mark.w - 4;
    const swell = stir * 2.4 * this.weight;
    g.fillStyle(WATER, 1);
    g.fillRect(left, y + swell, width, floor - y - swell - 1);
    this.surface(g, { x: left, w: width }, y, swell);
    this.waves(g, { x: left, w: width }, y, floor);
    this.bubbles(g, seen, y, floor);
    this.foam(g, seen, y);
  }

  private surface(g: Graphics, span: { x: number; w: number }, y: number, swell: number): void {
    const n = 28;
    const at = (k: number): number =>
      y + swell * Math.sin(k * 1.1 + this.ripple * 2) * 0.5 + swell * 0.5;
    for (let k = 0; k < n; k++) {
      const x0 = span.x + (span.w * k) / n;
      const x1 = span.x + (span.w * (k + 1)) / n;
      const y0 = at(k);
      const y1 = at(k + 1);
      g.fillStyle(WATER, 1);
      g.fillTriangle(x0, y0, x1, y1, x1, y + swell + 1);
      g.fillTriangle(x0, y0, x1, y + swell + 1, x0, y + swell + 1);
      g.lineStyle(2 * this.weight, EDGE, 1);
      g.lineBetween(x0, y0, x1, y1);
    }
  }

  /** The pattern that stands for water: rows of short waves, still while the water is still. */
  private waves(g: Graphics, span: { x: number; w: number }, y: number, floor: number): void {
    const pitch = 22 * this.weight;
    const long = 13 * this.weight;
    g.lineStyle(1.2 * this.weight, LIGHT, 0.75);
    for (let row = 0; floor - 12 - row * pitch > y + 12; row++) {
      const wy = floor - 12 * this.weight - row * pitch;
      const from = span.x + 10 + (row % 2) * pitch * 0.9;
      for (let x = from; x < span.x + span.w - long - 6; x += pitch * 1.9) {
        wavelet(g, x, wy, long);
      }
    }
  }

  private bubbles(g: Graphics, seen: TankSeen, y: number, floor: number): void {
    const count = Math.round(seen.bubbles * 70);
    const depth = floor - y;
    if (count === 0 || depth < 8) return;
    g.lineStyle(1.1 * this.weight, EDGE, 1);
    g.fillStyle(PAPER, 1);
    for (let k = 0; k < count; k++) {
      const r = (1.6 + scatter(k * 7 + 3) * 3.6) * this.weight;
      const pace = 0.25 + r * 0.05;
      const t = (scatter(k * 7 + 1) + this.rise * pace) % 1;
      const from = Math.min(floor - 8, Math.max(y + 10, floor - depth * 0.2));
      const by = from - (from - y - r) * t;
      const spread = (0.12 + 0.3 * t) * this.mark.w;
      const sway = Math.sin(t * 9 + k) * 3 * this.weight;
      const x = this.plumeX + (scatter(k * 7 + 2) - 0.4) * spread + sway;
      const inside = Math.min(this.mark.x + this.mark.w - 8, Math.max(this.mark.x + 8, x));
      g.fillCircle(inside, by, r);
      g.strokeCircle(inside, by, r);
    }
  }

  /** Bubbles that break the surface leave a fringe of foam. */
  private foam(g: Graphics, seen: TankSeen, y: number): void {
    const count = Math.min(26, Math.round(seen.fizz * 90000));
    g.lineStyle(1 * this.weight, EDGE, 1);
    g.fillStyle(PAPER, 1);
    for (let k = 0; k < count; k++) {
      const away = (scatter(k * 11) - 0.42) * this.mark.w * 0.62;
      const x = Math.min(
        this.mark.x + this.mark.w - 8,
        Math.max(this.mark.x + 8, this.plumeX + away),
      );
      const r = (1.4 + scatter(k * 11 + 4) * 2.2) * this.weight;
      g.fillCircle(x, y - r * 0.4, r);
      g.strokeCircle(x, y - r * 0.4, r);
    }
  }

  /** The tube stands in front of the tank and shows the same level; the marker stays where put. */
  drawTube(g: Graphics, seen: TankSeen): void {
    const { mark } = this;
    if (mark.level === null) return;
    const s = this.weight;
    const y = this.yOf(seen.level);
    const floor = mark.y + mark.h - 10 * s;
    const half = 6 * s - 1;
    g.fillStyle(PAPER, 1);
    g.fillRect(mark.tubeX - half, mark.y + 5, 2 * half, floor - mark.y - 5);
    if (y < floor) {
      g.fillStyle(WATER, 1);
      g.fillRect(mark.tubeX - half, y, 2 * half, floor - y);
      g.lineStyle(2 * s, EDGE, 1);
      g.lineBetween(mark.tubeX - half, y, mark.tubeX + half, y);
    }
  }

  drawMarker(g: Graphics, seen: TankSeen): void {
    if (seen.mark === null || this.mark.level === null) return;
    const s = this.weight;
    const y = this.yOf(seen.mark);
    const x = this.mark.tubeX;
    g.fillStyle(ACCENT, 1);
    g.fillTriangle(x - 18 * s, y - 7 * s, x - 18 * s, y + 7 * s, x - 5 * s, y);
    g.lineStyle(1.6 * s, EDGE, 1);
    g.strokeTriangle(x - 18 * s, y - 7 * s, x - 18 * s, y + 7 * s, x - 5 * s, y);
    g.lineStyle(2.2 * s, ACCENT, 1);
    g.lineBetween(x - 6 * s, y, x + 24 * s, y);
  }

  /** Water over the rim runs down the outside of both walls. */
  drawOverflow(g: Graphics, seen: TankSeen, ground: number): void {
    if (seen.overflow <= 1e-7) return;
    const { mark } = this;
    const s = this.weight;
    const thick = Math.min(9, 2.5 + seen.overflow * L_PER_M3 * 9) * s;
    for (const [x, way] of [
      [mark.x - 5 * s, -1],
      [mark.x + mark.w + 5 * s, 1],
    ] as const) {
      const outer = x + way * thick;
      g.fillStyle(WATER, 0.92);
      g.fillTriangle(x, mark.y - 3, outer, mark.y + 6, x, ground);
      g.fillTriangle(outer, mark.y + 6, outer, ground, x, ground);
      g.lineStyle(1.3 * s, EDGE, 0.9);
      g.lineBetween(outer, mark.y + 6, outer, ground);
      g.lineBetween(x - way * 6 * s, mark.y - 4 * s, outer, mark.y + 6);
      g.lineStyle(1.3 * s, PAPER, 0.9);
      const pitch = 26 * s;
      for (let y = mark.y + 12 + ((this.rise * 90) % pitch); y < ground - 10; y += pitch) {
        g.lineBetween(x + way * thick * 0.5, y, x + way * thick * 0.5, y + 9 * s);
      }
    }
  }
}

function wavelet(g: Graphics, x: number, y: number, long: number): void {
  const n = 6;
  for (let k = 0; k < n; k++) {
    const a = (k / n) * 2 * Math.PI;
    const b = ((k + 1) / n) * 2 * Math.PI;
    g.lineBetween(
      x + (long * k) / n,
      y - Math.sin(a) * long * 0.13,
      x + (long * (k + 1)) / n,
      y - Math.sin(b) * long * 0.13,
    );
  }
}

/** What has run onto the ground by the tank: area grows with the volume lost. */
export function drawPuddle(
  g: Graphics,
  { x, y, room }: { x: number; y: number; room: number },
  litres: number,
  weight: number,
): void {
  if (litres <= 0.01) return;
  const rx = Math.min(room / 2 - 6, Math.min(330, 18 + 46 * Math.sqrt(litres)) * Math.sqrt(weight));
  const ry = Math.min(15, 3.5 + rx * 0.06) * Math.sqrt(weight);
  const at = { x: Math.min(Math.max(x, rx + 6), room - rx - 6), y };
  g.fillStyle(WATER, 0.5); // Names that lie in the grass are read through it.
  g.fillEllipse(at.x, at.y, rx * 2, ry * 2, 48);
  g.lineStyle(1.6 * weight, EDGE, 1);
  g.strokeEllipse(at.x, at.y, rx * 2, ry * 2, 48);
  g.lineStyle(1.2 * weight, LIGHT, 0.9);
  for (const t of [-0.4, 0.1, 0.45]) {
    g.lineBetween(at.x + t * rx, at.y - ry * 0.2, at.x + (t + 0.16) * rx, at.y - ry * 0.2);
  }
}

/** The container under an open end: level by volume, brimming over once it is full. */
export function drawOutlet(
  g: Graphics,
  mark: OutletMark,
  seen: OutletSeen,
  drawn: { weight: number; time: number },
): void {
  const { drum } = mark;
  const s = drawn.weight;
  const share = Math.min(1, Math.max(0, seen.total / mark.room_m3));
  const y = drum.y + drum.h * (1 - share * 0.94) - 2;
  if (share > 0.001 && mark.goesTo !== 'ground') {
    g.fillStyle(WATER, 1);
    g.fillRect(drum.x + 2, y, drum.w - 4, drum.y + drum.h - y - 2);
    g.lineStyle(1.8 * s, EDGE, 1);
    g.lineBetween(drum.x + 2, y, drum.x + drum.w - 2, y);
    g.lineStyle(1.2 * s, LIGHT, 0.75);
    for (let wy = drum.y + drum.h - 12 * s; wy > y + 10 * s; wy -= 20 * s) {
      wavelet(g, drum.x + drum.w * 0.22, wy, 12 * s);
      wavelet(g, drum.x + drum.w * 0.58, wy - 8 * s, 12 * s);
    }
  }
  if (seen.rate <= 1e-6) return;
  stream(g, { x: mark.x, top: mark.y, foot: Math.max(y, mark.y + 4) }, seen.rate, drawn);
}

interface Fall {
  readonly x: number;
  readonly top: number;
  readonly foot: number;
}

/** A falling stream: as wide as the flow, with marks that fall. */
export function stream(
  g: Graphics,
  fall: Fall,
  rate: number,
  drawn: { weight: number; time: number },
): void {
  const s = drawn.weight;
  const half = Math.min(7, 1.6 + rate * L_PER_M3 * 9) * s;
  g.fillStyle(WATER, 0.95);
  g.fillRect(fall.x - half, fall.top, 2 * half, fall.foot - fall.top);
  g.lineStyle(1.2 * s, EDGE, 0.9);
  g.lineBetween(fall.x - half, fall.top, fall.x - half, fall.foot);
  g.lineBetween(fall.x + half, fall.top, fall.x + half, fall.foot);
  g.lineStyle(1.3 * s, PAPER, 0.9);
  const pitch = 16 * s;
  for (let y = fall.top + ((drawn.time * 120) % pitch); y < fall.foot - 5; y += pitch) {
    g.lineBetween(fall.x, y, fall.x, y + 6 * s);
  }
}
