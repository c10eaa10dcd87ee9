// The inside of pipes, redrawn every frame: water, air as a layer under the crown or as slugs,
// bubbles, and dashes that run with the water. Shows only what the lens hands over.
import type { GameObjects } from 'phaser';
import type { Conduit, PathPoint } from '../yard/layout.ts';
import { Drift } from './motion.ts';
import { edge, quad } from './live-ribbon.ts';
import * as tone from './live-tones.ts';
import type { Frame, Inside } from './live-tones.ts';
import { scatter } from './tokens.ts';

type Graphics = GameObjects.Graphics;

interface Spot {
  x: number;
  y: number;
  nx: number;
  ny: number;
  crown: number;
  gas: number;
}

/** One pipe's inside. Keeps its phase and scratch arrays, so that a frame allocates little. */
export class LivePipe {
  readonly conduit: Conduit;
  private readonly drift = new Drift();
  private readonly bubbleDrift = new Drift();
  private readonly layer: Float64Array;
  private readonly weight: number;
  private readonly dash_m: number;
  private readonly bubble_m: number;
  private readonly colors: Int32Array;

  constructor(conduit: Conduit, weight: number) {
    this.conduit = conduit;
    this.weight = weight;
    const { points, length_m } = conduit;
    this.layer = new Float64Array(points.length);
    let units = 0;
    for (let i = 1; i < points.length; i++) {
      units += Math.hypot(points[i]!.x - points[i - 1]!.x, points[i]!.y - points[i - 1]!.y);
    }
    const perMetre = units / length_m;
    this.dash_m = (tone.DASH_UNITS * Math.sqrt(weight)) / perMetre;
    this.bubble_m = (tone.BUBBLE_UNITS * weight) / perMetre;
    this.colors = new Int32Array(tone.BANDS);
  }

  /** Water turns from supply to return hue over the middle of a circuit. */
  private hue(along: number): number {
    const { side, share } = this.conduit;
    if (side === 'return') return tone.BACK;
    if (share === undefined) return tone.WATER;
    const at = share[0] + (share[1] - share[0]) * along;
    const t = Math.min(1, Math.max(0, (at - 0.4) / 0.2));
    return tone.mixColor(tone.WATER, tone.BACK, t);
  }

  private gasAt(gas: readonly number[], s: number): number {
    const n = gas.length;
    const x = (s / this.conduit.length_m) * n - 0.5;
    const i = Math.min(n - 1, Math.max(0, Math.floor(x)));
    const j = Math.min(n - 1, i + 1);
    const t = Math.min(1, Math.max(0, x - i));
    return gas[i]! * (1 - t) + gas[j]! * t;
  }

  /** Thickness of the gas at a point, as a share of the bore. */
  private thickness(gas: readonly number[], p: PathPoint): number {
    if (!p.steep) {
      const g = this.gasAt(gas, p.s);
      const grown = Math.min(
        1,
        Math.max(0, (g - tone.LAYER_FROM) / (tone.LAYER_FULL - tone.LAYER_FROM)),
      );
      return g >= tone.FULL ? 1 : g * grown;
    }
    const n = gas.length;
    const x = Math.min(n - 1e-6, Math.max(0, (p.s / this.conduit.length_m) * n));
    const i = Math.floor(x);
    const g = gas[i]!;
    if (g >= tone.FULL) return 1;
    if (g < tone.LAYER_FROM) return 0;
    const u = (x - i - 0.5) / (g / 2);
    return Math.abs(u) >= 1 ? 0 : 0.96 * Math.sqrt(1 - u * u * u * u);
  }

  draw(g: Graphics, inside: Inside, frame: Frame): void {
    const { points } = this.conduit;
    for (let i = 0; i < points.length; i++) this.layer[i] = this.thickness(inside.gas, points[i]!);
    this.paintHues(inside);
    this.water(g);
    this.air(g);
    this.surface(g);
    const run = inside.velocity * frame.seconds * frame.speed;
    if (frame.still) this.arrows(g, inside);
    else this.dashes(g, inside, this.drift.advance(run / this.dash_m));
    this.bubbles(g, inside, frame.still ? 0 : this.bubbleDrift.advance(run / this.bubble_m));
  }

  private paintHues(inside: Inside): void {
    for (let b = 0; b < tone.BANDS; b++) {
      const share = (b + 0.5) / tone.BANDS;
      let color = this.hue(share);
      if (inside.antifreeze !== null && inside.antifreeze.length > 0) {
        const n = inside.antifreeze.length;
        const x = inside.antifreeze[Math.min(n - 1, Math.floor(share * n))]!;
        if (x > 0.002) color = tone.mixColor(color, tone.MIX, Math.min(0.9, x / 0.3));
      }
      this.colors[b] = color;
    }
  }

  private band(s: number): number {
    return Math.min(tone.BANDS - 1, Math.floor((s / this.conduit.length_m) * tone.BANDS));
  }

  private water(g: Graphics): void {
    const { points, width } = this.conduit;
    const h = width / 2;
    let color = -1;
    for (let i = 1; i < points.length; i++) {
      const a = points[i - 1]!;
      const b = points[i]!;
      if (this.layer[i]! >= tone.FULL && this.layer[i - 1]! >= tone.FULL) continue;
      const next = this.colors[this.band(b.s)]!;
      if (next !== color) {
        color = next;
        g.fillStyle(color, 1);
      }
      quad(g, a, b, [-h, h, -h, h]);
    }
  }

  private air(g: Graphics): void {
    const { points, width } = this.conduit;
    const h = width / 2;
    g.fillStyle(tone.PAPER, 1);
    for (let i = 1; i < points.length; i++) {
      const t0 = this.layer[i - 1]!;
      const t1 = this.layer[i]!;
      if (t0 < 0.01 && t1 < 0.01) continue;
      const a = points[i - 1]!;
      const b = points[i]!;
      const o0 = h * (1 - t0) * a.crown;
      const o1 = h * (1 - t1) * b.crown;
      quad(g, a, b, [o0 - h * t0, o0 + h * t0, o1 - h * t1, o1 + h * t1]);
    }
  }

  /** The ink line between air and water. */
  private surface(g: Graphics): void {
    const { points, width } = this.conduit;
    const h = width / 2;
    g.lineStyle(1.3 * Math.sqrt(this.weight), tone.EDGE, 1);
    for (let i = 1; i < points.length; i++) {
      const t0 = this.layer[i - 1]!;
      const t1 = this.layer[i]!;
      if (Math.max(t0, t1) < 0.02 || Math.min(t0, t1) > tone.FULL - 0.005) continue;
      const a = points[i - 1]!;
      const b = points[i]!;
      const o0 = h * (1 - t0) * a.crown;
      const o1 = h * (1 - t1) * b.crown;
      edge(g, a, b, [o0 - h * t0, o1 - h * t1]);
      if (a.crown < 0.97) edge(g, a, b, [o0 + h * t0, o1 + h * t1]);
    }
  }

  /** The place `s` metres along, with the gas share there. */
  private spot(inside: Inside, s: number): Spot {
    const { points } = this.conduit;
    const lo = this.index(s);
    const hi = Math.min(points.length - 1, lo + 1);
    const a = points[lo]!;
    const b = points[hi]!;
    const t = b.s > a.s ? Math.min(1, Math.max(0, (s - a.s) / (b.s - a.s))) : 0;
    return {
      x: a.x + (b.x - a.x) * t,
      y: a.y + (b.y - a.y) * t,
      nx: a.nx,
      ny: a.ny,
      crown: a.crown,
      gas: a.steep ? this.layer[t < 0.5 ? lo : hi]! : this.gasAt(inside.gas, s),
    };
  }

  private dashes(g: Graphics, inside: Inside, phase: number): void {
    const period = this.dash_m;
    const L = this.conduit.length_m;
    const shift = ((phase % 1) + 1) % 1;
    const w = 1.7 * this.weight;
    for (let s = shift * period; s < L; s += period) {
      const light = this.colors[this.band(s)]!;
      g.lineStyle(w, tone.dashColor(light), 0.85);
      this.dash(g, inside, s, 15 * Math.sqrt(this.weight));
    }
  }

  /** One dash from `s` back along the pipe, `long` units on the drawing. */
  private dash(g: Graphics, inside: Inside, s: number, long: number): void {
    const { points } = this.conduit;
    let i = this.index(s);
    let last = this.liquidCentre(inside, s);
    let left = long;
    while (left > 0 && i >= 0 && last !== null) {
      const next = this.liquidCentre(inside, points[i]!.s);
      if (next === null) return;
      const step = Math.hypot(next.x - last.x, next.y - last.y);
      const t = step > left ? left / step : 1;
      g.lineBetween(last.x, last.y, last.x + (next.x - last.x) * t, last.y + (next.y - last.y) * t);
      left -= step;
      last = next;
      i--;
    }
  }

  /** Number of the last point at or before `s`. */
  private index(s: number): number {
    const { points } = this.conduit;
    let lo = 0;
    let hi = points.length - 1;
    while (hi - lo > 1) {
      const mid = (lo + hi) >> 1;
      if (points[mid]!.s <= s) lo = mid;
      else hi = mid;
    }
    return lo;
  }

  /** Middle of the water at `s`, or null where there is too little of it. */
  private liquidCentre(inside: Inside, s: number): { x: number; y: number } | null {
    const p = this.spot(inside, s);
    if (p.gas > 0.62) return null;
    const thick = p.gas < tone.LAYER_FROM ? 0 : p.gas;
    const o = (-thick * this.conduit.width * p.crown) / 2;
    return { x: p.x + p.nx * o, y: p.y + p.ny * o };
  }

  /** Motion switched off: arrows as long as the water is fast. */
  private arrows(g: Graphics, inside: Inside): void {
    const v = inside.velocity;
    if (Math.abs(v) < 0.01) return;
    const period = this.dash_m * 2.4;
    const reach = this.dash_m * Math.min(1.6, 0.3 + Math.abs(v));
    for (let s = period / 2; s < this.conduit.length_m; s += period) {
      const tail = this.liquidCentre(inside, s);
      const tip = this.liquidCentre(inside, Math.min(this.conduit.length_m, s + reach));
      if (tail === null || tip === null) continue;
      const [a, b] = v > 0 ? [tail, tip] : [tip, tail];
      const angle = Math.atan2(b.y - a.y, b.x - a.x);
      g.lineStyle(1.7 * this.weight, tone.dashColor(this.colors[this.band(s)]!), 0.9);
      g.lineBetween(a.x, a.y, b.x, b.y);
      const barb = 5 * this.weight;
      for (const turn of [2.6, -2.6]) {
        g.lineBetween(
          b.x,
          b.y,
          b.x + Math.cos(angle + turn) * barb,
          b.y + Math.sin(angle + turn) * barb,
        );
      }
    }
  }

  private bubbles(g: Graphics, inside: Inside, phase: number): void {
    const { gas } = inside;
    if (!gas.some((x) => x > 0.0003 && x < 0.6)) return;
    const pitch = this.bubble_m;
    const L = this.conduit.length_m;
    const first = Math.ceil(-phase);
    const h = this.conduit.width / 2;
    g.lineStyle(1, tone.EDGE, 0.9);
    g.fillStyle(tone.PAPER, 1);
    for (let k = first; (k + phase) * pitch < L; k++) {
      const s = (k + phase) * pitch;
      const n = gas.length;
      const share = gas[Math.min(n - 1, Math.floor((s / L) * n))]!;
      if (share < 0.0003 || share > 0.6) continue;
      const chance = Math.min(1, Math.sqrt(share / 0.07)) * (share > 0.2 ? 0.5 : 1);
      if (scatter(k) > chance) continue;
      const p = this.spot(inside, s);
      if (p.gas > 0.6) continue;
      const r = (0.9 + 2 * scatter(k + 5000) * Math.min(1, 0.25 + share / 0.05)) * this.weight;
      const layer = share < tone.LAYER_FROM ? 0 : share * 2 * h;
      const room = Math.max(0, h * 2 - layer - 2 * r - 2);
      const u = scatter(k + 9000);
      const o = h - layer - r - 1 - room * u * u;
      const off = o * p.crown + (1 - p.crown) * (u - 0.5) * room;
      const x = p.x + p.nx * off;
      const y = p.y + p.ny * off;
      g.fillCircle(x, y, r);
      if (r > 1.5 * this.weight) g.strokeCircle(x, y, r);
    }
  }
}
