// Water by itself: what the table of published checks cannot say.
import { describe, expect, it } from 'vitest';
import * as water from '../../../sim/laws/water.ts';

const steps = (from: number, to: number, by: number): number[] =>
  Array.from({ length: Math.round((to - from) / by) + 1 }, (_, k) => from + k * by);

describe('pure water', () => {
  it('expands as its density falls: the slope by differences', () => {
    for (const t of steps(0.5, 59.5, 0.5)) {
      const rise = water.density(t + 0.01) - water.density(t - 0.01);
      const slope = -rise / 0.02 / water.density(t);
      expect(Math.abs(water.expansion(t) - slope), `${t} C`).toBeLessThan(1e-10);
    }
  });

  it('shrinks when it warms below 4 C and grows above', () => {
    expect(water.expansion(3.9)).toBeLessThan(0);
    expect(water.expansion(4.1)).toBeGreaterThan(0);
  });

  it('thins, boils sooner and holds its skin less as it warms', () => {
    for (const t of steps(0, 59, 1)) {
      expect(water.viscosity(t + 1), `viscosity at ${t}`).toBeLessThan(water.viscosity(t));
      expect(water.vapourPressure(t + 1)).toBeGreaterThan(water.vapourPressure(t));
      expect(water.surfaceTension(t + 1)).toBeLessThan(water.surfaceTension(t));
    }
  });

  it('follows Clausius and Clapeyron: steam pressure doubles about every 11 K near 20 C', () => {
    // Independent method: dp/dT = L/(T dv) with 2.4537 MJ/kg and an ideal vapour at 20 C.
    const T = 293.15;
    const slope = (2.4537e6 * water.vapourPressure(20)) / (461.5 * T * T);
    const law = (water.vapourPressure(20.05) - water.vapourPressure(19.95)) / 0.1;
    expect(Math.abs(law / slope - 1)).toBeLessThan(0.003); // Real vapour is 0.1 % off ideal.
  });

  it('is held at the ends of its laws', () => {
    expect(water.density(-40)).toBe(water.density(-5));
    expect(water.density(400)).toBe(water.density(100));
    expect(water.viscosity(-40)).toBe(water.viscosity(-5));
    expect(water.viscosity(400)).toBe(water.viscosity(100));
    expect(water.compressibility(400)).toBe(water.compressibility(100));
    expect(water.vapourPressure(-10)).toBe(water.vapourPressure(0));
    expect(water.vapourPressure(500)).toBe(water.vapourPressure(200));
    expect(water.surfaceTension(500)).toBe(water.surfaceTension(100));
    expect(water.expansion(90)).toBe(water.expansion(60));
    expect(water.heatCapacity(-3)).toBe(4219);
    expect(water.conductivity(90)).toBe(0.651);
  });

  it('keeps its heat between the points of the table', () => {
    expect(water.heatCapacity(25)).toBeCloseTo((4184 + 4180) / 2, 9);
    expect(water.conductivity(50)).toBeCloseTo((0.629 + 0.651) / 2, 9);
  });
});
