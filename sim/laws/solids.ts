// Sand and shavings in the water: how fast a grain sinks, what starts it moving along a pipe,
// what keeps it off the floor of one, and what a loaded filter costs.
import { abs, sqrt } from '../base/math.ts';
import { G } from '../base/units.ts';

/**
 * Settling speed of a natural grain, m/s: R g d^2 / (18 nu + sqrt(0.75 R g d^3)), C2 = 1
 * [FergusonChurch2004], eq. 4. d in m, s = grain over water density, nu in m2/s. Negative when
 * the grain floats (s < 1). Silt to gravel.
 */
export function settlingSpeed(d: number, s: number, nu: number): number {
  const R = s - 1;
  return (R * G * d * d) / (18 * nu + sqrt(0.75 * abs(R) * G * d * d * d));
}

/** Shear stress of a flow on the pipe's wall, Pa: f rho V^2 / 8. */
export function wallShear(f: number, rho: number, V: number): number {
  return (f * rho * V * V) / 8;
}

/** Largest grain that wall shear tau moves, m: tau / (theta (s-1) rho g) [Shields1936]. */
export function grainMoved(tau: number, grain: { s: number; rho: number; theta: number }): number {
  return tau / (grain.theta * (grain.s - 1) * grain.rho * G);
}

/** Velocity that leaves no deposit in a level pipe, m/s: F_L sqrt(2 g D (s-1)) [Durand1953]. */
export function depositVelocity(F_L: number, D: number, s: number): number {
  return F_L * sqrt(2 * G * D * (s - 1));
}

/** Share of grains of size d that a filter keeps: 1/(1 + (d50/d)^4) [fit, no source]. d > 0. */
export function filterCapture(d: number, d50: number): number {
  const x = d50 / d;
  const x2 = x * x;
  return 1 / (1 + x2 * x2);
}

/** A filter's medium: its area m2, resistance of the medium 1/m, of the cake m/kg. */
export interface FilterMedium {
  readonly area: number;
  readonly medium: number;
  readonly cake: number;
}

/**
 * Loss of a filter that has caught `mass` kg, Pa: (mu Q / A)(R_m + alpha m / A)
 * [CoulsonRichardson2], ch. 7; cake that does not compact. Linear in Q, so the slope is loss/Q.
 */
export function filterLoss(Q: number, mu: number, mass: number, f: FilterMedium): number {
  return ((mu * Q) / f.area) * (f.medium + (f.cake * mass) / f.area);
}
