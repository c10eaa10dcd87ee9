// A pump curve must fall everywhere, with a slope that is its own derivative, at any speed and
// beyond both ends: the solver's matrix is positive only then. And the fits keep to what is
// published about gas and starved suctions.
import { describe, expect, it } from 'vitest';
import * as pump from '../../../sim/laws/pump.ts';
import { generator } from '../../support/rigs.ts';

const chance = generator(7);
const out = new Float64Array(2);
const head = (curve: pump.PumpCurve, Q: number, speed: number): number => {
  pump.pumpHead(curve, Q, speed, out);
  return out[0]!;
};
const slope = (curve: pump.PumpCurve, Q: number, speed: number): number => {
  pump.pumpHead(curve, Q, speed, out);
  return out[1]!;
};

/** A curve of 2 to 8 points, in half of the draws with a dip at low flow. */
function curve(): pump.PumpCurve {
  const n = 2 + Math.floor(chance() * 7);
  const dips = chance() < 0.5;
  let Q = 0;
  let H = 10 + 40 * chance();
  const points: (readonly [number, number])[] = [];
  for (let k = 0; k < n; k++) {
    points.push([Q, dips && k === 1 ? H + 2 : H]);
    Q += 2e-4 + 1e-3 * chance();
    H -= 5 * chance();
  }
  return pump.makePumpCurve(points);
}

describe('a pump curve', () => {
  it('falls at every flow and speed, and its slope is its derivative', () => {
    for (let k = 0; k < 4000; k++) {
      const c = curve();
      const Q = (chance() * 5 - 2) * c.Q_max;
      const speed = k % 4 === 0 ? 0 : chance();
      const s = slope(c, Q, speed);
      expect(s).toBeLessThanOrEqual(0);
      const h = 1e-9;
      const by = (head(c, Q + h, speed) - head(c, Q - h, speed)) / (2 * h);
      // A difference across a knot sees the mean of two curvatures, never a step.
      expect(Math.abs(by - s)).toBeLessThan(1e-3 * Math.abs(s) + 1);
    }
  });

  it('passes through its points where they fall', () => {
    const points = [[0, 31], [5e-4, 30], [1e-3, 26], [2e-3, 12]] as const;
    const c = pump.makePumpCurve(points);
    for (const [Q, H] of points) expect(head(c, Q, 1)).toBeCloseTo(H, 10);
    expect(c.H0).toBe(31);
    expect(c.Q_max).toBe(2e-3);
  });

  it('has a dip at low flow ironed out, never above its neighbours', () => {
    const c = pump.makePumpCurve([[0, 20], [1e-3, 23], [2e-3, 10]]);
    expect(head(c, 0, 1)).toBe(20);
    expect(head(c, 1e-3, 1)).toBeLessThan(20);
    expect(head(c, 1e-3, 1)).toBeGreaterThan(19.9);
  });

  it('goes on beyond its ends: rising against backflow, below nothing past run-out', () => {
    const c = pump.onePointCurve(30, 2.5e-3);
    expect(head(c, -1e-3, 1)).toBeGreaterThan(40);
    expect(head(c, 6e-3, 1)).toBeLessThan(0);
    expect(slope(c, 6e-3, 1)).toBe(slope(c, 9e-3, 1));
  });

  it('scales with speed by the affinity laws', () => {
    for (let k = 0; k < 500; k++) {
      const c = curve();
      const Q = chance() * c.Q_max;
      const speed = 0.3 + 0.7 * chance();
      expect(head(c, speed * Q, speed)).toBeCloseTo(speed * speed * head(c, Q, 1), 9);
    }
  });

  it('is a loss when it stands: against the flow either way, nothing at rest', () => {
    const c = pump.onePointCurve(30, 2.5e-3);
    expect(head(c, 0, 0)).toBeCloseTo(0, 15);
    expect(head(c, 1e-3, 0)).toBeLessThan(0);
    expect(head(c, -1e-3, 0)).toBeGreaterThan(0);
    expect(slope(c, 0, 0)).toBeLessThan(0);
    expect(head(c, c.Q_max, 0)).toBeCloseTo(-c.H0, 3);
  });

  it('comes up to speed without a step', () => {
    const c = pump.onePointCurve(30, 2.5e-3);
    for (let speed = 0; speed < 1; speed += 1e-3) {
      expect(Math.abs(head(c, 1e-3, speed + 1e-3) - head(c, 1e-3, speed))).toBeLessThan(0.3);
    }
  });

  it('refuses what is no curve', () => {
    expect(() => pump.makePumpCurve([[0, 10]])).toThrow('two points');
    expect(() => pump.makePumpCurve([[0, 10], [0, 9]])).toThrow('rise');
    expect(() => pump.makePumpCurve([[1e-3, 10], [5e-4, 9]])).toThrow('rise');
  });
});

describe('gas in a pump, as the reviews agree', () => {
  it('takes less than 5 % at 2 % of gas, more than a quarter at 5 %, nearly all at 15 %', () => {
    expect(pump.gasFactor(0, 1)).toBe(1);
    expect(pump.gasFactor(0.02, 1)).toBeGreaterThan(0.95);
    expect(pump.gasFactor(0.05, 1)).toBeLessThan(0.75);
    expect(pump.gasFactor(0.15, 1)).toBeLessThan(0.1);
  });
  it('takes more the more there is, and more at low flow', () => {
    for (let a = 0.005; a < 0.3; a += 0.005) {
      expect(pump.gasFactor(a, 1)).toBeLessThan(pump.gasFactor(a - 0.005, 1));
      expect(pump.gasFactor(a, 0.4)).toBeLessThan(pump.gasFactor(a, 0.9));
    }
    expect(pump.gasFactor(0.05, 0)).toBe(pump.gasFactor(0.05, 0.25));
    expect(pump.gasFactor(0.05, 2)).toBe(pump.gasFactor(0.05, 1));
  });
  it('locks between 7 and 15 %, and lets go at less than it took', () => {
    expect(pump.GAS_LOCK.breakdown).toBeGreaterThan(0.07);
    expect(pump.GAS_LOCK.breakdown).toBeLessThan(0.15);
    expect(pump.GAS_LOCK.recovery).toBeLessThan(pump.GAS_LOCK.breakdown);
  });
});

describe('a starved suction', () => {
  it('takes nothing with some to spare, all below two fifths, ever more between', () => {
    expect(pump.npshFactor(1.07)).toBe(1);
    expect(pump.npshFactor(5)).toBe(1);
    expect(pump.npshFactor(0.4)).toBe(0);
    expect(pump.npshFactor(-1)).toBe(0);
    for (let r = 0.41; r < 1.06; r += 0.01) {
      expect(pump.npshFactor(r + 0.01)).toBeGreaterThan(pump.npshFactor(r));
    }
  });
});

describe('power at the shaft', () => {
  const c = pump.onePointCurve(30, 2.5e-3);
  const p = { rho: 998.2, Q_bep: 2.5e-3, eta_max: 0.5 };
  it('is rho g Q H over the efficiency, and comes to its limit at shut-off', () => {
    for (const Q of [2e-4, 1e-3, 2.5e-3, 4e-3]) {
      const hydraulic = 998.2 * 9.80665 * Q * head(c, Q, 1);
      expect(pump.shaftPower(c, Q, p)).toBeCloseTo(
        hydraulic / pump.efficiency(Q, 2.5e-3, 0.5),
        6,
      );
    }
    const near = pump.shaftPower(c, 1e-9, p);
    expect(Math.abs(pump.shaftPower(c, 0, p) / near - 1)).toBeLessThan(1e-5);
  });
  it('is held for backflow and past run-out', () => {
    expect(pump.shaftPower(c, -1e-3, p)).toBe(pump.shaftPower(c, 0, p));
    expect(pump.shaftPower(c, 1, p)).toBe(pump.shaftPower(c, 2, p));
    expect(pump.shaftPower(c, 1, p)).toBeGreaterThanOrEqual(0);
  });
});

describe('a self-priming pump', () => {
  it('removes its rated air at one atmosphere, none at its limit, never more or less', () => {
    expect(pump.primingAirRate(2e-4, 101325, 75e3)).toBe(2e-4);
    expect(pump.primingAirRate(2e-4, 26325, 75e3)).toBeCloseTo(0, 18);
    expect(pump.primingAirRate(2e-4, 1000, 75e3)).toBe(0);
    expect(pump.primingAirRate(2e-4, 150e3, 75e3)).toBe(2e-4);
  });
});
