// Water with antifreeze: properties by mass fraction x and temperature. Below x = 0.02 they blend
// into the laws of pure water; outside the range they are held at its ends.
import { clamp, exp, log } from '../base/math.ts';
import { ZERO_C } from '../base/units.ts';
import { ethanol, ethylene_glycol, methanol, propylene_glycol, type FluidData } from './antifreeze-data.ts';
import { density, viscosity } from './water.ts';

export const ANTIFREEZES = ['propylene_glycol', 'ethanol', 'methanol', 'ethylene_glycol'] as const;
export type Antifreeze = (typeof ANTIFREEZES)[number];
export type Fluid = Antifreeze | 'none';

const DATA: Readonly<Record<Antifreeze, FluidData>> = { propylene_glycol, ethanol, methanol, ethylene_glycol };
/** Largest mass fraction of the published fits. */
const X_MAX = 0.6;
/** Mass fraction below which pure water's laws blend in. */
const BLEND = 0.02;

function poly(rows: readonly (readonly number[])[], t: number, x: number): number {
  let sum = 0;
  for (let i = rows.length - 1; i >= 0; i--) {
    const row = rows[i]!;
    let inner = 0;
    for (let j = row.length - 1; j >= 0; j--) inner = inner * x + row[j]!;
    sum = sum * t + inner;
  }
  return sum;
}

type Table = 'density' | 'specific_heat' | 'conductivity' | 'ln_viscosity';

function property(kind: Antifreeze, table: Table, t_C: number, x: number): number {
  const f = DATA[kind];
  const held = clamp(x, 0, X_MAX);
  const T = clamp(t_C + ZERO_C, freezePoint_C(kind, held) + ZERO_C, f.Tmax_K);
  return poly(f[table], T - f.Tbase_K, held - f.xbase);
}

/** Share of the mixture's own law at fraction x; the rest is water's. */
function blend(x: number): number {
  return x >= BLEND ? 1 : x <= 0 ? 0 : x / BLEND;
}

/** kg/m3 at t_C of mass fraction x, [Melinder2010]; `none` is pure water. */
export function mixDensity(kind: Fluid, t_C: number, x: number): number {
  const w = kind === 'none' ? 0 : blend(x);
  const mix = kind === 'none' || w === 0 ? 0 : property(kind, 'density', t_C, x);
  return w === 1 ? mix : w * mix + (1 - w) * density(t_C);
}

/** Pa s, [Melinder2010]. */
export function mixViscosity(kind: Fluid, t_C: number, x: number): number {
  const w = kind === 'none' ? 0 : blend(x);
  const mix = kind === 'none' || w === 0 ? 0 : exp(property(kind, 'ln_viscosity', t_C, x));
  return w === 1 ? mix : w * mix + (1 - w) * viscosity(t_C);
}

/** J/kg/K, [Melinder2010]; water as x -> 0 of propylene glycol's table, within 0.5 %. */
export function mixHeatCapacity(kind: Fluid, t_C: number, x: number): number {
  return property(kind === 'none' ? 'propylene_glycol' : kind, 'specific_heat', t_C, kind === 'none' ? 0 : x);
}

/** W/m/K, [Melinder2010]. */
export function mixConductivity(kind: Fluid, t_C: number, x: number): number {
  return property(kind === 'none' ? 'propylene_glycol' : kind, 'conductivity', t_C, kind === 'none' ? 0 : x);
}

/** Freeze point, degrees C, of mass fraction x, [Melinder2010]; 0 for pure water. */
export function freezePoint_C(kind: Fluid, x: number): number {
  if (kind === 'none' || x <= 0) return 0;
  const f = DATA[kind];
  const d = clamp(x, 0, X_MAX) - f.xbase;
  let T = 0;
  for (let j = f.T_freeze.length - 1; j >= 0; j--) T = T * d + f.T_freeze[j]!;
  return x >= BLEND ? T - ZERO_C : ((T - ZERO_C) * x) / BLEND;
}

/** Mass fraction from volume fraction phi on pure volumes before mixing at 20 C. */
export function massFraction(kind: Antifreeze, phi: number): number {
  const a = phi * DATA[kind].rho_pure;
  return a / (a + (1 - phi) * density(20));
}

/** Volume fraction on pure volumes at 20 C from mass fraction. */
export function volumeFraction(kind: Antifreeze, x: number): number {
  const a = x / DATA[kind].rho_pure;
  return a / (a + (1 - x) / density(20));
}

/** Volume to add by bleed and feed of a stirred V from phi0 to phi1: V ln((1-phi0)/(1-phi1)). */
export function bleedAndFeedVolume(V: number, phi0: number, phi1: number): number {
  return V * log((1 - phi0) / (1 - phi1));
}
