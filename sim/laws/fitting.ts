// Local losses, as K on the velocity head, and the opening of a hand ball valve.
import { clamp, exp, log } from '../base/math.ts';

/** Degrees closed against K over the open valve's: Weisbach's cock series, from memory [Weisbach1855]. */
const CLOSED = [0, 5, 10, 15, 20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 82.5] as const;
const K_CLOSED = [0.01, 0.05, 0.29, 0.75, 1.56, 3.1, 5.47, 9.68, 17.3, 31.2, 52.6, 106, 206, 486] as const;

/** Degrees OPEN at and below which the ball passes nothing: 82.5 degrees closed. */
export const SHUT_DEG = 7.5;
/** K of a shut valve: finite, for whoever asks. */
export const K_SHUT = 1e12;

const LOG_K = K_CLOSED.map((k) => log(k));

/**
 * K of a hand ball valve, `open_deg` 90 = in line with the pipe, K0 its open loss. Interpolated in
 * ln K; straight on beyond 65 degrees closed to where it shuts.
 */
export function ballValveK(open_deg: number, K0: number): number {
  const closed = clamp(90 - open_deg, 0, 90);
  if (closed >= 90 - SHUT_DEG) return K_SHUT;
  if (closed === 0) return K0;
  const last = LOG_K.length - 1;
  let i = 0;
  while (i < last - 1 && closed > CLOSED[i + 1]!) i++;
  const t = (closed - CLOSED[i]!) / (CLOSED[i + 1]! - CLOSED[i]!);
  const k = exp(LOG_K[i]! + t * (LOG_K[i + 1]! - LOG_K[i]!));
  // The series' first point is zero: fade it in so that K starts at K0 without a step.
  return K0 + (i === 0 ? t * k : k);
}

/** Share of the bore that is open, 0..1: 1/(1 + sqrt(K/1.5)) of the valve's own K, 0 when shut [fit]. */
export function valveOpenArea(open_deg: number): number {
  if (open_deg <= SHUT_DEG) return 0;
  const k = ballValveK(open_deg, 0.05) - 0.05;
  return 1 / (1 + sqrtOf(k / 1.5));
}

function sqrtOf(x: number): number {
  return x <= 0 ? 0 : exp(0.5 * log(x));
}

/** Tee, 90 degrees, diverging, K of the branch on the combined velocity; r = Qb/Qc, b2 = (Db/Dr)^2 [CraneTP410]. */
export function teeDivergingBranch(r: number, b2: number): number {
  if (b2 > 2 / 3) return (1 + 0.3 * r * r) * (1 + 0.3 * (r / b2) * (r / b2));
  return 1 + (r / b2) * (r / b2);
}

/** Tee, diverging, K of the run [CraneTP410]. */
export function teeDivergingRun(r: number, b2: number): number {
  const M = b2 <= 0.4 ? 0.4 : r <= 0.5 ? 2 * (2 * r - 1) : 0.3 * (2 * r - 1);
  return M * r * r;
}

/** Tee, 90 degrees, converging, K of the branch; negative where the run drives it [CraneTP410]. */
export function teeConvergingBranch(r: number, b2: number): number {
  const C = b2 <= 0.35 ? 1 : r <= 0.4 ? 0.9 * (1 - r) : 0.55;
  return C * (1 + (r / b2) * (r / b2) - 2 * (1 - r) * (1 - r));
}

/** Tee, converging, K of the run [CraneTP410]. */
export function teeConvergingRun(r: number): number {
  return 1.55 * r - r * r;
}

/** Sudden contraction to bore ratio b, on the small bore: 0.5 (1 - b^2) [Crane, Borda]. */
export function contractionK(b: number): number {
  return 0.5 * (1 - b * b);
}

/** Sudden expansion from bore ratio b, on the small bore: (1 - b^2)^2 (Borda-Carnot). */
export function expansionK(b: number): number {
  return (1 - b * b) * (1 - b * b);
}

/** K from Cv (US gpm at 1 psi) and bore in inches: 891 d^4/Cv^2 [CraneTP410]. */
export function kFromCv(Cv: number, d_in: number): number {
  return (891 * d_in * d_in * d_in * d_in) / (Cv * Cv);
}
