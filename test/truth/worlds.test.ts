// Published or derived numbers reproduced by whole worlds, through createWorld and step. Each
// name says where the expected value comes from: a closed form worked out here (independent
// method), another solver (independent method), or our own formula (transcription).
import { describe, expect, it } from 'vitest';
import { createWorld, parseScenario, step, truth, xray, type Scenario, type World } from '../../sim/index.ts';
import { bench } from '../support/rigs.ts';

const GPM = (3.785411784e-3 / 60) * 1000; // L/s
const FT = 0.3048;
const PSI = 6894.757;
const ATM = 101325;

function run(world: World, seconds: number): World {
  const ticks = Math.round(seconds / world.dt);
  for (let t = 0; t < ticks; t++) step(world, []);
  return world;
}

const node = (world: World, id: string): number => xray(world).nodes.find((n) => n.id === id)!.pressure;
const link = (world: World, id: string) => xray(world).links.find((l) => l.id === id)!;

/** Imposed flow along a level pipe between two junctions; loss over the pipe, Pa. */
function lossOver(o: { bore_mm: number; length_m: number; flow_L_s: number; t_C: number; rough_mm: number }): number {
  const scenario = parseScenario({
    format: 1, id: 'loss', temperature_C: o.t_C, ends_after_s: 100000,
    nodes: [
      { id: 'source', kind: 'reservoir', elevation_m: 0, pressure_kPa: 100 },
      { id: 'a', kind: 'junction', elevation_m: 0 },
      { id: 'b', kind: 'junction', elevation_m: 0 },
      { id: 'sink', kind: 'reservoir', elevation_m: 0, pressure_kPa: 50 },
    ],
    links: [
      { id: 'feed', kind: 'fixed_flow', from: 'source', to: 'a', bore_mm: o.bore_mm, flow_L_s: o.flow_L_s },
      { id: 'pipe', kind: 'pipe', from: 'a', to: 'b', bore_mm: o.bore_mm, wall_mm: 3, length_m: o.length_m, roughness_mm: o.rough_mm },
      { id: 'out', kind: 'pipe', from: 'b', to: 'sink', bore_mm: o.bore_mm, wall_mm: 3, length_m: 2 },
    ],
  });
  const world = run(createWorld(scenario, 1), 200);
  return node(world, 'a') - node(world, 'b');
}

/** A closed pipe under a reservoir: stiff unless told otherwise. */
function closed(o: {
  pressure_kPa: number; bore_mm: number; length_m: number; wall_mm?: number; modulus_MPa?: number; nu?: number;
  gas?: { from_m: number; to_m: number }; t_C?: number; fall_m?: number; end_gas?: number; tick_s?: number;
}): Scenario {
  return parseScenario({
    format: 1, id: 'closed', temperature_C: o.t_C ?? 20, ends_after_s: 100000,
    solver: { tick_s: o.tick_s ?? 0.05, cell_m: 1 },
    nodes: [
      { id: 'head', kind: 'reservoir', elevation_m: 0, pressure_kPa: o.pressure_kPa },
      { id: 'end', kind: 'junction', elevation_m: -(o.fall_m ?? 0), volume_L: 0.5, start_gas_fraction: o.end_gas ?? 0 },
    ],
    links: [{
      id: 'pipe', kind: 'pipe', from: 'head', to: 'end', bore_mm: o.bore_mm, length_m: o.length_m,
      wall_mm: o.wall_mm ?? 10, modulus_MPa: o.modulus_MPa ?? 200000, poisson: o.nu ?? 0.3, gas: o.gas ? [o.gas] : [],
    }],
  });
}

describe('losses of whole pipes', () => {
  it('CHK-2.7 transcription [Churchill 1977]: 500 ft of 3/4 inch at 3.62 gpm, water of 10 C, loses 40.1 kPa', () => {
    const dp = lossOver({ bore_mm: 21.844, length_m: 500 * FT, flow_L_s: 3.62 * GPM, t_C: 10, rough_mm: 0.0015 });
    expect(Math.abs(dp / 40100 - 1)).toBeLessThan(0.02);
  });
  it('CHK-2.8 transcription [Churchill 1977]: 600 ft of 1 inch at 5.66 gpm loses 36.3 kPa', () => {
    const dp = lossOver({ bore_mm: 27.305, length_m: 600 * FT, flow_L_s: 5.66 * GPM, t_C: 10, rough_mm: 0.0015 });
    expect(Math.abs(dp / 36300 - 1)).toBeLessThan(0.02);
  });
  it('CHK-2.15 transcription: a hose of 1-1/2 inch with 40 gpm loses 1.46 kPa a metre', () => {
    const dp = lossOver({ bore_mm: 38.1, length_m: 20, flow_L_s: 40 * GPM, t_C: 10, rough_mm: 0.03 });
    expect(Math.abs(dp / 20 / 1460 - 1)).toBeLessThan(0.03);
  });
  it('independent method [Hagen and Poiseuille]: creeping flow loses 128 mu L Q/(pi D^4)', () => {
    const dp = lossOver({ bore_mm: 20, length_m: 100, flow_L_s: 0.01, t_C: 20, rough_mm: 0.0015 });
    const want = (128 * 1.002e-3 * 100 * 1e-5) / (Math.PI * 0.02 ** 4);
    expect(Math.abs(dp / want - 1)).toBeLessThan(0.01);
  });
});

describe('a closed loop under pressure', () => {
  it('CHK-12.2 independent method [hydrostatics]: 300 ft down under 60 psi there stand 190 psi', () => {
    const world = run(createWorld(closed({ pressure_kPa: 60 * PSI / 1000, bore_mm: 27.3, length_m: 92, fall_m: 300 * FT }), 1), 60);
    expect(Math.abs((node(world, 'end') - ATM) / PSI - 190)).toBeLessThan(1);
  });

  it('CHK-6.3 independent method [Boyle]: 5.0 L of air raised by 40 psi takes in 3.657 L', () => {
    const area = (Math.PI * 0.1 ** 2) / 4;
    const gas = (5 - 0.5) / 1000 / area; // m of pipe; the end fitting holds the other half litre.
    const scenario = closed({
      pressure_kPa: 40 * PSI / 1000, bore_mm: 100, length_m: 4, gas: { from_m: 4 - gas, to_m: 4 }, end_gas: 1,
    });
    const world = createWorld(scenario, 1);
    const before = truth(world).liquid;
    run(world, 120);
    const after = truth(world).liquid;
    const taken = (after.now - before.now) / 998.2;
    expect(Math.abs(taken * 1000 / 3.657 - 1)).toBeLessThan(0.005);
  });

  it('CHK-6.4 independent method [Lame, plane strain]: 1000 ft of 1 inch take in 0.535 L from 20 to 60 psi', () => {
    const [E, nu, D, e] = [896e6, 0.45, 0.027305, 0.003048];
    const held = (psi: number) => truth(run(createWorld(closed({
      pressure_kPa: psi * PSI / 1000, bore_mm: 27.305, length_m: 304.8, wall_mm: 3.048, modulus_MPa: 896, nu: 0.45,
    }), 1), 240)).liquid.now;
    const taken = (held(60) - held(20)) / 998.2;
    const [ri, ro] = [D / 2, D / 2 + e];
    const dp = 40 * PSI;
    // Radial displacement of the bore of a thick cylinder that cannot lengthen, Lame 1852.
    const hoop = ((1 + nu) / E) * ((dp * ri * ri) / (ro * ro - ri * ri)) * (1 - 2 * nu + (ro * ro) / (ri * ri));
    const volume = (Math.PI * D * D * 304.8) / 4;
    const want = volume * (2 * hoop + dp * 4.589e-10);
    expect(Math.abs(want * 1000 - 0.535), 'the published sum').toBeLessThan(0.004);
    expect(Math.abs(taken / want - 1)).toBeLessThan(0.01);
  });
});

describe('a water column on an air cushion', () => {
  it('CHK-5.5 independent method [linear oscillator]: omega^2 = p A/(rho L V) + g/L upright, within 3 %', () => {
    // Upright, so that the air stays above the water; isothermal, so m = 1.
    const [rho, g] = [998.2, 9.80665];
    const A = (Math.PI * 0.1 ** 2) / 4;
    const V0 = A * 1 + 0.0005;
    const V = V0 / 1.05;
    const water = 10 + (V0 - V) / A;
    const scenario = closed({
      pressure_kPa: (0.05 * ATM + rho * g * water) / 1000, bore_mm: 100, length_m: 11, fall_m: -11,
      gas: { from_m: 10, to_m: 11 }, end_gas: 1,
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
    console.log(`cushion: period ${period.toFixed(3)} s against ${want.toFixed(3)} s, a swing keeps ${(peaks[2]! / peaks[1]!).toFixed(2)}`);
  });
});

describe('air in a bore', () => {
  const area = (Math.PI * 0.0273 ** 2) / 4;
  const left = (v: number, seconds: number) => {
    const world = createWorld(bench({ bore_mm: 27.3, flow_L_s: v * area * 1000, cell_m: 0.5, tick_s: 0.05, gas: { from_m: 2, to_m: 4 } }), 1);
    const first = truth(world).gas_by_link['pipe']!;
    run(world, seconds);
    return truth(world).gas_by_link['pipe']! / first;
  };
  it('CHK-4.11 independent method [a prototype of the same closed form at fixed flow]: 0.19 m/s leaves it, 0.61 m/s clears it in 180 s', () => {
    expect(left(0.19, 600)).toBeGreaterThan(0.9);
    expect(left(0.61, 180)).toBeLessThan(0.02);
  });
  it('independent method [buoyancy]: a wholly gas-filled bore under water drains upward by itself', () => {
    const scenario = parseScenario({
      format: 1, id: 'bore', temperature_C: 20, ends_after_s: 100000,
      nodes: [
        { id: 'tank', kind: 'tank', floor_m: 0, area_m2: 1, height_mm: 1000, start_level_mm: 500, ports: [{ id: 'down', height_mm: 50, bore_mm: 27 }] },
        { id: 'foot', kind: 'junction', elevation_m: -10, volume_L: 0.5, start_gas_fraction: 1 },
      ],
      links: [{ id: 'bore', kind: 'pipe', from: 'tank.down', to: 'foot', bore_mm: 27.3, wall_mm: 3, length_m: 10.05, gas: [{ from_m: 0, to_m: 10.05 }] }],
    });
    const world = run(createWorld(scenario, 1), 240);
    expect(truth(world).gas_by_link['bore']! / (area * 10.05)).toBeLessThan(0.02);
    expect(Math.abs(truth(world).gas.error)).toBeLessThan(1e-9);
  });
});

describe('mixing in a tank', () => {
  it('CHK-8.5 independent method [stirred tank]: after one turnover 63.2 % of the way, to 0.2 %', () => {
    const scenario = parseScenario({
      format: 1, id: 'mix', temperature_C: 20, antifreeze: 'propylene_glycol', ends_after_s: 100000,
      nodes: [
        { id: 'dose', kind: 'reservoir', elevation_m: 1, pressure_kPa: 50, antifreeze_fraction: 0.02 },
        { id: 'tank', kind: 'tank', floor_m: 0, area_m2: 0.2, height_mm: 1000, start_level_mm: 500,
          ports: [{ id: 'in', height_mm: 50, bore_mm: 30 }, { id: 'out', height_mm: 60, bore_mm: 30 }] },
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
