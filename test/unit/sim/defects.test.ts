// Each kind of defect by itself on the rig of the table of signs: what it does to what is computed,
// when it begins and ends, and that books, copies and replays hold with all of them at once.
import { describe, expect, it } from 'vitest';
import {
  advance,
  clone,
  createWorld,
  hash,
  loadState,
  recordOf,
  replay,
  saveState,
  snapshot,
  startRun,
  step,
  truth,
  type Command,
  type World,
} from '../../../sim/index.ts';
import { held, joint, pipe, scenario } from '../../support/fields.ts';
import { defectRig } from '../../support/defect-rig.ts';
import { level, rig, told } from '../../support/defect-worlds.ts';
import { turn } from '../../support/hands.ts';
import { link, node, run } from '../../support/worlds.ts';

describe('when a defect is there', () => {
  it('begins after its time, grows as long as it says, and mends', () => {
    const course = { from: { after_s: 2 }, ramp_s: 4, share: 0.8, until: { after_s: 8 } };
    const world = rig({ kind: 'blocked', at: 'circuit_b', ...course });
    expect(level(run(world, 1.9))).toBe(0);
    expect(level(run(world, 2))).toBeCloseTo(0.38, 6);
    expect(level(run(world, 3))).toBe(0.8);
    expect(truth(run(world, 5)).defects[0]).toMatchObject({ began_s: 2, ended_s: 10, there: true });
    expect(level(run(world, 4))).toBe(0);
    expect(link(world, 'circuit_b').flow).toBeCloseTo(
      link(run(rig(null), 15.9), 'circuit_b').flow,
      6,
    );
  });

  it.each([
    [{ pressure: 'head_r', above_kPa: 150 }, turn('return_valve', 0)],
    [{ flow: 'circuit_a', above_L_min: 60 }, turn('b_out', 0)],
    [{ valve: 'return_valve', below_deg: 30 }, turn('return_valve', 0)],
    [{ level: 'tank', above_mm: 423 }, turn('fill_valve', 90)],
  ])('waits for what it looks at: %j', (when, command) => {
    const world = run(rig({ kind: 'gauge_dead', at: 'flow_meter', from: { when } }), 5);
    expect(level(world)).toBe(0);
    told(world, command, 6);
    expect(level(world)).toBe(1);
  });

  it('waits for a pump', () => {
    const from = { when: { pump: 'pump', on: false } };
    const world = run(rig({ kind: 'blocked', at: 'circuit_b', from }), 5);
    expect(level(world)).toBe(0);
    told(world, { kind: 'switch', pump: 'pump', on: false }, 3);
    expect(level(world)).toBe(1);
  });

  it('is there by chance, from its own seed and no other', () => {
    const kinds = [0.3, 0.3, 1, 0].map((chance, k) => ({
      id: `d${k}`,
      kind: ['blocked', 'leak', 'trapped_air', 'worn_impeller'][k],
      at: ['circuit_b', 'discharge', 'filter', 'pump'][k],
      ...[{}, { bore_mm: 1 }, { air_L: 1, clears_L_min: 400 }, {}][k],
      chance,
    }));
    const of = defectRig(kinds);
    const counts = [0, 0, 0, 0];
    for (let seed = 0; seed < 60; seed++) {
      const { defects } = truth(createWorld(of, seed));
      defects.forEach(({ there }, k) => (counts[k]! += there ? 1 : 0));
    }
    expect(counts[2]).toBe(60);
    expect(counts[3]).toBe(0);
    for (const n of counts.slice(0, 2)) expect(n).toBeGreaterThan(8);
    for (const n of counts.slice(0, 2)) expect(n).toBeLessThan(30);
    const world = createWorld(of, 7);
    expect(truth(clone(world)).defects).toEqual(truth(world).defects);
  });

  it('takes no room in the state where there is none', () => {
    expect(rig(null).state.defect).toHaveLength(0);
    expect(rig({ kind: 'blocked', at: 'circuit_b', chance: 0 }).state.buffer.byteLength).toBe(
      rig(null).state.buffer.byteLength,
    );
  });
});

describe('handles', () => {
  it('that stop are pushed for three seconds and given up', () => {
    const stuck = { kind: 'stuck_valve', at: 'return_valve', stop_deg: 40, turns: 'above' };
    const world = rig(stuck);
    const facts = told(world, turn('return_valve', 0), 8);
    expect(facts).toMatchObject([
      { kind: 'moved', control: 'return_valve', value: 40 },
      { kind: 'held', control: 'return_valve', why: 'stuck' },
    ]);
    // 0.8 s of reach, 50 degrees at 60 a second, three seconds of pushing.
    expect(facts[0]!.tick / 10).toBeCloseTo(0.8 + 50 / 60 + 3, 0);
    expect(told(world, turn('return_valve', 80), 4)).toMatchObject([{ value: 80 }]);
  });

  it('that are seized do not move at all; mended ones do', () => {
    const until = { until: { after_s: 10 } };
    const world = rig({ kind: 'stuck_valve', at: 'return_valve', ...until });
    expect(told(world, turn('return_valve', 0), 6)).toMatchObject([{ value: 90 }, {}]);
    run(world, 5);
    expect(told(world, turn('return_valve', 0), 4)).toMatchObject([{ value: 0 }]);
  });

  it('past a stop come back but do not go out again', () => {
    const world = rig({ kind: 'stuck_valve', at: 'return_valve', stop_deg: 30 });
    expect(told(world, turn('return_valve', 10), 5)).toMatchObject([{ value: 10 }]);
    expect(told(world, turn('return_valve', 70), 8)).toMatchObject([{ value: 30 }, {}]);
  });

  it('that slip leave the ball where it is, and eyes see the handle', () => {
    const world = run(rig({ kind: 'handle_slips', at: 'return_valve' }), 20);
    const before = link(world, 'return_hose').flow;
    told(world, turn('return_valve', 0), 5);
    expect(snapshot(world).scene.valves.find((v) => v.id === 'return_valve')!.deg).toBe(0);
    expect(link(world, 'return_hose').flow).toBeCloseTo(before, 5);
  });
});

describe('the plant', () => {
  it('a filter clogs, and clears when it has been seen to', () => {
    const world = rig({ kind: 'clogged_filter', at: 'filter', share: 0.5, until: { after_s: 10 } });
    const filter = world.plan.linkIx.get('filter')!;
    expect(world.state.control[filter]).toBeCloseTo(0.5, 12);
    expect(run(world, 12).state.control[filter]).toBeCloseTo(0, 12);
  });

  it('a worn wheel takes less power as well as head', () => {
    const [healthy, worn] = [null, { kind: 'worn_impeller', at: 'pump' }].map((d) =>
      run(rig(d), 20),
    );
    const power = (world: World) => truth(world).pumps[0]!.shaft_W;
    expect(power(worn!)).toBeLessThan(0.6 * power(healthy!));
    expect(link(worn!, 'pump').flow).toBeLessThan(link(healthy!, 'pump').flow);
    const off = { kind: 'switch', pump: 'pump', on: false } as const;
    told(worn!, off, 30); // A wheel that stands pumps nothing back.
    expect(Math.abs(link(worn!, 'pump').flow)).toBeLessThan(1e-5);
  });

  it('a leak that opens with pressure is tight below, has its ledger, and is seen if said', () => {
    const from = { after_s: 5 }; // Before that, water that starts moving stands at more.
    const leak = {
      kind: 'leak',
      at: 'discharge',
      bore_mm: 5,
      opens_at_kPa: 150,
      from,
      visible: true,
    };
    const world = run(rig(leak), 10);
    const lost = () => truth(world).ledgers['wrong.air']!;
    const out = () => snapshot(world).scene.outlets.find((o) => o.id === 'wrong.air');
    expect(lost()).toBe(0);
    expect(out()!.rate).toBe(0);
    told(world, turn('return_valve', 0), 10);
    expect(lost()).toBeGreaterThan(0.5);
    expect(out()!.rate).toBeGreaterThan(1e-4);
    const hidden = rig({ ...leak, visible: false });
    expect(snapshot(hidden).scene.outlets.map((o) => o.id)).toEqual(['tank']);
  });

  it('a hole draws air where it is sucked upon and leaks where it is not', () => {
    const world = run(
      rig({ kind: 'suction_air_leak', at: 'casing', bore_mm: 1, from: { after_s: 5 } }),
      20,
    );
    const drawn = truth(world).gas.came;
    expect(drawn).toBeGreaterThan(5e-4);
    expect(truth(world).ledgers['wrong.air']!).toBeLessThan(1e-4);
    told(world, { kind: 'switch', pump: 'pump', on: false }, 60);
    expect(truth(world).ledgers['wrong.air']!).toBeGreaterThan(0.02);
  });

  it('a swapped header sends each circuit to the other end, tees and all', () => {
    const swap = { id: 'wrong', kind: 'swapped_header', at: 'p', with: 'q' };
    const ends = ['a', 'b', 'c', 'd'].map((id) => joint(id));
    const tee = { tee: { run: ['p', 'r'], branch: 's' } };
    const nodes = [
      held('in', 50),
      ...ends.slice(0, 2),
      { ...ends[2]!, ...tee },
      ends[3]!,
      held('out', 0),
    ];
    const wide = { kind: 'valve', bore_mm: 27, start_deg: 90 };
    const links = [
      { id: 'x', from: 'in', to: 'a', ...wide },
      { id: 'y', from: 'in', to: 'b', ...wide },
      pipe('p', ['a', 'c'], 27.3, 10),
      pipe('q', ['b', 'd'], 27.3, 10),
      { id: 'r', from: 'c', to: 'out', ...wide },
      { id: 's', from: 'c', to: 'd', ...wide, start_deg: 0 },
      { id: 't', from: 'd', to: 'out', ...wide, start_deg: 0 },
    ];
    const flows = (defects: object[]) => {
      const of = scenario(nodes, links, { defects, tee_losses: true });
      const world = run(createWorld(of, 1), 20);
      return ['p', 'q'].map((id) => Math.round(link(world, id).flow * 1e5));
    };
    const [p, q] = flows([]);
    expect(p).toBeGreaterThan(20);
    expect(q).toBe(0);
    expect(flows([swap])[0]).toBe(0);
    const of = scenario(nodes, links, { defects: [swap], tee_losses: true });
    const { tees, columns, links: parts } = createWorld(of, 1).plan;
    expect(tees[0]!.columns.map((c) => parts[columns[c]!.link]!.id)).toEqual(['q', 'r', 's']);
    expect(flows([swap])[1]).toBeGreaterThan(20);
  });

  it('air under a lid stays below its flow, and goes above', () => {
    const pocket = (clears_L_min: number) => {
      const world = run(rig({ kind: 'trapped_air', at: 'filter', air_L: 1, clears_L_min }), 30);
      expect(Math.abs(truth(world).gas.error)).toBeLessThan(1e-12);
      return world.state.gas[world.plan.nodeIx.get('wrong.lid')!]! / 101325;
    };
    expect(pocket(100)).toBeCloseTo(0.001, 5);
    expect(pocket(40)).toBeLessThan(1e-5);
  });

  it('drums and pipes hold what they really hold', () => {
    const drum = rig({ kind: 'wrong_drum', at: 'tank', antifreeze_fraction: 0.4 });
    expect(drum.state.fraction[drum.plan.nodeIx.get('tank')!]).toBe(0.4);
    const fluid = rig({ kind: 'unknown_fluid', at: 'circuit_b', antifreeze_fraction: 0.1 });
    expect(link(fluid, 'circuit_b').antifreeze[0]).toBe(0.1);
    const supply = rig({ kind: 'wrong_drum', at: 'mains', antifreeze_fraction: 0 });
    told(supply, turn('fill_valve', 90), 20);
    expect(link(supply, 'make_up').antifreeze[0]).toBeLessThan(0.01);
  });

  it('a weak supply is weak', () => {
    const world = run(rig({ kind: 'weak_supply', at: 'mains', share: 0.25 }), 5);
    expect(node(world, 'mains')).toBeCloseTo(101325 + 225000, 3);
  });
});

describe('all at once', () => {
  const many = [
    { kind: 'blocked', at: 'circuit_b', share: 0.7, ramp_s: 20, at_m: 3 },
    { kind: 'stuck_valve', at: 'b_in', stop_deg: 20 },
    { kind: 'handle_slips', at: 'b_out', share: 0.5 },
    { kind: 'gauge_sticks', at: 'discharge_gauge', band_share: 0.1 },
    { kind: 'gauge_slow', at: 'header_gauge', lag_s: 5 },
    { kind: 'clogged_filter', at: 'filter', ramp_s: 50, share: 0.4 },
    { kind: 'worn_impeller', at: 'pump', ramp_s: 60 },
    { kind: 'suction_air_leak', at: 'casing', bore_mm: 0.8, from: { after_s: 10 } },
    { kind: 'leak', at: 'a1', bore_mm: 2, grows_per_100kPa: 2, from: { after_s: 5 } },
    { kind: 'cycling_supply', at: 'mains', low_kPa: 150, drawdown_L: 2, pump_L_min: 15 },
    { kind: 'swapped_header', at: 'circuit_a', with: 'circuit_b' },
    { kind: 'trapped_air', at: 'filter', air_L: 1, clears_L_min: 60 },
    { kind: 'wrong_drum', at: 'tank', antifreeze_fraction: 0.4 },
  ].map((d, k) => ({ id: `d${k}`, ...d }));
  const heat = { air_C: 5, soil_C: 10 };
  const of = defectRig(many, { heat, tee_losses: true });
  const hands: Readonly<Record<number, Command>> = {
    100: turn('b_in', 90),
    200: turn('b_out', 0),
    300: turn('fill_valve', 90),
    400: { kind: 'tap', gauge: 'discharge_gauge' },
    450: turn('return_valve', 0),
    600: turn('return_valve', 90),
  };

  it('books close, copies go on bit for bit, and a record replays', () => {
    const started = startRun(of, 3);
    const { world } = started;
    let others: World[] = [];
    for (let tick = 0; tick < 900; tick++) {
      const now = hands[tick] === undefined ? [] : [hands[tick]!];
      if (tick === 333) others = [clone(world), loadState(of, 3, saveState(world))];
      advance(started, now);
      for (const each of others) step(each, now);
    }
    for (const each of others) expect(hash(each)).toBe(hash(world));
    const { liquid, antifreeze, gas, heat: warmth } = truth(world);
    for (const book of [liquid, antifreeze, gas, warmth!]) {
      expect(Math.abs(book.error)).toBeLessThan(1e-9);
    }
    expect(replay(of, recordOf(started)).divergedAt).toBeNull();
  });
});
