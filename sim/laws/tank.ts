// Bubbles, jets and vortices in an open tank.
import { exp, log, min, PI, pow, sqrt } from '../base/math.ts';
import { G } from '../base/units.ts';
import { density, surfaceTension, viscosity } from './water.ts';

/** Terminal velocity of a rigid sphere, Schiller-Naumann drag, by fixed-point iteration. */
function rigidRise(d: number, t_C: number): number {
  const rho = density(t_C);
  const mu = viscosity(t_C);
  let u = (G * d * d * rho) / (18 * mu);
  for (let k = 0; k < 60; k++) {
    const Re = (rho * u * d) / mu;
    const Cd = (24 / Re) * (1 + 0.15 * pow(Re, 0.687));
    u = sqrt(u * sqrt((4 * G * d) / (3 * Cd)));
  }
  return u;
}

/**
 * Rise velocity of an air bubble of diameter d (m) in still water, m/s: the lesser of a rigid
 * sphere [SchillerNaumann1935] and the distorted bubble of [Clift1978] eq. 7-3,
 * u = sqrt(2.14 sigma/(rho d) + 0.505 g d). Range 0.05 mm to 20 mm; not clamped outside.
 */
export function bubbleRise(d: number, t_C: number): number {
  const clift = sqrt((2.14 * surfaceTension(t_C)) / (density(t_C) * d) + 0.505 * G * d);
  return min(rigidRise(d, t_C), clift);
}

/** Depth a plunging jet's bubbles reach, m: 2.1 V^0.775 d^0.67 [Bin1993]; V m/s, d m. */
export function plungeDepth(V: number, d: number): number {
  return 2.1 * pow(V, 0.775) * pow(d, 0.67);
}

/** Air over water that a plunging jet draws in: 0.04 Fr^0.28 (L/d)^0.4, Fr = V^2/(g d) [Bin1993]. */
export function plungeEntrainment(V: number, d: number, fall: number): number {
  if (V <= 0 || fall <= 0) return 0;
  return 0.04 * pow((V * V) / (G * d), 0.28) * pow(fall / d, 0.4);
}

/** Submergence that keeps a vortex from drawing air, m: D (1 + 2.3 V/sqrt(g D)) [HI9.8]. */
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

/** Share of bubbles that leave a well-mixed tank in one pass, uA/(uA + Q) [Hazen1904]. */
export function hazenRemoval(uA: number, Q: number): number {
  return uA / (uA + Q);
}

/** Concentration share reached after t s in a stirred volume V m3 fed by Q m3/s. */
export function stirredApproach(Q: number, V: number, t: number): number {
  return 1 - exp((-Q * t) / V);
}

/** Area of a round opening of diameter d. */
export function openingArea(d: number): number {
  return (PI * d * d) / 4;
}

/** Litres poured to go from phi0 to phi1 by bleed and feed of V: V ln((1-phi0)/(1-phi1)). */
export function bleedAndFeed(V: number, phi0: number, phi1: number): number {
  return V * log((1 - phi0) / (1 - phi1));
}
