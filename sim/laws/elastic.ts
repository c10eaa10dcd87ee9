// How pipe walls give under pressure: thick-wall forms, waves, the modulus of polyethylene.
import { exp, log, pow, sqrt } from '../base/math.ts';

/** Wall factor, thick wall, pipe held lengthwise (buried): (2e/D)(1+nu) + D(1-nu^2)/(D+e) [WylieStreeter1993]. */
export function c1Restrained(D: number, e: number, nu: number): number {
  return ((2 * e) / D) * (1 + nu) + (D * (1 - nu * nu)) / (D + e);
}

/** Closed ends, free to lengthen: (2e/D)(1+nu) + D(1-nu/2)/(D+e) [WylieStreeter1993]. */
export function c1Free(D: number, e: number, nu: number): number {
  return ((2 * e) / D) * (1 + nu) + (D * (1 - nu / 2)) / (D + e);
}

/** Expansion joints: (2e/D)(1+nu) + D/(D+e) [WylieStreeter1993]. */
export function c1Joints(D: number, e: number, nu: number): number {
  return ((2 * e) / D) * (1 + nu) + D / (D + e);
}

/** Relative growth of the bore's area per pascal of a buried pipe, 1/Pa: c1 D/(e E). */
export function wallCompliance(D: number, e: number, E: number, nu: number): number {
  return (c1Restrained(D, e, nu) * D) / (e * E);
}

/** Speed of a pressure wave, m/s: sqrt((K/rho)/(1 + K compliance)), K Pa, compliance 1/Pa. */
export function waveSpeed(K: number, rho: number, compliance: number): number {
  return sqrt(K / rho / (1 + K * compliance));
}

/** Surge of a sudden stop, Pa: rho a dV [Joukowsky1898]. */
export function joukowsky(rho: number, a: number, dV: number): number {
  return rho * a * dV;
}

/** Apparent modulus of PE4xxx at 23 C after t s under load, Pa: 976.6 MPa t^-0.0741; a fit of [PPI2008] table B.1.1, 0.5 h to 50 y. */
export function peModulus(t_s: number): number {
  return 976.6e6 * exp(-0.0741 * log(t_s));
}

/** Pressure rating, same unit as HDS: 2 HDS f_T/(DR-1) [ASTMD3035]. */
export function pressureRating(HDS: number, DR: number, f_T = 1): number {
  return (2 * HDS * f_T) / (DR - 1);
}

/** Temperature factor on HDS between the 73 F and 140 F bases, straight in 1/T [PPITR3, from memory]. */
export function ratingTemperatureFactor(t_F: number, base73: number, base140: number): number {
  const R = (t: number) => t + 459.67;
  return 1 - (1 - base140 / base73) * ((1 / R(73) - 1 / R(t_F)) / (1 / R(73) - 1 / R(140)));
}

/** Share of area strain left for a thin wall, p D(1-nu^2)/(eE), for comparison only. */
export function thinWallCompliance(D: number, e: number, E: number, nu: number): number {
  return (D * (1 - nu * nu)) / (e * E);
}

/** Isolated full loop: p/p0 at t after pressurising, reference t0, by E(t)/E(t0). */
export function quasiElasticDecay(t_s: number, t0_s: number, compressibility: number, factor: number): number {
  const at = (t: number) => compressibility + factor / peModulus(t);
  return at(t0_s) / at(t_s);
}

/** Gas spring: final over first volume for pressures p1 -> p2 (abs) with exponent m. */
export function squeezed(p1: number, p2: number, m: number): number {
  return pow(p1 / p2, 1 / m);
}
