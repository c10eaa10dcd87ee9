// Air dissolved in water: what water holds at equilibrium, and how fast a small bubble goes into
// solution or grows out of it, and how fast air crosses to water that moves. Which water meets
// which bubble is left to the engine.
import { clamp, sqrt } from '../base/math.ts';
import {
  GAS_CONSTANT,
  MOLAR_MASS_WATER,
  P_ATM,
  ZERO_C,
  type degC,
  type kg_m3,
  type Pa,
} from '../base/units.ts';

/** Mole fraction of air in water per bar at 1 bar, 1e-6, by degC [NBS77A1973, table 3]. */
const HENRY = [
  [0, 23.25],
  [5, 20.45],
  [10, 18.26],
  [15, 16.49],
  [20, 14.93],
  [25, 13.84],
  [30, 12.83],
  [35, 12.0],
  [40, 11.34],
  [45, 10.84],
  [50, 10.44],
] as const;

/**
 * Mole fraction of dissolved air per bar of dry air, 1/bar [NBS77A1973, table 3]: straight
 * between points 5 K apart (within 0.5 %), held at 0 and 50 C. Good to 0.5 % to 5 bar: the
 * same table's column at 50 bar is 9 % lower.
 */
export function henryAir(t_C: degC): number {
  const last = HENRY.length - 1;
  const t = clamp(t_C, HENRY[0][0], HENRY[last]![0]);
  let k = 1;
  while (k < last && t > HENRY[k]![0]) k++;
  const [t0, k0] = HENRY[k - 1]!;
  const [t1, k1] = HENRY[k]!;
  return 1e-6 * (k0 + ((k1 - k0) * (t - t0)) / (t1 - t0));
}

/** Air dissolved at equilibrium, mol/m3, under p Pa abs of dry air, in water of density rho. */
export function dissolvedAir(p: Pa, t_C: degC, rho: kg_m3): number {
  return (henryAir(t_C) * (p / 1e5) * rho) / MOLAR_MASS_WATER;
}

/** The same as a volume of air at 0 C and 1 atm over the volume of the water. */
export function dissolvedAirStp(p: Pa, t_C: degC, rho: kg_m3): number {
  return (dissolvedAir(p, t_C, rho) * GAS_CONSTANT * ZERO_C) / P_ATM;
}

/** Volume of dissolved air at the water's own temperature and pressure over that of water. */
export function ostwald(t_C: degC, rho: kg_m3): number {
  return (dissolvedAir(1e5, t_C, rho) * GAS_CONSTANT * (t_C + ZERO_C)) / 1e5;
}

/**
 * Rate of a bubble's radius, m/s, dR/dt = k_L (C - C*)/c_g: a balance of amount, with c_g that of
 * an ideal gas. Water saturated at p_sat meets a bubble at p (Pa abs); k_L (m/s) is about 1e-4
 * for a millimetre bubble [common practice, no source]. Negative where the bubble dissolves.
 */
export function bubbleGrowth(
  k_L: number,
  at: {
    p: Pa;
    p_sat: Pa;
    t_C: degC;
    rho: kg_m3;
  },
): number {
  const { p, p_sat, t_C, rho } = at;
  const drive = dissolvedAir(p_sat, t_C, rho) - dissolvedAir(p, t_C, rho);
  return (k_L * drive * GAS_CONSTANT * (t_C + ZERO_C)) / p;
}

/** m2/s and Pa s. Air in water at 25 C, between nitrogen's 1.88 and oxygen's 2.10e-9. */
const DIFFUSES_25 = 1.93e-9; // [Cussler2009, recalled]
const VISCOSITY_25 = 0.89e-3;

/** Diffusivity of air in water of viscosity mu Pa s, m2/s: by T/mu from 25 C [Cussler2009]. */
export function airDiffusivity(t_C: degC, mu: number): number {
  return (((DIFFUSES_25 * (t_C + ZERO_C)) / (25 + ZERO_C)) * VISCOSITY_25) / mu;
}

/** m/s. Transfer at a millimetre bubble that rises [common practice, no source]. */
const RISES = 1e-4;

/**
 * Transfer velocity at a bubble of diameter d, m/s: 2 D/d where it rests in still water, 1e-4 where
 * it goes through it (`moves` 1), with the root of the speed in between, as [Frossling1938] has it.
 */
export function bubbleTransfer(d: number, D: number, moves: number): number {
  const rest = (2 * D) / d;
  return rest >= RISES ? rest : rest + (RISES - rest) * sqrt(clamp(moves, 0, 1));
}

/**
 * Transfer velocity under a free surface of a stream, U m/s fast and H m deep, m/s: sqrt(D U/H)
 * [OConnorDobbins1958], and D/H, by diffusion alone, where it stands.
 */
export function streamTransfer(U: number, H: number, D: number): number {
  const still = D / H;
  return sqrt((D * (U < 0 ? -U : U)) / H + still * still);
}
