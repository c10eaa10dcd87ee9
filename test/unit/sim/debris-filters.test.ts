// Filters in whole worlds: loading, going round them, opening them, and a flow turned about.
import { describe, expect, it } from 'vitest';
import {
  createWorld,
  parseScenario,
  service,
  step,
  truth,
  type World,
} from '../../../sim/index.ts';
import { deposit, ELEMENTS, g, inNode, within, yard } from '../../support/debris.ts';
import { joint, held, pipe, scenario } from '../../support/fields.ts';
import { node, run } from '../../support/worlds.ts';

const closes = (world: World) => expect(Math.abs(truth(world).debris!.error)).toBeLessThan(1e-9);

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

  it('costs what its clean element costs beside its own', () => {
    const world = createWorld(yard([]), 1);
    for (const [element, K] of [
      ['screen', 3 + 4],
      [null, 3],
    ] as const) {
      service(world, 'filter', element);
      run(world, 30);
      const V = world.state.flow[world.plan.links[2]!.firstColumn]! / (Math.PI * 0.02 ** 2);
      // By hand: K rho V^2/2.
      expect((node(world, 'b') - node(world, 'c')) / (499.1 * V * V)).toBeCloseTo(K, 1);
    }
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
