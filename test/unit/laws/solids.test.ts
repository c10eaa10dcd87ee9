// Grains: the two ends of the settling law are textbook laws of their own; shavings float; a
// filter keeps half of its own size and its loss grows with what it caught.
import { describe, expect, it } from 'vitest';
import * as solids from '../../../sim/laws/solids.ts';

const [G, NU] = [9.80665, 1.004e-6];

describe('a grain on the wall', () => {
  const sand = { s: 2.65, rho: 998.2, nu: 1.0034e-6 };

  it('is held by its weight or by its lack of it', () => {
    // By hand: 0.05 * 1.65 * 998.2 * 9.80665 * 0.001.
    expect(solids.grainHolds(1e-3, 2.65, 998.2)).toBeCloseTo(0.8076, 3);
    expect(solids.grainHolds(2e-3, 0.95, 998.2)).toBeCloseTo(0.04895, 4);
    const tau = solids.grainHolds(1e-3, 2.65, 998.2);
    const moved = solids.grainMoved(tau, { s: 2.65, rho: 998.2, theta: 0.05 });
    expect(moved).toBeCloseTo(1e-3, 12);
  });

  it('rolls from its threshold on, slower than the water', () => {
    expect(solids.rollingSpeed(0.0284, 0.0285)).toBe(0);
    expect(solids.rollingSpeed(0.0285, 0.0285)).toBeCloseTo(11.5 * 0.3 * 0.0285, 12);
    // By hand with Blasius at 0.61 m/s in 27.3 mm: 0.184 m/s.
    expect(solids.rollingSpeed(0.03596, 0.02848)).toBeCloseTo(0.1843, 3);
  });

  it('is off it by the bounds of Rouse', () => {
    expect(solids.suspendedShare(0.02, 0.02)).toBe(0); // w/(0.4 u*) = 2.5
    expect(solids.suspendedShare(0.02, 0.4 * 0.8 * 0.02)).toBeCloseTo(1, 12);
    expect(solids.suspendedShare(0.02, 0.01)).toBeCloseTo(1 / 2.125, 12);
    expect(solids.suspendedShare(0, 0)).toBe(1);
  });

  it('is picked up by the excess, to the power of three halves', () => {
    // By hand, D* = 25.26: 0.00033 * 2645 * sqrt(0.016182) * 25.26^0.3 * 0.5^1.5.
    const half = solids.pickUp(1e-3, 0.5, { ...sand, s: 2.65 });
    expect(half).toBeCloseTo(0.1035, 3);
    expect(solids.pickUp(1e-3, 2, sand) / half).toBeCloseTo(8, 9);
    expect(solids.pickUp(1e-3, 0, sand)).toBe(0);
    expect(solids.pickUp(1e-3, -1, sand)).toBe(0);
    expect(solids.pickUp(1e-3, 1e9, sand)).toBe(solids.pickUp(1e-3, 30, sand));
  });

  it('stays nowhere above the velocity of its size', () => {
    expect(solids.depositFactor(2e-4)).toBeCloseTo(0.8, 12);
    expect(solids.depositFactor(5e-3)).toBeCloseTo(1, 12);
    expect(solids.depositVelocity(1, 0.0273, 0.95)).toBeCloseTo(
      solids.depositVelocity(1, 0.0273, 1.05),
      12,
    );
  });
});

describe('a grain in still water', () => {
  it('sinks by Stokes when it is silt and by a drag of one when it is gravel', () => {
    const silt = (1.65 * G * 1e-5 * 1e-5) / (18 * NU);
    const gravel = Math.sqrt((4 * 1.65 * G * 0.05) / 3);
    expect(Math.abs(solids.settlingSpeed(1e-5, 2.65, NU) / silt - 1)).toBeLessThan(0.01);
    expect(Math.abs(solids.settlingSpeed(0.05, 2.65, NU) / gravel - 1)).toBeLessThan(0.01);
  });
  it('rises as fast as it would sink when it is as much lighter, and hangs when as heavy', () => {
    const sinks = solids.settlingSpeed(1e-3, 1.1, NU);
    expect(sinks).toBeGreaterThan(0);
    expect(solids.settlingSpeed(1e-3, 0.9, NU)).toBeCloseTo(-sinks, 12);
    expect(solids.settlingSpeed(1e-3, 1, NU)).toBeCloseTo(0, 15);
  });
  it('sinks faster the larger it is', () => {
    for (let d = 1e-5; d < 1e-2; d *= 1.3) {
      expect(solids.settlingSpeed(1.3 * d, 2.65, NU)).toBeGreaterThan(
        solids.settlingSpeed(d, 2.65, NU),
      );
    }
  });
});

describe('grains in a pipe', () => {
  it('are moved up to a size that goes with the shear and against their weight', () => {
    const grain = { s: 2.65, rho: 998, theta: 0.05 };
    const one = solids.grainMoved(1, grain);
    expect(one).toBeCloseTo(1 / (0.05 * 1.65 * 998 * G), 12);
    expect(solids.grainMoved(2, grain)).toBeCloseTo(2 * one, 12);
    expect(solids.grainMoved(1, { ...grain, s: 7.8 })).toBeLessThan(one);
  });
  it('need a flow that goes with the root of the bore to stay off the floor', () => {
    const ratio = solids.depositVelocity(1, 0.1, 2.65) / solids.depositVelocity(1, 0.025, 2.65);
    expect(ratio).toBeCloseTo(2, 12);
  });
  it('meet a wall shear that balances the pressure drop: tau pi D L = dp pi D^2/4', () => {
    const [f, rho, V, D, L] = [0.025, 998, 0.8, 0.03, 7];
    const dp = (f * L * rho * V * V) / (2 * D);
    const pull = solids.wallShear(f, rho, V) * Math.PI * D * L;
    expect(pull).toBeCloseTo((dp * Math.PI * D * D) / 4, 9);
  });
});

describe('a filter', () => {
  const filter = { area: 0.05, medium: 1e9, cake: 1e10 };
  it('keeps half of its own size, nearly all above, nearly none below', () => {
    expect(solids.filterCapture(1e-4, 1e-4)).toBe(0.5);
    expect(solids.filterCapture(3e-4, 1e-4)).toBeGreaterThan(0.98);
    expect(solids.filterCapture(3e-5, 1e-4)).toBeLessThan(0.01);
  });
  it('loses in proportion to the flow, and more for what it caught', () => {
    const clean = solids.filterLoss(1e-3, 1e-3, 0, filter);
    expect(clean).toBeCloseTo((1e-3 * 1e-3 * 1e9) / 0.05, 9);
    expect(solids.filterLoss(2e-3, 1e-3, 0, filter)).toBeCloseTo(2 * clean, 9);
    const loaded = solids.filterLoss(1e-3, 1e-3, 0.02, filter);
    expect(loaded - clean).toBeCloseTo((1e-6 / 0.05) * ((1e10 * 0.02) / 0.05), 9);
  });
});
