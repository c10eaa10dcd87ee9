// A layer that runs down under gas: part of a circle, or a film, where weight and friction balance.
import { describe, expect, it } from 'vitest';
import { fullRun, runningShare } from '../../../sim/laws/layer.ts';

const NU = 1.0034e-6;
const G = 9.80665;

describe('water that runs under gas', () => {
  it('takes half of the bore at half of what a full one runs: the same hydraulic radius', () => {
    expect(runningShare(0.5, 0)).toBeCloseTo(0.5, 4);
    expect(runningShare(1, 0)).toBeCloseTo(0.9082, 3); // A sqrt(A/P) of a full circle.
  });

  it('takes more for more, from nothing, without a step', () => {
    for (const sine of [0.1, 0.8, 1]) {
      expect(runningShare(0, sine)).toBe(0);
      expect(runningShare(-1, sine)).toBe(0);
      for (let x = 0; x < 1.2; x += 0.001) {
        const step = runningShare(x + 0.001, sine) - runningShare(x, sine);
        expect(step).toBeGreaterThanOrEqual(0);
        expect(step).toBeLessThan(0.02);
      }
    }
    expect(runningShare(0.125, 1)).toBeCloseTo(0.25, 12);
  });

  it('is as thick down a wall as the film of Nusselt 1916, within a quarter', () => {
    for (const j of [0.02, 0.05, 0.1]) {
      const D = 0.0273;
      const film = (4 / D) * Math.cbrt((3 * NU * j * D) / (4 * G));
      expect(runningShare(j / fullRun(D, 1, j, NU), 1) / film).toBeGreaterThan(0.75);
      expect(runningShare(j / fullRun(D, 1, j, NU), 1) / film).toBeLessThan(1.25);
    }
  });
});
