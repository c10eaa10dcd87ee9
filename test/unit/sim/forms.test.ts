// What a seed makes of a scenario with ranges: the same for ever, always on its steps, never seen
// by a world, and never in a record, which names the job as it is written.
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import {
  advance,
  clone,
  createWorld,
  formOf,
  hash,
  loadState,
  parseScenario,
  recordOf,
  replay,
  resumeRun,
  saveRun,
  saveState,
  scenarioFaults,
  scenarioHash,
  startRun,
  step,
  type Scenario,
} from '../../../sim/index.ts';
import { drawFor } from '../../../sim/defects/drawn.ts';
import { changedAt, keysOf, valuesAt } from '../../../sim/form-path.ts';
import { generator, randomHands } from '../../support/rigs.ts';
import { PLANTED_ENDS } from '../../tools/scenario-faults-ranges.ts';
import { freshSeed } from '../../tools/chance.ts';

const file = new URL('../../../levels/01-heron-lane/scenario.json', import.meta.url);
const { ranges: _own, ...level } = JSON.parse(readFileSync(file, 'utf8')) as Record<
  string,
  unknown
>;
const bare = parseScenario(level);
const SEEDS = Array.from({ length: 300 }, (_, k) => k + 2);

const LENGTH = {
  ...{ id: 'length', min: 186, max: 200, step: 1 },
  touches: [
    { at: 'links.circuit.length_m' },
    { at: 'links.circuit.profile.*.at_m', scaled: true },
    { at: 'links.circuit.gas.*.from_m', scaled: true },
    { at: 'links.circuit.gas.*.to_m', scaled: true },
  ],
};
const DEPTH = {
  ...{ id: 'depth', min: -1.5, max: -1.2, step: 0.1 },
  touches: [
    { at: 'links.circuit.profile.0.elevation_m' },
    { at: 'links.circuit.profile.0-2.elevation_m', factor: 3 },
    { at: 'links.circuit.profile.27.elevation_m' },
    { at: 'nodes.return_t*.elevation_m', factor: -2 },
  ],
};
const WHERE = {
  id: 'air',
  choices: [
    { id: 'all', puts: [] },
    { id: 'far', puts: [{ at: 'links.circuit.gas', value: [{ from_m: 60, to_m: 90 }] }] },
    { id: 'no_rating', puts: [{ at: 'nodes.riser_top.rating_kPa', value: null }] },
  ],
};
const DEFECTS = [
  { id: 'kink', kind: 'blocked', at: 'circuit', chance: 0.5 },
  { id: 'worn', kind: 'blocked', at: 'supply_hose', chance: 0.5 },
];
const made = (ranges: readonly object[], more: object = {}) =>
  parseScenario({ ...level, ...more, ranges });
const at = (of: Scenario, path: string) => valuesAt(of, keysOf(path));
const [lengthOf, gasOf] = [
  (of: Scenario) => at(of, 'links.circuit.length_m')[0] as number,
  (of: Scenario) => at(of, 'links.circuit.gas')[0],
];

describe('a form', () => {
  it('is the scenario itself where nothing may differ, and as written for seed 1', () => {
    expect(formOf(bare, 7)).toBe(bare);
    expect(formOf(made([LENGTH, WHERE]), 1)).toEqual(bare);
  });

  it('takes every step of a range and every choice, and nothing between', () => {
    const base = made([LENGTH, WHERE]);
    const lengths = new Set(SEEDS.map((seed) => lengthOf(formOf(base, seed))));
    expect([...lengths].sort((a, b) => a - b)).toEqual(
      Array.from({ length: 15 }, (_, k) => 186 + k),
    );
    const chosen = (of: Scenario) => [gasOf(of), at(of, 'nodes.riser_top.rating_kPa')];
    expect(new Set(SEEDS.map((seed) => JSON.stringify(chosen(formOf(base, seed))))).size).toBe(31);
  });

  it('moves a group together: by a factor, in proportion, by the beginning of names', () => {
    const base = made([LENGTH, DEPTH]);
    for (const seed of SEEDS.slice(0, 40)) {
      const form = formOf(base, seed);
      const share = lengthOf(form) / 186;
      const profiles = [bare, form].map((of) => at(of, 'links.circuit.profile.*.at_m') as number[]);
      profiles[0]!.forEach((x, k) => expect(profiles[1]![k]).toBeCloseTo(x * share, 5));
      expect(at(form, 'links.circuit.gas.1.to_m')[0]).toBeCloseTo(lengthOf(form), 9);
      const depths = at(form, 'links.circuit.profile.*.elevation_m') as number[];
      expect(depths[27]).toBe(depths[0]);
      const [tee, top] = at(form, 'nodes.return_t*.elevation_m') as number[];
      expect(tee).toBeCloseTo(1.05 - 2 * (depths[0]! + 1.5), 9);
      expect(top).toBe(tee);
      expect(depths[1]).toBeCloseTo(-1.52 + 3 * (depths[0]! + 1.5), 9);
      expect(depths[3]).toBe(-1.64);
    }
  });

  it('leaves what is written alone', () => {
    const base = made([LENGTH, DEPTH, WHERE]);
    const before = JSON.stringify(base);
    SEEDS.forEach((seed) => formOf(base, seed));
    expect(JSON.stringify(base)).toBe(before);
  });

  it('is no cause for another defect or needle: those have streams of their own', () => {
    const base = made([LENGTH, WHERE], { defects: DEFECTS });
    const plain = parseScenario({ ...level, defects: DEFECTS });
    for (const seed of SEEDS.slice(0, 40)) {
      expect(drawFor(formOf(base, seed), seed)).toEqual(drawFor(plain, seed));
    }
  });

  it('says which defect is there, where a choice says so', () => {
    const only = (id: string) => ({
      id,
      puts: DEFECTS.map((one) => ({
        at: `defects.${one.id}.chance`,
        value: one.id === id ? 1 : 0,
      })),
    });
    const base = made([{ id: 'which', choices: [only('kink'), only('worn')] }], {
      defects: DEFECTS,
    });
    const found = SEEDS.map((seed) => drawFor(formOf(base, seed), seed).defects.map((d) => d.id));
    expect(new Set(found.map((ids) => ids.join()))).toEqual(new Set(['kink', 'worn']));
  });
});

describe('the check of ranges', () => {
  it.each(PLANTED_ENDS)('makes the form at each end: %s', (_name, range, says) => {
    const faults = scenarioFaults({ ...level, ranges: [LENGTH, range] });
    expect(new Set(faults.map(({ path }) => path))).toEqual(new Set(['ranges[1]']));
    expect(faults[0]?.message).toMatch(says);
  });

  it('makes the form with all at one end', () => {
    const one = (id: string, key: string) => ({
      ...{ id, min: 0.5, max: 58, step: 0.5 },
      touches: [{ at: `nodes.${key}.volume_L` }, { at: 'nodes.casing.volume_L' }],
    });
    const faults = scenarioFaults({
      ...level,
      ranges: [one('a', 'suction'), one('b', 'pump_out')],
    });
    expect(faults.map(({ path }) => path)).toEqual(['ranges']);
    expect(faults[0]?.message).toMatch(/^each at its last: nodes\[4\]\.volume_L/);
  });
});

describe('a path', () => {
  it('leads to members by name, number, stretch and beginning of a name', () => {
    const links = ['pipe_1', 'pipe_2', 'hose', 'pump'].map((id, n) => ({ id, n }));
    const found = (key: string) => valuesAt({ links }, ['links', key, 'n']);
    expect(found('hose')).toEqual([2]);
    expect(found('3')).toEqual([3]);
    expect(found('1-2')).toEqual([1, 2]);
    expect(found('pipe_*')).toEqual([0, 1]);
    expect(found('*')).toEqual([0, 1, 2, 3]);
    expect(found('4')).toEqual([]);
  });

  it('takes away, adds, and leaves the rest the same object', () => {
    const json = {
      a: [
        { id: 'x', n: 1 },
        { id: 'y', n: 2 },
      ],
      b: { c: 3 },
    };
    expect(changedAt(json, ['a', 'y', 'n'], () => undefined)).toEqual({
      ...json,
      a: [json.a[0], { id: 'y' }],
    });
    const added = changedAt(json, ['b', 'd'], () => 4) as typeof json;
    expect(added.b).toEqual({ c: 3, d: 4 });
    expect(added.a).toBe(json.a);
    expect(changedAt(json, ['a', 'z', 'n'], () => 9)).toEqual(json);
    expect(valuesAt(json, ['nowhere', 'at', 'all'])).toEqual([]);
  });
});

const fresh = freshSeed();
describe(`runs of forms, seed ${fresh}`, () => {
  const base = made([LENGTH, DEPTH, WHERE], { defects: DEFECTS });

  it.each([1, 2, fresh])('replay bit for bit under the job as it is written (seed %i)', (seed) => {
    const chance = generator(seed);
    const run = startRun(base, seed);
    const hands = (tick: number) => (tick % 40 === 0 ? randomHands(base, chance) : []);
    for (let tick = 0; tick < 700; tick++) advance(run, hands(tick));
    const resumed = resumeRun(base, saveRun(run));
    for (let tick = 700; tick < 1500; tick++) {
      const now = hands(tick);
      advance(run, now);
      advance(resumed, now);
    }
    const record = recordOf(run);
    expect(record).toMatchObject({
      scenario: 'heron_lane',
      scenario_hash: scenarioHash(base),
      seed,
    });
    expect(recordOf(resumed)).toEqual(record);
    const again = replay(base, record);
    expect(again.divergedAt).toBeNull();
    expect(hash(again.world)).toBe(hash(run.world));
    expect(run.world.plan.scenario.ranges).toBeUndefined();
    expect(run.scenario).toEqual(formOf(base, seed));
  });

  it('are those of worlds made from the form, and of their copies', () => {
    const worlds = [createWorld(base, fresh), createWorld(formOf(base, fresh), fresh)];
    worlds.push(clone(worlds[0]!), loadState(base, fresh, saveState(worlds[0]!)));
    const open = { kind: 'valve', valve: 'suction_valve', target_deg: 90 } as const;
    for (const world of worlds) for (let k = 0; k < 100; k++) step(world, k === 0 ? [open] : []);
    expect(new Set(worlds.map(hash)).size).toBe(1);
    const other = createWorld(base, 1);
    for (let k = 0; k < 100; k++) step(other, k === 0 ? [open] : []);
    expect(hash(other)).not.toBe(hash(worlds[0]!));
  });
});
