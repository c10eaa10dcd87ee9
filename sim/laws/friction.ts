// Loss of head in round pipe for every regime, with its slope from the same numbers.
import { abs, log, PI, pow, sqrt } from '../base/math.ts';

/** Below this Reynolds number laminar flow is exact and the power law of 12 is not needed. */
const LAMINAR_BELOW = 300;

let f = 0;
let slope = 0;

/** Fills f (Darcy) and d ln f / d ln Re of [Churchill1977] for Re >= LAMINAR_BELOW. */
function churchill(Re: number, e_D: number): void {
  const a = 7 / Re;
  const a9 = pow(a, 0.9);
  const q = a9 + 0.27 * e_D;
  const l = -2.457 * log(q);
  const l2 = l * l;
  const l4 = l2 * l2;
  const l8 = l4 * l4;
  const A = l8 * l8;
  const b = 37530 / Re;
  const b2 = b * b;
  const b4 = b2 * b2;
  const b8 = b4 * b4;
  const B = b8 * b8;
  const c = 8 / Re;
  const c2 = c * c;
  const c4 = c2 * c2;
  const c12 = c4 * c4 * c4;
  const AB = A + B;
  const turbulent = 1 / (AB * sqrt(AB));
  const sum = c12 + turbulent;
  f = 8 * pow(sum, 1 / 12);
  // d ln A/d ln Re = 16 (d l/d ln Re)/l, d l/d ln Re = 2.457 * 0.9 a9/q.
  const dA = (16 * 2.457 * 0.9 * a9) / (q * l);
  const dTurbulent = -1.5 * ((A * dA - 16 * B) / AB);
  slope = (-12 * c12 + turbulent * dTurbulent) / (12 * sum);
}

/** Darcy friction factor, [Churchill1977], all regimes; e_D relative roughness 0..0.05. Re > 0. */
export function frictionFactor(Re: number, e_D: number): number {
  if (Re < LAMINAR_BELOW) return 64 / Re;
  churchill(Re, e_D);
  return f;
}

/** d ln f / d ln Re of the same law: -1 laminar, near -0.2 smooth turbulent, to 0 rough. */
export function frictionFactorSlope(Re: number, e_D: number): number {
  if (Re < LAMINAR_BELOW) return -1;
  churchill(Re, e_D);
  return slope;
}

export interface PipeRun {
  /** Bore m, area m2, length m, roughness m, density kg/m3, viscosity Pa s. */
  D: number;
  A: number;
  L: number;
  e: number;
  rho: number;
  mu: number;
}

/**
 * Darcy-Weisbach: out[0] = Pa lost along the sign of Q (m3/s), out[1] = its slope, Pa s/m3 > 0.
 * At rest the slope is Hagen-Poiseuille's, 128 mu L/(pi D^4).
 */
export function pipeLoss(Q: number, p: PipeRun, out: Float64Array): void {
  const laminar = (128 * p.mu * p.L) / (PI * p.D * p.D * p.D * p.D);
  const V = abs(Q) / p.A;
  const Re = (p.rho * V * p.D) / p.mu;
  if (Re < LAMINAR_BELOW) {
    out[0] = laminar * Q;
    out[1] = laminar;
    return;
  }
  churchill(Re, p.e / p.D);
  const dp = (f * p.L * p.rho * V * V) / (2 * p.D);
  out[0] = Q > 0 ? dp : -dp;
  out[1] = (dp * (2 + slope)) / abs(Q);
}
