// Heat under random hands: its book closes with the others, a copy and a replay go the same way
// bit for bit; untouched flow stands still where heat is left out, and follows viscosity where not.
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import {
  createWorld,
  hash,
  loadState,
  parseScenario,
  saveState,
  steadyState,
  step,
  truth,
  xray,
} from '../../sim/index.ts';
import { joint, scenario as small } from '../support/fields.ts';
import { goneOn, playedTwice } from '../support/twins.ts';
import { link, run } from '../support/worlds.ts';
import { colebrook } from '../truth/origin/pipes.ts';
import { density, viscosity } from '../truth/origin/water.ts';

type Json = Record<string, unknown> & {
  nodes: Record<string, unknown>[];
  links: Record<string, unknown>[];
};

/** The first level in the given surroundings, with antifreeze in its tank where one is named. */
function levelIn(heat: object, fluid = 'none') {
  const json = JSON.parse(readFileSync('levels/01-heron-lane/scenario.json', 'utf8')) as Json;
  const mixed = fluid === 'none' ? {} : { start_antifreeze_fraction: 0.2 };
  const nodes = json.nodes.map((node) => (node['kind'] === 'tank' ? { ...node, ...mixed } : node));
  return parseScenario({ ...json, nodes, antifreeze: fluid, heat });
}

const SUMMER = { air_C: 32, soil_C: 11, sun_W_m2: 900 };
const WINTER = { air_C: -20, soil_C: -4, air_film_W_m2K: 60 };
const seeds = process.env['LOOPYARD_SEED'] ? [Number(process.env['LOOPYARD_SEED'])] : [21, 22];

describe('random hands with heat', () => {
  const cases = seeds.flatMap((seed) => [
    { seed, name: 'summer', scenario: levelIn(SUMMER) },
    { seed, name: 'winter, propylene glycol', scenario: levelIn(WINTER, 'propylene_glycol') },
    { seed, name: 'winter, water that freezes', scenario: levelIn(WINTER) },
  ]);
  it.each(cases)('books close to 1e-9 and a replay is bit-equal ($name, $seed)', (one) => {
    playedTwice(one.scenario, one.seed, 9000, (world, tick) => {
      if (tick % 1000 !== 999) return;
      const books = truth(world);
      for (const kind of ['liquid', 'antifreeze', 'gas', 'heat'] as const) {
        expect(Math.abs(books[kind]!.error), `${kind} at tick ${tick}`).toBeLessThan(1e-9);
      }
      for (const part of xray(world).links) {
        for (const t of part.temperature_C) expect(t).toBeGreaterThan(-25);
        for (const t of part.temperature_C) expect(t).toBeLessThan(120);
      }
      expect(hash(world)).toMatch(/^[0-9a-f]{16}$/);
    });
  });

  it('a copy, and a world saved and loaded, go on as the original does', () => {
    goneOn(levelIn(WINTER, 'ethanol'), [7, 3], [3333, 2000]);
  });
});

/** A pump that turns a tank's water through a long pipe. */
function ring(more: object) {
  const ports = ['out', 'in'].map((id) => ({ id, height_mm: 50, bore_mm: 30 }));
  const tank = { id: 'tank', kind: 'tank', floor_m: 0, area_m2: 0.15, height_mm: 500 };
  // So many points that it is as straight as it says: between two the engine lays a bow.
  const curve = Array.from({ length: 11 }, (_, k) => ({ flow_L_s: k / 10, head_m: 20 - 1.6 * k }));
  const pipe = { kind: 'pipe', bore_mm: 30, wall_mm: 3 };
  return small(
    [{ ...tank, start_level_mm: 300, ports }, joint('a'), joint('b')],
    [
      { id: 'suction', from: 'tank.out', to: 'a', length_m: 2, ...pipe },
      {
        ...{ id: 'pump', kind: 'pump', from: 'a', to: 'b', bore_mm: 30, curve },
        ...{ best_flow_L_s: 0.7, start_on: true },
      },
      { id: 'loop', from: 'b', to: 'tank.in', length_m: 120, ...pipe },
    ],
    { temperature_C: 10, ...more },
  );
}

/**
 * Flow of that ring at t C, m3/s, worked out without the engine: a straight curve of 20 m less 16 m
 * a L/s against 122 m of pipe by Darcy and Colebrook, water by the IAPWS.
 */
function ringFlow(t: number): number {
  let [lo, hi] = [1e-5, 1e-3];
  for (let k = 0; k < 60; k++) {
    const Q = (lo + hi) / 2;
    const V = (4 * Q) / (Math.PI * 0.03 * 0.03);
    const Re = (density(t) * V * 0.03) / viscosity(t);
    const lost = (colebrook({ Re, e_D: 0.0015 / 30 }) * 122 * V * V) / (2 * 0.03 * 9.80665);
    if (20 - 16000 * Q > lost) lo = Q;
    else hi = Q;
  }
  return lo;
}

const flowOf = (scenario: ReturnType<typeof ring>, seconds: number) => {
  const world = run(createWorld(scenario, 1), 600);
  const before = link(world, 'loop').flow;
  run(world, seconds);
  return { before, after: link(world, 'loop').flow, world };
};

describe('untouched', () => {
  it('flow stands still for an hour where heat is left out', () => {
    const { before, after } = flowOf(ring({}), 3600);
    expect(Math.abs(after / before - 1)).toBeLessThan(1e-3);
  });

  it('with heat it drifts as the viscosity of what it warms to has it, worked out apart', () => {
    const still = { air_C: 10, soil_C: 10, soil_age_s: 1e8 };
    const world = run(createWorld(ring({ heat: still }), 1), 600);
    const now = () => {
      const { flow, temperature_C } = link(world, 'loop');
      return { flow, t: temperature_C.reduce((sum, t) => sum + t, 0) / temperature_C.length };
    };
    const before = now();
    const shaft = () => -truth(world).heat_ledgers['shaft']!;
    const joules = shaft();
    run(world, 3600);
    const after = now();
    expect(after.t - before.t).toBeGreaterThan(0.3);
    const warm = link(world, 'loop').temperature_C[60]!;
    expect(warm).toBeGreaterThan(10.4);
    const steady = steadyState(ring({ temperature_C: warm })).links.find((l) => l.id === 'loop')!;
    expect(Math.abs(after.flow / steady.flow - 1)).toBeLessThan(1e-3);
    const drift = after.flow / before.flow - 1;
    expect(drift).toBeGreaterThan(5e-4);
    const apart = ringFlow(after.t) / ringFlow(before.t) - 1;
    expect(Math.abs(drift / apart - 1)).toBeLessThan(0.1); // Two laws of friction, one slope.
    expect(Math.abs(before.flow / ringFlow(before.t) - 1)).toBeLessThan(0.015);
    expect(Math.abs(truth(world).heat!.error)).toBeLessThan(1e-9);
    // rho g Q H over an efficiency of 0.45 (1 - (1 - Q/Q_bep)^2), by hand.
    const Q = (before.flow + after.flow) / 2;
    const eta = 0.45 * (1 - (1 - Q / 0.0007) ** 2);
    const watts = (density(10) * 9.80665 * Q * (20 - 16000 * Q)) / eta;
    expect(Math.abs((shaft() - joules) / (3600 * watts) - 1)).toBeLessThan(0.01);
  });

  it('nothing warms or cools among surroundings of its own temperature', () => {
    const world = createWorld(ring({ heat: { air_C: 10, soil_C: 10 } }), 1);
    run(world, 5); // Then the pump has done its little.
    for (const part of xray(world).links)
      for (const t of part.temperature_C) expect(Math.abs(t - 10)).toBeLessThan(0.1);
  });
});

/** Water that stands in a pump with its hose in the frost, the valve behind it shut. */
function frosty(fluid: string, x: number) {
  const curve = [
    { flow_L_s: 0, head_m: 20 },
    { flow_L_s: 1, head_m: 4 },
  ];
  const mixed = { start_antifreeze_fraction: x };
  const ports = [{ id: 'out', height_mm: 50, bore_mm: 30 }];
  const tank = { id: 'tank', kind: 'tank', floor_m: 0, area_m2: 0.15, height_mm: 500, ports };
  return small(
    [{ ...tank, ...mixed, start_level_mm: 300 }, joint('a'), joint('b'), joint('end')],
    [
      { id: 'hose', kind: 'hose', from: 'tank.out', to: 'a', bore_mm: 30, length_m: 3, ...mixed },
      {
        ...{ id: 'pump', kind: 'pump', from: 'a', to: 'b', bore_mm: 30, curve },
        best_flow_L_s: 0.7,
      },
      { id: 'lead', kind: 'hose', from: 'b', to: 'end', bore_mm: 30, length_m: 3, ...mixed },
    ],
    {
      ...{ temperature_C: 2, antifreeze: fluid, solver: { tick_s: 0.2, cell_m: 1 } },
      heat: { air_C: -30, soil_C: 5, air_film_W_m2K: 200 },
    },
  );
}

describe('frost', () => {
  const cracks = (fluid: string, x: number) => {
    const world = createWorld(frosty(fluid, x), 1);
    const stages: string[] = [];
    for (let tick = 0; tick < 60000; tick++) {
      for (const fact of step(world, []))
        if (fact.kind === 'hazard' && fact.hazard === 'cracked') stages.push(fact.stage);
    }
    expect(Math.abs(truth(world).heat!.error)).toBeLessThan(1e-9);
    return stages;
  };

  it('cracks a full casing of water, with a warning first', () => {
    expect(cracks('none', 0)).toEqual(['warning', 'tripped']);
  });

  it('lets a cracked casing leak once its ice has gone, and no other', () => {
    const days = (air_C: number) => {
      const scenario = frosty('none', 0);
      const world = createWorld({ ...scenario, heat: { ...scenario.heat!, air_C } }, 1);
      run(world, 12000);
      // Spring: the air of the world is its scenario's, so the casing is set down in a warm one.
      const warm = { ...scenario, heat: { ...scenario.heat!, air_C: 20 } };
      const after = loadState(warm, 1, saveState(world), world.start);
      const kept = truth(after).ledgers['pump.outside']!;
      run(after, 3 * 3600);
      expect(Math.abs(truth(after).liquid.error)).toBeLessThan(1e-9);
      return { frozen: kept, thawed: truth(after).ledgers['pump.outside']! };
    };
    const cracked = days(-30);
    expect(cracked.frozen, 'ice plugs the slit').toBeLessThan(1e-6);
    expect(cracked.thawed).toBeGreaterThan(1e-4);
    expect(days(5).thawed).toBe(0);
  });

  it('leaves one with enough antifreeze whole', () => {
    expect(cracks('propylene_glycol', 0.5)).toEqual([]);
  });
});
