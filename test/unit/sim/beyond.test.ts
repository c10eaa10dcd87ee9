// Each limit of the model has a world that passes it and is told so once, and one just inside that
// is not. The worlds come through the door, as a job's do; nothing is set in their states.
import { describe, expect, it } from 'vitest';
import {
  BEYOND, createWorld, loadState, parseScenario, saveState, step,
  type BeyondLimit, type Command, type Scenario,
} from '../../../sim/index.ts';
import { LEVELS } from '../../../levels/index.ts';
import { held, joint, pipe, scenario } from '../../support/fields.ts';

interface Told { readonly limit: BeyondLimit; readonly value: number; readonly tick: number }
type Act = readonly [seconds: number, command: Command];

function toldIn(of: Scenario, seconds: number, acts: readonly Act[] = []): readonly Told[] {
  const world = createWorld(of, 1);
  const told: Told[] = [];
  for (let tick = 0; tick * world.dt < seconds; tick++) {
    const now = acts.filter(([at]) => Math.round(at / world.dt) === tick);
    for (const fact of step(world, now.map(([, command]) => command))) {
      if (fact.kind === 'beyond') told.push(fact);
    }
  }
  return told;
}

const limits = (told: readonly Told[]): string[] => told.map(({ limit }) => limit);
const turn = (valve: string, target_deg: number): Command => ({ kind: 'valve', valve, target_deg });

/** Water runs through one level pipe with what is changed in it. */
function through(bore_mm: number, change: object = {}, more: object = {}): Scenario {
  const main = { ...pipe('main', ['a', 'b'], bore_mm, 30), ...change };
  return scenario([held('a', 20), held('b', 10)], [main], more);
}

/** A dead end with a metre of air at `from_kPa` gauge; a valve lets `to_kPa` gauge onto it. */
function cushion(to_kPa: number): Scenario {
  const nodes = [held('head', to_kPa), joint('near'), joint('end')];
  const valve = { id: 'valve', kind: 'valve', from: 'head', to: 'near', bore_mm: 27.3 };
  const dead = { ...pipe('dead', ['near', 'end'], 27.3, 11), gas: [{ from_m: 10, to_m: 11 }] };
  return scenario(nodes, [{ ...valve, start_deg: 0, rate_deg_s: 360 }, dead]);
}

/** A pipe full of air at a gauge pressure, behind a valve to the open. */
function vent(kPa: number): Scenario {
  const start_pressure_kPa = kPa;
  const nodes = [
    { ...joint('end'), start_gas_fraction: 1, start_pressure_kPa },
    { ...joint('mouth'), start_gas_fraction: 1, start_pressure_kPa },
    { id: 'out', kind: 'open', elevation_m: 0, goes_to: 'waste' },
  ];
  const full = { ...pipe('full', ['end', 'mouth'], 27.3, 40), gas: [{ from_m: 0, to_m: 40 }] };
  const valve = { id: 'valve', kind: 'valve', from: 'mouth', to: 'out', bore_mm: 27.3 };
  return scenario(nodes, [{ ...full, start_pressure_kPa }, { ...valve, start_deg: 0 }]);
}

/** Water hangs between a shut valve and a pit so many metres below. */
function hanging(depth_m: number): Scenario {
  const pit = { ...held('pit', 0), elevation_m: -depth_m };
  const valve = { id: 'valve', kind: 'valve', from: 'top', to: 'high', bore_mm: 27.3 };
  const fall = pipe('fall', ['high', 'pit'], 27.3, depth_m + 1);
  const links = [{ ...valve, start_deg: 90, rate_deg_s: 45 }, fall];
  return scenario([held('top', 20), joint('high'), pit], links);
}

interface Case {
  readonly limit: BeyondLimit;
  readonly beyond: Scenario;
  readonly inside: Scenario;
  readonly acts?: readonly Act[];
  /** What its value must lie between. */
  readonly value: readonly [least: number, most: number];
}

function glycol(x: number): Scenario {
  const nodes = [{ ...held('a', 20), antifreeze_fraction: x }, held('b', 0)];
  return scenario(nodes, [pipe('m', ['a', 'b'], 27.3, 9)], { antifreeze: 'propylene_glycol' });
}

const CASES: readonly Case[] = [
  { limit: 'bore', beyond: through(19), inside: through(20), value: [0.0189, 0.0191] },
  { limit: 'bore', beyond: through(101), inside: through(100), value: [0.1009, 0.1011] },
  {
    limit: 'roughness',
    beyond: through(19, { roughness_mm: 1 }), // No scenario is so rough in a bore of 20 mm.
    inside: through(20, { roughness_mm: 1 }),
    value: [0.05, 0.06],
  },
  {
    limit: 'gas_speed',
    beyond: vent(300),
    inside: vent(1),
    acts: [[5, turn('valve', 90)]],
    value: [9, 11],
  },
  {
    limit: 'overshoot',
    beyond: cushion(300),
    inside: cushion(30),
    acts: [[5, turn('valve', 90)]],
    value: [3, 20],
  },
  {
    limit: 'vapour',
    beyond: hanging(12),
    inside: hanging(7),
    acts: [[5, turn('valve', 0)]],
    value: [0, 2340],
  },
  {
    limit: 'temperature',
    beyond: through(27.3, {}, { temperature_C: -1 }),
    inside: through(27.3, {}, { temperature_C: 0 }),
    value: [-1, -1],
  },
  { limit: 'fraction', beyond: glycol(0.65), inside: glycol(0.6), value: [0.6, 0.65] },
];

describe('beyond what this model represents', () => {
  it.each(CASES)('$limit', ({ limit, beyond, inside, acts, value }) => {
    const told = toldIn(beyond, 30, acts);
    expect(limits(told)).toContain(limit);
    expect(new Set(limits(told)).size).toBe(told.length);
    const found = told.find((one) => one.limit === limit)!;
    expect(found.value).toBeGreaterThanOrEqual(value[0]);
    expect(found.value).toBeLessThanOrEqual(value[1]);
    expect(limits(toldIn(inside, 30, acts))).toEqual([]);
  });

  it('has a world for every limit', () => {
    expect(new Set(CASES.map(({ limit }) => limit))).toEqual(new Set(BEYOND));
  });

  it('is looked for in the loop of a job, not in the hose that fills its tank', () => {
    expect(LEVELS.length).toBeGreaterThan(0);
    for (const { scenario: job } of LEVELS) expect(limits(toldIn(job, 1))).not.toContain('bore');
  });

  it('is told once, also where the run is taken up again', () => {
    const of = through(19);
    const world = createWorld(of, 1);
    expect(step(world, []).map(({ kind }) => kind)).toEqual(['beyond']);
    const again = loadState(parseScenario(of), 1, saveState(world));
    for (let tick = 0; tick < 50; tick++) expect(step(again, [])).toEqual([]);
  });
});
