// Debris in whole worlds: where it gathers, what a filter does when it loads, is turned about or
// emptied, what eyes see, and that worlds without debris know nothing of it.
import { describe, expect, it } from 'vitest';
import {
  createWorld,
  parseScenario,
  service,
  snapshot,
  step,
  truth,
  xray,
  type Fact,
  type World,
} from '../../../sim/index.ts';
import { bench, ELEMENTS, grainsIn, GRAINS, yard } from '../../support/debris.ts';
import { held, joint, pipe, scenario } from '../../support/fields.ts';
import { node, run } from '../../support/worlds.ts';

const g = 1000;
const within = (world: World, id: string) => {
  const { moving, lying, caught } = truth(world).debris_by_link[id]!;
  return { moving: g * moving, lying: g * lying, caught: g * caught };
};
const inNode = (world: World, id: string) => {
  const seen = xray(world).nodes.find((n) => n.id === id)!;
  return { moving: g * seen.debris_moving, lying: g * seen.debris_lying };
};
const closes = (world: World) => expect(Math.abs(truth(world).debris!.error)).toBeLessThan(1e-9);
const steps = (world: World, seconds: number): Fact[] => {
  const facts: Fact[] = [];
  for (let t = 0; t < seconds / world.dt; t++) facts.push(...step(world, []));
  return facts;
};
const deposit = (link: string, of: string, grams: number, to_m: number) => ({
  ...{ link, grams, to_m, class: of },
  from_m: 0,
});

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

describe('a filter in a yard', () => {
  const sand = [deposit('suction', 'coarse', 60, 2)];

  it('loads, costs more by the gram and loses flow', () => {
    const world = createWorld(yard(sand), 1);
    const clean = createWorld(yard([]), 1);
    run(clean, 100);
    run(world, 100);
    const { load, loss, element } = truth(world).elements[0]!;
    expect(element).toBe('bag');
    expect(g * load).toBeGreaterThan(20);
    const flow = world.state.flow[world.plan.links[2]!.firstColumn]!;
    // By hand: 100 kPa at 1 L/s and 60 g, straight in both.
    expect(loss).toBeCloseTo((100_000 * (g * load) * (1000 * flow)) / 60, 0);
    expect(flow).toBeLessThan(0.95 * clean.state.flow[clean.plan.links[2]!.firstColumn]!);
    const over = (w: World) => node(w, 'b') - node(w, 'c');
    expect(over(world)).toBeGreaterThan(over(clean) + 0.8 * loss);
    closes(world);
  });

  it('is gone round by an open bypass', () => {
    const straight = run(createWorld(yard(sand), 1), 100);
    const by = createWorld(yard(sand), 1);
    step(by, [{ kind: 'valve', valve: 'bypass', target_deg: 90 }]);
    run(by, 100);
    expect(within(by, 'filter').caught).toBeLessThan(0.6 * within(straight, 'filter').caught);
  });

  it('is emptied by hands into their own book, and wears what they put in', () => {
    const world = run(createWorld(yard(sand), 1), 100);
    const before = within(world, 'filter').caught;
    expect(service(world, 'loop', null)).toBeNull();
    expect(service(world, 'filter', 'sponge')).toBeNull();
    expect(within(world, 'filter').caught).toBe(before);
    expect(g * service(world, 'filter', 'screen')!).toBeCloseTo(before, 9);
    expect(g * truth(world).debris_ledgers['taken_out']!).toBeCloseTo(before, 9);
    expect(truth(world).elements[0]).toMatchObject({ element: 'screen', load: 0, loss: 0 });
    expect(service(world, 'filter', null)).toBe(0);
    const filter = within(run(world, 60), 'filter').caught;
    expect(filter).toBe(0); // An empty housing catches nothing.
    closes(world);
  });
});

/** Water to and fro through a filter between two pipes, grains before it and behind it. */
function reversing(): World {
  const drive = { kind: 'fixed_flow', bore_mm: 27.3, flow_L_s: 0.7 };
  return createWorld(
    scenario(
      [held('one', 50), ...['a', 'b', 'c'].map((id) => joint(id)), held('two', 50)],
      [
        { id: 'drive', from: 'one', to: 'a', ...drive },
        pipe('before', ['a', 'b'], 27.3, 200),
        { id: 'filter', kind: 'filter', from: 'b', to: 'c', bore_mm: 27.3, loss_k: 2 },
        pipe('behind', ['c', 'two'], 27.3, 200),
      ],
      {
        debris: {
          classes: [{ id: 'fine', diameter_mm: 0.1, relative_density: 2.65 }],
          elements: [{ ...ELEMENTS[0], d50_um: 1, capacity_g: 1000, sheds: 0.4 }],
          catchers: [{ link: 'filter', element: 'bag' }],
          lying: [{ link: 'before', class: 'fine', from_m: 170, to_m: 199, grams: 50 }],
        },
      },
    ),
    1,
  );
}

describe('a loaded filter that is turned about', () => {
  it('sheds its share to the dirty side and keeps the rest', () => {
    const world = run(reversing(), 120);
    expect(within(world, 'filter').caught).toBeGreaterThan(49.9);
    step(world, [{ kind: 'flow', link: 'drive', flow_mL_s: -700 }]);
    run(world, 60);
    expect(within(world, 'filter').caught).toBeCloseTo(0.6 * 50, 0);
    const back = within(world, 'before');
    expect(back.moving + back.lying + inNode(world, 'b').moving).toBeCloseTo(0.4 * 50, 0);
    expect(within(world, 'behind').moving).toBeLessThan(0.01);
    closes(world);
  });

  it('catches from behind, and gives that on when it flows its own way again', () => {
    const json = structuredClone(reversing().plan.scenario);
    json.debris!.lying = [{ link: 'behind', class: 'fine', from_m: 1, to_m: 20, grams: 20 }];
    const world = createWorld(parseScenario(json), 1);
    step(world, [{ kind: 'flow', link: 'drive', flow_mL_s: -700 }]);
    run(world, 60);
    expect(within(world, 'filter').caught).toBeGreaterThan(19.9);
    step(world, [{ kind: 'flow', link: 'drive', flow_mL_s: 700 }]);
    run(world, 60);
    expect(within(world, 'filter').caught).toBeLessThan(0.1);
    expect(within(world, 'behind').moving).toBeGreaterThan(19);
  });
});

describe('what comes to a coil', () => {
  it('is told at a fifth and at all of what is allowed, and once', () => {
    const world = createWorld(yard([deposit('suction', 'fine', 60, 2)]), 1);
    service(world, 'filter', null);
    step(world, [{ kind: 'valve', valve: 'coil_valve', target_deg: 90 }]);
    const told = steps(world, 300).filter((f) => f.kind === 'hazard' && f.hazard === 'fouled');
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
    expect(steps(world, 200).filter((f) => f.kind === 'hazard')).toEqual([]);
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
        [{ ...held('one', 50), elevation_m: 3 }, joint('top', 0.1), joint('foot'), held('two', 50)],
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
