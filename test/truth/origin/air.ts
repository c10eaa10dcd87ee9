// Air in pipes and in water, for the expected values of cases.json. Nothing here is of sim/.
import { printed } from './printed.ts';
import { density, vapourPressure } from './water.ts';

const [ATM, BAR] = [101325, 1e5];
/** kg/mol of water; m3/mol of gas at 0 C and 1 atm; J/mol/K. */
const [M_WATER, NORMAL, R_GAS] = [0.0180153, 0.022414, 8.314463];

/** Segment of a unit circle filled to height h (0..2 radii): area and first moment to its level. */
function segment(h: number): { area: number; moment: number } {
  const steps = 4000;
  let [area, moment] = [0, 0];
  for (let k = 0; k < steps; k++) {
    const z = ((k + 0.5) * h) / steps;
    const strip = (2 * Math.sqrt(z * (2 - z)) * h) / steps;
    area += strip;
    moment += strip * (h - z);
  }
  return { area, moment };
}

/** Where a falling function of x crosses nothing. */
function root(f: (x: number) => number, lo: number, hi: number): number {
  let [a, b] = [lo, hi];
  for (let k = 0; k < 50; k++) {
    const mid = (a + b) / 2;
    if (f(mid) > 0) a = mid;
    else b = mid;
  }
  return a;
}

/**
 * A full pipe empties under a cavity, Benjamin 1968: no loss along the surface, u2^2 = 2 g (D-h);
 * flow force the same before and behind. Radius 1, g 1. Flux of air over area and root of g D.
 */
function benjamin(): number {
  const flow = (h: number) => Math.sqrt(2 * (2 - h)) * segment(h).area;
  const surplus = (h: number) => {
    const { area, moment } = segment(h);
    const c = flow(h) / Math.PI;
    return Math.PI * (1 + (c * c) / 2) - (2 * (2 - h) * area + moment);
  };
  const h = root(surplus, 0.9, 1.4);
  const c = flow(h) / Math.PI;
  return (c / Math.sqrt(2)) * (1 - segment(h).area / Math.PI);
}

/** Thickness over the bore of a layer that takes the share alpha of a circle. */
const layer = ({ alpha }: { alpha: number }): number =>
  root((h) => alpha - segment(h).area / Math.PI, 0, 2) / 2;

/** 1e-6 mole fraction a bar, as printed for that temperature. */
const henry = (t_C: number): number => printed('NBS77A 3', `${t_C} C`)[0]!;

/** mol/m3 of air in water under p Pa. */
const dissolved = (t_C: number, p: number): number =>
  (henry(t_C) * 1e-6 * (p / BAR) * density(t_C)) / M_WATER;

interface Bubble {
  readonly d: number;
  readonly k_L: number;
  readonly p: number;
  readonly p_sat: number;
  readonly t: number;
}

/** s: amount p V/(R T), lost through the surface at k_L (c* - c): the radius falls evenly. */
function life({ d, k_L, p, p_sat, t }: Bubble): number {
  const lack = dissolved(t, p) - dissolved(t, p_sat);
  const inside = p / (R_GAS * (t + 273.15));
  return d / 2 / ((k_L * lack) / inside);
}

const radians = (deg: number): number => (deg * Math.PI) / 180;

interface At {
  readonly t: number;
  readonly p: number;
}

/** g/mol. */
const MOLAR: Readonly<Record<string, number>> = { propylene_glycol: 76.09, methanol: 32.04 };

export const AIR = {
  'air.benjamin': benjamin,
  'air.layer': layer,
  /** Bendiksen 1984: 0.54 cos + 0.35 sin. */
  'air.bendiksen': ({ th_deg }: { th_deg: number }) =>
    0.54 * Math.cos(radians(th_deg)) + 0.35 * Math.sin(radians(th_deg)),
  /** Wisner, Mohsen and Kouwen 1975. */
  'air.wisner': ({ th_deg }: { th_deg: number }) =>
    0.825 + 0.25 * Math.sqrt(Math.sin(radians(-th_deg))),
  'air.dissolved_mol': ({ t, p }: At) => dissolved(t, p),
  'air.dissolved_mL': ({ t, p }: At) => 1e3 * NORMAL * dissolved(t, p),
  'air.ostwald': ({ t }: { t: number }) => (dissolved(t, ATM) * R_GAS * (t + 273.15)) / ATM,
  /** mL of normal air a litre that moist air over water lets go between two temperatures. */
  'air.warming_mL': ({ t0, t1 }: { t0: number; t1: number }) => {
    const held = (t: number) => dissolved(t, ATM - vapourPressure(t));
    return 1e3 * NORMAL * (held(t0) - held(t1));
  },
  /** Normal litres between two pressures. */
  'air.uptake_L': (i: { V: number; p0: number; p1: number; t: number }) =>
    i.V * NORMAL * (dissolved(i.t, i.p1) - dissolved(i.t, i.p0)),
  /** The same of so many litres that were in balance with one bar. */
  'air.takes_L': (i: { litres: number; bar: number; t_C: number }) =>
    i.litres * NORMAL * (dissolved(i.t_C, i.bar * BAR) - dissolved(i.t_C, BAR)),
  /** mL of normal air a litre of water of 10 C lets go as it warms under moist air. */
  'air.outgassing_mL': ({ air_C }: { air_C: number }) => {
    const held = (t: number) => dissolved(t, ATM - vapourPressure(t));
    return 1e3 * NORMAL * (held(10) - held(air_C));
  },
  'air.life_s': life,
  /** A bubble of 1 mm, k_L 1e-4 m/s, in water in balance with one bar. */
  'air.bubble_s': ({ t_C, bar }: { t_C: number; bar: number }) =>
    life({ d: 0.001, k_L: 1e-4, p: bar * BAR, p_sat: BAR, t: t_C }),
  /** C: a dilute solution freezes 1.86 K lower for each mol a kg of water, Blagden and Raoult. */
  'air.freezes_C': ({ fluid, x }: { fluid: string; x: readonly number[] }) =>
    x.map((one) => (-1.86 * 1000 * one) / MOLAR[fluid]! / (1 - one)),
};
