// Heat between the liquid in a pipe and what is around it, as resistances of one metre of pipe in
// K m/W; and how ice makes a liquid thick. Lengths in m, temperatures in C. Leaves out what walls
// and the air in a pipe hold, and free convection of liquid that stands.
import { clamp, exp, log, max, PI, pow } from '../base/math.ts';

/** Of a round wall from bore to outside: ln(D_o/D_i)/(2 pi k), Fourier's law. k in W/m/K. */
export function wallResistance(bore: number, outside: number, k: number): number {
  return log(outside / bore) / (2 * PI * k);
}

/** Of a film of h W/m2/K around a diameter D: 1/(h pi D). */
export function filmResistance(h: number, D: number): number {
  return 1 / (h * PI * D);
}

/** Nusselt's number of laminar flow under an even wall temperature, and of liquid that stands. */
const NU_LAMINAR = 3.66;
const RE_LAMINAR = 2300;
const RE_TURBULENT = 4000;

/**
 * Nusselt's number in a smooth pipe: 3.66 up to Re 2300; from 4000 on
 * (f/8)(Re-1000)Pr/(1+12.7 sqrt(f/8)(Pr^(2/3)-1)), f = (0.79 ln Re - 1.64)^-2 [Gnielinski1976],
 * to Re 5e6 and Pr 0.5 to 2000; straight in between [fit].
 */
export function nusselt(Re: number, Pr: number): number {
  if (Re <= RE_LAMINAR) return NU_LAMINAR;
  const at = max(Re, RE_TURBULENT);
  const root = 1 / (0.79 * log(at) - 1.64);
  const f8 = (root * root) / 8;
  const slow = root / 2.8284271247461903;
  const full = (f8 * (at - 1000) * Pr) / (1 + 12.7 * slow * (pow(Pr, 2 / 3) - 1));
  if (Re >= RE_TURBULENT) return max(NU_LAMINAR, full);
  const share = (Re - RE_LAMINAR) / (RE_TURBULENT - RE_LAMINAR);
  return NU_LAMINAR + share * (max(NU_LAMINAR, full) - NU_LAMINAR);
}

/** Of the film inside a pipe: 1/(Nu pi k), k of the liquid in W/m/K; the bore drops out. */
export function innerResistance(Nu: number, k: number): number {
  return 1 / (Nu * PI * k);
}

const E1_SMALL = [-0.57721566, 0.99999193, -0.24991055, 0.05519968, -0.00976004, 0.00107857];
const E1_TOP = [0.2677737343, 8.6347608925, 18.059016973, 8.5733287401, 1];
const E1_UNDER = [3.9584969228, 21.0996530827, 25.6329561486, 9.5733223454, 1];

function polynomial(c: readonly number[], x: number): number {
  let sum = 0;
  for (let j = c.length - 1; j >= 0; j--) sum = sum * x + c[j]!;
  return sum;
}

/** Exponential integral E1(z), z > 0 [AbramowitzStegun1964], 5.1.53 and 5.1.56; within 5e-5. */
export function exponentialIntegral(z: number): number {
  if (z <= 1) return polynomial(E1_SMALL, z) - log(z);
  return (polynomial(E1_TOP, z) * exp(-z)) / (z * polynomial(E1_UNDER, z));
}

/**
 * Of the ground about a pipe of outside radius r after t s of even exchange, line source
 * [CarslawJaeger1959]: E1(r2/4at)/(4 pi k), that is (ln(4at/r2) - 0.5772)/(4 pi k) for at/r2 > 5.
 * k in W/m/K, a in m2/s.
 */
export function soilResistance(t: number, r: number, soil: { k: number; a: number }): number {
  if (t <= 0) return 0;
  const z = (r * r) / (4 * soil.a * t);
  return z > 100 ? 0 : exponentialIntegral(z) / (4 * PI * soil.k);
}

/** Share of sunlight that black polyethylene takes up [common practice, no source]. */
export const ABSORBED = 0.9;

/** Heat that a metre of pipe of outside D takes from sun of G W/m2 on its breadth, W/m. */
export function sunHeat(D: number, G: number): number {
  return ABSORBED * G * D;
}

/** J/kg that ice takes up as it melts [IAPWS95]. */
export const LATENT = 333.6e3;
/** kg/m3, ice at 0 C: 9 % more room than water. */
export const ICE_DENSITY = 916.7;

/** Ice fraction by mass at which a slurry begins to stop, and at which nothing runs [fit]. */
export const SLURRY = { thickens: 0.25, stops: 0.3 } as const;
/** ln of how many times a stopped slurry is thicker: metres of it hold against any pump. */
const PLUG_LN = 20.7;

/**
 * Viscosity of a slurry over that of its liquid, c its ice by volume: 1 + 2.5 c + 10.05 c2 +
 * 0.00273 exp(16.6 c) [Thomas1965], 0 <= c <= 0.6, held there.
 */
export function slurryViscosity(c: number): number {
  const at = clamp(c, 0, 0.6);
  return 1 + 2.5 * at + 10.05 * at * at + 0.00273 * exp(16.6 * at);
}

/** How many times ice by mass blocks a bore beyond what Thomas has: 1 to 0.25, 1e9 from 0.3. */
export function plugFactor(ice: number): number {
  const share = (ice - SLURRY.thickens) / (SLURRY.stops - SLURRY.thickens);
  return share <= 0 ? 1 : exp(PLUG_LN * clamp(share, 0, 1));
}
