// Things that turn: needles and the impeller; and the mark of the hand at work.
import type { GameObjects } from 'phaser';
import type { HandsSeen, PumpSeen, Reading } from '../../sim/index.ts';
import type { Box, DialMark, Point, PumpMark } from '../yard/layout.ts';
import type { Frame } from './live-tones.ts';
import { Needle } from './motion.ts';
import { INK, num } from './tokens.ts';

type Graphics = GameObjects.Graphics;

const PAPER = num(INK.paper);
const EDGE = num(INK.ink);
const ACCENT = num(INK.accent);
const WATER = num(INK.water);
const STEEL = num(INK.steelLight);

type Thick = readonly [number, number];

export function capsule(g: Graphics, a: Point, b: Point, [w, color]: Thick): void {
  g.lineStyle(w, color, 1);
  g.lineBetween(a.x, a.y, b.x, b.y);
  g.fillStyle(color, 1);
  g.fillCircle(a.x, a.y, w / 2);
  g.fillCircle(b.x, b.y, w / 2);
}

export class LiveDial {
  readonly mark: DialMark;
  private readonly needle = new Needle();

  constructor(mark: DialMark) {
    this.mark = mark;
  }

  draw(g: Graphics, reading: Reading | undefined, frame: Frame, weight: number): void {
    const { mark } = this;
    const share = this.needle.follow(shareOf(reading, mark), frame.seconds, frame.still);
    const a = Math.PI * (0.75 + 1.5 * share);
    const r = mark.r - 5 * weight;
    const tip = { x: mark.x + Math.cos(a) * r * 0.86, y: mark.y + Math.sin(a) * r * 0.86 };
    const tail = { x: mark.x - Math.cos(a) * r * 0.24, y: mark.y - Math.sin(a) * r * 0.24 };
    const nx = -Math.sin(a) * 2.6 * weight;
    const ny = Math.cos(a) * 2.6 * weight;
    g.fillStyle(EDGE, 1);
    g.fillTriangle(tip.x, tip.y, mark.x + nx, mark.y + ny, mark.x - nx, mark.y - ny);
    g.fillTriangle(mark.x + nx, mark.y + ny, mark.x - nx, mark.y - ny, tail.x, tail.y);
    g.fillCircle(mark.x, mark.y, 4.4 * weight);
    g.fillStyle(PAPER, 1);
    g.fillCircle(mark.x, mark.y, 1.6 * weight);
  }
}

/** Share of the dial; a needle off the scale lies on its stop pin. */
function shareOf(reading: Reading | undefined, mark: DialMark): number {
  if (reading === undefined || !('off_scale' in reading) || reading.value === null) {
    // A water meter has no end of its scale: its pointer goes round and round.
    return reading?.kind === 'meter' ? (reading.value / mark.per / mark.full) % 1 : 0;
  }
  if (reading.off_scale < 0) return -0.03;
  if (reading.off_scale > 0) return 1.04;
  // A pressure dial is drawn from nothing on: suction lies on the pin.
  return Math.max(-0.03, (reading.value / mark.per - mark.from) / (mark.full - mark.from));
}

/** Turns a second drawn for a pump at full speed: slow enough that vanes are seen. */
const TURNS = 1.7;

export class LivePump {
  readonly mark: PumpMark;
  private turn = 0.3;

  constructor(mark: PumpMark) {
    this.mark = mark;
  }

  /** @param gas share of gas in the casing, or null where the lens does not show it */
  draw(
    g: Graphics,
    seen: PumpSeen,
    view: { frame: Frame; weight: number; gas: number | null },
  ): void {
    const { x, y, r } = this.mark;
    const { frame, weight: s, gas } = view;
    if (!frame.still) this.turn += frame.seconds * seen.speed * TURNS * 2 * Math.PI;
    const eye = r - 5 * s;
    g.fillStyle(gas === null ? STEEL : PAPER, 1);
    g.fillCircle(x, y, eye);
    if (gas !== null) waterInCircle(g, { x, y }, eye, gas);
    g.lineStyle(1.4 * s, EDGE, 1);
    g.strokeCircle(x, y, eye);
    this.vanes(g, eye, s);
    const lamp = {
      x: this.mark.motor.x + this.mark.motor.w * 0.4 + 13 * s,
      y: this.mark.motor.y - 5.5 * s,
    };
    // The rocker of the switch: raised to the right when on, to the left when off.
    g.fillStyle(seen.on ? ACCENT : EDGE, 1);
    const way = seen.on ? 1 : -1;
    g.fillTriangle(
      lamp.x - 8 * s * way,
      lamp.y + 3 * s,
      lamp.x + 8 * s * way,
      lamp.y + 3 * s,
      lamp.x + 8 * s * way,
      lamp.y - 4 * s,
    );
  }

  private vanes(g: Graphics, eye: number, s: number): void {
    const { x, y } = this.mark;
    g.lineStyle(2.6 * s, EDGE, 1);
    for (let k = 0; k < 6; k++) {
      const a0 = this.turn + (k * Math.PI) / 3;
      let px = x + Math.cos(a0) * eye * 0.24;
      let py = y + Math.sin(a0) * eye * 0.24;
      for (let n = 1; n <= 5; n++) {
        const t = n / 5;
        const rr = eye * (0.24 + 0.58 * t);
        const a = a0 - t * t * 0.95;
        const qx = x + Math.cos(a) * rr;
        const qy = y + Math.sin(a) * rr;
        g.lineBetween(px, py, qx, qy);
        px = qx;
        py = qy;
      }
    }
    g.fillStyle(EDGE, 1);
    g.fillCircle(x, y, eye * 0.22);
    g.fillStyle(PAPER, 1);
    g.fillCircle(x, y, eye * 0.09);
  }
}

/** Water lying in the lower part of a round casing, level. */
function waterInCircle(g: Graphics, at: Point, r: number, gas: number): void {
  const top = at.y + r - 2 * r * (1 - Math.min(1, Math.max(0, gas)));
  g.fillStyle(WATER, 1);
  const n = 24;
  for (let k = 0; k < n; k++) {
    const y0 = top + ((at.y + r - top) * k) / n;
    const y1 = top + ((at.y + r - top) * (k + 1)) / n;
    const half = Math.sqrt(Math.max(0, r * r - (y1 - at.y) * (y1 - at.y)));
    const wide = Math.max(half, Math.sqrt(Math.max(0, r * r - (y0 - at.y) * (y0 - at.y))));
    g.fillRect(at.x - wide, y0, wide * 2, y1 - y0 + 0.4);
  }
  if (gas > 0.02 && gas < 0.98) {
    const half = Math.sqrt(Math.max(0, r * r - (top - at.y) * (top - at.y)));
    g.lineStyle(1.6, EDGE, 1);
    g.lineBetween(at.x - half, top, at.x + half, top);
  }
}

/** A glove where the hand is at work. */
export function drawHand(g: Graphics, at: Point, weight: number): void {
  const s = weight;
  const finger = (dx: number, dy: number, long: number): void => {
    const a = { x: at.x + dx * s, y: at.y + dy * s };
    const b = { x: a.x, y: a.y - long * s };
    capsule(g, a, b, [7.4 * s, EDGE]);
    capsule(g, a, b, [4.8 * s, PAPER]);
  };
  finger(-8.5, 2, 9);
  finger(-3, 0, 13);
  finger(2.6, 0, 12.5);
  finger(8, 2, 9);
  const thumb = [
    { x: at.x - 9 * s, y: at.y + 11 * s },
    { x: at.x - 16 * s, y: at.y + 3 * s },
  ] as const;
  capsule(g, thumb[0], thumb[1], [8 * s, EDGE]);
  g.fillStyle(EDGE, 1);
  g.fillRoundedRect(at.x - 13.5 * s, at.y - 2 * s, 27 * s, 21 * s, 8 * s);
  g.fillStyle(PAPER, 1);
  g.fillRoundedRect(at.x - 12.1 * s, at.y - 3 * s, 24.2 * s, 20.4 * s, 7 * s);
  capsule(g, thumb[0], thumb[1], [5.2 * s, PAPER]);
  g.fillStyle(ACCENT, 1);
  g.fillRect(at.x - 11 * s, at.y + 16 * s, 22 * s, 6.5 * s);
  g.lineStyle(1.4 * s, EDGE, 1);
  g.strokeRect(at.x - 11 * s, at.y + 16 * s, 22 * s, 6.5 * s);
}

/** The control under the hand gets a glove; those that wait get a row of dots, one a place. */
export function drawHands(
  g: Graphics,
  hands: HandsSeen,
  boxes: ReadonlyMap<string, Box>,
  weight: number,
): void {
  const busy = hands.busy === null ? undefined : boxes.get(hands.busy);
  if (busy !== undefined) {
    drawHand(g, { x: busy.x + busy.w * 0.74, y: busy.y + busy.h * 0.72 }, weight);
  }
  hands.waiting.forEach((id, k) => {
    const box = boxes.get(id);
    if (box === undefined) return;
    const y = box.y + box.h - 3 * weight;
    for (let n = 0; n <= k && n < 6; n++) {
      const x = box.x + box.w / 2 + (n - Math.min(k, 5) / 2) * 9 * weight;
      g.fillStyle(EDGE, 1);
      g.fillCircle(x, y, 4 * weight);
      g.fillStyle(ACCENT, 1);
      g.fillCircle(x, y, 2.6 * weight);
    }
  });
}

/** Ring of corners around the control that is focused or under the pointer. */
export function drawHot(g: Graphics, box: Box, weight: number): void {
  const arm = Math.min(box.w, box.h) * 0.24;
  g.lineStyle(3 * weight, ACCENT, 1);
  const { x, y, w, h } = box;
  for (const [cx, cy, dx, dy] of [
    [x, y, 1, 1],
    [x + w, y, -1, 1],
    [x, y + h, 1, -1],
    [x + w, y + h, -1, -1],
  ] as const) {
    g.lineBetween(cx, cy, cx + dx * arm, cy);
    g.lineBetween(cx, cy, cx, cy + dy * arm);
  }
}
