// Water with antifreeze, by MASS fraction x and temperature in degrees Celsius. Below x = 0.02
// the laws pass smoothly into those of pure water, so that a trace makes no step. The fits end at
// x = 0.6: beyond, density and viscosity go on to those of the undiluted liquid and the rest is
// held. In temperature all are held from the freezing point to the end of the fit.
import { clamp, exp, log, max, min, smoothstep } from '../base/math.ts';
import { ZERO_C, type degC, type kg_m3, type m3 } from '../base/units.ts';
import {
  ethanol,
  ethylene_glycol,
  methanol,
  propylene_glycol,
  type FluidData,
} from './antifreeze-data.ts';
import { conductivity, density, heatCapacity, viscosity } from './water.ts';

export const ANTIFREEZES = ['propylene_glycol', 'ethanol', 'methanol', 'ethylene_glycol'] as const;
export type Antifreeze = (typeof ANTIFREEZES)[number];
/** What a loop may hold: an antifreeze in water, or plain water. */
export type Fluid = Antifreeze | 'none';

const DATA: Readonly<Record<Antifreeze, FluidData>> = {
  propylene_glycol,
  ethanol,
  methanol,
  ethylene_glycol,
};
/** Largest mass fraction of the published fits. */
const X_MAX = 0.6;
/** Mass fraction below which the mixture's law and water's are blended. */
const X_BLEND = 0.02;

type Table = 'density' | 'specific_heat' | 'conductivity' | 'ln_viscosity';

function polynomial(c: readonly number[], d: number): number {
  let sum = 0;
  for (let j = c.length - 1; j >= 0; j--) sum = sum * d + c[j]!;
  return sum;
}

/** sum C[i][j] (T-Tb)^i (x-xb)^j [Melinder2010], T held to its range; 0 <= x <= 0.6. */
function melinder(kind: Antifreeze, table: Table, t_C: degC, x: number): number {
  const f = DATA[kind];
  const T = clamp(t_C + ZERO_C, freezePoint_C(kind, x) + ZERO_C, f.Tmax_K) - f.Tbase_K;
  const rows = f[table];
  let sum = 0;
  for (let i = rows.length - 1; i >= 0; i--) sum = sum * T + polynomial(rows[i]!, x - f.xbase);
  return sum;
}

/** Weight of the mixture's law against water's, 0..1. */
function weight(x: number): number {
  return smoothstep(x / X_BLEND);
}

/** kg/m3 of the undiluted antifreeze, straight in temperature. */
function neatDensity({ rho_pure, expansion_pure }: FluidData, t_C: degC): kg_m3 {
  return rho_pure * (1 - expansion_pure * (t_C - 20));
}

/**
 * kg/m3 beyond the fit: volumes of both liquids added up, less what they lose as they mix, which
 * goes with x (1 - x) from the fit's end to none [fit: within 0.4 % of the alcohols' tables].
 */
function strongDensity(kind: Antifreeze, t_C: degC, x: number): kg_m3 {
  const neat = 1 / neatDensity(DATA[kind], t_C);
  const water = 1 / density(t_C);
  const lost = 1 / melinder(kind, 'density', t_C, X_MAX) - X_MAX * neat - (1 - X_MAX) * water;
  return 1 / (x * neat + (1 - x) * water + (lost * x * (1 - x)) / (X_MAX * (1 - X_MAX)));
}

/** Pa s beyond the fit: the logarithm straight in x to that of the undiluted liquid [fit]. */
function strongViscosity(kind: Antifreeze, t_C: degC, x: number): number {
  const { mu_pure, mu_slope_K } = DATA[kind];
  const T = t_C + ZERO_C;
  const neat = log(mu_pure) + mu_slope_K * (1 / T - 1 / (20 + ZERO_C));
  const end = melinder(kind, 'ln_viscosity', t_C, X_MAX);
  return exp(end + ((x - X_MAX) / (1 - X_MAX)) * (neat - end));
}

/** kg/m3 [Melinder2010]; water by [Kell1975]; beyond x = 0.6 on to the undiluted liquid [fit]. */
export function mixDensity(kind: Fluid, t_C: degC, x: number): kg_m3 {
  if (kind !== 'none' && x > X_MAX) return strongDensity(kind, t_C, min(1, x));
  const f = clamp(x, 0, X_MAX);
  const w = weight(f);
  if (kind === 'none' || w === 0) return density(t_C);
  const mixed = melinder(kind, 'density', t_C, f);
  return w === 1 ? mixed : density(t_C) + w * (mixed - density(t_C));
}

/** Dynamic, Pa s, exp of the polynomial [Melinder2010]; water by [Kestin1978]; beyond as above. */
export function mixViscosity(kind: Fluid, t_C: degC, x: number): number {
  if (kind !== 'none' && x > X_MAX) return strongViscosity(kind, t_C, min(1, x));
  const f = clamp(x, 0, X_MAX);
  const w = weight(f);
  if (kind === 'none' || w === 0) return viscosity(t_C);
  const mixed = exp(melinder(kind, 'ln_viscosity', t_C, f));
  return w === 1 ? mixed : viscosity(t_C) + w * (mixed - viscosity(t_C));
}

/** J/kg/K [Melinder2010]; water by [IAPWS95]. */
export function mixHeatCapacity(kind: Fluid, t_C: degC, x: number): number {
  const f = clamp(x, 0, X_MAX);
  const w = weight(f);
  if (kind === 'none' || w === 0) return heatCapacity(t_C);
  const mixed = melinder(kind, 'specific_heat', t_C, f);
  return w === 1 ? mixed : heatCapacity(t_C) + w * (mixed - heatCapacity(t_C));
}

/** Of heat, W/m/K [Melinder2010]; water by [IAPWS95]. */
export function mixConductivity(kind: Fluid, t_C: degC, x: number): number {
  const f = clamp(x, 0, X_MAX);
  const w = weight(f);
  if (kind === 'none' || w === 0) return conductivity(t_C);
  const mixed = melinder(kind, 'conductivity', t_C, f);
  return w === 1 ? mixed : conductivity(t_C) + w * (mixed - conductivity(t_C));
}

/**
 * Temperature of the first ice, C: sum c[j] (x-xb)^j [Melinder2010]. Below x = 0.02, where the
 * fit misses 0 C, straight to 0 as Blagden's law has it. Held at x = 0.6.
 */
export function freezePoint_C(kind: Fluid, x: number): degC {
  if (kind === 'none' || x <= 0) return 0;
  const f = DATA[kind];
  const T = polynomial(f.T_freeze, clamp(x, X_BLEND, X_MAX) - f.xbase) - ZERO_C;
  return T * min(1, x / X_BLEND);
}

const BISECTIONS = 60;

/**
 * Least mass fraction that keeps ice away down to t_C: freezePoint_C solved for x. 0 for water
 * and above freezing; 0.6 where no mixture of the fit reaches.
 */
export function fractionForFreezePoint(kind: Fluid, t_C: degC): number {
  if (kind === 'none' || t_C >= 0) return 0;
  let lo = 0;
  let hi = X_MAX;
  for (let k = 0; k < BISECTIONS; k++) {
    const x = (lo + hi) / 2;
    if (freezePoint_C(kind, x) > t_C) lo = x;
    else hi = x;
  }
  return hi;
}

/**
 * Mass fraction of ice in a mixture at t_C that has settled: what liquid is left stands on the
 * liquidus, so 1 - x/x_l(t). 0 above the freezing point; of water 1 below 0 C.
 */
export function iceFraction(kind: Fluid, t_C: degC, x: number): number {
  if (t_C >= freezePoint_C(kind, x)) return 0;
  const liquid = fractionForFreezePoint(kind, t_C);
  return x <= 0 || liquid <= 0 ? 1 : max(0, 1 - x / liquid);
}

/** kg/m3 at 20 C of the undiluted antifreeze; of water for `none`. */
function pureDensity(kind: Fluid): kg_m3 {
  return kind === 'none' ? density(20) : DATA[kind].rho_pure;
}

/**
 * Mass fraction of phi parts by volume of undiluted antifreeze and 1 - phi of water, both
 * measured at 20 C before mixing: what "per cent by volume" means on a label. 0 <= phi <= 1.
 */
export function massFraction(kind: Fluid, phi: number): number {
  const share = clamp(phi, 0, 1);
  const a = share * pureDensity(kind);
  return a / (a + (1 - share) * density(20));
}

/** The inverse of massFraction: volume fraction at 20 C before mixing. 0 <= x <= 1. */
export function volumeFraction(kind: Fluid, x: number): number {
  const share = clamp(x, 0, 1);
  const a = share / pureDensity(kind);
  return a / (a + (1 - share) / density(20));
}

/**
 * Antifreeze fed in while as much mixture is bled off, m3, from phi0 to phi1 by volume in a
 * stirred system of V m3: V ln((1 - phi0)/(1 - phi1)), the balance of its water. phi1 < 1; a
 * target not above phi0 needs none.
 */
export function bleedAndFeedVolume(V: m3, phi0: number, phi1: number): m3 {
  return max(0, V * log((1 - phi0) / (1 - phi1)));
}
