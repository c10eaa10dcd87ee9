// Pipe by size and dimension ratio.
import { describe, expect, it } from 'vitest';
import { idNominal, outsideDiameter, PIPE_SIZES, wallMin } from '../../../sim/laws/pipe.ts';

describe('pipe', () => {
  it('of one nominal size has one outside, whatever its wall', () => {
    for (const size of PIPE_SIZES) {
      const od = outsideDiameter(size);
      for (const dr of [9, 11, 13.5, 15.5, 17]) {
        expect(idNominal(od, dr) + 2 * wallMin(od, dr)).toBeCloseTo(od, 15);
      }
    }
  });

  it('has a thinner wall and a wider bore for a higher dimension ratio', () => {
    for (const size of PIPE_SIZES) {
      const od = outsideDiameter(size);
      expect(wallMin(od, 11)).toBeLessThan(wallMin(od, 9));
      expect(idNominal(od, 17)).toBeGreaterThan(idNominal(od, 11));
    }
  });

  it('grows from size to size', () => {
    for (let k = 1; k < PIPE_SIZES.length; k++) {
      const [small, large] = [PIPE_SIZES[k - 1]!, PIPE_SIZES[k]!];
      expect(outsideDiameter(large)).toBeGreaterThan(outsideDiameter(small));
    }
  });

  it('never has less wall than 0.062 inch nor a wall in parts of a thousandth', () => {
    for (const size of PIPE_SIZES) {
      for (let dr = 7; dr <= 41; dr += 0.5) {
        const mils = (wallMin(outsideDiameter(size), dr) / 0.0254) * 1000;
        expect(mils).toBeGreaterThan(61.999);
        expect(Math.abs(mils - Math.round(mils))).toBeLessThan(1e-6);
      }
    }
  });
});
