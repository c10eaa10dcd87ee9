// Published or derived numbers reproduced by whole worlds, through createWorld and step: air and
// mixing. Each name says where the expected value comes from: a closed form worked out here
// (independent method) or our own formula (transcribed).
import { describe, expect, it } from 'vitest';
import { createWorld, parseScenario, step, truth, xray } from '../../sim/index.ts';
import { bench } from '../support/rigs.ts';
import { ATM, closed, link, run } from '../support/worlds.ts';

describe('a water column on an air cushion', () => {
  it('CHK-5.5 independent method [linear oscillator]: period within 3 %', () => {
    // Upright, so that the air stays above the water; isothermal, so m = 1.
    const [rho, g] = [998.2, 9.80665];
    const A = (Math.PI * 0.1 ** 2) / 4;
    const V0 = A * 1 + 0.0005;
    const V = V0 / 1.05;
    const water = 10 + (V0 - V) / A;
    const scenario = closed({
      pressure_kPa: (0.05 * ATM + rho * g * water) / 1000,
      bore_mm: 100,
      length_m: 11,
      fall_m: -11,
      gas: { from_m: 10, to_m: 11 },
      end_gas: 1,
    });
    const world = createWorld(scenario, 1);
    const crossings: number[] = [];
    const peaks: number[] = [];
    let last = 0;
    let peak = 0;
    for (let t = 0; t < 400; t++) {
      step(world, []);
      const q = link(world, 'pipe').flow;
      peak = Math.max(peak, q);
      if (last > 0 && q <= 0) {
        crossings.push((t + last / (last - q)) * world.dt);
        peaks.push(peak);
        peak = 0;
      }
      last = q;
    }
    const want = (2 * Math.PI) / Math.sqrt((1.05 * ATM * A) / (rho * water * V) + g / water);
    expect(crossings.length).toBeGreaterThan(3);
    const period = (crossings[3]! - crossings[0]!) / 3;
    expect(Math.abs(period / want - 1), `period ${period} against ${want}`).toBeLessThan(0.03);
    console.log(
      `cushion: period ${period.toFixed(3)} s against ${want.toFixed(3)} s; ` +
        `a swing keeps ${(peaks[2]! / peaks[1]!).toFixed(2)}`,
    );
  });
});

describe('air in a bore', () => {
  const area = (Math.PI * 0.0273 ** 2) / 4;
  const left = (v: number, seconds: number) => {
    const world = createWorld(
      bench({
        bore_mm: 27.3,
        flow_L_s: v * area * 1000,
        cell_m: 0.5,
        tick_s: 0.05,
        gas: { from_m: 2, to_m: 4 },
      }),
      1,
    );
    const first = truth(world).gas_by_link['pipe']!;
    run(world, seconds);
    return truth(world).gas_by_link['pipe']! / first;
  };
  it('CHK-4.11 transcribed [same closed form]: holds at 0.19, clears at 0.61 m/s', () => {
    expect(left(0.19, 600)).toBeGreaterThan(0.9);
    expect(left(0.61, 180)).toBeLessThan(0.02);
  });
  it('independent method [buoyancy]: a gas-filled bore under water drains upward', () => {
    const scenario = parseScenario({
      format: 1,
      id: 'bore',
      temperature_C: 20,
      ends_after_s: 100000,
      nodes: [
        {
          id: 'tank',
          kind: 'tank',
          floor_m: 0,
          area_m2: 1,
          height_mm: 1000,
          start_level_mm: 500,
          ports: [{ id: 'down', height_mm: 50, bore_mm: 27 }],
        },
        { id: 'foot', kind: 'junction', elevation_m: -10, volume_L: 0.5, start_gas_fraction: 1 },
      ],
      links: [
        {
          id: 'bore',
          kind: 'pipe',
          from: 'tank.down',
          to: 'foot',
          bore_mm: 27.3,
          wall_mm: 3,
          length_m: 10.05,
          gas: [{ from_m: 0, to_m: 10.05 }],
        },
      ],
    });
    const world = run(createWorld(scenario, 1), 240);
    expect(truth(world).gas_by_link['bore']! / (area * 10.05)).toBeLessThan(0.02);
    expect(Math.abs(truth(world).gas.error)).toBeLessThan(1e-9);
  });
});

describe('mixing in a tank', () => {
  it('CHK-8.5 independent method [stirred tank]: one turnover goes 63.2 % of the way', () => {
    const scenario = parseScenario({
      format: 1,
      id: 'mix',
      temperature_C: 20,
      antifreeze: 'propylene_glycol',
      ends_after_s: 100000,
      nodes: [
        {
          id: 'dose',
          kind: 'reservoir',
          elevation_m: 1,
          pressure_kPa: 50,
          antifreeze_fraction: 0.02,
        },
        {
          id: 'tank',
          kind: 'tank',
          floor_m: 0,
          area_m2: 0.2,
          height_mm: 1000,
          start_level_mm: 500,
          ports: [
            { id: 'in', height_mm: 50, bore_mm: 30 },
            { id: 'out', height_mm: 60, bore_mm: 30 },
          ],
        },
        { id: 'a', kind: 'junction', elevation_m: 0.05 },
        { id: 'b', kind: 'junction', elevation_m: 0.06 },
        { id: 'away', kind: 'reservoir', elevation_m: 0, pressure_kPa: 0 },
      ],
      links: [
        { id: 'feed', kind: 'fixed_flow', from: 'dose', to: 'a', bore_mm: 30, flow_L_s: 0.2 },
        { id: 'inlet', kind: 'valve', from: 'a', to: 'tank.in', bore_mm: 30, start_deg: 90 },
        { id: 'outlet', kind: 'valve', from: 'tank.out', to: 'b', bore_mm: 30, start_deg: 90 },
        { id: 'drawn', kind: 'fixed_flow', from: 'b', to: 'away', bore_mm: 30, flow_L_s: 0.2 },
      ],
    });
    const world = run(createWorld(scenario, 1), 500); // 100 L at 0.2 L/s: one turnover.
    const x = xray(world).nodes.find((n) => n.id === 'tank')!.antifreeze / 0.02;
    // The feed fitting's half litre delays the start by 2.5 s of 500.
    expect(Math.abs(x - (1 - Math.exp(-1)))).toBeLessThan(0.004);
    expect(Math.abs(truth(world).antifreeze.error)).toBeLessThan(1e-9);
  });
});
