// That the independent calculation of air squeezed by a head that comes on at once (origin/) is one
// to go by: against the energy balance of a short pocket, whose peaks are known, and between air
// that keeps its temperature and air that loses no heat. The engine answers in cases.test.ts.
import { describe, expect, it } from 'vitest';
import { off } from '../support/fields.ts';
import { ATM } from '../support/worlds.ts';
import { WORLDS } from './ask/worlds.ts';
import { peak } from './origin/cushions.ts';

const [G, RHO] = [9.80665, 998.2];
const BORE = 0.1;
const A = (Math.PI * BORE * BORE) / 4;
const POCKET = A * 1 + 0.0005; // m3: the last metre and the end fitting.

/** Highest p/p0 of a pocket squeezed by p_R: p_R dV - weight = the work that p V^m takes. */
function highest(p_R: number, rise: number, m = 1): number {
  const work = (x: number) => (m === 1 ? Math.log(x) : (x ** (m - 1) - 1) / (m - 1));
  const surplus = (V: number) => {
    const d = POCKET - V;
    const lifted = rise === 0 ? 0 : RHO * G * (rise * d + (d * d) / (2 * A));
    return p_R * d - lifted - ATM * POCKET * work(POCKET / V);
  };
  let lo = POCKET * 1e-4;
  let hi = POCKET * 0.9;
  for (let k = 0; k < 100; k++) {
    const mid = (lo + hi) / 2;
    if (surplus(mid) < 0) lo = mid;
    else hi = mid;
  }
  return (POCKET / lo) ** m;
}

const headOf = (ratio: number) => ratio * ATM + RHO * G * 10;

describe('a head that comes on at once against a pocket of air', () => {
  it.each([
    [1.5, 1, 2.397],
    [2, 1, 4.922],
    [3, 1, 16.8],
    [1.5, 1.4, 2.307],
    [2, 1.4, 4.314],
    [3, 1.4, 10.99],
  ] as const)('CHK-5.8: the balance of %s at exponent %s gives the known %s', (ratio, m, known) => {
    expect(off(highest(ratio * ATM, 0, m), known)).toBeLessThan(0.001);
  });

  it.each([1.5, 2, 3])(
    'CHK-5.8/%s: friction takes a little from what the balance gives',
    (ratio) => {
      for (const [air, m] of [
        ['cool', 1],
        ['lagged', 1.4],
      ] as const) {
        const [got, most] = [peak(ratio, air), highest(headOf(ratio), 10, m)];
        expect(got).toBeLessThan(most);
        expect(got).toBeGreaterThan(0.9 * most);
      }
    },
  );

  it.each([1.5, 2, 3])('5.8/warm-%s: air that loses heat lies between the two', (ratio) => {
    const warm = peak(ratio, 'warms');
    expect(warm).toBeGreaterThan(peak(ratio, 'lagged') * 0.999 - 0.02);
    expect(warm).toBeLessThan(peak(ratio, 'cool'));
  });

  it('exceeds the head that caused it at the tick of the jobs too, by less than it should', () => {
    for (const ratio of [1.5, 2, 3]) {
      const got = WORLDS['world.peak_atm']({ ratio, tick_s: 0.1, cell_m: 1 });
      expect(got).toBeGreaterThan(1.3 * ratio);
      expect(got).toBeLessThan(highest(headOf(ratio), 10));
    }
  });
});
