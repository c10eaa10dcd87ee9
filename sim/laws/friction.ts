// Friction of a full pipe: one law for laminar, transitional and turbulent flow, and its slope.
// Loss and slope come from the same numbers, so that a solver's step fits its residual.
import { abs, exp, log, min, sqrt } from '../base/math.ts';

/**
 * Below this Reynolds number the law equals 64/Re to the last place, so the straight law of
 * Hagen and Poiseuille stands in: finite slope at rest, nothing divided by the flow.
 */
export const RE_STRAIGHT = 500;
/** Roughness over bore beyond which the law was never meant; held there. */
const ROUGHEST = 0.05;

/** Friction factor and its logarithmic slope, of the last call, for this file only. */
let factor = 0;
let slope = 0;

/**
 * [Churchill1977], eq. 18: f = 8 [(8/Re)^12 + (A + B)^-1.5]^(1/12), with
 * A = (2.457 ln 1/((7/Re)^0.9 + 0.27 e/D))^16 and B = (37530/Re)^16. One formula for every
 * regime, Re to 1e8; within 3.1 % of Colebrook and White above Re 4000. Fills factor and slope.
 */
function churchill(Re: number, e_D: number): void {
  const l = 8 / Re;
  const l2 = l * l;
  const l4 = l2 * l2;
  const laminar = l4 * l4 * l4;
  const q = exp(0.9 * log(7 / Re));
  const z = q + 0.27 * min(e_D, ROUGHEST);
  const ln = -log(z);
  const A = sixteenth(2.457 * ln);
  const B = sixteenth(37530 / Re);
  const sum = A + B;
  const turbulent = 1 / (sum * sqrt(sum));
  const S = laminar + turbulent;
  factor = 8 * exp(log(S) / 12);
  // d A/d ln Re = 16 A (0.9 q/z)/ln, d B/d ln Re = -16 B; the powers 12 and -1.5 over 12.
  const dA = (14.4 * A * q) / (z * ln);
  slope = (-laminar - (0.125 * turbulent * (dA - 16 * B)) / sum) / S;
}

function sixteenth(x: number): number {
  const x2 = x * x;
  const x4 = x2 * x2;
  const x8 = x4 * x4;
  return x8 * x8;
}

/** Darcy friction factor [Churchill1977], 64/Re below Re 500. Re > 0; e_D held to 0..0.05. */
export function frictionFactor(Re: number, e_D: number): number {
  if (Re < RE_STRAIGHT) return 64 / Re;
  churchill(Re, e_D);
  return factor;
}

/**
 * d ln f/d ln Re of the same law, analytic: -1 laminar, near -0.2 turbulent and smooth, 0 rough;
 * positive in transition.
 */
export function frictionFactorSlope(Re: number, e_D: number): number {
  if (Re < RE_STRAIGHT) return -1;
  churchill(Re, e_D);
  return slope;
}

/** out[0] = factor, out[1] = d ln f/d ln Re [Churchill1977]; Re > 0. */
export function frictionInto(Re: number, e_D: number, out: Float64Array): void {
  if (Re < RE_STRAIGHT) {
    out[0] = 64 / Re;
    out[1] = -1;
    return;
  }
  churchill(Re, e_D);
  out[0] = factor;
  out[1] = slope;
}

/** Bore m, area m2, length m, roughness m, density kg/m3, viscosity Pa s of a stretch of pipe. */
export interface PipeRun {
  readonly D: number;
  readonly A: number;
  readonly L: number;
  readonly e: number;
  readonly rho: number;
  readonly mu: number;
}

/**
 * Darcy and Weisbach, dp = f L rho V|V|/(2 D), f of [Churchill1977]: out[0] = Pa with the sign of
 * Q (m3/s), out[1] = d dp/dQ in Pa s/m3, positive for every Q when L > 0. Once continuously
 * differentiable; at rest the slope is that of Hagen and Poiseuille, 32 mu L/(D^2 A).
 */
export function pipeLoss(Q: number, p: PipeRun, out: Float64Array): void {
  const V = abs(Q) / p.A;
  const Re = (p.rho * V * p.D) / p.mu;
  if (Re < RE_STRAIGHT) {
    const R = (32 * p.mu * p.L) / (p.D * p.D * p.A);
    out[0] = R * Q;
    out[1] = R;
    return;
  }
  churchill(Re, p.e / p.D);
  const R = (factor * p.L * p.rho * V) / (2 * p.D * p.A);
  out[0] = R * Q;
  out[1] = R * (2 + slope);
}
