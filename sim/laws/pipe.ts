// Polyethylene pipe in iron-pipe sizes: outside diameter by nominal size, least wall by
// dimension ratio, bore. Convention chosen: the nominal bore, outside diameter less twice the
// LEAST wall; a real bore is some 1.5 % narrower, since walls are made a little thicker.
import { max, round } from '../base/math.ts';
import { INCH, type m } from '../base/units.ts';

export const PIPE_SIZES = ['3/4', '1', '1-1/4', '1-1/2', '2', '3', '4'] as const;
export type PipeSize = (typeof PIPE_SIZES)[number];

/** Outside diameters in inches [ASTMD3035], table 1. */
const OD_INCH: Readonly<Record<PipeSize, number>> = {
  '3/4': 1.05,
  '1': 1.315,
  '1-1/4': 1.66,
  '1-1/2': 1.9,
  '2': 2.375,
  '3': 3.5,
  '4': 4.5,
};

/** Thinnest wall of any pipe, in inches [ASTMD3035]. */
const WALL_FLOOR_INCH = 0.062;

/** Outside diameter, m [ASTMD3035]. */
export function outsideDiameter(size: PipeSize): m {
  return OD_INCH[size] * INCH;
}

/**
 * Least wall, m: outside diameter over dimension ratio, rounded to a thousandth of an inch, not
 * below 0.062 in [ASTMD3035]. od in m, dr > 2.
 */
export function wallMin(od: m, dr: number): m {
  return max(WALL_FLOOR_INCH, round((od / INCH / dr) * 1000) / 1000) * INCH;
}

/** Nominal bore, m: outside diameter less twice the least wall. */
export function idNominal(od: m, dr: number): m {
  return od - 2 * wallMin(od, dr);
}
