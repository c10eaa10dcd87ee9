// Sand and shavings in the water: how fast a grain sinks, what starts it moving along a pipe,
// what keeps it off the floor of one, and what a loaded filter costs. What floats runs along the
// crown by the same laws, with its lack of weight in place of its weight.
import { abs, max, min, pow, sqrt } from '../base/math.ts';
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

/** Threshold of motion over weight per grain [Shields1936]: 0.045 to 0.06 of grains in water. */
const SHIELDS = 0.05;

/** Shear stress that starts to move a grain of size d on a level wall, Pa [Shields1936]. */
export function grainHolds(d: number, s: number, rho: number): number {
  return SHIELDS * abs(s - 1) * rho * G * d;
}

/**
 * Speed of a grain that rolls and hops along the wall, m/s: 11.5 (u* - 0.7 u*c)
 * [FernandezLuque1976]. u = shear velocity, uc = that at which it starts, m/s; 0 when u < uc.
 */
export function rollingSpeed(u: number, uc: number): number {
  return u < uc ? 0 : 11.5 * (u - 0.7 * uc);
}

/**
 * Share of the grains that flow keeps off the wall: none where w/(0.4 u*) is 2.5, all where it is
 * 0.8, the usual bounds of [Rouse1937]; straight in the shear velocity between [fit].
 */
export function suspendedShare(u: number, w: number): number {
  return w <= 0 ? 1 : min(1, max(0, (u / w - 1) / 2.125));
}

/** Excess of the shear stress over the threshold beyond which a bed gives up no more. */
export const EXCESS_MOST = 30;

/**
 * Grains that a bed gives up, kg/m2/s: 0.00033 rho_s sqrt((s-1) g d) D*^0.3 T^1.5
 * [VanRijn1984]. T = excess of the shear stress over the threshold, by the threshold, held to 30;
 * rho = of the water, kg/m3. Measured with sand of 0.13 to 1.5 mm on level beds; used beyond.
 */
export function pickUp(
  d: number,
  T: number,
  grain: { s: number; rho: number; nu: number },
): number {
  const { s, rho, nu } = grain;
  const R = abs(s - 1) * G * d;
  const size = pow((R * d * d) / (nu * nu), 0.1);
  const t = min(EXCESS_MOST, max(0, T));
  return 0.00033 * s * rho * sqrt(R) * size * t * sqrt(t);
}

/** F_L of the law below for few grains: 0.8 to 0.3 mm, 1 from 1 mm on [Durand1953]. d in m. */
export function depositFactor(d: number): number {
  return 0.8 + 0.2 * min(1, max(0, (d - 0.0003) / 0.0007));
}

/** Velocity that leaves no deposit in a level pipe, m/s: F_L sqrt(2 g D (s-1)) [Durand1953]. */
export function depositVelocity(F_L: number, D: number, s: number): number {
  return F_L * sqrt(2 * G * D * abs(s - 1));
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
