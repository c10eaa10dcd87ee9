// Debris in whole worlds: where it gathers, what comes to a coil, what eyes see, and that worlds
// without debris know nothing of it.
import { describe, expect, it } from 'vitest';
import {
  createWorld,
  parseScenario,
  service,
  snapshot,
  step,
  truth,
  type World,
} from '../../../sim/index.ts';
import { bench, deposit, g, grainsIn, GRAINS, inNode, within, yard } from '../../support/debris.ts';
import { held, joint, pipe, scenario } from '../../support/fields.ts';
import { during, of } from '../../support/hands.ts';
import { run } from '../../support/worlds.ts';

const closes = (world: World) => expect(Math.abs(truth(world).debris!.error)).toBeLessThan(1e-9);
/** Two reservoirs at rest, a pipe between two fittings, something lying all along it. */
function still(of: string, profile: readonly object[], rise: number, more: object = {}): World {
  const run_m = 20;
  return createWorld(
    scenario(
      [
        held('one', 50),
        joint('a'),
        joint('b', rise),
        { ...held('two', 50 - 9.79 * rise), elevation_m: rise },
      ],
      [
        pipe('in', ['one', 'a'], 27.3, 2),
        { ...pipe('run', ['a', 'b'], 27.3, run_m), profile, ...more },
        pipe('out', ['b', 'two'], 27.3, 2),
      ],
      { debris: { classes: GRAINS, lying: [deposit('run', of, 10, run_m)] } },
    ),
    1,
  );
}

describe('a world without debris', () => {
  it('keeps no room for it and shows none', () => {
    const world = createWorld(
      scenario(
        [held('one', 50), joint('a'), held('two', 20)],
        [pipe('in', ['one', 'a'], 27.3, 2), { ...pipe('out', ['a', 'two'], 27.3, 2), clear: true }],
        { instruments: [{ id: 'eye', kind: 'sight', link: 'out' }] },
      ),
      1,
    );
    const { grains, caught, fitted, arrived, swept, overRim, grainBook } = world.state;
    for (const list of [grains, caught, fitted, arrived, swept, overRim, grainBook]) {
      expect(list.length).toBe(0);
    }
    expect(truth(run(world, 2)).debris).toBeNull();
    expect(snapshot(world).panel.readings[0]).toMatchObject({ kind: 'sight', grit: 'none' });
    expect(service(world, 'in', null)).toBeNull();
  });
});

describe('grains in water that stands', () => {
  const valley = [
    { at_m: 8, elevation_m: -7.5 },
    { at_m: 12, elevation_m: -7.5 },
  ];
  const hump = [
    { at_m: 8, elevation_m: 7.5 },
    { at_m: 12, elevation_m: 7.5 },
  ];

  it('fall to the foot of both legs and lie there', () => {
    const world = run(still('coarse', valley, 0), 300);
    const cells = grainsIn(world, 'run').map((kg) => g * kg);
    const foot = cells.slice(7, 13).reduce((sum, x) => sum + x, 0);
    expect(foot).toBeGreaterThan(9.99);
    expect(within(world, 'run').moving).toBeLessThan(0.01);
    closes(world);
  });

  it('lie as a heap where two legs meet in a point', () => {
    const world = run(still('coarse', [{ at_m: 10, elevation_m: -9.5 }], 0), 300);
    expect(within(world, 'run').lying).toBeGreaterThan(9.99);
    closes(world);
  });

  it('rise to the crest where they float', () => {
    const world = run(still('shavings', hump, 0), 1200);
    const cells = grainsIn(world, 'run').map((kg) => g * kg);
    expect(cells.slice(7, 13).reduce((sum, x) => sum + x, 0)).toBeGreaterThan(9.99);
    closes(world);
  });

  it('stay where they lie in a level pipe, and under a film', () => {
    const level = run(still('coarse', [], 0), 5); // The ends push a little water in at first.
    const before = grainsIn(level, 'run');
    grainsIn(run(level, 60), 'run').forEach((kg, k) => expect(kg).toBeCloseTo(before[k]!, 12));
    expect(g * Math.max(...before)).toBeCloseTo(0.5, 1);
    const dry = still('coarse', valley, 0, { gas: [{ from_m: 0, to_m: 20 }] });
    step(dry, []);
    expect(within(dry, 'run').moving).toBe(0);
  });
});

describe('a thin layer under gas', () => {
  it('moves what the same flow in a full pipe leaves lying', () => {
    const flow = { grain: 'coarse', bore_mm: 27.3, V: 0.3, from_m: 2, to_m: 3 } as const;
    expect(within(run(bench(flow), 2), 'run').moving).toBe(0);
    const full = bench(flow);
    const json = structuredClone(full.plan.scenario) as { links: { gas?: object[] }[] };
    json.links[1]!.gas = Array.from({ length: 8 }, (_, k) => ({ from_m: k, to_m: k + 0.6 }));
    const half = createWorld(parseScenario(json), 1);
    expect(within(run(half, 2), 'run').moving).toBeGreaterThan(0.01);
    closes(half);
  });
});

describe('what comes to a coil', () => {
  it('is told at a fifth and at all of what is allowed, and once', () => {
    const world = createWorld(yard([deposit('suction', 'fine', 60, 2)]), 1);
    service(world, 'filter', null);
    step(world, [{ kind: 'valve', valve: 'coil_valve', target_deg: 90 }]);
    const told = of(during(world, 300), 'fouled');
    expect(told.map((f) => f.kind === 'hazard' && [f.at, f.stage])).toEqual([
      ['coil', 'warning'],
      ['coil', 'tripped'],
    ]);
    const [warned] = told;
    expect(warned?.kind === 'hazard' && warned.value).toBeGreaterThanOrEqual(0.2);
    expect(world.state.arrived[0]).toBeGreaterThan(0.01);
  });

  it('is nothing while the filter keeps it', () => {
    const world = createWorld(yard([deposit('suction', 'coarse', 20, 2)]), 1);
    step(world, [{ kind: 'valve', valve: 'coil_valve', target_deg: 90 }]);
    expect(during(world, 200).filter((f) => f.kind === 'hazard')).toEqual([]);
    expect(g * world.state.arrived[0]!).toBeLessThan(0.1);
  });
});

describe('eyes at a clear hose', () => {
  const grit = (world: World) => {
    const [eye] = snapshot(world).panel.readings;
    return eye?.kind === 'sight' ? eye.grit : null;
  };

  it('see grains while they go by, by how many they are', () => {
    const seen = new Set<unknown>();
    const world = createWorld(yard([deposit('loop', 'fine', 20, 5)]), 1);
    expect(grit(world)).toBe('none');
    for (let t = 0; t < 100; t++) seen.add(grit(run(world, 1)));
    expect([...seen].sort()).toEqual(['much', 'none', 'some']);
    const faint = createWorld(yard([deposit('loop', 'fine', 0.02, 5)]), 1);
    const few = new Set<unknown>();
    for (let t = 0; t < 100; t++) few.add(grit(run(faint, 1)));
    expect([...few].sort()).toEqual(['none', 'some']);
  });
});

describe('a tank', () => {
  it('keeps sand on its floor; what floats goes over the rim first', () => {
    const world = createWorld(
      yard([deposit('back', 'coarse', 10, 3), deposit('back', 'shavings', 10, 3)]),
      1,
    );
    run(world, 60);
    // By hand: w A/(w A + Q) stays at once, 0.93 of the sand and 0.75 of the shavings.
    expect(inNode(world, 'tank').lying).toBeGreaterThan(14);
    const rim = 0.8 * 0.2 * 998;
    world.state.mass[0] = rim + 2; // Somebody tips a bucket in.
    run(world, 1);
    expect(g * truth(world).debris_ledgers['tank']!).toBeGreaterThan(1);
    expect(inNode(world, 'tank').lying).toBeGreaterThan(10);
    closes(world);
  });

  it('has its floating grains drawn down when the outlet comes near the surface', () => {
    const world = createWorld(yard([deposit('back', 'shavings', 10, 3)]), 1);
    run(world, 60);
    const drawnBefore = inNode(world, 'tank').lying;
    expect(drawnBefore).toBeGreaterThan(5);
    world.state.mass[0] = 0.05 * 0.2 * 998; // 5 cm are left over a floor outlet of 4 cm bore.
    run(world, 10);
    expect(inNode(world, 'tank').lying).toBeLessThan(0.5 * drawnBefore);
  });
});

describe('a shut valve', () => {
  it('lets no grain through, however heavy', () => {
    const shut = { kind: 'valve', bore_mm: 27.3, start_deg: 0 };
    const world = createWorld(
      scenario(
        [
          { ...held('one', 50), elevation_m: 3 },
          joint('top', 0.25),
          joint('foot'),
          held('two', 50),
        ],
        [
          { ...pipe('drop', ['one', 'top'], 27.3, 3) },
          { id: 'stop', from: 'top', to: 'foot', ...shut },
          pipe('out', ['foot', 'two'], 27.3, 2),
        ],
        { debris: { classes: GRAINS, lying: [deposit('drop', 'coarse', 10, 3)] } },
      ),
      1,
    );
    run(world, 120);
    expect(inNode(world, 'top').lying).toBeGreaterThan(9.9);
    step(world, [{ kind: 'valve', valve: 'stop', target_deg: 90 }]);
    run(world, 120);
    expect(inNode(world, 'top').lying + inNode(world, 'top').moving).toBeLessThan(0.1);
    closes(world);
  });
});
