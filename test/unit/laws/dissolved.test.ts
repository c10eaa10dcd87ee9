// Dissolved air: less in warm water, in proportion to pressure, and a bubble that neither grows
// nor shrinks in water that is just saturated.
import { describe, expect, it } from 'vitest';
import * as dissolved from '../../../sim/laws/dissolved.ts';

describe('dissolved air', () => {
  it('falls as the water warms, without a step, and is held outside 0 to 50 C', () => {
    for (let t = 0; t < 50; t += 0.1) {
      const drop = dissolved.henryAir(t) - dissolved.henryAir(t + 0.1);
      expect(drop).toBeGreaterThan(0);
      expect(drop).toBeLessThan(0.08e-6);
    }
    expect(dissolved.henryAir(-5)).toBe(dissolved.henryAir(0));
    expect(dissolved.henryAir(80)).toBe(dissolved.henryAir(50));
  });

  it('goes with the pressure', () => {
    const one = dissolved.dissolvedAir(1e5, 12, 999.5);
    expect(dissolved.dissolvedAir(3e5, 12, 999.5)).toBeCloseTo(3 * one, 12);
    expect(dissolved.dissolvedAir(0, 12, 999.5)).toBe(0);
  });

  it('is the same amount as a volume at 0 C and 1 atm: 22.414 L a mole', () => {
    const amount = dissolved.dissolvedAir(2e5, 12, 999.5);
    const normal = dissolved.dissolvedAirStp(2e5, 12, 999.5);
    expect(normal / amount).toBeCloseTo(22.414e-3, 7);
  });

  it('leaves a bubble in saturated water alone, eats it under pressure, feeds it after', () => {
    const at = (p: number, p_sat: number) =>
      dissolved.bubbleGrowth(1e-4, { p, p_sat, t_C: 12, rho: 999.5 });
    expect(at(2e5, 2e5)).toBeCloseTo(0, 18);
    expect(at(3e5, 1e5)).toBeLessThan(0);
    expect(at(1e5, 3e5)).toBeGreaterThan(0);
    expect(at(5e5, 1e5)).toBeLessThan(at(2e5, 1e5));
  });
});

describe('air that crosses into water', () => {
  const D = dissolved.airDiffusivity(20, 1.002e-3);

  it('diffuses faster in warm and thin water', () => {
    expect(D).toBeGreaterThan(1.5e-9);
    expect(D).toBeLessThan(1.93e-9);
    expect(dissolved.airDiffusivity(25, 0.89e-3)).toBeCloseTo(1.93e-9, 15);
    expect(dissolved.airDiffusivity(20, 2.004e-3)).toBeCloseTo(D / 2, 15);
  });

  it('at a bubble: by diffusion at rest, a tenth of a millimetre a second as it rises', () => {
    expect(dissolved.bubbleTransfer(1e-3, D, 0)).toBeCloseTo((2 * D) / 1e-3, 12);
    expect(dissolved.bubbleTransfer(1e-3, D, 1)).toBeCloseTo(1e-4, 12);
    expect(dissolved.bubbleTransfer(1e-3, D, 7)).toBeCloseTo(1e-4, 12);
    // Frossling 1938: 2 + 0.552 Re^1/2 Sc^1/3, a millimetre bubble that rises 0.112 m/s.
    const Sh = 2 + 0.552 * Math.sqrt((0.112 * 1e-3) / 1.004e-6) * Math.cbrt(1.004e-6 / D);
    expect((Sh * D) / 1e-3 / dissolved.bubbleTransfer(1e-3, D, 1)).toBeGreaterThan(0.8);
    expect((Sh * D) / 1e-3 / dissolved.bubbleTransfer(1e-3, D, 1)).toBeLessThan(1.2);
    // So small that diffusion alone is faster.
    expect(dissolved.bubbleTransfer(2e-5, D, 1)).toBeCloseTo((2 * D) / 2e-5, 12);
  });

  it('under a stream: with the root of its speed, and by diffusion where it stands', () => {
    const at = (U: number) => dissolved.streamTransfer(U, 0.02, D);
    expect(at(0)).toBeCloseTo(D / 0.02, 15);
    expect(at(0.4) / at(0.1)).toBeCloseTo(2, 3);
    expect(at(-0.4)).toBe(at(0.4));
    expect(at(0.3)).toBeCloseTo(Math.sqrt((1.6855e-9 * 0.3) / 0.02), 7);
  });
});
