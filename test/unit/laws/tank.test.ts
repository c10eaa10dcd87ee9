// Bubbles, returns and outlets of a tank: balances that must close whatever the fit, limits,
// and ramps without steps.
import { describe, expect, it } from 'vitest';
import * as tank from '../../../sim/laws/tank.ts';
import { density, viscosity } from '../../../sim/laws/water.ts';

const G = 9.80665;

describe('the rise of a bubble', () => {
  it('balances buoyancy and the drag of Schiller and Naumann below a millimetre', () => {
    for (const t of [2, 20, 45]) {
      for (let d = 5e-5; d < 1.2e-3; d *= 1.1) {
        const u = tank.bubbleRise(d, t);
        const Re = (density(t) * u * d) / viscosity(t);
        const drag = ((24 / Re) * (1 + 0.15 * Re ** 0.687) * u * u * 3) / 4;
        expect(Math.abs(drag / (G * d) - 1), `${d} m at ${t} C`).toBeLessThan(1e-12);
      }
    }
  });
  it('comes to the law of Stokes for the smallest', () => {
    const stokes = (G * 2e-5 * 2e-5 * density(20)) / (18 * viscosity(20));
    expect(Math.abs(tank.bubbleRise(2e-5, 20) / stokes - 1)).toBeLessThan(0.01);
  });
  it('is quicker for a larger one up to 2 mm, and for a small one in warm water', () => {
    for (let d = 1e-4; d < 2e-3; d *= 1.2) {
      expect(tank.bubbleRise(1.2 * d, 20)).toBeGreaterThan(tank.bubbleRise(d, 20));
    }
    expect(tank.bubbleRise(3e-4, 40)).toBeGreaterThan(tank.bubbleRise(3e-4, 5));
  });
});

describe('a return that falls into the tank', () => {
  it('draws no air under water or at rest, more from higher and faster', () => {
    expect(tank.plungeEntrainment(2, 0.05, 0)).toBe(0);
    expect(tank.plungeEntrainment(2, 0.05, -0.1)).toBe(0);
    expect(tank.plungeEntrainment(0, 0.05, 0.1)).toBe(0);
    expect(tank.plungeEntrainment(2, 0.05, 0.2)).toBeGreaterThan(
      tank.plungeEntrainment(2, 0.05, 0.1),
    );
    expect(tank.plungeEntrainment(3, 0.05, 0.1)).toBeGreaterThan(
      tank.plungeEntrainment(2, 0.05, 0.1),
    );
    expect(tank.plungeDepth(3, 0.05)).toBeGreaterThan(tank.plungeDepth(2, 0.05));
  });
});

describe('a shallow outlet', () => {
  it('draws no air when deep enough, a tenth at three tenths of it, only air when bare', () => {
    expect(tank.vortexAirFraction(0.3, 0.3)).toBe(0);
    expect(tank.vortexAirFraction(0.3, 1)).toBe(0);
    expect(tank.vortexAirFraction(0.3, 0.09)).toBeCloseTo(0.1, 12);
    expect(tank.vortexAirFraction(0.3, 0)).toBe(1);
    expect(tank.vortexAirFraction(0.3, -0.1)).toBe(1);
  });
  it('draws more the lower the level, without a step', () => {
    for (let depth = 0; depth < 0.35; depth += 1e-4) {
      const here = tank.vortexAirFraction(0.3, depth);
      const below = tank.vortexAirFraction(0.3, depth - 1e-4);
      expect(below).toBeGreaterThanOrEqual(here);
      expect(below - here).toBeLessThan(0.003);
    }
  });
  it('needs its own diameter at rest, and more the faster it draws', () => {
    expect(tank.vortexSubmergence(0.05, 0)).toBe(0.05);
    expect(tank.vortexSubmergence(0.05, 2)).toBeGreaterThan(tank.vortexSubmergence(0.05, 1));
  });
});

describe('a stirred tank', () => {
  it('strips between none and all of the bubbles', () => {
    expect(tank.hazenRemoval(0, 1e-3)).toBe(0);
    expect(tank.hazenRemoval(1, 1e-9)).toBeCloseTo(1, 8);
  });
  it('forgets by the same share in each turnover', () => {
    const once = tank.stirredApproach(1e-3, 0.2, 200);
    const twice = tank.stirredApproach(1e-3, 0.2, 400);
    expect(1 - twice).toBeCloseTo((1 - once) * (1 - once), 12);
    expect(tank.stirredApproach(1e-3, 0.2, 0)).toBe(0);
  });
});
