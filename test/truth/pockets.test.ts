// Where the expected values of air that warms when it is squeezed come from: one column against
// one pocket, with the first law for its temperature and a first-order return to the wall's, worked
// out here without the engine. The engine answers in cases.test.ts.
import { describe, expect, it } from 'vitest';
import { off } from '../support/fields.ts';
import { ATM } from '../support/worlds.ts';
import { CASES } from './cases.ts';

const [G, RHO, MU] = [9.80665, 998.2, 1.002e-3];
/** Share of a pressure's rise that goes into temperature: 1 - 1/1.4. */
const K = 2 / 7;
const areaOf = (bore: number) => (Math.PI * bore * bore) / 4;
/** Conduction time of a round pocket, s: R^2/(5.783 a), a = 2.1e-5 m2/s at 1 atm and as 1/p. */
const cooling = (bore: number, p: number) => ((bore / 2) ** 2 * p) / (5.783 * 2.1e-5 * ATM);

/** Highest p/p0; friction after Swamee and Jain 1976, the water's give by Rayleigh's quotient. */
function highest(p_R: number, rise: number, m: number | null): number {
  const bore = 0.1;
  const A = areaOf(bore);
  const room = A + 0.0005; // The last metre and the end fitting.
  const dt = 1e-5;
  let [d, V, T, peak] = [0, 0, 1, 0];
  for (let t = 0; t < 1.5; t += dt) {
    const L = rise + d / A;
    const gas = room - d;
    const p = m === null ? (T * ATM * room) / gas : ATM * (room / gas) ** m;
    const Re = (Math.abs(V) * bore) / 1.004e-6;
    const turbulent = 0.25 / Math.log10(5.74 / Math.max(Re, 2000) ** 0.9) ** 2;
    const f = Re < 2000 ? 64 / Math.max(Re, 1) : turbulent;
    V += (dt * ((p_R - p) / RHO - G * L - (f * L * V * Math.abs(V)) / (2 * bore))) / L;
    const rate = (V * A) / (1 + (((4.6e-10 * A * L) / 3) * 1.4 * p) / gas);
    d += rate * dt;
    T += (dt * ((K * T * rate) / gas - (T - 1) / cooling(bore, p))) / (1 - K);
    peak = Math.max(peak, p);
  }
  return peak / ATM;
}

/** Period of small swings of laminar water under a cushion that warms, s: a cubic's root. */
function period(bore: number, water: number, air: number, over: number): number {
  const A = areaOf(bore);
  const room = A * air + 0.0005;
  const p = (1 + over) * ATM;
  const V = room / (1 + over);
  const L = water + (room - V) / A;
  const I = (RHO * L) / A;
  const R = (8 * Math.PI * MU * L) / (A * A);
  const [dt, spring, tau] = [1e-5, (RHO * G) / A, cooling(bore, p)];
  let [x, q, T, last] = [1e-9, 0, 0, 0];
  const crossings: number[] = [];
  for (let t = 0; crossings.length < 3; t += dt) {
    q -= (dt * (p * (T + x / V) + spring * x + R * q)) / I;
    x += dt * q;
    T += (dt * ((K * q) / V - T / tau)) / (1 - K);
    if (last > 0 && q <= 0) crossings.push(t);
    last = q;
  }
  return (crossings[2]! - crossings[0]!) / 2;
}

const expected = (id: string): number => {
  const row = CASES.find((one) => one.id === id);
  if (row === undefined) throw new Error(`no row ${id}`);
  return [row.expected].flat()[0]!;
};

describe('air that warms when it is squeezed', () => {
  it('without weight and friction to speak of the stiff pocket peaks where it is known to', () => {
    // p_R (1-x) = p0 (x^(1-m) - 1)/(m-1), p = p0 x^-m: 4.314 at twice and m = 1.4.
    const surplus = (x: number) => 2 * (1 - x) - (x ** -0.4 - 1) / 0.4;
    let [lo, hi] = [0.01, 0.9];
    for (let k = 0; k < 80; k++) {
      if (surplus((lo + hi) / 2) < 0) lo = (lo + hi) / 2;
      else hi = (lo + hi) / 2;
    }
    expect(lo ** -1.4).toBeCloseTo(4.314, 2);
  });

  it.each([1.5, 2, 3])('5.8/warm-%s is the peak of one column on a warming pocket', (ratio) => {
    const p_R = ratio * ATM + RHO * G * 10;
    const want = highest(p_R, 10, null);
    expect(want).toBeGreaterThan(highest(p_R, 10, 1.4) * 0.999 - 0.02);
    expect(want).toBeLessThan(highest(p_R, 10, 1));
    expect(off(want, expected(`5.8/warm-${ratio}`))).toBeLessThan(1e-3);
  });

  it.each([100, 27.3, 20, 16, 12])('5.5/warm-%s is the period of one column', (bore_mm) => {
    expect(off(period(bore_mm / 1000, 10, 1, 0.05), expected(`5.5/warm-${bore_mm}`))).toBeLessThan(
      2e-3,
    );
  });
});
