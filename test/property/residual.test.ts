// The two-level method on whole worlds: air that is held in a loop, read off the fall of a tank
// when its return is throttled and then shut against the pump, against the air that is there.
import { describe, expect, it } from 'vitest';
import { createWorld, parseScenario, snapshot, step, truth } from '../../sim/index.ts';
import type { Scenario, World } from '../../sim/index.ts';
import { byOneLevel, byTwoLevels, type Look } from '../support/residual.ts';
import { giveOfAll } from '../../sim/jobsheet/give.ts';
import { isConduit } from '../../sim/jobsheet/rig.ts';
import { ATM, run } from '../support/worlds.ts';

interface Case {
  /** L at 1 atm, about: what the stub holds before the pump runs. */
  readonly air_L: number;
  readonly area_m2: number;
  readonly length_m: number;
  /** Handle of the return while it is throttled. */
  readonly throttled_deg: number;
}

const BORE = 27.3;
/** m. Low, so that the air has the pressure of the gauges: half a metre is 5 kPa. */
const STUB_M = 0.4;

/** Tank, pump, a loop with a stub full of air in its middle, and the return valve. */
function rig({ air_L, area_m2, length_m }: Case): Scenario {
  const stub_mm = Math.sqrt((2 * air_L * 1e6) / ((Math.PI / 4) * 1000 * STUB_M));
  const pipe = { kind: 'pipe', bore_mm: BORE, wall_mm: 3, length_m: length_m / 2 };
  return parseScenario({
    ...{ format: 1, id: 'held_air', temperature_C: 12, ends_after_s: 100000 },
    nodes: [
      {
        ...{ id: 'tank', kind: 'tank', floor_m: 0, area_m2, height_mm: 2000 },
        start_level_mm: 1500,
        ports: [
          { id: 'out', height_mm: 60, bore_mm: 50 },
          { id: 'back', height_mm: 130, bore_mm: 38 },
        ],
      },
      { id: 'casing', kind: 'junction', elevation_m: 0.1, volume_L: 1 },
      { id: 'supply', kind: 'junction', elevation_m: 0.1, volume_L: 0.5 },
      { id: 'middle', kind: 'junction', elevation_m: 0.1, volume_L: 1 },
      { id: 'cap', kind: 'junction', elevation_m: 0.1 + STUB_M, volume_L: 0.5 },
      { id: 'return', kind: 'junction', elevation_m: 0.1, volume_L: 0.5 },
    ],
    links: [
      { id: 'suction', kind: 'valve', from: 'tank.out', to: 'casing', bore_mm: 50, start_deg: 90 },
      {
        ...{ id: 'pump', kind: 'pump', from: 'casing', to: 'supply', bore_mm: 38, start_on: true },
        curve: [
          { flow_L_s: 0, head_m: 30 },
          { flow_L_s: 0.8, head_m: 22 },
          { flow_L_s: 1.6, head_m: 5 },
          { flow_L_s: 1.8, head_m: 0 },
        ],
        best_flow_L_s: 0.9,
      },
      { ...pipe, id: 'there', from: 'supply', to: 'middle' },
      { ...pipe, id: 'back', from: 'middle', to: 'return' },
      {
        ...{ id: 'stub', kind: 'pipe', from: 'middle', to: 'cap', bore_mm: stub_mm, wall_mm: 10 },
        ...{ modulus_MPa: 200000, length_m: STUB_M, gas: [{ from_m: STUB_M / 2, to_m: STUB_M }] },
      },
      { id: 'shut', kind: 'valve', from: 'return', to: 'tank.back', bore_mm: BORE, start_deg: 90 },
    ],
    instruments: [
      gauge('supply_gauge', 'supply'),
      gauge('return_gauge', 'return'),
      { id: 'level', kind: 'level', tank: 'tank', resolution_mm: 0.1 },
    ],
  });
}

function gauge(id: string, node: string): object {
  return { id, kind: 'pressure', node, range_kPa: 600, resolution_kPa: 0.1, lag_s: 0.3 };
}

/** What hands read: the level, and the mean of the gauges at both ends of the loop. */
function look(world: World): Look {
  const at = new Map(snapshot(world).panel.readings.map((one) => [one.id, one]));
  const value = (id: string): number => {
    const reading = at.get(id)!;
    return 'value' in reading && typeof reading.value === 'number' ? reading.value : NaN;
  };
  const mean = (value('supply_gauge') + value('return_gauge')) / 2;
  return { pressure: ATM + mean, level: value('level') };
}

function turn(world: World, target_deg: number): Look {
  step(world, [{ kind: 'valve', valve: 'shut', target_deg }]);
  return look(run(world, 90));
}

/** Air in the loop, m3 at 1 atm, all of it in pipes and fittings. */
const airIn = (world: World): number => truth(world).gas.now;

const CASES: readonly Case[] = [0.3, 1, 3, 9].flatMap((air_L) =>
  [
    { area_m2: 0.05, length_m: 60, throttled_deg: 40 },
    { area_m2: 0.16, length_m: 190, throttled_deg: 36 },
    { area_m2: 0.25, length_m: 190, throttled_deg: 44 },
  ].map((rest) => ({ air_L, ...rest })),
);

describe('air by two levels and by one', () => {
  it.each(CASES)('$air_L L, tank $area_m2 m2, loop $length_m m', (one) => {
    const scenario = rig(one);
    const world = run(createWorld(scenario, 1), 60);
    const open = look(world);
    const first = turn(world, one.throttled_deg);
    const second = turn(world, 0);
    const air = airIn(world);
    const two = byTwoLevels([open, first, second], one.area_m2)!;
    // m3 at 1 atm that move the level by 2 mm between the first look and the last.
    const read = (0.002 * one.area_m2) / (ATM * (1 / open.pressure - 1 / second.pressure));
    expect(Math.abs(two.air - air)).toBeLessThan(Math.max(0.1 * air, read));
    const give = giveOfAll(scenario.links.filter(isConduit), 12, 60);
    const by = byOneLevel([open, second], one.area_m2, give);
    expect(Math.abs(by.air - air)).toBeLessThan(Math.max(0.4 * air, read));
  });
});

describe('the sums of the method', () => {
  it('give back the air and the stretch that made three levels', () => {
    // 2 L at 2 bar and 2e-6 L/Pa, at 2, 4 and 6 bar, in a tank of 0.1 m2.
    const area = 0.1;
    const [p1, V, C] = [2e5, 2e-3, 2e-9];
    const at = (pressure: number): Look => ({
      pressure,
      level: 1 - (V * (1 - p1 / pressure) + C * (pressure - p1)) / area,
    });
    const two = byTwoLevels([at(2e5), at(4e5), at(6e5)], area)!;
    expect((two.air * ATM) / p1 / V).toBeCloseTo(1, 9);
    expect(two.give / C).toBeCloseTo(1, 9);
    expect(two.moved).toBeCloseTo((V * (1 - 2 / 6)) / area, 12);
    const one = byOneLevel([at(2e5), at(6e5)], area, C);
    expect((one.air * ATM) / p1 / V).toBeCloseTo(1, 9);
  });

  it('say nothing where the pressures are the same', () => {
    const look = { pressure: 2e5, level: 1 };
    const shut = { pressure: 4e5, level: 0.99 };
    expect(byTwoLevels([look, shut, shut], 0.1)).toBeNull();
    expect(byTwoLevels([look, look, shut], 0.1)).toBeNull();
  });
});
