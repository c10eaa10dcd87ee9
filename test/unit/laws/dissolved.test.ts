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
