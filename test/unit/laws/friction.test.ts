// Friction against other methods: Colebrook solved here, slopes by differences, Poiseuille.
import { describe, expect, it } from 'vitest';
import { frictionFactor, frictionFactorSlope, pipeLoss } from '../../../sim/laws/friction.ts';

const ROUGHNESS = [0, 7e-5, 1e-3, 0.01, 0.05];
const D = 0.02184;
const A = (Math.PI * D * D) / 4;
const PIPE = { D, A, L: 152.4, e: 1.5e-6, rho: 999.7, mu: 1.306e-3 };
const out = new Float64Array(2);

/** Flow at a Reynolds number in PIPE, m3/s. */
const flowAt = (Re: number): number => (Re * PIPE.mu * A) / (PIPE.rho * D);

function loss(Q: number): { dp: number; slope: number } {
  pipeLoss(Q, PIPE, out);
  return { dp: out[0]!, slope: out[1]! };
}

/** Independent method: the implicit law of Colebrook and White (1939), by repetition. */
function colebrook(Re: number, e_D: number): number {
  let root = 8;
  for (let k = 0; k < 60; k++) root = -2 * Math.log10(e_D / 3.7 + (2.51 * root) / Re);
  return 1 / (root * root);
}

/** From 10^lo to 10^hi, n to a decade. */
const decades = (lo: number, hi: number, n: number): number[] =>
  Array.from({ length: (hi - lo) * n + 1 }, (_, k) => 10 ** (lo + k / n));

describe('the friction factor', () => {
  it('is that of Colebrook and White within 3.1 % from Reynolds 4000 to ten million', () => {
    let worst = 0;
    for (const Re of decades(4, 7, 20).concat(4000, 5000, 7000)) {
      for (const e_D of ROUGHNESS) {
        worst = Math.max(worst, Math.abs(frictionFactor(Re, e_D) / colebrook(Re, e_D) - 1));
      }
    }
    expect(worst).toBeLessThan(0.031);
  });

  it('is 64/Re in laminar flow whatever the wall', () => {
    for (const e_D of ROUGHNESS) {
      expect(frictionFactor(100, e_D)).toBe(0.64);
      expect(Math.abs(frictionFactor(1000, e_D) / 0.064 - 1)).toBeLessThan(1e-4);
    }
  });

  it('has the slope that differences give, in every regime', () => {
    for (const Re of decades(1, 8, 17)) {
      for (const e_D of ROUGHNESS) {
        const h = 1e-4;
        const up = Math.log(frictionFactor(Re * Math.exp(h), e_D));
        const down = Math.log(frictionFactor(Re * Math.exp(-h), e_D));
        const slope = (up - down) / (2 * h);
        const law = frictionFactorSlope(Re, e_D);
        expect(Math.abs(law - slope), `Re ${Re}, e/D ${e_D}`).toBeLessThan(3e-5);
      }
    }
  });

  it('rises with roughness, and no further beyond a twentieth of the bore', () => {
    for (const Re of [1e4, 1e5, 1e6, 1e7]) {
      for (let k = 1; k < ROUGHNESS.length; k++) {
        const rougher = frictionFactor(Re, ROUGHNESS[k]!);
        expect(rougher).toBeGreaterThan(frictionFactor(Re, ROUGHNESS[k - 1]!));
      }
      expect(frictionFactor(Re, 0.4)).toBe(frictionFactor(Re, 0.05));
    }
  });
});

describe('the loss of a pipe', () => {
  it('vanishes at rest with the slope of Hagen and Poiseuille (independent method)', () => {
    const { dp, slope } = loss(0);
    expect(dp).toBe(0);
    expect(slope / ((128 * PIPE.mu * PIPE.L) / (Math.PI * D ** 4))).toBeCloseTo(1, 12);
  });

  it('turns its sign with the flow', () => {
    for (const Q of [1e-6, 1e-5, 1e-4, 1e-3]) {
      const there = loss(Q);
      const back = loss(-Q);
      expect(back.dp).toBe(-there.dp);
      expect(back.slope).toBe(there.slope);
    }
  });

  it('rises with the flow everywhere, by the slope it states', () => {
    for (const Re of decades(0, 6, 23)) {
      const Q = flowAt(Re);
      const { dp, slope } = loss(Q);
      const h = Q * 1e-4;
      const differences = (loss(Q + h).dp - loss(Q - h).dp) / (2 * h);
      expect(dp).toBeGreaterThan(0);
      expect(slope).toBeGreaterThan(0);
      expect(Math.abs(slope / differences - 1), `Re ${Re}`).toBeLessThan(1e-4);
    }
  });

  it('has no step and no kink where the straight law ends', () => {
    const below = loss(flowAt(500) * (1 - 1e-9));
    const above = loss(flowAt(500) * (1 + 1e-9));
    expect(Math.abs(above.dp / below.dp - 1)).toBeLessThan(3e-9);
    expect(Math.abs(above.slope / below.slope - 1)).toBeLessThan(1e-9);
  });

  it('is finite for any flow, and nothing over no length', () => {
    for (const Q of [1e-300, 1e-30, 1, 1e6]) {
      const { dp, slope } = loss(Q);
      expect(Number.isFinite(dp) && Number.isFinite(slope), `${Q}`).toBe(true);
    }
    pipeLoss(1e-3, { ...PIPE, L: 0 }, out);
    expect([...out]).toEqual([0, 0]);
  });
});
