// A liquid whose temperature changes: tables of it by temperature and mass fraction, its liquidus,
// and what ice does to its density and viscosity. Where the pipes lie is surroundings.ts's.
import { max, min } from '../base/math.ts';
import {
  freezePoint_C,
  fractionForFreezePoint,
  mixDensity,
  mixViscosity,
  type Fluid,
} from '../laws/antifreeze.ts';
import { ICE_DENSITY, plugFactor, slurryViscosity } from '../laws/heat.ts';
import type { Scenario } from '../scenario.ts';

/** C. Heat is counted from liquid at this temperature, so that even ice holds more than none. */
export const HEAT_ZERO = -150;
/** C. What a volume may show: heat of a trace of liquid is uncertain, and tables end. */
export const COLDEST = -60;
export const HOTTEST = 150;

export interface ThermalLink {
  readonly link: number;
  readonly soil: boolean;
  /** m, over the lagging; K m/W of wall and lagging. */
  readonly outside: number;
  readonly wall: number;
}

export interface Thermal {
  readonly spec: NonNullable<Scenario['heat']>;
  readonly fluid: Fluid;
  /** J/kg/K of water and, in a mixture, of antifreeze: linear by mass, see `heatCapacity`. */
  readonly water: number;
  readonly added: number;
  /** J/K beside the liquid, by node. */
  readonly metal: Float64Array;
  /** W/K to the air, by node; of tanks their surface. */
  readonly exposed: Float64Array;
  readonly links: readonly ThermalLink[];
  /** 1/K. By how much of itself the room of each volume grows. */
  readonly swell: Float64Array;
  readonly tables: Tables;
}

interface Tables {
  readonly density: Float64Array;
  readonly viscosity: Float64Array;
  /** Fraction that is left liquid, by temperature below 0 C. */
  readonly liquidus: Float64Array;
  readonly fractions: number;
}

const T_FROM = -40;
const T_STEPS = 280;
/** Per kelvin, and per mass fraction. */
const PER_K = 2;
const PER_X = 100;
const X_STEPS = 100;

/** Pure functions of the fluid alone, so every plan may share them. */
const known = new Map<Fluid, Tables>();

export function tablesOf(fluid: Fluid): Tables {
  const found = known.get(fluid);
  if (found !== undefined) return found;
  const fractions = fluid === 'none' ? 0 : X_STEPS;
  const list = (law: typeof mixDensity) =>
    Float64Array.from({ length: (T_STEPS + 1) * (fractions + 1) }, (_, i) => {
      const t = i % (T_STEPS + 1);
      return law(fluid, T_FROM + t / PER_K, (i - t) / (T_STEPS + 1) / PER_X);
    });
  const tables = {
    density: list(mixDensity),
    viscosity: list(mixViscosity),
    liquidus: Float64Array.from({ length: -T_FROM * PER_K + 1 }, (_, i) =>
      fractionForFreezePoint(fluid, T_FROM + i / PER_K),
    ),
    fractions,
  };
  known.set(fluid, tables);
  return tables;
}

/** Straight between the table's places, held at its ends. */
function at(table: Float64Array, fractions: number, t_C: number, x: number): number {
  const t = (min(max(t_C, T_FROM), T_FROM + T_STEPS / PER_K) - T_FROM) * PER_K;
  const i = t < T_STEPS ? t | 0 : T_STEPS - 1;
  const f = min(max(x * PER_X, 0), fractions);
  const j = f < fractions ? f | 0 : max(0, fractions - 1);
  const row = j * (T_STEPS + 1) + i;
  const low = table[row]! + (t - i) * (table[row + 1]! - table[row]!);
  if (f <= j) return low;
  const next = row + T_STEPS + 1;
  const high = table[next]! + (t - i) * (table[next + 1]! - table[next]!);
  return low + (f - j) * (high - low);
}

/** kg/m3 of liquid. */
export function liquidDensity({ tables }: Thermal, t_C: number, x: number): number {
  return at(tables.density, tables.fractions, t_C, x);
}

/** Pa s of liquid. */
export function liquidViscosity({ tables }: Thermal, t_C: number, x: number): number {
  return at(tables.viscosity, tables.fractions, t_C, x);
}

/** Mass fraction of the liquid that stands beside ice at t_C; 0 of water. */
export function liquidus({ tables }: Thermal, t_C: number): number {
  if (t_C >= 0) return 0;
  const t = max(0, (t_C - T_FROM) * PER_K);
  const last = tables.liquidus.length - 1;
  const i = t < last ? t | 0 : last - 1;
  return tables.liquidus[i]! + (t - i) * (tables.liquidus[i + 1]! - tables.liquidus[i]!);
}

/**
 * J/kg/K, linear between water and what makes a quarter of antifreeze right at the scenario's
 * temperature: within 2 % of [Melinder2010] to 0.4. Linear, so that liquids of one temperature
 * keep it as they mix: heat of mixing is left out.
 */
export function heatCapacity({ water, added }: Thermal, x: number): number {
  return water + x * (added - water);
}

/** C. Freezing point by the law; and the steps that find a temperature within a microkelvin. */
export const BISECTIONS = 28;
export const freezes = ({ fluid }: Thermal, x: number): number => freezePoint_C(fluid, x);

/** kg/m3 of a volume at t C with ice: ice takes more room than what it came from. */
export function slurryDensity(thermal: Thermal, t: number, x: number, ice: number): number {
  if (ice === 0) return liquidDensity(thermal, t, x);
  const liquid = liquidDensity(thermal, t, liquidus(thermal, t));
  return 1 / ((1 - ice) / liquid + ice / ICE_DENSITY);
}

/** Pa s: of the liquid that is left, thickened by its ice, beyond 25 to 30 % as good as stopped. */
export function slurryThickness(thermal: Thermal, t: number, x: number, ice: number): number {
  if (ice === 0) return liquidViscosity(thermal, t, x);
  const left = liquidus(thermal, t);
  const byVolume = (ice * slurryDensity(thermal, t, x, ice)) / ICE_DENSITY;
  return liquidViscosity(thermal, t, left) * slurryViscosity(byVolume) * plugFactor(ice);
}
