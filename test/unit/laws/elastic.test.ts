// Stretch against the thick cylinder of Lame, and what a deadhead and a standing test show.
import { describe, expect, it } from 'vitest';
import * as elastic from '../../../sim/laws/elastic.ts';
import { compressibility, expansion } from '../../../sim/laws/water.ts';

const D = 0.027305;
const WALL = 0.003048;
const NU = 0.45;

/** m, bore and wall: SDR 11 small and large, a thin pipe, a very thick one. */
const PIPES = [
  [D, WALL],
  [0.0935, 0.0104],
  [0.0508, 0.001],
  [0.02, 0.01],
] as const;

/** Independent method, Lame: widening 2 u/a of the bore per p/E, with axial stress s p. */
function lame(D: number, wall: number, nu: number, axial: (k: number) => number): number {
  const a = D / 2;
  const b = a + wall;
  const k = (a * a) / (b * b - a * a);
  const hoop = (b * b + a * a) / (b * b - a * a);
  return 2 * (hoop + nu - nu * axial(k));
}

describe('a thick wall', () => {
  it('widens as the cylinder of Lame does, held, free or jointed (independent method)', () => {
    for (const [bore, wall] of PIPES) {
      for (const nu of [0.3, 0.45]) {
        const scale = bore / wall;
        const held = lame(bore, wall, nu, (k) => nu * (2 * k)); // Axial strain nil.
        const free = lame(bore, wall, nu, (k) => k); // Closed ends carry p a^2/(b^2-a^2).
        const jointed = lame(bore, wall, nu, () => 0);
        expect(elastic.c1Restrained(bore, wall, nu) * scale).toBeCloseTo(held, 9);
        expect(elastic.c1Free(bore, wall, nu) * scale).toBeCloseTo(free, 9);
        expect(elastic.c1Joints(bore, wall, nu) * scale).toBeCloseTo(jointed, 9);
      }
    }
  });

  it('free of its ends lengthens as the cylinder of Lame does (independent method)', () => {
    const a = D / 2;
    const b = a + WALL;
    const share = (a * a) / (b * b - a * a); // Axial stress of closed ends, over p.
    for (const nu of [0.3, 0.45]) {
      // Axial strain (s_z - nu (s_r + s_h))/E, and s_r + s_h = 2 p a^2/(b^2 - a^2) everywhere.
      const strain = (3e5 / 8e8) * (share - nu * 2 * share);
      const law = elastic.axialStrainFree(3e5, { D, e: WALL, E: 8e8, nu });
      expect(law / strain).toBeCloseTo(1, 12);
    }
  });

  it('of SDR 11 gives 23 % more than the thin-wall formula says', () => {
    const thin = 1 - NU * NU;
    expect(Math.abs(1 - thin / elastic.c1Restrained(D, WALL, NU) - 0.23)).toBeLessThan(0.01);
  });

  it('gives the less the stiffer it is', () => {
    const soft = elastic.wallCompliance(D, WALL, 538e6, NU);
    expect(soft / elastic.wallCompliance(D, WALL, 896e6, NU)).toBeCloseTo(896 / 538, 12);
  });
});

describe('a pressure wave', () => {
  it('runs at the speed of sound in a rigid pipe and far slower in polyethylene', () => {
    const K = 1 / compressibility(10);
    expect(Math.abs(elastic.waveSpeed(K, 999.7, 0) / 1447 - 1)).toBeLessThan(0.002);
    const soft = elastic.wallCompliance(D, WALL, 1e9, NU);
    expect(Math.abs(elastic.waveSpeed(K, 999.7, soft) / 320 - 1)).toBeLessThan(0.01);
  });

  it('of a slammed valve rises with what it stops', () => {
    expect(elastic.joukowsky(1000, 350, 0.6)).toBeCloseTo(210000, 6);
    expect(elastic.joukowsky(1000, 350, -0.6)).toBeCloseTo(-210000, 6);
  });
});

describe('polyethylene under load', () => {
  it('gives more the longer it is held, and no more than its table', () => {
    let last = Infinity;
    for (const t of [60, 600, 3600, 86400, 3.15e7]) {
      expect(elastic.peModulus(t)).toBeLessThan(last);
      last = elastic.peModulus(t);
    }
    expect(elastic.peModulus(1)).toBe(elastic.peModulus(60));
    expect(elastic.peModulus(1e12)).toBe(elastic.peModulus(50 * 365.25 * 86400));
  });

  it('creeps from its first answer to its last', () => {
    expect(elastic.creepCompliance(0)).toBe(0.7e-9);
    expect(elastic.creepCompliance(1)).toBeLessThan(elastic.creepCompliance(10));
    expect(elastic.creepCompliance(1e6)).toBe(elastic.creepCompliance(60));
    expect(elastic.creepCompliance(-5)).toBe(0.7e-9);
  });

  it('is softer warm than cold, between the points of the table and beyond', () => {
    for (let t = -6; t < 60; t++) {
      expect(elastic.peModulusFactor(t + 1)).toBeLessThan(elastic.peModulusFactor(t));
    }
    expect(elastic.peModulusFactor(-30)).toBe(1.81);
    expect(elastic.peModulusFactor(90)).toBe(0.43);
  });

  it('is rated the lower the warmer it is, and never above its basis', () => {
    const factor = (t: number): number => elastic.ratingTemperatureFactor(t, 1600, 1000);
    for (let t = 23; t < 59; t++) expect(factor(t + 1)).toBeLessThan(factor(t));
    expect(factor(5)).toBe(1);
    expect(factor(90)).toBeCloseTo(1000 / 1600, 12);
    expect(elastic.pressureRating(1000, 11, factor(60))).toBeCloseTo(125, 9);
  });
});

describe('a full, shut loop', () => {
  it('stands at its first pressure at first, then falls', () => {
    const c = (elastic.c1Restrained(D, WALL, NU) * D) / WALL;
    expect(elastic.quasiElasticDecay(180, 180, 4.8e-10, c)).toBe(1);
    expect(elastic.quasiElasticDecay(3600, 180, 4.8e-10, c)).toBeLessThan(0.85);
  });

  it('CHK-10.4 loses pressure as it warms, anywhere from 5 to 25 C', () => {
    const pipe = {
      expansion: elastic.roomExpansionRestrained(1.44e-4, NU),
      compliance: elastic.wallCompliance(D, WALL, 276e6, NU),
    };
    for (let t = 5; t <= 25; t++) {
      const liquid = { expansion: expansion(t), compliance: compressibility(t) };
      expect(elastic.pressurePerKelvin(liquid, pipe), `${t} C`).toBeLessThan(0);
    }
  });
});

describe('a deadhead', () => {
  it('CHK-6.6 at two pressures tells air from stretch', () => {
    const [p1, p2, p3] = [2e5, 4e5, 6e5];
    const air = 2;
    const stretch = 2e-6;
    const drop = (p: number): number =>
      air * (1 - elastic.squeezed(p1, p, 1)) + stretch * (p - p1);
    // Two straight equations in air and stretch, solved by hand.
    const [a2, a3, b2, b3] = [1 - p1 / p2, 1 - p1 / p3, p2 - p1, p3 - p1];
    const det = a2 * b3 - a3 * b2;
    expect((drop(p2) * b3 - drop(p3) * b2) / det).toBeCloseTo(air, 9);
    expect((a2 * drop(p3) - a3 * drop(p2)) / det / stretch).toBeCloseTo(1, 9);
  });

  it('squeezes air less when there is no time for its heat to go', () => {
    expect(elastic.squeezed(1e5, 4e5, 1)).toBeCloseTo(0.25, 12);
    expect(elastic.squeezed(1e5, 4e5, 1.4)).toBeGreaterThan(elastic.squeezed(1e5, 4e5, 1.2));
    expect(elastic.squeezed(1e5, 1e5, 1.2)).toBe(1);
  });
});
