// Electricity of small machines: what a single-phase motor draws and how it slips, how a cord and
// a generator sag, when a breaker and a ground-fault protector trip. Leaves out the first cycles
// of a start, the angle between current and cord, and what heat does to a winding.
import { clamp, exp, log, max, min, pow, sqrt } from '../base/math.ts';

/** A motor by its plate. Amperes are those at rated load and voltage. */
export interface Motor {
  /** Shaft power W and voltage V on the plate. */
  readonly P: number;
  readonly V: number;
  /** What does work, what magnetises, both together, and with the rotor held. */
  readonly working: number;
  readonly magnetising: number;
  readonly full: number;
  readonly locked: number;
}

/** Slip at rated load: 3450 of 3600 a minute, two poles at 60 Hz. */
export const SLIP_RATED = 0.042;
/** Most torque over rated torque, at rated voltage [NEMAMG1, recalled: 1.75 to 3 by size]. */
const BREAKDOWN = 2.2;
/** Slip at which that is, so that rated torque is at rated slip. */
const SLIP_MOST = SLIP_RATED / (BREAKDOWN - sqrt(BREAKDOWN * BREAKDOWN - 1));

/**
 * Efficiency and power factor at rated load of single-phase motors of P W at the shaft, each
 * 0.65 (P/746)^0.177 held at 0.85 [NEC430.248, a fit to it at 1/2 and 2 hp; how their product
 * divides is a guess].
 */
export function typicalMotor(P: number): { efficiency: number; power_factor: number } {
  const each = min(0.85, 0.65 * pow(P / 746, 0.177));
  return { efficiency: each, power_factor: each };
}

/**
 * A motor of P W at V volt: the working current is P/(eta V), the magnetising one that share of
 * the full current, at a right angle to it; `locked` is times the full current.
 */
export function makeMotor(plate: {
  P: number;
  V: number;
  efficiency: number;
  magnetising_share: number;
  locked: number;
}): Motor {
  const { P, V, efficiency, magnetising_share } = plate;
  const working = P / (efficiency * V);
  const full = working / sqrt(1 - magnetising_share * magnetising_share);
  const magnetising = magnetising_share * full;
  return { P, V, working, magnetising, full, locked: plate.locked * full };
}

/** Torque over rated torque at a slip and a share v of rated voltage [Kloss1910]. */
export function motorTorque(slip: number, v: number): number {
  return (BREAKDOWN * v * v * 2) / (slip / SLIP_MOST + SLIP_MOST / max(slip, 1e-9));
}

/** Speed over that at rated load, by slip. */
export function speedAt(slip: number): number {
  return (1 - slip) / (1 - SLIP_RATED);
}

/** Halvings: to a billionth of the slip. */
const HALVINGS = 30;

/**
 * Slip at which a motor at share v of its voltage carries a load whose torque goes with the square
 * of the speed, `load` times rated torque at rated speed and above it. 1 where it does not turn.
 */
export function motorSlip(load: number, v: number): number {
  let low = 0;
  let high = 1;
  for (let k = 0; k < HALVINGS; k++) {
    const slip = (low + high) / 2;
    const speed = min(1, speedAt(slip));
    if (motorTorque(slip, v) < load * speed * speed) low = slip;
    else high = slip;
  }
  return high;
}

/**
 * Current, A, at a slip and a share v of rated voltage; goes with v at a given slip. Up to the
 * slip of most torque I = sqrt(I_w^2 + I_m^2) with I_w by torque; at twice that slip and beyond
 * the current of the held rotor, less by how far it turns [rotor circuit of an induction motor,
 * no source; what lies between is a fit].
 */
export function motorAmps(motor: Motor, slip: number, v: number): number {
  const work = (motor.working * motorTorque(min(slip, SLIP_MOST), v)) / max(v, 1e-9);
  const magnet = motor.magnetising * v;
  const running = sqrt(work * work + magnet * magnet);
  const x = slip / SLIP_MOST;
  if (x <= 1) return running;
  const x1 = 1 / SLIP_MOST;
  const shape = x / sqrt(1 + x * x) / (x1 / sqrt(1 + x1 * x1));
  return running + clamp(x - 1, 0, 1) * (motor.locked * v * shape - running);
}

/** Ohm m. Annealed copper at 20 C [IEC60028]. */
const COPPER = 1.7241e-8;

/** Resistance of a cord out and back, ohm: length m, copper of each conductor m2. */
export function cordResistance(L: number, area: number): number {
  return (2 * COPPER * L) / area;
}

/**
 * Voltage of a generator under a load of Y A/V: falls straight by `droop` up to its rating S (VA);
 * beyond it, it is less by as many times as the load is over the rating [droop by definition;
 * beyond the rating a fit, no source].
 */
export function generatorVolts(V: number, droop: number, S: number, Y: number): number {
  const a = (droop * V * Y) / S;
  const within = a < 1e-9 ? V : (sqrt(1 + 4 * a * V) - 1) / (2 * a);
  if (within * within * Y <= S) return within;
  return pow((V * (1 - droop) * S) / Y, 1 / 3);
}

/** s. How slowly the bimetal of a breaker follows, and the share of rating at which it lets go. */
const BREAKER_LAG = 150;
export const BREAKER_HOLDS = 1.15;
/** Times its rating at which a breaker trips at once. */
export const BREAKER_MAGNETIC = 10;

/**
 * Thermal image of a breaker after t s at m times its rating from the image it had: dTh/dt =
 * (m^2 - Th)/tau. Trips at h^2, h = 1.15; tau = 150 s [UL489, a fit within its limits].
 */
export function breakerImage(image: number, m: number, t: number): number {
  return m * m + (image - m * m) * exp(-t / BREAKER_LAG);
}

/** s until a cold breaker trips at m times its rating; Infinity where it holds. */
export function breakerTime(m: number): number {
  if (m >= BREAKER_MAGNETIC) return 0;
  const h2 = BREAKER_HOLDS * BREAKER_HOLDS;
  return m * m <= h2 ? Infinity : BREAKER_LAG * log((m * m) / (m * m - h2));
}

/** A. Where a Class A protector trips: one between 4 mA, at which it must not, and 6, at which it
 *  must [UL943]. */
const GROUND_FAULT_FROM = 0.005;

/** s. The longest a Class A protector may take at a fault current I A: (20 mA/I)^1.43 [UL943]. */
export function groundFaultTime(I: number): number {
  return I < GROUND_FAULT_FROM ? Infinity : pow(0.02 / I, 1.43);
}
