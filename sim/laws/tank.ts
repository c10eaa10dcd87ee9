// Bubbles, jets and vortices in an open tank.
import { exp, min, pow, sqrt } from '../base/math.ts';
import { G } from '../base/units.ts';
import { density, surfaceTension, viscosity } from './water.ts';

/** Newton steps on a convex equation, from above: five reach the last place over the range. */
const STEPS = 6;

/**
 * Terminal velocity of a rigid sphere [SchillerNaumann1935]: with Re = rho u d/mu, the drag
 * 18 Re (1 + 0.15 Re^0.687) equals the buoyancy number g d^3 rho^2/mu^2. Re to 1000.
 */
function rigidRise(d: number, t_C: number): number {
  const rho = density(t_C);
  const mu = viscosity(t_C);
  const stokes = (G * d * d * d * rho * rho) / (18 * mu * mu);
  let Re = min(stokes, pow(stokes / 0.15, 1 / 1.687));
  for (let k = 0; k < STEPS; k++) {
    const drag = 0.15 * pow(Re, 0.687);
    Re = Re - (Re * (1 + drag) - stokes) / (1 + 1.687 * drag);
  }
  return (Re * mu) / (rho * d);
}

/**
 * Rise velocity of an air bubble of diameter d (m) in still water, m/s: the lesser of a rigid
 * sphere [SchillerNaumann1935] and the distorted bubble of [Clift1978, eq. 7-3, recalled],
 * u = sqrt(2.14 sigma/(rho d) + 0.505 g d). Range 0.05 mm to 20 mm; not clamped outside.
 */
export function bubbleRise(d: number, t_C: number): number {
  const clift = sqrt((2.14 * surfaceTension(t_C)) / (density(t_C) * d) + 0.505 * G * d);
  return min(rigidRise(d, t_C), clift);
}

/**
 * Depth that the bubbles of a plunging jet reach, m: 2.1 V^0.775 d^0.67 [Bin1993, recalled];
 * V m/s and d m at the surface. Measured to about 10 m/s and 50 mm.
 */
export function plungeDepth(V: number, d: number): number {
  return 2.1 * pow(V, 0.775) * pow(d, 0.67);
}

/**
 * Air over water that a plunging jet draws in: 0.04 Fr^0.28 (L/d)^0.4, Fr = V^2/(g d)
 * [Bin1993, recalled]; `fall` L in m. 0 for an outlet under water or at rest.
 */
export function plungeEntrainment(V: number, d: number, fall: number): number {
  if (V <= 0 || fall <= 0) return 0;
  return 0.04 * pow((V * V) / (G * d), 0.28) * pow(fall / d, 0.4);
}

/**
 * Submergence that keeps a vortex from drawing air, m: D (1 + 2.3 V/sqrt(g D)) [HI9.8]; D m is
 * the mouth of the outlet, V m/s the velocity there.
 */
export function vortexSubmergence(D: number, V: number): number {
  return D * (1 + (2.3 * V) / sqrt(G * D));
}

/**
 * Air share of what a shallow outlet draws: 0 at the submergence needed, 0.1 at 0.3 of it, then
 * to 1 when the outlet is bare [fit, no source: only the onset is published].
 */
export function vortexAirFraction(needed: number, depth: number): number {
  if (depth >= needed) return 0;
  if (depth <= 0) return 1;
  const s = depth / needed;
  if (s >= 0.3) return (0.1 * (1 - s)) / 0.7;
  const t = 1 - s / 0.3;
  return 0.1 + 0.9 * t * t;
}

/**
 * Share of bubbles (or grains) that leave a well-mixed tank in one pass: uA/(uA + Q)
 * [Hazen1904]; u m/s rise, A m2 surface, Q m3/s through. Q > 0.
 */
export function hazenRemoval(uA: number, Q: number): number {
  return uA / (uA + Q);
}

/** Concentration share reached after t s in a stirred volume V m3 fed by Q m3/s. */
export function stirredApproach(Q: number, V: number, t: number): number {
  return 1 - exp((-Q * t) / V);
}
