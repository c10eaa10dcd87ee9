// Local losses: dp = K rho V^2/2. Hand ball valves by angle, tees by the split of their flow,
// changes of bore, and the flow coefficient of catalogues. Angles in degrees, as handles turn.
import { clamp, cos, exp, log, min, PI, sqrt, trunc } from '../base/math.ts';
import { INCH, type m } from '../base/units.ts';

/** Degrees OPEN at and below which a full-bore ball passes nothing: 82.5 degrees closed. */
export const SHUT_DEG = 7.5;
/** K of a shut valve; finite, so that a network with every valve shut can still be solved. */
export const K_SHUT = 1e12;

/**
 * Loss of a cock above its loss wide open, 5 to 65 degrees closed in steps of 5
 * [Weisbach1855], as textbooks have printed it since.
 */
const COCK_K = [0.05, 0.29, 0.75, 1.56, 3.1, 5.47, 9.68, 17.3, 31.2, 52.6, 106, 206, 486] as const;
const COCK_STEP = 5;
const COCK_LAST = 65;
const LN_COCK_K = COCK_K.map((K) => log(K));

/**
 * K of a full-bore ball valve, `open_deg` 90 = in line with the pipe, K0 its loss wide open.
 * Series of [Weisbach1855], straight in ln K between its points, straight in K over the first
 * 5 degrees. Past 65 degrees closed ln K goes straight on, over (1 - s^2)^2, s the share of the
 * way from 65 to shut [fit, no source]: an opening that vanishes must not end in a step.
 */
export function ballValveK(open_deg: number, K0: number): number {
  return K0 + excessK(open_deg);
}

/** K above that of the open valve; falls as the valve opens, without a step until it is shut. */
function excessK(open_deg: number): number {
  const closed = 90 - clamp(open_deg, 0, 90);
  if (closed >= 90 - SHUT_DEG) return K_SHUT;
  if (closed <= COCK_STEP) return (COCK_K[0] * closed) / COCK_STEP;
  const place = closed / COCK_STEP - 1;
  const at = min(trunc(place), COCK_K.length - 2);
  const K = exp(LN_COCK_K[at]! + (place - at) * (LN_COCK_K[at + 1]! - LN_COCK_K[at]!));
  if (closed <= COCK_LAST) return K;
  const s = (closed - COCK_LAST) / (90 - SHUT_DEG - COCK_LAST);
  const left = 1 - s * s;
  return min(K / (left * left), K_SHUT);
}

/**
 * Open share of a ball valve's bore, 0..1, that explains its loss as a sudden expansion:
 * K = (1/a - 1)^2 [Borda1766], so a = 1/(1 + sqrt K). Monotone; 1 wide open, 0 shut.
 */
export function valveOpenArea(open_deg: number): number {
  const K = excessK(open_deg);
  return K >= K_SHUT ? 0 : 1 / (1 + sqrt(K));
}

/**
 * Branch of a dividing tee, on the velocity of the combined leg: G (1 + H q^2 - J q cos),
 * q = r/b2 [CraneTP410], ch. 2. r = flow of the branch over the combined flow, held to 0..1;
 * b2 = (branch bore/run bore)^2; angle_deg 90 for a tee, 45 for a wye.
 */
export function teeDivergingBranch(r: number, b2: number, angle_deg = 90): number {
  const x = clamp(r, 0, 1);
  const q = x / b2;
  // The handbook parts square tees at a bore ratio of 2/3 for H and J.
  if (angle_deg >= 60 && b2 > 4 / 9) return divergingG(x, b2, angle_deg) * (1 + 0.3 * q * q);
  const turn = 2 * q * cos((angle_deg * PI) / 180);
  return divergingG(x, b2, angle_deg) * (1 + q * q - turn);
}

function divergingG(r: number, b2: number, angle_deg: number): number {
  if (angle_deg >= 75) return b2 > 2 / 3 ? 1 + 0.3 * r * r : 1;
  if (b2 <= 0.35) return r <= 0.4 ? 1.1 - 0.7 * r : 0.85;
  return r <= 0.6 ? 1 - 0.6 * r : 0.6;
}

/** Run of a dividing tee or wye: M r^2 [CraneTP410], ch. 2; below zero where it gains, truly. */
export function teeDivergingRun(r: number, b2: number): number {
  const x = clamp(r, 0, 1);
  if (b2 <= 0.4) return 0.4 * x * x;
  return (x <= 0.5 ? 2 : 0.3) * (2 * x - 1) * x * x;
}

/**
 * Branch of a combining square tee: C (1 + q^2 - 2 (1-r)^2), q = r/b2 [CraneTP410], ch. 2, with
 * its errata. Below zero where the run draws the branch along, which is real.
 */
export function teeConvergingBranch(r: number, b2: number): number {
  const x = clamp(r, 0, 1);
  const q = x / b2;
  const C = b2 <= 0.35 ? 1 : x <= 0.4 ? 0.9 * (1 - x) : 0.55;
  return C * (1 + q * q - 2 * (1 - x) * (1 - x));
}

/** Run of a combining square tee: 1.55 r - r^2 [CraneTP410], ch. 2; any ratio of bores. */
export function teeConvergingRun(r: number): number {
  const x = clamp(r, 0, 1);
  return 1.55 * x - x * x;
}

/** Sudden contraction, on the small bore: 0.5 (1 - b^2) [CraneTP410]; b = small over large. */
export function contractionK(b: number): number {
  const x = clamp(b, 0, 1);
  return 0.5 * (1 - x * x);
}

/** Sudden expansion, on the small bore: (1 - b^2)^2 [Borda1766]; b = small over large. */
export function expansionK(b: number): number {
  const x = clamp(b, 0, 1);
  return (1 - x * x) * (1 - x * x);
}

/** K on bore D (m) of a valve of Cv US gpm at 1 psi: 891 d^4/Cv^2, d in inches [CraneTP410]. */
export function kFromCv(Cv: number, D: m): number {
  const d = D / INCH;
  return (891 * d * d * d * d) / (Cv * Cv);
}
