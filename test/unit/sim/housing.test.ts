// A filter's housing under hands: it opens without pressure only, takes its time, and what its
// element has caught is taken out and booked.
import { expect, it } from 'vitest';
import { createWorld, snapshot, step, truth } from '../../../sim/index.ts';
import { hash, parseScenario } from '../../../sim/index.ts';
import { during, set } from '../../support/hands.ts';
import { run } from '../../support/worlds.ts';

const bore_mm = 40;
const valve = (id: string, from: string, to: string) => ({
  ...{ id, kind: 'valve', from, to, bore_mm, start_deg: 90 },
});

/** A supply that pushes sand through a filter into a drain, with a valve on each side. */
function rig() {
  const scenario = parseScenario({
    format: 1,
    id: 'housing',
    temperature_C: 20,
    ends_after_s: 3600,
    nodes: [
      { id: 'mains', kind: 'reservoir', elevation_m: 0, pressure_kPa: 150 },
      ...['a', 'b', 'c', 'd'].map((id) => ({ id, kind: 'junction', elevation_m: 0 })),
      { id: 'drain', kind: 'open', elevation_m: 0, goes_to: 'waste' },
    ],
    links: [
      valve('inlet', 'mains', 'a'),
      { id: 'run', kind: 'pipe', from: 'a', to: 'b', bore_mm, length_m: 10, wall_mm: 4 },
      { id: 'filter', kind: 'filter', from: 'b', to: 'c', bore_mm, loss_k: 2 },
      { id: 'tail', kind: 'pipe', from: 'c', to: 'd', bore_mm, length_m: 10, wall_mm: 4 },
      valve('outlet', 'd', 'drain'),
    ],
    debris: {
      classes: [{ id: 'sand', diameter_mm: 1, relative_density: 2.65 }],
      elements: [
        { id: 'coarse', d50_um: 500, capacity_g: 500 },
        { id: 'fine', d50_um: 50, capacity_g: 500 },
      ],
      catchers: [{ link: 'filter', element: 'coarse' }],
      lying: [{ link: 'run', class: 'sand', from_m: 2, to_m: 6, grams: 40 }],
    },
    devices: [
      { id: 'lid', kind: 'housing', of: 'filter', elements: ['coarse', 'fine'], take_s: 60 },
    ],
  });
  return createWorld(scenario, 1);
}
const fit = (position: number) => set('lid', position);
const lid = (world: ReturnType<typeof rig>) => snapshot(world).scene.devices[0]!.position;

it('begins with what its link wears, and does not open under pressure', () => {
  const world = run(rig(), 60);
  expect(lid(world)).toBe(1);
  step(world, [{ kind: 'valve', valve: 'outlet', target_deg: 0 }]);
  run(world, 10);
  const facts = during(world, 70, [fit(2)]);
  expect(facts).toContainEqual(
    expect.objectContaining({ kind: 'held', control: 'lid', why: 'pressed' }),
  );
  expect(lid(world)).toBe(1);
  expect(truth(world).elements[0]!.element).toBe('coarse');
});

it('opens once the pressure is off; what was caught goes out with the element', () => {
  const world = run(rig(), 120);
  step(world, [{ kind: 'valve', valve: 'inlet', target_deg: 0 }]);
  run(world, 20);
  const caught = truth(world).elements[0]!.load;
  expect(caught).toBeGreaterThan(0.02);
  expect(lid(world)).toBe(1);
  during(world, 55, [fit(2)]);
  expect(lid(world), 'it takes a minute').toBe(1);
  run(world, 10);
  expect(lid(world)).toBe(2);
  const [element] = truth(world).elements;
  expect(element).toMatchObject({ element: 'fine', load: 0 });
  const books = truth(world).debris!;
  expect(Math.abs(books.error)).toBeLessThan(1e-9);
  expect(books.went).toBeGreaterThanOrEqual(caught * (1 - 1e-9));
});

it('goes the same way twice', () => {
  const [a, b] = [rig(), rig()].map((world) => {
    run(world, 100);
    step(world, [{ kind: 'valve', valve: 'inlet', target_deg: 0 }]);
    run(world, 20);
    during(world, 80, [fit(0)]);
    return hash(world);
  });
  expect(a).toBe(b);
});
