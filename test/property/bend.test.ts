// Imposed flow through pipes with a pocket of air, from createWorld to step: which flows clear,
// how long it takes, and how the threshold moves with the bore. The criterion below is that of
// Escarameia (2005/2007) for a falling reach, a law of the pipe's Froude number; the threshold
// found by bisection is compared between bores, not with our own formula.
import { describe, expect, it } from 'vitest';
import { createWorld, step, truth, type Scenario } from '../../sim/index.ts';
import { bench } from '../support/rigs.ts';

const BORES = [21.8, 27.3, 49.4];

function area(bore_mm: number): number {
  return (Math.PI * bore_mm * bore_mm) / 4e6;
}

/** Seconds until less than `left` of the gas is in the pipe, or null within `limit_s`. */
function clearing(scenario: Scenario, left: number, limit_s: number): number | null {
  const world = createWorld(scenario, 1);
  const first = truth(world).gas_by_link['pipe']!;
  const ticks = limit_s / scenario.solver.tick_s;
  for (let t = 0; t < ticks; t++) {
    step(world, []);
    if (t % 20 === 0 && truth(world).gas_by_link['pipe']! < left * first)
      return (t + 1) * scenario.solver.tick_s;
  }
  return null;
}

function bend(bore_mm: number, velocity: number): Scenario {
  return bench({ bore_mm, flow_L_s: velocity * area(bore_mm) * 1000, gas: { from_m: 2, to_m: 4 } });
}

describe('a U-bend of 30 m with a pocket at the top of its falling leg', () => {
  const velocities = [0.15, 0.35, 0.45, 0.55, 0.65, 0.8, 1, 1.3];
  for (const bore of BORES) {
    it(`clears the sooner the faster it flows, and never below arrest (${bore} mm)`, () => {
      const times = velocities.map((v) => clearing(bend(bore, v), 0.02, 1200));
      expect(times[0], `${velocities[0]} m/s must hold the pocket`).toBeNull();
      for (let k = 2; k < times.length; k++) {
        expect(times[k], `${velocities[k]} m/s clears`).not.toBeNull();
        if (times[k - 1] !== null) expect(times[k]!).toBeLessThan(times[k - 1]!);
      }
    });
  }
});

describe('a reach that falls at 10 degrees', () => {
  const drop = 12 * Math.sin((10 * Math.PI) / 180);
  /** 4 m level, 12 m falling at 10 degrees, 6 m level; the pocket stands on the fall. */
  const reach = (bore_mm: number, velocity: number): Scenario =>
    bench({
      bore_mm,
      flow_L_s: velocity * area(bore_mm) * 1000,
      cell_m: 0.5,
      tick_s: 0.025,
      length_m: 22,
      end_m: -drop,
      profile: [
        { at_m: 4, elevation_m: 0 },
        { at_m: 16, elevation_m: -drop },
      ],
      gas: { from_m: 4.5, to_m: 6 },
    });

  it('holds its pocket up to a velocity that grows as the root of the bore, within 10 %', () => {
    const froude = BORES.map((bore) => {
      let lo = 0.1;
      let hi = 1.2;
      for (let k = 0; k < 7; k++) {
        const mid = (lo + hi) / 2;
        if (clearing(reach(bore, mid), 0.1, 600) === null) lo = mid;
        else hi = mid;
      }
      return (lo + hi) / 2 / Math.sqrt((9.80665 * bore) / 1000);
    });
    const mean = froude.reduce((a, b) => a + b, 0) / froude.length;
    for (const f of froude)
      expect(Math.abs(f / mean - 1), `Froude numbers ${froude.join(', ')}`).toBeLessThan(0.1);
  }, 240_000);
});

describe('a rising pipe', () => {
  for (const velocity of [0.02, 0.1, 0.3, 0.6]) {
    it(`clears at ${velocity} m/s`, () => {
      const scenario = bench({
        bore_mm: 27.3,
        flow_L_s: velocity * area(27.3) * 1000,
        length_m: 12,
        end_m: 6,
        profile: [{ at_m: 1, elevation_m: 0 }],
        gas: { from_m: 1, to_m: 3 },
      });
      expect(clearing(scenario, 0.02, 1800)).not.toBeNull();
    });
  }
});
