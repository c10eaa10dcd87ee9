// Mixtures of water and antifreeze: no steps, no surprises outside the range, dosing by hand.
import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import * as data from '../../../sim/laws/antifreeze-data.ts';
import * as mix from '../../../sim/laws/antifreeze.ts';
import * as water from '../../../sim/laws/water.ts';

const { ANTIFREEZES } = mix;
const LAWS = [
  ['density', mix.mixDensity, water.density],
  ['viscosity', mix.mixViscosity, water.viscosity],
  ['heat capacity', mix.mixHeatCapacity, water.heatCapacity],
  ['conductivity', mix.mixConductivity, water.conductivity],
] as const;

/** Undiluted at 20 C, kg/m3 and mPa s, from memory of handbooks. */
const NEAT = {
  ...{ propylene_glycol: [1036, 56], ethylene_glycol: [1113.5, 21] },
  ...{ ethanol: [789.3, 1.2], methanol: [791.4, 0.59] },
} as const;

/** Of the coefficients as the open CoolProp repository keeps them, in this order, as JSON. */
const SOURCE = {
  propylene_glycol: 'c60764979936bd61',
  ethanol: '654c67fedf8c5f8b',
  methanol: 'b5506d5123a5a79e',
  ethylene_glycol: 'dd4577fbbde30fd3',
} as const;

describe('the coefficients of Melinder (2010)', () => {
  it.each(ANTIFREEZES)('transcribed: %s has every digit of its source', (kind) => {
    const f = data[kind];
    const heat = [f.density, f.specific_heat, f.conductivity, f.ln_viscosity];
    const text = JSON.stringify([f.Tbase_K, f.xbase, f.Tmax_K, ...heat, f.T_freeze]);
    expect(createHash('sha256').update(text).digest('hex').slice(0, 16)).toBe(SOURCE[kind]);
  });
});

describe.each(ANTIFREEZES)('%s in water', (kind) => {
  it.each(LAWS)('none of it is water: %s', (_name, law, ofWater) => {
    for (const t of [0, 10, 35]) {
      expect(law(kind, t, 0)).toBe(ofWater(t));
      expect(law('none', t, 0.3)).toBe(ofWater(t));
      expect(law(kind, t, -0.1)).toBe(ofWater(t));
    }
  });

  it.each(LAWS)('a trace makes no step and no kink: %s', (_name, law) => {
    for (const t of [2, 20]) {
      const scale = law(kind, t, 0.02);
      for (const x of [0, 0.02]) {
        const here = law(kind, t, x);
        const up = (law(kind, t, x + 1e-6) - here) / 1e-6;
        const down = (here - law(kind, t, x === 0 ? 0 : x - 1e-6)) / 1e-6;
        expect(Math.abs(law(kind, t, x + 1e-9) - here) / scale).toBeLessThan(1e-7);
        if (x > 0) expect(Math.abs(up - down) / scale, `kink at ${x}`).toBeLessThan(1e-3);
      }
    }
  });

  it('goes on beyond 60 % to the undiluted liquid, without a step', () => {
    const [rho, mPa_s] = NEAT[kind];
    expect(mix.mixDensity(kind, 20, 1) / rho).toBeCloseTo(1, 3);
    expect((1000 * mix.mixViscosity(kind, 20, 1)) / mPa_s).toBeCloseTo(1, 1);
    for (const law of [mix.mixDensity, mix.mixViscosity]) {
      expect(law(kind, 20, 0.6 + 1e-9) / law(kind, 20, 0.6)).toBeCloseTo(1, 7);
      expect(law(kind, 20, 1.1)).toBe(law(kind, 20, 1));
    }
  });

  it('its heat is held beyond 60 %, all of it below its freeze point and above its table', () => {
    for (const law of [mix.mixHeatCapacity, mix.mixConductivity]) {
      expect(law(kind, 20, 0.9)).toBe(law(kind, 20, 0.6));
    }
    for (const [, law] of LAWS) {
      expect(law(kind, -80, 0.3)).toBe(law(kind, mix.freezePoint_C(kind, 0.3), 0.3));
      expect(law(kind, 150, 0.3)).toBe(law(kind, 120, 0.3));
    }
    expect(mix.freezePoint_C(kind, 0.9)).toBe(mix.freezePoint_C(kind, 0.6));
  });

  it('freezes the later the more of it there is', () => {
    let last = 0;
    for (let x = 0.001; x <= 0.6; x += 0.001) {
      const t = mix.freezePoint_C(kind, x);
      expect(t, `at ${x}`).toBeLessThan(last);
      last = t;
    }
    expect(mix.freezePoint_C(kind, 0)).toBe(0);
  });

  it('is thicker than water and thins as it warms', () => {
    for (const x of [0.1, 0.2, 0.3, 0.4]) {
      for (const t of [0, 5, 10, 20, 30]) {
        expect(mix.mixViscosity(kind, t, x)).toBeGreaterThan(water.viscosity(t));
        expect(mix.mixViscosity(kind, t + 1, x)).toBeLessThan(mix.mixViscosity(kind, t, x));
      }
    }
  });

  it('is dosed by the freeze point that the dose then has', () => {
    for (const t of [-1, -5, -9.4, -20]) {
      expect(mix.freezePoint_C(kind, mix.fractionForFreezePoint(kind, t))).toBeCloseTo(t, 9);
    }
    expect(mix.fractionForFreezePoint(kind, 3)).toBe(0);
    expect(mix.fractionForFreezePoint(kind, -500)).toBeCloseTo(0.6, 12);
  });

  it('has one share by volume for each share by mass', () => {
    for (const x of [0, 0.1, 0.37, 0.9, 1]) {
      expect(mix.massFraction(kind, mix.volumeFraction(kind, x))).toBeCloseTo(x, 12);
    }
    expect(mix.massFraction(kind, 1.5)).toBe(1);
    expect(mix.volumeFraction(kind, -0.5)).toBe(0);
  });
});

describe('dosing', () => {
  it('says alcohol is lighter than water and glycol heavier', () => {
    for (const kind of ['ethanol', 'methanol'] as const) {
      expect(mix.mixDensity(kind, 20, 0.2)).toBeLessThan(water.density(20));
      expect(mix.volumeFraction(kind, 0.2)).toBeGreaterThan(0.2);
    }
    for (const kind of ['propylene_glycol', 'ethylene_glycol'] as const) {
      expect(mix.mixDensity(kind, 20, 0.2)).toBeGreaterThan(water.density(20));
      expect(mix.volumeFraction(kind, 0.2)).toBeLessThan(0.2);
    }
  });

  it('twenty litres of ethanol in eighty of water make 98.3 L: CHK-3.10 told in litres', () => {
    const mass = 0.02 * 789.3 + 0.08 * 998.2;
    const litres = (1000 * mass) / mix.mixDensity('ethanol', 20, (0.02 * 789.3) / mass);
    expect(Math.abs(litres - 98.3)).toBeLessThan(0.06);
  });

  it('bleeds and feeds what small buckets come to (independent method)', () => {
    const system = 0.4;
    const bucket = 1e-6;
    let phi = 0.05;
    let fed = 0;
    while (phi < 0.2) {
      phi += (bucket / system) * (1 - phi);
      fed += bucket;
    }
    expect(Math.abs(mix.bleedAndFeedVolume(system, 0.05, 0.2) / fed - 1)).toBeLessThan(1e-4);
    expect(mix.bleedAndFeedVolume(system, 0.2, 0.2)).toBe(0);
    expect(mix.bleedAndFeedVolume(system, 0.3, 0.2)).toBe(0);
  });

  it('needs nothing in a loop of plain water', () => {
    expect(mix.freezePoint_C('none', 0.3)).toBe(0);
    expect(mix.fractionForFreezePoint('none', -10)).toBe(0);
    expect(mix.massFraction('none', 0.3)).toBeCloseTo(0.3, 12);
  });
});
