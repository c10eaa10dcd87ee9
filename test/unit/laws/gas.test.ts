// What the drift of gas must do whatever its constants: mirror itself, close at both ends, jump
// nowhere, speed up with the flow, stay under flooding; and the layer, its levelling and the jump
// against geometry worked out here another way.
import { describe, expect, it } from 'vitest';
import * as gas from '../../../sim/laws/gas.ts';
import { generator } from '../../support/rigs.ts';

const [RHO, AIR, SIGMA, G] = [998.2, 1.205, 0.0728, 9.80665];
const BORES = [0.0218, 0.0273, 0.0494, 0.0935];
const out = new Float64Array(3);
const pipe = (D: number, deg: number): gas.GasSection =>
  gas.gasSection(D, Math.sin((deg * Math.PI) / 180), RHO, AIR, SIGMA);
const velocity = (sec: gas.GasSection, alpha: number, j: number): number => {
  gas.gasDrift(sec, alpha, j, 1, out);
  return out[0]! * j + out[1]!;
};

describe('drift of gas', () => {
  const chance = generator(41);
  const draw = () => ({
    D: BORES[Math.floor(chance() * 4)]!,
    deg: chance() * 180 - 90,
    alpha: chance(),
    j: chance() * 4 - 2,
    n: chance() * 2,
  });

  it('is the same pipe seen from its other end', () => {
    for (let k = 0; k < 3000; k++) {
      const { D, deg, alpha, j, n } = draw();
      const there = gas.gasFlux(pipe(D, deg), alpha, j, n);
      const back = gas.gasFlux(pipe(D, -deg), alpha, -j, n);
      expect(Math.abs(there + back)).toBeLessThan(1e-13);
    }
  });

  it('carries nothing where there is no gas, and everything where there is nothing else', () => {
    for (let k = 0; k < 1000; k++) {
      const { D, deg, j, n } = draw();
      expect(gas.gasFlux(pipe(D, deg), 0, j, n)).toBeCloseTo(0, 15);
      expect(gas.gasFlux(pipe(D, deg), 1, j, n)).toBeCloseTo(j, 13);
    }
  });

  it('jumps nowhere as flow, gas share or slope change', () => {
    const step = 1e-7;
    for (let k = 0; k < 6000; k++) {
      const { D, deg, alpha } = draw();
      const j = k % 3 === 0 ? 0 : chance() * 2 - 1;
      const at = k % 5 === 0 ? 0 : deg; // Level and still are where the branches meet.
      const near = [
        gas.gasFlux(pipe(D, at), alpha, j - step, 1),
        gas.gasFlux(pipe(D, at), alpha, j + step, 1),
        gas.gasFlux(pipe(D, at), Math.min(1, alpha + step), j, 1),
        gas.gasFlux(pipe(D, at + step), alpha, j, 1),
        gas.gasFlux(pipe(D, at - step), alpha, j, 1),
      ];
      const here = gas.gasFlux(pipe(D, at), alpha, j, 1);
      for (const value of near) expect(Math.abs(value - here)).toBeLessThan(100 * step);
    }
  });

  it('moves a pocket no slower along the flow when the flow grows', () => {
    for (const D of BORES) {
      for (let deg = -90; deg <= 90; deg += 5) {
        let last = -Infinity;
        for (let j = -2; j <= 2; j += 0.01) {
          const u = velocity(pipe(D, deg), 0.5, j);
          expect(u).toBeGreaterThan(last - 1e-12);
          last = u;
        }
      }
    }
  });

  it('turns a held pocket exactly at the clearing velocity', () => {
    for (const D of BORES) {
      for (const deg of [-90, -60, -30, -10]) {
        const sec = pipe(D, deg);
        const clear = gas.clearingVelocity(sec, 1);
        expect(velocity(sec, 0.5, clear * 0.98)).toBeLessThan(0);
        expect(velocity(sec, 0.5, clear * 1.02)).toBeGreaterThan(0);
      }
    }
  });

  it('exchanges gas for water in a still leg below the flooding lines of Wallis 1969', () => {
    // Sharp-edged top for a vertical leg; an inclined one trades faster, as a smooth top does.
    const line = (C: number) => (C / (1 + (AIR / RHO) ** 0.25)) ** 2;
    for (const D of BORES) {
      for (let deg = 5; deg <= 90; deg += 5) {
        const sec = pipe(D, deg);
        for (let alpha = 0; alpha <= 1; alpha += 0.01) {
          const up = gas.gasFlux(sec, alpha, 0, 1);
          expect(up).toBeGreaterThanOrEqual(0);
          expect(up / sec.r).toBeLessThan(deg === 90 ? line(0.725) : line(0.88));
        }
      }
    }
  });

  it('counts gas as pockets from a twentieth up to 45 degrees, from a quarter beyond 75', () => {
    const bounds = (deg: number) => [pipe(0.05, deg).lo, pipe(0.05, deg).hi];
    const known = [[0, 0, 0.05], [45, 0, 0.05], [60, 0.05, 0.15], [75, 0.1, 0.25], [90, 0.1, 0.25]];
    for (const [deg, lo, hi] of known) {
      for (const way of [1, -1]) {
        expect(bounds(way * deg!)[0]).toBeCloseTo(lo!, 9);
        expect(bounds(way * deg!)[1]).toBeCloseTo(hi!, 9);
      }
    }
    const sec = pipe(0.05, 60);
    const mean = (velocity(sec, 0.5, 0) + 0.25 * Math.sin(Math.PI / 3) * 0.9 ** 1.75) / 2;
    expect(Math.abs(velocity(sec, 0.1, 0) - mean)).toBeLessThan(1e-3);
  });

  it('needs more flow for a larger pocket', () => {
    const sizes = [0.03, 0.09, 0.2, 1].map((n) => gas.clearingVelocity(pipe(0.0494, -10), n));
    expect([...sizes].sort((a, b) => a - b)).toEqual(sizes);
    expect(new Set(sizes).size).toBe(4);
  });
});

/** Share of a circle's area within depth h of its top, by adding up thin slices. */
function slices(h: number): number {
  let area = 0;
  const steps = 20000;
  for (let k = 0; k < steps; k++) {
    const y = ((k + 0.5) * h) / steps;
    area += 2 * Math.sqrt(y - y * y) * (h / steps);
  }
  return area / (Math.PI / 4);
}

describe('a gas layer along the crown', () => {
  it('is as thick as the area asks for, within a hundredth of the bore', () => {
    for (let h = 0.02; h < 1; h += 0.02) {
      expect(Math.abs(gas.layerThickness(slices(h)) - h)).toBeLessThan(0.002);
    }
    for (const h of [0.002, 0.005, 0.01]) {
      expect(Math.abs(gas.layerThickness(slices(h)) - h)).toBeLessThan(0.01);
    }
  });

  it('ends at nothing and at the whole bore, and is held there', () => {
    expect(gas.layerThickness(0)).toBeCloseTo(0, 12);
    expect(gas.layerThickness(1)).toBeCloseTo(1, 9);
    expect(gas.layerThickness(-0.1)).toBe(gas.layerThickness(0));
    expect(gas.layerThickness(1.1)).toBe(gas.layerThickness(1));
  });

  it('flows from thick to thin, and stands when thinner than tension lets it', () => {
    const sec = pipe(0.0273, 0);
    expect(sec.cap * sec.D).toBeCloseTo(2 * Math.sqrt(SIGMA / ((RHO - AIR) * G)), 12);
    for (let a = 0; a <= 1; a += 0.05) {
      for (let b = 0; b <= 1; b += 0.05) {
        const j = gas.levelling(sec, a, b);
        expect(j).toBeCloseTo(-gas.levelling(sec, b, a), 14);
        if (a > b) expect(j).toBeGreaterThanOrEqual(0);
        if (Math.max(a, b) <= sec.capShare) expect(j).toBe(0);
      }
    }
    expect(gas.levelling(sec, 0.6, 0.6)).toBe(0);
    expect(gas.levelling(sec, 0.9, 0.1)).toBeGreaterThan(gas.levelling(sec, 0.5, 0.1));
  });
});

describe('air that the jump tears off a held pocket', () => {
  const sec = pipe(0.0494, -10);
  const clear = gas.clearingVelocity(sec, 1);
  const J = (sec.onset + clear) / 2;

  it('follows from a half-full bore by plain geometry: V = 2 J, depth = pi D/8', () => {
    const Fr = (2 * J) / Math.sqrt((G * Math.PI * 0.0494) / 8);
    expect(gas.streamFroude(sec, 0.5, J)).toBeCloseTo(Fr, 4);
    expect(gas.entrainment(sec, 0.5, 0, J)).toBeCloseTo(0.0025 * (Fr - 1) ** 1.8 * J, 6);
  });

  it('goes with the flow, from whichever end the pipe is looked at', () => {
    const mirrored = gas.entrainment(pipe(0.0494, 10), 0.5, 0, -J);
    expect(mirrored).toBeLessThan(0);
    expect(mirrored).toBeCloseTo(-gas.entrainment(sec, 0.5, 0, J), 14);
  });

  it('is nothing without a pocket, a full cell below, a fall, or a fitting flow', () => {
    expect(gas.entrainment(sec, 0.5, 0, J)).toBeGreaterThan(0);
    expect(gas.entrainment(sec, 0.19, 0, J)).toBe(0);
    expect(gas.entrainment(sec, 0.5, 0.06, J)).toBe(0);
    expect(gas.entrainment(pipe(0.0494, 10), 0.5, 0, J)).toBe(0);
    expect(gas.entrainment(pipe(0.0494, 0), 0.5, 0, J)).toBe(0);
    expect(gas.entrainment(sec, 0.5, 0, sec.onset * 0.99)).toBe(0);
    expect(gas.entrainment(sec, 0.5, 0, clear * 1.01)).toBe(0);
    expect(gas.entrainment(pipe(0.0494, -90), 0.5, 0, J)).toBe(0);
  });

  it('is nothing without a jump, and held beyond a Froude number of 10', () => {
    expect(gas.jumpEntrainment(1)).toBe(0);
    expect(gas.jumpEntrainment(0.5)).toBe(0);
    expect(gas.jumpEntrainment(30)).toBe(gas.jumpEntrainment(10));
    expect(gas.jumpEntrainmentOld(0.9)).toBe(0);
  });
});
