// How polyethylene pipe gives under pressure: stretch, waves, creep, rating. c1 is the strain of
// the bore's area in units of p D/(e E), for bore D and wall e; lengths in m, pressures in Pa.
import { clamp, exp, max, min, pow, sqrt } from '../base/math.ts';
import { P_ATM, ZERO_C, type degC, type kg_m3, type Pa } from '../base/units.ts';

/**
 * Thick wall held lengthwise, as when buried: c1 = (2e/D)(1+nu) + D(1-nu^2)/(D+e)
 * [WylieStreeter1993], ch. 3; the same as the thick cylinder of Lame to four places.
 */
export function c1Restrained(D: number, e: number, nu: number): number {
  return (2 * e * (1 + nu)) / D + (D * (1 - nu * nu)) / (D + e);
}

/** Closed ends, free to lengthen: (2e/D)(1+nu) + D(1-nu/2)/(D+e) [WylieStreeter1993]. */
export function c1Free(D: number, e: number, nu: number): number {
  return (2 * e * (1 + nu)) / D + (D * (1 - nu / 2)) / (D + e);
}

/** Joints that slide: (2e/D)(1+nu) + D/(D+e) [WylieStreeter1993]. */
export function c1Joints(D: number, e: number, nu: number): number {
  return (2 * e * (1 + nu)) / D + D / (D + e);
}

/** Lengthening of a free pipe with closed ends under p, a strain: p(1-2nu)/(E(k^2-1)), Lame. */
export function axialStrainFree(p: Pa, pipe: { D: number; e: number; E: Pa; nu: number }): number {
  const k = (pipe.D + 2 * pipe.e) / pipe.D;
  return (p * (1 - 2 * pipe.nu)) / (pipe.E * (k * k - 1));
}

/** Room that a buried pipe gains, as a share of its own, 1/Pa: c1 D/(e E), c1 restrained. */
export function wallCompliance(D: number, e: number, E: Pa, nu: number): number {
  return (c1Restrained(D, e, nu) * D) / (e * E);
}

/**
 * Speed of a pressure wave, m/s: sqrt((K/rho)/(1 + K c)) [WylieStreeter1993]; K the bulk modulus
 * of the liquid, c the compliance of the pipe in 1/Pa.
 */
export function waveSpeed(K: Pa, rho: kg_m3, compliance: number): number {
  return sqrt(K / rho / (1 + K * compliance));
}

/** Rise of pressure where a flow is stopped at once, Pa: rho a dV [Joukowsky1898]. */
export function joukowsky(rho: kg_m3, a: number, dV: number): Pa {
  return rho * a * dV;
}

/** s. The table runs from half an hour to 50 years; the fit is carried down to a minute. */
const MODULUS_FROM = 60;
const MODULUS_TO = 50 * 365.25 * 86400;

/**
 * Apparent modulus of PE4xxx at 23 C after t s under load, Pa: 976.6 MPa t^-0.0741, a fit to
 * [PPI2008], table B.1.1, within 2.3 % of it. Held at 60 s and 50 years. Under a
 * minute see creepCompliance.
 */
export function peModulus(t_s: number): Pa {
  return 976.6e6 * pow(clamp(t_s, MODULUS_FROM, MODULUS_TO), -0.0741);
}

/** Temperature C, multiplier on the modulus [PPI2008], table B.1.2, there in F. */
const MODULUS_BY_F = [
  [20, 1.81],
  [30, 1.65],
  [40, 1.49],
  [50, 1.32],
  [60, 1.18],
  [73, 1],
  [80, 0.93],
  [90, 0.82],
  [100, 0.73],
  [110, 0.64],
  [120, 0.58],
  [140, 0.43],
] as const;

/** Multiplier on the modulus at t_C: straight between points of [PPI2008]; -7..60 C. */
export function peModulusFactor(t_C: degC): number {
  const last = MODULUS_BY_F.length - 1;
  const t = clamp(t_C * 1.8 + 32, MODULUS_BY_F[0][0], MODULUS_BY_F[last]![0]);
  let k = 1;
  while (k < last && t > MODULUS_BY_F[k]![0]) k++;
  const [t0, y0] = MODULUS_BY_F[k - 1]!;
  const [t1, y1] = MODULUS_BY_F[k]!;
  return y0 + ((y1 - y0) * (t - t0)) / (t1 - t0);
}

/** 1/Pa: what a wall of PE gives at once, and [s, 1/Pa] of what follows [Covas2004]. */
const CREEP_AT_ONCE = 0.7e-9;
const CREEP = [
  [0.05, 0.1057e-9],
  [0.5, 0.1054e-9],
  [1.5, 0.0905e-9],
  [5, 0.0262e-9],
  [10, 0.0746e-9],
] as const;

/**
 * Strain per stress t s after a load, 1/Pa: J0 + sum J_k (1 - exp(-t/tau_k)), Kelvin and Voigt
 * with the elements of [Covas2004], 20 C; 0..60 s, held there, since nothing slower was fitted.
 */
export function creepCompliance(t_s: number): number {
  const t = clamp(t_s, 0, 60);
  let J = CREEP_AT_ONCE;
  for (const [tau, J_k] of CREEP) J += J_k * (1 - exp(-t / tau));
  return J;
}

/**
 * [s, 1/Pa] of what follows over minutes and days at 23 C, so that with the elements above the
 * whole stays within 0.5 % of 1/peModulus from 3 minutes to 2 days [fit to PPI2008, B.1.1].
 */
const CREEP_SLOW = [
  [1e2, 0.321e-9],
  [1e3, 0.274e-9],
  [1e4, 0.317e-9],
  [1e5, 0.496e-9],
] as const;
/** C at which the fast elements were measured. */
const CREEP_MEASURED = 20;

export interface PeCreep {
  /** 1/Pa. What the wall gives at once. */
  readonly atOnce: number;
  /** s and 1/Pa of each element that follows. */
  readonly elements: ReadonlyArray<readonly [tau: number, J: number]>;
}

/**
 * Creep of PE4xxx at t_C, Kelvin and Voigt: the fast elements of [Covas2004], slow ones fitted to
 * [PPI2008]; every compliance over the multiplier of peModulusFactor. Elements faster than
 * `fastest` s are counted as given at once. Good from a second to two days under load.
 */
export function peCreep(t_C: degC, fastest: number): PeCreep {
  const soft = 1 / peModulusFactor(t_C);
  const fast = peModulusFactor(CREEP_MEASURED) * soft;
  const all: (readonly [number, number])[] = [
    ...CREEP.map(([tau, J]) => [tau, J * fast] as const),
    ...CREEP_SLOW.map(([tau, J]) => [tau, J * soft] as const),
  ];
  let atOnce = CREEP_AT_ONCE * fast;
  for (const [tau, J] of all) if (tau < fastest) atOnce += J;
  return { atOnce, elements: all.filter(([tau]) => tau >= fastest) };
}

/** Strain per stress of such a wall t s after a load, 1/Pa: J0 + sum J_k (1 - exp(-t/tau_k)). */
export function peCreepCompliance(t_s: number, t_C: degC): number {
  const { atOnce, elements } = peCreep(t_C, 0);
  return elements.reduce((J, [tau, J_k]) => J + J_k * (1 - exp(-t_s / tau)), atOnce);
}

/**
 * Pressure left in a full, shut loop without air at t, as a share of that at t0 (s after it was
 * pressurised): p (c_l + c/E(t)) stays, c = c1 D/e, c_l the liquid's compressibility, 1/Pa. The
 * quasi-elastic shortcut: it takes the stress as constant while it relaxes.
 */
export function quasiElasticDecay(t_s: number, t0_s: number, c_l: number, c: number): number {
  return (c_l + c / peModulus(t0_s)) / (c_l + c / peModulus(t_s));
}

/** Volume left of a gas taken from p1 to p2 (Pa abs), as a share: (p1/p2)^(1/m), m 1 to 1.4. */
export function squeezed(p1: Pa, p2: Pa, m: number): number {
  return pow(p1 / p2, 1 / m);
}

/** m2/s. Thermal diffusivity of air at 20 C and 1 atm; it goes with 1/p. */
const AIR_DIFFUSIVITY = 2.1e-5;

/**
 * Time in which a long pocket of air in a bore of D m takes the temperature of the wall, s:
 * R^2/(5.783 a), the first mode of a cylinder at rest [CarslawJaeger1959], R half the bore, a the
 * diffusivity of air at p Pa abs. Swirl in the pocket is left out; it would be faster.
 */
export function coolingTime(D: number, p: Pa): number {
  return (D * D * p) / (4 * 5.783 * AIR_DIFFUSIVITY * P_ATM);
}

/** Share of a rise of pressure that goes into temperature when no heat leaves: 1 - 1/1.4, air. */
export const HEAT_SHARE = 2 / 7;

/** Growth of a pipe's room with temperature, 1/K, from the linear one: 2 a (1+nu) buried. */
export function roomExpansionRestrained(linear: number, nu: number): number {
  return 2 * linear * (1 + nu);
}

/**
 * How the pressure of a full, shut loop follows its temperature, Pa/K: (b_l - b_p)/(c_l + c_p),
 * the balance of volume. Expansions b in 1/K, compliances c in 1/Pa, of liquid and pipe.
 */
export function pressurePerKelvin(
  liquid: { expansion: number; compliance: number },
  pipe: { expansion: number; compliance: number },
): number {
  return (liquid.expansion - pipe.expansion) / (liquid.compliance + pipe.compliance);
}

/** Pressure class of a pipe, Pa: 2 HDS f_T/(DR - 1) [ASTMD3035], X1; DR > 1. */
export function pressureRating(HDS: Pa, DR: number, f_T = 1): Pa {
  return (2 * HDS * f_T) / (DR - 1);
}

/** K of 73 F and 140 F, the temperatures of the two design bases. */
const T_BASE = (73 + 459.67) / 1.8;
const T_HOT_BASE = (140 + 459.67) / 1.8;

/**
 * Factor on the rating at t_C, straight in 1/T between the hydrostatic design bases at 73 F and
 * 140 F [PPITR3]. 1 below 73 F; above 140 F, where it has no basis, that of 140 F.
 */
export function ratingTemperatureFactor(t_C: degC, base73: Pa, base140: Pa): number {
  const T = min(max(t_C + ZERO_C, T_BASE), T_HOT_BASE);
  return 1 - ((1 - base140 / base73) * (1 / T_BASE - 1 / T)) / (1 / T_BASE - 1 / T_HOT_BASE);
}
