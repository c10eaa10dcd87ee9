// A centrifugal pump: head by curve and speed, what gas and a starved suction take from it, the
// power at its shaft. Leaves the motor and its breaker out.
import { clamp, max, min, smoothstep, sqrt } from '../base/math.ts';
import { assert } from '../base/assert.ts';
import { G, P_ATM } from '../base/units.ts';

/** Knots (m3/s, m) with slopes of a monotone cubic; slopes are negative throughout. */
export interface PumpCurve {
  readonly Q: readonly number[];
  readonly H: readonly number[];
  readonly slope: readonly number[];
  /** Flow and head at which the curve ends; shut-off head. */
  readonly Q_max: number;
  readonly H0: number;
  /** Passive loss H = -k Q|Q| of the standing pump, s2/m5. */
  readonly k: number;
}

/** Smallest fall of head kept between points, m per full flow: the solver needs a slope. */
const FALL_MIN = 1e-3;

/**
 * Curve through points (flow m3/s rising, head m), made falling where they are not. Monotone
 * cubic after [FritschCarlson1980], harmonic slopes.
 * @throws AssertionError with fewer than two points or flows that do not rise.
 */
export function makePumpCurve(points: readonly (readonly [Q: number, H: number])[]): PumpCurve {
  assert(points.length >= 2, 'a pump curve needs two points');
  const Q = points.map(([q]) => q);
  const H = points.map(([, h]) => h);
  const n = Q.length;
  for (let i = 1; i < n; i++) {
    assert(Q[i]! > Q[i - 1]!, 'flows of a pump curve must rise');
    H[i] = min(H[i]!, H[i - 1]! - (FALL_MIN * (Q[i]! - Q[i - 1]!)) / Q[n - 1]!);
  }
  const secant = Array.from({ length: n - 1 }, (_, i) => (H[i + 1]! - H[i]!) / (Q[i + 1]! - Q[i]!));
  const slope = H.map((_, i) => {
    if (i === 0) return secant[0]! * 0.5;
    if (i === n - 1) return secant[n - 2]! * 1.2;
    return (2 * secant[i - 1]! * secant[i]!) / (secant[i - 1]! + secant[i]!);
  });
  return { Q, H, slope, Q_max: Q[n - 1]!, H0: H[0]!, k: H[0]! / (Q[n - 1]! * Q[n - 1]!) };
}

/** Head and slope at full speed: the cubic inside, straight lines on beyond both ends. */
function headFull(curve: PumpCurve, q: number, out: Float64Array): void {
  const { Q, H, slope } = curve;
  const last = Q.length - 1;
  if (q <= Q[0]! || q >= Q[last]!) {
    const i = q <= Q[0]! ? 0 : last;
    out[0] = H[i]! + slope[i]! * (q - Q[i]!);
    out[1] = slope[i]!;
    return;
  }
  let i = 0;
  while (q > Q[i + 1]!) i++;
  const h = Q[i + 1]! - Q[i]!;
  const t = (q - Q[i]!) / h;
  const t2 = t * t;
  const t3 = t2 * t;
  out[0] =
    H[i]! * (2 * t3 - 3 * t2 + 1) +
    H[i + 1]! * (3 * t2 - 2 * t3) +
    h * (slope[i]! * (t3 - 2 * t2 + t) + slope[i + 1]! * (t3 - t2));
  out[1] =
    (H[i]! - H[i + 1]!) * ((6 * t2 - 6 * t) / h) +
    slope[i]! * (3 * t2 - 4 * t + 1) +
    slope[i + 1]! * (3 * t2 - 2 * t);
}

/** Below this speed the curve's abscissa Q/s is held, and the passive loss takes over. */
const SPEED_FLOOR = 0.05;

/**
 * out[0] = head m at flow Q m3/s and speed share s, out[1] = dH/dQ <= 0. Affinity: H = s^2 h(Q/s)
 * [affinity laws]; a standing pump is a loss k Q|Q| that fades out as the speed rises.
 */
export function pumpHead(curve: PumpCurve, Q: number, speed: number, out: Float64Array): void {
  const s = max(speed, SPEED_FLOOR);
  headFull(curve, Q / s, out);
  const turning = smoothstep(speed / 0.3);
  const standing = 1 - turning;
  const reach = sqrt(Q * Q + 1e-10);
  const scale = turning * s;
  out[0] = scale * s * out[0]! - standing * curve.k * Q * reach;
  out[1] = scale * out[1]! - standing * curve.k * (reach + (Q * Q) / reach);
}

/** One-point curve [EPANET2.2]: H = 4/3 Hd - (Hd/3)(Q/Qd)^2, sampled at nine points. */
export function onePointCurve(Hd: number, Qd: number): PumpCurve {
  const points = Array.from({ length: 9 }, (_, i) => {
    const q = i / 4;
    return [q * Qd, (4 * Hd) / 3 - (Hd / 3) * q * q] as const;
  });
  return makePumpCurve(points);
}

/**
 * Share of the head that is left with gas share alpha in the casing: 1/(1+(alpha/a50)^3),
 * a50 = 0.065 sqrt(Q/Q_bep) held between a quarter and one [fit through the consensus of
 * Gulich2014: loss from 2 %, breakdown at 7 to 15 %, low flow more sensitive].
 */
export function gasFactor(alpha: number, flowShare: number): number {
  const a50 = 0.065 * sqrt(clamp(flowShare, 0.25, 1));
  const x = alpha / a50;
  return 1 / (1 + x * x * x);
}

/** Gas lock: head is lost above `breakdown` for `delay_s`, back only below `recovery` [fit]. */
export const GAS_LOCK = { breakdown: 0.12, recovery: 0.06, delay_s: 1 } as const;

/** Share of the required suction head at which nothing is pumped any more [fit, no source]. */
const NPSH_NOTHING = 0.4;
/** Chosen so that 97 % is left at a ratio of 1. */
const NPSH_SPAN = 0.6694;

/**
 * Share of head left when available over required suction head is `ratio`. At 1 it is 0.97, since
 * the required head is defined by 3 % loss [HI9.6.1]; 1 from 1.07 on; falls to 0 at 0.4 [fit].
 */
export function npshFactor(ratio: number): number {
  return smoothstep((ratio - NPSH_NOTHING) / NPSH_SPAN);
}

/**
 * Suction head available, m: (p - p_v)/(rho g) + z - h, with p on the surface it draws from and
 * p_v of vapour in Pa abs, z m of liquid above the eye, h m lost on the way.
 */
export function npshAvailable(s: {
  p: number;
  p_v: number;
  rho: number;
  z: number;
  h: number;
}): number {
  return (s.p - s.p_v) / (s.rho * G) + s.z - s.h;
}

/** Efficiency eta_max (1 - (1 - Q/Q_bep)^2), not below 0. */
export function efficiency(Q: number, Q_bep: number, eta_max: number): number {
  const x = 1 - Q / Q_bep;
  return max(0, eta_max * (1 - x * x));
}

const headOut = new Float64Array(2);

/**
 * Shaft power, W: rho g Q H / eta, whose limit at shut-off is rho g H0 Q_bep/(2 eta_max).
 * Backflow and run-out are held at the ends of the curve.
 */
export function shaftPower(
  curve: PumpCurve,
  Q: number,
  p: { rho: number; Q_bep: number; eta_max: number },
): number {
  const q = clamp(Q, 0, min(curve.Q_max, 1.95 * p.Q_bep));
  headFull(curve, q, headOut);
  return (p.rho * G * max(0, headOut[0]!) * p.Q_bep) / (p.eta_max * (2 - q / p.Q_bep));
}

/** Rise of temperature of what flows through, K: g H (1/eta - 1)/cp. */
export function throughHeating(H: number, eta: number, cp: number): number {
  return (G * H * (1 / eta - 1)) / cp;
}

/**
 * Warming of a pump that turns against a shut valve, K/s: P/(m_w c_w + m_m c_m), all shaft power
 * P (W) going into the water and metal of the casing (kg, J/kg/K); none lost to the air.
 */
export function shutOffHeating(
  P: number,
  store: {
    m_w: number;
    c_w: number;
    m_m: number;
    c_m: number;
  },
): number {
  return P / (store.m_w * store.c_w + store.m_m * store.c_m);
}

/** Affinity: flow, head and power shares at a speed share. */
export function affinity(speed: number): { flow: number; head: number; power: number } {
  return { flow: speed, head: speed * speed, power: speed * speed * speed };
}

/**
 * Shut-off head of a radial wheel, m: 0.585 u^2/g, u the rim's velocity, m/s [Stepanoff1957,
 * recalled]; makers' wheels lie between 0.55 and 0.65.
 */
export function wheelHead(u: number): number {
  return (0.585 * u * u) / G;
}

/**
 * Air a self-priming pump removes at suction pressure p_s (Pa abs), m3/s at p_s: falls straight
 * from q_0 at 1 atm to nothing at a vacuum of dp_max (Pa) [fit, no source].
 */
export function primingAirRate(q_0: number, p_s: number, dp_max: number): number {
  return clamp(q_0 * (1 - (P_ATM - p_s) / dp_max), 0, q_0);
}
