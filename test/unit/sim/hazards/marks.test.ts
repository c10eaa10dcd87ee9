// What hazards cost: one cause once, and devices at hand-over. Sums done by hand from the rules.
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import {
  HAZARDS,
  parseRules,
  parseScenario,
  scenarioFaults,
  score,
  type Fact,
  type HazardKind,
} from '../../../../sim/index.ts';
import { mainsRig } from './rigs.ts';

const load = (path: string): Record<string, unknown> =>
  JSON.parse(
    readFileSync(new URL(`../../../../levels/${path}`, import.meta.url), 'utf8'),
  ) as Record<string, unknown>;
const whole = load('01-heron-lane/scenario.json');
const { sheet: _, ...unasked } = whole.job as Record<string, unknown>;
/** Without its job sheet, and as it is written. */
const level = { ...whole, ranges: undefined, job: unasked };
const rules = parseRules(load('rules.json'));
/** A job without a sheet leaves out the 20 points of the record: the rest count for more. */
const WHOLE = 100 / 80;

const DEVICES = [
  { id: 'glasses', kind: 'wear', what: 'eyes' },
  { id: 'padlock', kind: 'lock', of: 'pump' },
  { id: 'check', kind: 'guard', of: 'return_valve' },
  { id: 'hood', kind: 'fan', air_L_s: 50 },
  { id: 'sign', kind: 'act' },
];

interface Asked {
  readonly control: string;
  readonly state: string;
}
const withDevices = (hand_over: readonly Asked[]) => ({
  ...level,
  devices: DEVICES,
  job: { ...(level.job as Record<string, unknown>), hand_over },
});

const PERFECT = {
  loop_air_m3: 0,
  other_air_m3: 0.001,
  loop_volume_m3: 0.1089,
  spilled_m3: 0,
  wasted_m3: 0,
  time_s: 1800,
};

function marks(asked: readonly Asked[], controls: Record<string, number>, before: Fact[] = []) {
  const measures = { ...PERFECT, controls };
  const done: Fact = { tick: 36000, kind: 'done', asked: true, measures };
  return score(parseScenario(withDevices(asked)), rules, [...before, done]);
}

const safety = (found: ReturnType<typeof marks>) =>
  found.deductions.filter((d) => d.dimension === 'safety');

const hazard = (
  kind: HazardKind,
  stage: 'warning' | 'tripped' | 'ended',
  tick: number,
  at: string,
): Fact => ({ tick, kind: 'hazard', hazard: kind, at, stage, value: 1, limit: 1 });

describe('a device at hand-over', () => {
  const asked = [
    { control: 'glasses', state: 'not_worn' },
    { control: 'padlock', state: 'on' },
    { control: 'check', state: 'fitted' },
    { control: 'hood', state: 'off' },
    { control: 'sign', state: 'done' },
  ];
  const right = { glasses: 0, padlock: 1, check: 1, hood: 0, sign: 1 };

  it('as it was asked for costs nothing', () => {
    expect(marks(asked, right)).toMatchObject({ total: 100, passed: true });
  });

  it.each([
    ['glasses', 1, 'wear_left'],
    ['padlock', 0, 'lock_left'],
    ['check', 0, 'guard_left'],
    ['hood', 1, 'fan_left'],
    ['sign', 0, 'act_left'],
  ])('%s at %d costs its points by %s', (control, position, rule) => {
    const found = marks(asked, { ...right, [control]: position });
    expect(safety(found).map((d) => [d.rule, d.at, d.points])).toEqual([
      [rule, control, 7 * WHOLE],
    ]);
    expect(found.reasons).toContain('hand_over');
  });

  it.each([
    ['open', 0],
    ['shut', 1],
    ['pinned', 2],
  ])('arms that were asked to be %s are right at %d only', (state, position) => {
    const job = {
      ...(level.job as Record<string, unknown>),
      loop_links: ['hose'],
      hand_over: [{ control: 'arms', state }],
    };
    const devices = [{ id: 'arms', kind: 'latch', of: 'joint' }];
    const scenario = parseScenario(mainsRig(10, { devices, job }));
    const at = [0, 1, 2].filter((arms) => {
      const measures = { ...PERFECT, controls: { arms } };
      const done: Fact = { tick: 9, kind: 'done', asked: true, measures };
      return score(scenario, rules, [done]).deductions.some((d) => d.rule === 'latch_left');
    });
    expect(at).toEqual([0, 1, 2].filter((arms) => arms !== position));
  });

  it('that is no such thing cannot be in such a state', () => {
    const wrong = [
      { control: 'padlock', state: 'pinned' },
      { control: 'sign', state: 'on' },
      { control: 'glasses', state: 'done' },
      { control: 'pump', state: 'worn' },
      { control: 'return_valve', state: 'pinned' },
    ];
    expect(scenarioFaults(withDevices(wrong)).map((f) => f.path)).toEqual(
      wrong.map((_, at) => `job.hand_over[${at}].state`),
    );
  });
});

describe('one cause', () => {
  it('is taken once: arms without pins and what came apart, antifreeze and rim', () => {
    const found = marks([], {}, [
      hazard('unpinned', 'warning', 100, 'joint'),
      hazard('opened_under_pressure', 'warning', 200, 'joint'),
      hazard('opened_under_pressure', 'tripped', 201, 'joint'),
      hazard('overflow', 'warning', 4000, 'tank'),
      hazard('to_ground', 'warning', 4010, 'tank'),
    ]);
    expect(safety(found).map((d) => [d.rule, d.points, d.includes])).toEqual([
      ['opened_under_pressure', 17 * WHOLE, ['unpinned']],
      ['to_ground', 3 * WHOLE, ['overflow']],
    ]);
  });

  it('at another place is another', () => {
    const found = marks([], {}, [
      hazard('no_eyes', 'warning', 100, 'glasses'),
      hazard('unpinned', 'warning', 100, 'joint'),
      hazard('unpinned', 'warning', 120, 'cart_joint'),
    ]);
    expect(safety(found).map((d) => d.points)).toEqual([2 * WHOLE, 2 * WHOLE, 2 * WHOLE]);
  });
});

it('a false record costs most of the record, and the edge of what was shown nothing', () => {
  const edge = marks([], {}, [hazard('false_record', 'warning', 100, 'line')]);
  expect(edge.total).toBe(100);
  const made = [
    hazard('false_record', 'warning', 100, 'line'),
    hazard('false_record', 'tripped', 101, 'line'),
  ];
  const measures = { ...PERFECT, controls: {} };
  const done: Fact = { tick: 36000, kind: 'done', asked: true, measures };
  const sheet = parseScenario({ ...withDevices([]), record: [{ id: 'line' }] });
  const { dimensions } = score(sheet, rules, [...made, done]);
  expect(dimensions.find((d) => d.dimension === 'record')).toMatchObject({ points: 3, met: false });
});

it('the rules name every kind in the order of the facts', () => {
  expect(Object.keys(rules.hazards)).toEqual([...HAZARDS]);
});
