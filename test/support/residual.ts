// Air left in a loop, from what the tank lost when the loop was brought to higher pressures. Pure
// sums; what is read, and how well, is for who asks. Pressures absolute, levels of one tank.
import { abs } from '../../sim/base/math.ts';
import { P_ATM } from '../../sim/base/units.ts';

/** Pressure of the loop, Pa abs, and the tank's level then, m. */
export interface Look {
  readonly pressure: number;
  readonly level: number;
}

export interface Residual {
  /** m3 at 1 atm. */
  readonly air: number;
  /** m3/Pa that pipes, hoses and water give. */
  readonly give: number;
  /** m by which that air moved the level between the first look and the last. */
  readonly moved: number;
}

/** Share of the products below which two equations are one. */
const ALIKE = 1e-6;

/**
 * Three looks, at p1 < p2 < p3: what left the tank is V (1 - p1/p) + C (p - p1), air by Boyle and
 * what gives in a straight line; two such sums give V at p1 and C. Null where the pressures lie too
 * close to tell the two apart.
 */
export function byTwoLevels(
  looks: readonly [open: Look, first: Look, second: Look],
  area: number,
): Residual | null {
  const [{ pressure: p1, level: z1 }, a, b] = looks;
  const [air_a, air_b] = [1 - p1 / a.pressure, 1 - p1 / b.pressure];
  const [rise_a, rise_b] = [a.pressure - p1, b.pressure - p1];
  const [out_a, out_b] = [area * (z1 - a.level), area * (z1 - b.level)];
  const det = air_a * rise_b - air_b * rise_a;
  if (abs(det) <= ALIKE * abs(air_a * rise_b)) return null;
  const V = (out_a * rise_b - out_b * rise_a) / det;
  const give = (air_a * out_b - air_b * out_a) / det;
  return { air: (V * p1) / P_ATM, give, moved: (V * air_b) / area };
}

/** Two looks, and what pipes and water give by the book, m3/Pa. */
export function byOneLevel(
  [open, shut]: readonly [open: Look, shut: Look],
  area: number,
  give: number,
): Residual {
  const out = area * (open.level - shut.level) - give * (shut.pressure - open.pressure);
  const V = out / (1 - open.pressure / shut.pressure);
  return { air: (V * open.pressure) / P_ATM, give, moved: out / area };
}
