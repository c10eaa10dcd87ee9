// Small plants that are left alone for hours, and what the same hours come to by the scenario's
// own tick.
import { createWorld, parseScenario, step, truth, type Fact, type World } from '../../sim/index.ts';

const TUBE = { bore_mm: 27.3, wall_mm: 3.05, material: 'pe' };
export const joint = (id: string, more: object = {}) => ({
  id,
  kind: 'junction',
  elevation_m: 0,
  ...more,
});
export const pipe = (id: string, from: string, to: string, more: object = {}) => ({
  id,
  kind: 'pipe',
  from,
  to,
  ...TUBE,
  length_m: 40,
  ...more,
});
export const valve = (id: string, from: string, to: string, start_deg: number) => ({
  id,
  kind: 'valve',
  from,
  to,
  bore_mm: 25,
  start_deg,
});
export const mains = (id: string, pressure_kPa: number) => ({
  id,
  kind: 'reservoir',
  elevation_m: 1,
  pressure_kPa,
});
export const tank = (start_level_mm: number) => ({
  id: 'tank',
  kind: 'tank',
  floor_m: 0,
  area_m2: 0.2,
  height_mm: 600,
  start_level_mm,
  ports: [{ id: 'top', height_mm: 550, bore_mm: 25 }],
});

export function plant(nodes: unknown[], links: unknown[], more: object = {}) {
  return parseScenario({
    format: 1,
    id: 'night',
    temperature_C: 20,
    ends_after_s: 172800,
    solver: { tick_s: 0.2, cell_m: 5 },
    nodes,
    links,
    ...more,
  });
}

export interface Passed {
  readonly world: World;
  readonly facts: readonly Fact[];
  readonly steps: number;
}

/** Left alone for so many hours. */
export function away(scenario: ReturnType<typeof plant>, hours: number): Passed {
  return passed(createWorld(scenario, 1), hours, [{ kind: 'leave', hours }]);
}

/** The same, with somebody there who does nothing. */
export function watched(scenario: ReturnType<typeof plant>, hours: number): Passed {
  return passed(createWorld(scenario, 1), hours, []);
}

function passed(world: World, hours: number, first: Parameters<typeof step>[1]): Passed {
  const end = world.state.counter[0]! + Math.round((hours * 3600) / world.dt);
  const facts = [...step(world, first)];
  let steps = 1;
  for (; world.state.counter[0]! < end; steps += 1) facts.push(...step(world, []));
  return { world, facts, steps };
}

/** Worst share by which a book does not close. */
export function booksOff(world: World): number {
  const books = truth(world);
  const kinds = ['liquid', 'antifreeze', 'gas', 'heat', 'debris'] as const;
  return Math.max(...kinds.map((kind) => Math.abs(books[kind]?.error ?? 0)));
}
