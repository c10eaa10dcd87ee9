// What a hazard measures, against figures done by hand; and what must not count.
import { describe, expect, it } from 'vitest';
import {
  clone,
  createWorld,
  hash,
  parseScenario,
  snapshot,
  step,
  type Command,
  type Fact,
} from '../../../../sim/index.ts';
import { of, set, stages, turn } from '../../../support/hands.ts';
import { joint, mainsRig, on, part, pumpRig, run, type Hands } from './rigs.ts';

const latch = { id: 'arms', kind: 'latch', of: 'joint', start: 2, take_s: 1 };
const eyes = { id: 'glasses', kind: 'wear', what: 'eyes', take_s: 1 };

describe('a coupling', () => {
  it('parted at rest tells the pressure of the mains', () => {
    const [first] = of(run(mainsRig(300), [[2, part]], 12), 'opened_under_pressure');
    expect(first!.value / 300e3).toBeGreaterThan(0.999);
    expect(first!.value / 300e3).toBeLessThan(1.001);
  });

  it('whose arms are opened under pressure blows apart, and that counts as opened', () => {
    const facts = run(mainsRig(200, { devices: [latch] }), [[1, set('arms', 0)]], 8);
    expect(facts).toContainEqual(expect.objectContaining({ event: 'blew_apart', at: 'joint' }));
    expect(stages(facts, 'opened_under_pressure')).toEqual(['warning', 'tripped', 'ended']);
  });

  it('parted with its valves shut and its pressure let off counts as nothing', () => {
    const careful: Hands = [
      [0, turn('supply', 0), turn('drain', 90)],
      [8, part],
    ];
    expect(stages(run(mainsRig(300), careful, 16), 'opened_under_pressure')).toEqual([]);
  });

  it('is told of again when it is parted again', () => {
    const join: Command = { kind: 'coupling', coupling: 'joint', made: true };
    const twice: Hands = [
      [1, part],
      [10, join],
      [20, part],
    ];
    const facts = run(mainsRig(45), twice, 30);
    expect(stages(facts, 'opened_under_pressure')).toEqual([
      'warning',
      'ended',
      'warning',
      'ended',
    ]);
  });
});

describe('test air', () => {
  const rig = (length_m: number) => {
    const held = { start_pressure_kPa: 300, start_gas_fraction: 1 };
    const pipe = { id: 'loop', kind: 'pipe', bore_mm: 35, wall_mm: 4, length_m };
    return {
      ...{ format: 1, id: 'air', temperature_C: 15, ends_after_s: 60, hands: { reach_s: 1 } },
      nodes: [joint('far', held), joint('near', held), joint('cart', held)],
      links: [
        {
          ...{ ...pipe, from: 'far', to: 'near', start_pressure_kPa: 300 },
          gas: [{ from_m: 0, to_m: length_m }],
        },
        {
          ...{ id: 'joint', kind: 'coupling', from: 'near', to: 'cart', start: 'made' },
          ...{ bore_mm: 35, make_s: 4, to_apart: 'capped' },
        },
      ],
    };
  };

  it('tells the work that the air of all the pipe can do', () => {
    // Isothermal work less what pushes the air away: pV ln(p/p0) - p0 (pV/p0 - V), V by the bore.
    const volume = (Math.PI / 4) * 0.035 ** 2 * 30 + 3 * 0.0005;
    const [p, p0] = [401325, 101325];
    const work = p * volume * Math.log(p / p0) - p0 * ((p * volume) / p0 - volume);
    const [first] = of(run(rig(30), [[1, part]], 5), 'test_air');
    // The tick in which it parts has let out some of it: ten metres a second of 30 m of pipe.
    expect(first!.value / work).toBeGreaterThan(0.9);
    expect(first!.value / work).toBeLessThan(1.02);
  });

  it('behind a cap that is on from the start is no opening', () => {
    const capped = rig(30) as { links: Record<string, unknown>[] };
    Object.assign(capped.links[1]!, { start: 'apart', from_apart: 'capped' });
    expect(run(capped, [], 2)).toEqual([]);
  });

  it('of a short end is no hazard, and air is no liquid', () => {
    const facts = run(rig(0.4), [[1, part]], 5);
    expect(stages(facts, 'test_air')).toEqual([]);
    expect(stages(facts, 'opened_under_pressure')).toEqual([]);
  });
});

describe('what is worn', () => {
  it('counts: the same hands with eye protection on are no hazard', () => {
    const bare: Hands = [[4, part]];
    const guarded: Hands = [
      [0, set('glasses', 1)],
      [4, part],
    ];
    const rig = mainsRig(10, { devices: [eyes] });
    expect(stages(run(rig, bare, 12), 'no_eyes')).toContain('tripped');
    expect(stages(run(rig, guarded, 12), 'no_eyes')).toEqual([]);
  });

  it('is asked of a second pair of hands as well', () => {
    const hands = { reach_s: 1, helper: { tell_s: 1 } };
    const rig = mainsRig(10, { devices: [eyes], hands });
    const helped: Command = { kind: 'coupling', coupling: 'joint', made: false, by: 'helper' };
    const facts = run(rig, [[1, helped]], 12);
    expect(stages(facts, 'no_eyes')).toContain('tripped');
  });

  it('is asked of hands at work, not of those on their way', () => {
    const rig = mainsRig(10, { devices: [eyes], hands: { reach_s: 20 } });
    expect(stages(run(rig, [[0, part]], 18), 'no_eyes')).toEqual([]);
  });

  it('no gloves are asked of water', () => {
    const gloves = { id: 'gloves', kind: 'wear', what: 'gloves' };
    const rig = mainsRig(10, { devices: [gloves] }, { joint: { make_s: 40 } });
    expect(stages(run(rig, [[1, part]], 45), 'no_gloves')).toEqual([]);
  });
});

describe('a supply', () => {
  const guard = (start: number) => ({ id: 'check', kind: 'guard', of: 'joint', start });

  it('with its protection fitted is no hazard, nor one whose valve is shut', () => {
    expect(stages(run(mainsRig(300, { devices: [guard(1)] }), [], 5), 'no_backflow')).toEqual([]);
    const shut = mainsRig(300, { devices: [guard(0)] }, { supply: { start_deg: 0 } });
    expect(stages(run(shut, [], 5), 'no_backflow')).toEqual([]);
    const open = mainsRig(300, { devices: [guard(0)] });
    expect(stages(run(open, [], 5), 'no_backflow')).toEqual(['warning']);
  });
});

describe('a unit with a lock', () => {
  const lock = { id: 'padlock', kind: 'lock', of: 'pump', service: ['throttle'], take_s: 1 };

  it('that is opened and energised is a hazard at once', () => {
    const facts = run(
      pumpRig({ devices: [lock] }),
      [
        [0, on],
        [2, turn('throttle', 45)],
      ],
      5,
    );
    const tripped = of(facts, 'locked_off').find((f) => f.stage === 'tripped');
    expect(tripped!.tick).toBeLessThan(40);
  });

  it('opened behind its lock is none, and shut before the lock comes off neither', () => {
    const hands: Hands = [
      [0, set('padlock', 1), turn('throttle', 0)],
      [20, turn('throttle', 90), set('padlock', 0)],
    ];
    expect(stages(run(pumpRig({ devices: [lock] }), hands, 50), 'locked_off')).toEqual([]);
  });
});

describe('going in', () => {
  const devices = [
    { id: 'air_test', kind: 'act', take_s: 2 },
    { id: 'pit', kind: 'entry', where: 'trench', needs: ['air_test'], take_s: 5 },
  ];

  it('after what it needs is no hazard', () => {
    const hands: Hands = [[0, set('air_test', 1), set('pit', 1)]];
    expect(stages(run(mainsRig(10, { devices }), hands, 15), 'entry')).toEqual([]);
  });
});

it('a strong pump that heats its casing by 45 K has been dead long enough before its time', () => {
  const curve = [
    { flow_L_s: 0, head_m: 80 },
    { flow_L_s: 8, head_m: 10 },
  ];
  const strong = {
    pump: { curve, best_flow_L_s: 5, efficiency_max: 0.4 },
    casing: { volume_L: 0.5 },
    throttle: { start_deg: 0 },
  };
  const tripped = of(run(pumpRig({}, strong), [[0, on]], 60), 'deadhead')[1];
  expect(tripped!.stage).toBe('tripped');
  expect(tripped!.value).toBeLessThan(301);
});

it('hot metal is watched for only where there is heat or what hands wear and work', () => {
  const hands: Hands = [
    [0, on],
    [60, turn('suction', 0)],
  ];
  const small = { casing: { volume_L: 0.5 }, throttle: { start_deg: 0 } };
  const rig = pumpRig({ temperature_C: 50 }, small);
  expect(stages(run(rig, hands, 70), 'hot')).toEqual([]);
});

it('all that hazards keep is part of the state: a copy goes the same way', () => {
  const devices = [latch, eyes, { id: 'check', kind: 'guard', of: 'supply' }];
  const record = [{ id: 'line', reading: 'gauge' }];
  const world = createWorld(parseScenario(mainsRig(200, { devices, record })), 1);
  const facts: Fact[][] = [[], []];
  for (let tick = 0; tick < 30; tick++) step(world, tick === 5 ? [set('arms', 1)] : []);
  const copy = clone(world);
  for (const [k, one] of [world, copy].entries()) {
    for (let tick = 0; tick < 200; tick++) {
      const note: Command = { kind: 'note', entry: 'line', value_milli: 5 };
      facts[k]!.push(...step(one, tick === 20 ? [note, set('arms', 0)] : []));
    }
  }
  expect(facts[0]!.some((f) => f.kind === 'hazard')).toBe(true);
  expect(facts[1]).toEqual(facts[0]);
  expect(hash(copy)).toBe(hash(world));
  expect(snapshot(copy)).toEqual(snapshot(world));
});
