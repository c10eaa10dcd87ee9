// The four lenses on a world. `panel`: what gauges say. `scene`: what eyes and ears get.
// `xray`: the inside of every pipe, handed out only where the mode allows. `truth`: the books.
// All numbers SI, plain data, no words.

import type { DeviceKind } from './scenario-devices.ts';

export const SIGHTS = ['empty', 'slugs', 'bubbles', 'haze', 'clear'] as const;
export type Sight = (typeof SIGHTS)[number];
export const GRITS = ['none', 'some', 'much'] as const;
export type Grit = (typeof GRITS)[number];
export const NOTES = ['off', 'steady', 'gassy', 'locked', 'starved', 'dry'] as const;
export type Note = (typeof NOTES)[number];

export type Reading =
  /** Gauge pressure, Pa; `off_scale` -1 below, 1 above the dial, 0 on it; `from` where a compound
   *  gauge begins. */
  | {
      readonly id: string;
      readonly kind: 'pressure';
      readonly value: number;
      readonly range: number;
      readonly from?: number;
      readonly off_scale: -1 | 0 | 1;
    }
  /** m3/s as the meter shows it. */
  | {
      readonly id: string;
      readonly kind: 'flow';
      readonly value: number;
      readonly range: number;
      readonly off_scale: -1 | 0 | 1;
    }
  /** Pa that one place stands above another, both at one height; as a gauge's dial. */
  | {
      readonly id: string;
      readonly kind: 'difference';
      readonly value: number;
      readonly range: number;
      readonly off_scale: -1 | 0 | 1;
    }
  /** m3 that have passed, on a counter. */
  | { readonly id: string; readonly kind: 'meter'; readonly value: number }
  /** m above the tank floor, rounded to the scale's division. */
  | {
      readonly id: string;
      readonly kind: 'level';
      readonly value: number;
      readonly range: number;
      readonly mark: number | null;
    }
  | {
      readonly id: string;
      readonly kind: 'sight';
      readonly value: Sight;
      readonly moving: -1 | 0 | 1;
      /** Grains that go by. */
      readonly grit: Grit;
    }
  | { readonly id: string; readonly kind: 'note'; readonly value: Note }
  /** A in the cord, or V at one of its ends. */
  | {
      readonly id: string;
      readonly kind: 'current' | 'voltage';
      readonly value: number;
      readonly range: number;
      readonly off_scale: -1 | 0 | 1;
    }
  | SampleReading;

/** Instruments with a needle, which may stick and be tapped. */
export const NEEDLES: readonly string[] = ['pressure', 'difference', 'flow', 'temperature'];

export function hasNeedle(kind: string): boolean {
  return NEEDLES.includes(kind);
}

/**
 * Of the sample in a cup, null while there is none. `density`: relative to water of 20 C;
 * `freeze`: C by a refractometer's scale; `index`: of refraction; `temperature`: C, also of a
 * thermometer in a pipe. `off_scale` -1 below the lower end of the range, 1 above the upper.
 */
export interface SampleReading {
  readonly id: string;
  readonly kind: 'density' | 'freeze' | 'index' | 'temperature';
  readonly value: number | null;
  readonly range: readonly [number, number];
  readonly off_scale: -1 | 0 | 1;
}

export interface Panel {
  readonly readings: readonly Reading[];
}

export interface ValveSeen {
  readonly id: string;
  readonly deg: number;
  readonly target_deg: number;
  /** How far its handle goes: 90, or 270 of a three-way valve. */
  readonly range_deg: number;
}
/** Two halves that hands join or part. */
export interface CouplingSeen {
  readonly id: string;
  readonly made: boolean;
  readonly wanted: boolean;
}
export interface PumpSeen {
  readonly id: string;
  readonly on: boolean;
  readonly wanted: boolean;
  readonly speed: number;
}
export interface TankSeen {
  readonly id: string;
  /** m; 0..height. */
  readonly level: number;
  readonly height: number;
  /** 0..1: how thick the liquid is with bubbles, as eyes judge it. */
  readonly bubbles: number;
  /** m3/s over the rim now; m3/s of air breaking the surface. */
  readonly overflow: number;
  /** m. Air that stands on the surface as foam, as a layer of its own. */
  readonly foam: number;
  readonly fizz: number;
  readonly mark: number | null;
}
/** Contents of a pipe or hose whose wall is clear: one number a cell, along from -> to. */
export interface ClearSeen {
  readonly id: string;
  readonly gas: readonly number[];
  readonly velocity: number;
}
/** Where liquid runs out in the open: m3/s now, and m3 so far. */
export interface OutletSeen {
  readonly id: string;
  readonly rate: number;
  readonly total: number;
}
/** A hand pump: strokes of the last command that are done, and that it asked for. */
export interface HandPumpSeen {
  readonly id: string;
  readonly strokes: number;
  readonly wanted: number;
}
/** What hands work that carries no fluid: where it stands and where it is to stand. */
export interface DeviceSeen {
  readonly id: string;
  readonly kind: DeviceKind;
  readonly position: number;
  readonly wanted: number;
  readonly last: number;
}
export interface HandsSeen {
  /** Control under the hand, and those waiting, in order. */
  readonly busy: string | null;
  readonly waiting: readonly string[];
}
export interface Scene {
  readonly valves: readonly ValveSeen[];
  readonly couplings: readonly CouplingSeen[];
  readonly pumps: readonly PumpSeen[];
  readonly tanks: readonly TankSeen[];
  readonly clear: readonly ClearSeen[];
  readonly outlets: readonly OutletSeen[];
  readonly devices: readonly DeviceSeen[];
  readonly hand_pumps: readonly HandPumpSeen[];
  readonly hands: HandsSeen;
  /** A second pair of hands; null where one works alone. */
  readonly helper: HandsSeen | null;
  /** s until hands are back; null while they are here. */
  readonly back_in_s: number | null;
  readonly over: boolean;
}

export interface Snapshot {
  readonly tick: number;
  readonly time_s: number;
  readonly panel: Panel;
  readonly scene: Scene;
}

export interface LinkInside {
  readonly id: string;
  /** Gas share of each cell along from -> to; one number for links without length. */
  readonly gas: readonly number[];
  /** Absolute pressure at the middle of each cell, Pa. */
  readonly pressure: readonly number[];
  readonly antifreeze: readonly number[];
  /** Air in solution, m3 at 1 atm in a m3 of liquid; empty where it is not followed. */
  readonly dissolved: readonly number[];
  /** C, and ice as a share of its mass, of each cell. */
  readonly temperature_C: readonly number[];
  readonly ice: readonly number[];
  /** kg of debris that move and that lie in each cell; of a link without length none. */
  readonly debris_moving: readonly number[];
  readonly debris_lying: readonly number[];
  /** m3/s and m/s along from -> to, at the middle. */
  readonly flow: number;
  readonly velocity: number;
}
export interface NodeInside {
  readonly id: string;
  /** kg of debris; in a tank what sank or floats lies. */
  readonly debris_moving: number;
  readonly debris_lying: number;
  readonly pressure: number;
  readonly gas: number;
  readonly antifreeze: number;
  /** As of a link; null where it is not followed. */
  readonly dissolved: number | null;
  readonly temperature_C: number;
  readonly ice: number;
}
export interface Xray {
  readonly links: readonly LinkInside[];
  readonly nodes: readonly NodeInside[];
}

export type * from './lens-truth.ts';
