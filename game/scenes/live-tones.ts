// Colours and sizes of what moves in a pipe.
import { INK, num } from './tokens.ts';

export const WATER = num(INK.water);
export const BACK = num(INK.back);
export const PAPER = num(INK.paper);
export const EDGE = num(INK.ink);
export const DEEP = num('#215069');
export const MIX = num(INK.antifreeze);

/** Below this share gas shows as bubbles only; a layer grows in above it. */
export const LAYER_FROM = 0.035;
export const LAYER_FULL = 0.09;
export const FULL = 0.985;
export const DASH_UNITS = 46;
export const BUBBLE_UNITS = 7;
export const BANDS = 16;

export function mixColor(a: number, b: number, t: number): number {
  const part = (shift: number): number => {
    const from = (a >> shift) & 255;
    const to = (b >> shift) & 255;
    return Math.round(from + (to - from) * t) << shift;
  };
  return part(16) | part(8) | part(0);
}

/** Paper on dark water, deep blue on light water. */
export function dashColor(water: number): number {
  const bright = ((water >> 16) & 255) * 0.3 + ((water >> 8) & 255) * 0.59 + (water & 255) * 0.11;
  return bright > 140 ? DEEP : PAPER;
}

export interface Frame {
  readonly seconds: number;
  readonly speed: number;
  readonly still: boolean;
}

/** What is known of a pipe's inside: gas share a cell along it, and how fast the water runs. */
export interface Inside {
  readonly gas: readonly number[];
  readonly antifreeze: readonly number[] | null;
  readonly velocity: number;
}
