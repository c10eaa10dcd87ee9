// Nobody is there: long steps come to what the scenario's own ticks come to, the books close, and
// a copy, a saved state and a replay go the same way from the middle of a night.
import { describe, expect, it } from 'vitest';
import {
  advance,
  clone,
  createWorld,
  hash,
  loadState,
  recordOf,
  replay,
  resumeRun,
  saveRun,
  saveState,
  snapshot,
  startRun,
  step,
  truth,
} from '../../sim/index.ts';
import { link, node } from '../support/worlds.ts';
import {
  away,
  booksOff,
  joint,
  mains,
  pipe,
  plant,
  tank,
  valve,
  watched,
} from '../support/nights.ts';

const ATM = 101325;
const start = { start_pressure_kPa: 500 };

/** A shut loop of polyethylene under test, with an air pocket, that cools into the ground. */
const held = plant(
  [joint('a', start), joint('b', { ...start, elevation_m: -1 })],
  [
    pipe('out', 'a', 'b', { ...start, length_m: 20, gas: [{ from_m: 0, to_m: 0.1 }] }),
    pipe('back', 'b', 'a', { ...start, length_m: 20 }),
  ],
  {
    dissolved_air: {},
    heat: {
      air_C: 12,
      soil_C: 10,
      places: ['out', 'back'].map((id) => ({ link: id, in: 'soil' })),
    },
  },
);

/** Under the pressure of a main: a hole, or an open valve into a tank. */
const seeping = plant(
  [mains('main', 200), joint('a'), joint('b')],
  [pipe('feed', 'main', 'a', { length_m: 10 }), pipe('run', 'a', 'b')],
  { defects: [{ id: 'hole', kind: 'leak', at: 'b', bore_mm: 0.4 }] },
);
const filling = plant(
  [mains('main', 200), joint('a'), tank(100)],
  [pipe('feed', 'main', 'a', { length_m: 10 }), valve('fill_valve', 'a', 'tank.top', 20)],
);

describe("a night against the same hours by the scenario's own tick", () => {
  it('leaves a shut loop that creeps, cools and dissolves its air at the same pressure', () => {
    const [night, day] = [away(held, 12), watched(held, 12)];
    const fell = 500e3 - (node(day.world, 'a') - ATM);
    expect(fell).toBeGreaterThan(50e3); // Something happened.
    const off = node(night.world, 'a') - node(day.world, 'a');
    expect(Math.abs(off)).toBeLessThan(0.01 * fell);
    const warm = link(day.world, 'out').temperature_C[3]!;
    expect(Math.abs(link(night.world, 'out').temperature_C[3]! - warm)).toBeLessThan(0.05);
    expect(booksOff(night.world)).toBeLessThan(1e-9);
    expect(night.steps).toBeLessThan(7000);
  });

  it('lets a seeping leak lose the same', () => {
    const [night, day] = [away(seeping, 3), watched(seeping, 3)];
    const lost = [night, day].map(({ world }) => truth(world).liquid.went);
    expect(lost[1]).toBeGreaterThan(1);
    expect(Math.abs(lost[0]! / lost[1]! - 1)).toBeLessThan(0.02);
    expect(booksOff(night.world)).toBeLessThan(1e-9);
  });

  it('lets an open fill valve run over', () => {
    const [night, day] = [away(filling, 1), watched(filling, 1)];
    const lost = [night, day].map(({ world }) => truth(world).liquid.went);
    expect(lost[1]).toBeGreaterThan(50);
    expect(Math.abs(lost[0]! / lost[1]! - 1)).toBeLessThan(0.02);
    for (const { facts } of [night, day]) {
      const over = facts.filter((f) => f.kind === 'hazard' && f.hazard === 'overflow');
      expect(over.map((f) => f.kind === 'hazard' && f.stage)).toEqual(['warning', 'tripped']);
    }
    expect(night.facts.at(-1)).toEqual({ tick: 18000, kind: 'back' });
  });
});

const open = (id: string, elevation_m: number) => ({
  id,
  kind: 'open',
  elevation_m,
  goes_to: 'ground',
});
/** A drained hose with both ends open, the one three metres over the other. */
const drained = plant(
  [open('top', 3), open('bottom', 0)],
  [pipe('hose', 'top', 'bottom', { length_m: 4, bore_mm: 50, gas: [{ from_m: 0, to_m: 4 }] })],
);

describe('a drained hose that is open at two heights', () => {
  it('has no draught where it is as warm as the air, and the night goes in long steps', () => {
    const { world, steps } = away(drained, 10);
    expect(Math.abs(world.state.flow[0]!)).toBeLessThan(1e-9);
    expect(steps).toBeLessThan(6000);
  });
});

/** A tank over its drain, and a hose from a joint to another, all of it to be emptied. */
const emptied = plant(
  [
    { ...tank(60), floor_m: 0.6, ports: [{ id: 'foot', height_mm: 0, bore_mm: 25 }] },
    joint('low', { elevation_m: 0.3 }),
    open('out', 0.2),
    open('vent', 0.5),
  ],
  [
    valve('drain', 'tank.foot', 'out', 90),
    valve('outlet', 'tank.foot', 'low', 90),
    valve('low_drain', 'low', 'out', 90),
    valve('air', 'low', 'vent', 90),
  ],
);

describe('a cart that was drained, with its drains open', () => {
  it('has no draught through them, and the night goes in long steps', () => {
    const { world, steps } = away(emptied, 10);
    expect(truth(world).liquid.now).toBeLessThan(0.2);
    for (const q of world.state.flow) expect(Math.abs(q)).toBeLessThan(1e-6);
    expect(steps).toBeLessThan(6000);
  });
});

const LEAVE = { kind: 'leave', hours: 1 } as const;

describe('leaving', () => {
  it('is told, and nothing can be done until one is back', () => {
    const world = createWorld(filling, 1);
    const facts = step(world, [LEAVE, { kind: 'valve', valve: 'fill_valve', target_deg: 0 }]);
    expect(facts.map((f) => [f.kind, f.kind === 'refused' && f.reason])).toEqual([
      ['command', false],
      ['left', false],
      ['refused', 'away'],
    ]);
    expect(snapshot(world).scene.back_in_s).toBeCloseTo(3599.8, 6);
    const done = step(world, [{ kind: 'done' }]);
    expect(done).toMatchObject([{ kind: 'refused', reason: 'away' }]);
  });

  it('is refused with something in hand, or while a pump of the cart runs', () => {
    const world = createWorld(filling, 1);
    const facts = step(world, [{ kind: 'valve', valve: 'fill_valve', target_deg: 0 }, LEAVE]);
    expect(facts.at(-1)).toMatchObject({ kind: 'refused', reason: 'busy' });
    const left = (more: object) => step(createWorld(pumped(more), 1), [LEAVE]).at(-1)!.kind;
    expect(left({ start_on: true })).toBe('refused');
    expect(left({ start_on: true, unattended: true })).toBe('left');
    expect(left({ start_on: false })).toBe('left');
  });
});

/** A ring that a pump of the plant keeps running. */
function pumped(more: object) {
  const curve = [
    { flow_L_s: 0, head_m: 6 },
    { flow_L_s: 0.5, head_m: 4 },
    { flow_L_s: 1, head_m: 0 },
  ];
  const pump = { id: 'pump', kind: 'pump', from: 'b', to: 'a', bore_mm: 25, curve };
  return plant(
    [joint('a', { start_pressure_kPa: 150 }), joint('b', { start_pressure_kPa: 150 })],
    [pipe('run', 'a', 'b', { start_pressure_kPa: 150 }), { ...pump, best_flow_L_s: 0.5, ...more }],
    { heat: { air_C: 12, soil_C: 10, places: [{ link: 'run', in: 'soil' }] } },
  );
}

describe('a plant that runs at night', () => {
  it('flows and cools as it does by day', () => {
    const scenario = pumped({ start_on: true, unattended: true });
    const [night, day] = [away(scenario, 2), watched(scenario, 2)];
    const flows = [night, day].map(({ world }) => link(world, 'run').flow);
    const warm = [night, day].map(({ world }) => link(world, 'run').temperature_C[3]!);
    expect(Math.abs(flows[0]! / flows[1]! - 1)).toBeLessThan(0.005);
    expect(warm[1]).toBeLessThan(19);
    expect(Math.abs(warm[0]! - warm[1]!)).toBeLessThan(0.05);
    expect(booksOff(night.world)).toBeLessThan(1e-9);
  });
});

describe('in the middle of a night', () => {
  it('a copy and a state that was saved go on bit for bit', () => {
    const world = createWorld(held, 1);
    step(world, [LEAVE]);
    for (let k = 0; k < 1600; k++) step(world, []);
    const twins = [clone(world), loadState(held, 1, saveState(world))];
    for (let k = 0; k < 400; k++) {
      for (const one of [world, ...twins]) step(one, []);
      if (k % 20 === 0) for (const twin of twins) expect(hash(twin)).toBe(hash(world));
    }
    expect(world.state.counter[3]).toBe(0); // Past the night's end.
    for (const twin of twins) expect(hash(twin)).toBe(hash(world));
  });

  it('a run can be kept and taken up, and replays to the same hashes', () => {
    let run = startRun(filling, 1);
    advance(run, []);
    advance(run, [LEAVE]);
    for (let k = 0; k < 1700; k++) advance(run, []);
    run = resumeRun(filling, saveRun(run));
    while (run.world.state.counter[0]! < 18500) advance(run, []);
    advance(run, [{ kind: 'valve', valve: 'fill_valve', target_deg: 0 }]);
    for (let k = 0; k < 100; k++) advance(run, []);
    const record = recordOf(run);
    expect(record.checks.length).toBeGreaterThan(10);
    const again = replay(filling, record);
    expect(again.divergedAt).toBeNull();
    expect(hash(again.world)).toBe(hash(run.world));
    expect(again.facts).toEqual(run.facts);
  });
});
