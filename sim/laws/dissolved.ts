// Air dissolved in water at equilibrium. How fast it comes and goes is left to the engine.
import { clamp } from '../base/math.ts';
import type { degC, kg_m3, Pa } from '../base/units.ts';

/** Mole fraction of air in water per bar, 1e-6, by temperature, C [NBS77A1973], table 3. */
const HENRY = [
  [0, 23.25], [5, 20.45], [10, 18.26], [15, 16.49], [20, 14.93], [25, 13.84], [30, 12.83],
  [35, 12.0], [40, 11.34], [50, 10.44],
] as const;

/** kg/mol, of water. */
const MOLAR_MASS_WATER = 0.0180153;
/** J/mol/K. */
const GAS_CONSTANT = 8.314462618;

/** Mole fraction of dissolved air per bar [NBS77A1973]; straight between points, 0..50 C. */
export function henryAir(t_C: degC): number {
  const last = HENRY.length - 1;
  const t = clamp(t_C, HENRY[0][0], HENRY[last]![0]);
  let k = 1;
  while (k < last && t > HENRY[k]![0]) k++;
  const [t0, k0] = HENRY[k - 1]!;
  const [t1, k1] = HENRY[k]!;
  return 1e-6 * (k0 + ((k1 - k0) * (t - t0)) / (t1 - t0));
}

/** Air dissolved at equilibrium, mol/m3, under p Pa abs of air, in water of density rho. */
export function dissolvedAir(p: Pa, t_C: degC, rho: kg_m3): number {
  return (henryAir(t_C) * (p / 1e5) * rho) / MOLAR_MASS_WATER;
}

/** Volume of dissolved air at the water's own temperature and pressure over that of water. */
export function ostwald(t_C: degC, rho: kg_m3): number {
  return (dissolvedAir(1e5, t_C, rho) * GAS_CONSTANT * (t_C + 273.15)) / 1e5;
}
