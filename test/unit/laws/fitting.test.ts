// Valves, tees and changes of bore: order, ends, and balances of momentum worked out here.
import { describe, expect, it } from 'vitest';
import * as fitting from '../../../sim/laws/fitting.ts';

const { ballValveK, valveOpenArea, SHUT_DEG, K_SHUT } = fitting;

describe('a hand ball valve', () => {
  it('passes nothing when shut and has its own loss when open', () => {
    expect(ballValveK(90, 0.1)).toBe(0.1);
    for (const deg of [0, 3, SHUT_DEG]) {
      expect(ballValveK(deg, 0)).toBe(K_SHUT);
      expect(valveOpenArea(deg)).toBe(0);
    }
    expect(valveOpenArea(90)).toBe(1);
  });

  it('loses less with every tenth of a degree it opens', () => {
    for (let tenth = 76; tenth <= 900; tenth++) {
      const now = ballValveK(tenth / 10, 0.05);
      expect(now, `${tenth / 10} degrees`).toBeLessThan(ballValveK((tenth - 1) / 10, 0.05));
      expect(valveOpenArea(tenth / 10)).toBeGreaterThan(valveOpenArea((tenth - 1) / 10));
    }
  });

  it('has no step at any degree, not even where it shuts', () => {
    for (let deg = 8; deg <= 89; deg++) {
      const step = ballValveK(deg - 1e-7, 0.05) / ballValveK(deg + 1e-7, 0.05) - 1;
      expect(Math.abs(step), `${deg} degrees`).toBeLessThan(1e-5);
      expect(valveOpenArea(deg - 1e-7) / valveOpenArea(deg + 1e-7)).toBeCloseTo(1, 5);
    }
    expect(ballValveK(SHUT_DEG + 1e-4, 0)).toBeGreaterThan(1e10);
    expect(valveOpenArea(SHUT_DEG + 1e-4)).toBeLessThan(1e-5);
  });

  it('is held beyond its stops', () => {
    expect(ballValveK(120, 0.05)).toBe(0.05);
    expect(ballValveK(-20, 0.05)).toBe(K_SHUT + 0.05);
  });

  it('opens a share of its bore whose sudden expansion is its loss (Borda and Carnot)', () => {
    for (let deg = 8; deg < 90; deg += 1) {
      const a = valveOpenArea(deg);
      expect((1 / a - 1) ** 2 / ballValveK(deg, 0)).toBeCloseTo(1, 9);
    }
  });

  it('does almost nothing to the flow of a long circuit until it is half shut', () => {
    // A circuit of 500 ft of 3/4 inch loses some 215 velocity heads: f L/D with f 0.031.
    const circuit = (0.031 * 152.4) / 0.02184;
    const flow = (deg: number): number => Math.sqrt(circuit / (circuit + ballValveK(deg, 0.05)));
    expect(flow(70)).toBeGreaterThan(0.99);
    expect(flow(45)).toBeGreaterThan(0.9);
    expect(flow(20)).toBeLessThan(0.4);
  });
});

describe('a tee', () => {
  const { teeDivergingBranch, teeDivergingRun, teeConvergingBranch, teeConvergingRun } = fitting;

  it('without flow in its branch lets the run pass and stems the branch', () => {
    expect(teeDivergingRun(0, 1)).toBeCloseTo(0, 12);
    expect(teeConvergingRun(0)).toBe(0);
    expect(teeDivergingBranch(0, 1)).toBe(1);
  });

  it('loses more in a narrow branch than in a wide one', () => {
    expect(teeDivergingBranch(0.5, 0.4)).toBeGreaterThan(teeDivergingBranch(0.5, 1));
    const narrow = teeConvergingBranch(0.5, 0.4);
    expect(narrow).toBeGreaterThan(teeConvergingBranch(0.5, 1));
  });

  it('as a wye loses less than square', () => {
    expect(teeDivergingBranch(0.4, 1, 45)).toBeLessThan(teeDivergingBranch(0.4, 1));
    const narrow = teeDivergingBranch(0.3, 0.3, 45);
    // G = 1.1 - 0.7 r, K = G (1 + q^2 - 2 q cos 45), q = 1 (Crane TP-410, worked by hand).
    expect(narrow).toBeCloseTo((1.1 - 0.21) * (2 - Math.SQRT2), 12);
    const half = Math.SQRT1_2;
    expect(teeDivergingBranch(0.6, 0.3, 45)).toBeCloseTo(0.85 * (5 - 4 * half), 12);
    expect(teeDivergingBranch(0.8, 1, 45)).toBeCloseTo(0.6 * (1.64 - 1.6 * half), 12);
  });

  it('takes a share beyond its legs as all or nothing', () => {
    expect(teeDivergingRun(1.4, 1)).toBe(teeDivergingRun(1, 1));
    expect(teeDivergingBranch(-0.2, 1)).toBe(teeDivergingBranch(0, 1));
    expect(teeConvergingBranch(1.4, 1)).toBe(teeConvergingBranch(1, 1));
    expect(teeConvergingRun(2)).toBeCloseTo(0.55, 12);
  });

  it('changes its constants at the ratios of the handbook', () => {
    // Bore ratio 2/3 parts H = 1 from 0.3; area ratio 2/3 parts G = 1 from 1 + 0.3 r^2.
    expect(teeDivergingBranch(0.5, 0.444)).toBeCloseTo(1 + (0.5 / 0.444) ** 2, 12);
    expect(teeDivergingBranch(0.5, 0.445)).toBeCloseTo(1 + 0.3 * (0.5 / 0.445) ** 2, 12);
    expect(teeDivergingBranch(0.5, 0.666)).toBeCloseTo(1 + 0.3 * (0.5 / 0.666) ** 2, 12);
    const wide = 1.075 * (1 + 0.3 * (0.5 / 0.667) ** 2);
    expect(teeDivergingBranch(0.5, 0.667)).toBeCloseTo(wide, 12);
    expect(teeConvergingBranch(0.3, 0.351)).toBeCloseTo(0.63 * (0.02 + (0.3 / 0.351) ** 2), 12);
    expect(teeDivergingRun(0.25, 0.401)).toBeCloseTo(-0.0625, 12);
  });

  it('has the small-branch constants of the handbook', () => {
    expect(teeDivergingRun(0.5, 0.4)).toBeCloseTo(0.1, 12);
    expect(teeConvergingBranch(0.5, 0.35)).toBeCloseTo(0.5 + (0.5 / 0.35) ** 2, 12);
  });
});

describe('a change of bore', () => {
  it('costs nothing where there is none, and everything into a tank', () => {
    expect(fitting.contractionK(1)).toBe(0);
    expect(fitting.expansionK(1)).toBe(0);
    expect(fitting.contractionK(0)).toBe(0.5);
    expect(fitting.expansionK(0)).toBe(1);
    expect(fitting.expansionK(3)).toBe(0);
  });

  it('widening loses what a balance of momentum says (independent method)', () => {
    for (const b of [0.3, 0.5, 0.8]) {
      // Per unit rho: V1 = 1 in area b^2, V2 in area 1; momentum gives the rise of pressure.
      const V2 = b * b;
      const risen = V2 * (1 - V2);
      const lost = (1 - V2 * V2) / 2 - risen;
      expect(fitting.expansionK(b)).toBeCloseTo(2 * lost, 12);
    }
  });

  it('of a catalogue valve: twice the Cv loses a quarter', () => {
    expect(fitting.kFromCv(50, 0.05) / fitting.kFromCv(100, 0.05)).toBeCloseTo(4, 12);
  });
});
