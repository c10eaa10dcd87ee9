// What goes wrong, as numbers: an opening to the air, a pipe that is pinched, a leak that gapes
// with pressure, a well's vessel between two pressures. Leaves when and where to defects.ts.
import { max, min } from '../base/math.ts';

/** Discharge coefficient of a hole in a wall [common practice, textbooks of hydraulics]. */
const DISCHARGE = 0.6;

/** K of an opening of `area` times the nominal: Q = Cd a A sqrt(2 dp/rho), so K = 1/(Cd a)^2. */
export function openingK(area: number): number {
  const through = DISCHARGE * area;
  return 1 / (through * through);
}

/** Share of the area that a crushed pipe or a plug leaves at least. */
const NEARLY_SHUT = 0.005;

/**
 * K on the pipe's own velocity where `shut` of its area is closed: the jet contracts to
 * Cc = 0.63 + 0.37 a^3 of what is open and widens again with the loss of a sudden enlargement,
 * K = (1/(Cc a) - 1)^2 [Borda1766]. 0 at nothing shut; never quite tight.
 */
export function pinchK(shut: number): number {
  const a = max(NEARLY_SHUT, 1 - max(0, shut));
  const jet = (0.63 + 0.37 * a * a * a) * a;
  const lost = 1 / jet - 1;
  return lost * lost;
}

/**
 * Area of a leak over that at rest: straight in the pressure, 1 + m p [CassaVanZyl2013], p Pa
 * gauge, m 1/Pa; nothing below the pressure at which it opens; at rest where sucked upon.
 */
export function leakArea(p: number, opens_at: number, m: number): number {
  return p < opens_at ? 0 : 1 + m * max(0, p);
}

/**
 * Pressure of a supply's vessel, Pa abs, by what is out of it over its drawdown: its air keeps to
 * Boyle's law, from `high` with nothing drawn to `low` with all.
 */
export function vesselPressure(emptied: number, high: number, low: number): number {
  return (high * low) / (low + max(0, emptied) * (high - low));
}

/** Diameter of a wheel at wear 0..1 over that of the new one: a quarter less at the worst [fit]. */
export function wornWheel(wear: number): number {
  return 1 - 0.25 * min(1, max(0, wear));
}

/** What leaks back through worn rings at full speed, of the best flow: 15 % at the worst [fit]. */
export function wornLeak(wear: number): number {
  return 0.15 * min(1, max(0, wear));
}
