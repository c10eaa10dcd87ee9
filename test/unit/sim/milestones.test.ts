// Milestones are reached at the tick that a look from outside gives as well, once, and by nothing
// less than what they ask for.
import { describe, expect, it } from 'vitest';
import {
  clone,
  createWorld,
  hash,
  loadState,
  saveState,
  step,
  xray,
  type Command,
  type Fact,
  type World,
} from '../../../sim/index.ts';
import { heedFacts } from '../../../sim/milestones.ts';
import { goalRig, PARTS, WAY } from '../../support/goal-rig.ts';

type Script = Readonly<Record<number, readonly Command[]>>;
type Look = (world: World) => void;

/** Plays so many ticks, with commands by tick; all facts of milestones. */
function reachedIn(world: World, ticks: number, script: Script = {}, look: Look = () => {}) {
  const reached: (Fact & { kind: 'reached' })[] = [];
  for (let t = 0; t < ticks; t++) {
    for (const fact of step(world, script[t] ?? []))
      if (fact.kind === 'reached') reached.push(fact);
    look(world);
  }
  return reached;
}

const rigWith = (milestone: object, more: object = {}): World =>
  createWorld(goalRig({ milestones: [{ id: 'one', ...WAY, ...milestone }] }, more), 1);

const turn = (valve: string, target_deg: number): Command => ({ kind: 'valve', valve, target_deg });
const pump = (on: boolean): Command => ({ kind: 'switch', pump: 'pump', on });
const flowIn = (world: World, id: string): number =>
  xray(world).links.find((l) => l.id === id)!.flow;
const gauge = (world: World, id: string): number =>
  (xray(world).nodes.find((n) => n.id === id)!.pressure - 101325) / 1000;

/** First tick after which `holds` has been true for so many ticks on end, looked at outside. */
function watcher(holds: (world: World) => boolean, ticks: number) {
  const found = { tick: -1, row: 0, at: 0 };
  const look = (world: World): void => {
    found.row = holds(world) ? found.row + 1 : 0;
    if (found.row >= ticks && found.tick < 0) found.tick = found.at;
    found.at += 1;
  };
  return { found, look };
}

describe('a pressure that is held', () => {
  const held = { kind: 'held', node: 'outlet', from_kPa: 20, to_kPa: 60, for_s: 15 };

  it('counts from its last break, and is told once with what there was', () => {
    const script = {
      10: [pump(true)],
      150: [turn('valve_a', 30)],
      200: [turn('valve_a', 90)],
    };
    const { found, look } = watcher(
      (w) => gauge(w, 'outlet') >= 20 && gauge(w, 'outlet') <= 60,
      150,
    );
    const world = rigWith(held);
    const reached = reachedIn(world, 600, script, look);
    expect(found.tick).toBeGreaterThan(350);
    expect(reached).toMatchObject([{ milestone: 'one', tick: found.tick }]);
    expect(reached[0]!.value).toBeGreaterThan(20_000);
    expect(reached[0]!.value).toBeLessThan(60_000);
  });

  it('is not reached above its band', () => {
    const shut = { 0: [pump(true), turn('valve_a', 0)] };
    expect(reachedIn(rigWith(held), 600, shut)).toEqual([]);
  });
});

describe('a flow that ran', () => {
  const ran = { kind: 'ran', link: 'pipe_a', above_L_s: 0.3, for_s: 10 };

  it('is counted while it stands above, either way or the way that is asked for', () => {
    const { found, look } = watcher((w) => flowIn(w, 'pipe_a') >= 0.0003, 100);
    const reached = reachedIn(rigWith(ran), 300, { 20: [pump(true)] }, look);
    // A look sees the end of a tick, the milestone the mean over it: one tick may lie between.
    expect(Math.abs(reached[0]!.tick - found.tick)).toBeLessThanOrEqual(1);
    const forth = reachedIn(rigWith({ ...ran, way: 'forth' }), 300, { 20: [pump(true)] });
    expect(forth).toEqual(reached);
    expect(reachedIn(rigWith({ ...ran, way: 'back' }), 300, { 20: [pump(true)] })).toEqual([]);
  });

  it('waits until what must be still is still', () => {
    const still = { ...ran, still: ['pipe_b'] };
    const script = { 20: [pump(true), turn('valve_b', 90)], 300: [turn('valve_b', 0)] };
    const quiet = (w: World) =>
      flowIn(w, 'pipe_a') >= 0.0003 &&
      Math.abs(flowIn(w, 'pipe_b')) < 0.05 * Math.abs(flowIn(w, 'pipe_a'));
    const { found, look } = watcher(quiet, 100);
    const reached = reachedIn(rigWith(still), 600, script, look);
    expect(found.tick).toBeGreaterThan(400);
    expect(reached).toMatchObject([{ tick: found.tick }]);
  });

  it('is no flow of air', () => {
    const links = PARTS.links.map((l) =>
      l.id === 'pipe_a' ? { ...l, length_m: 60, gas: [{ from_m: 0, to_m: 60 }] } : l,
    );
    const world = rigWith({ ...ran, link: 'pipe_a', above_L_s: 0.2, for_s: 2 }, { links });
    let air = 0;
    const early = reachedIn(world, 80, { 0: [pump(true)] }, (w) => {
      const { gas, flow } = xray(w).links.find((l) => l.id === 'pipe_a')!;
      if (gas[30]! > 0.99 && flow > 0.0002) air += 1;
    });
    expect(air).toBeGreaterThan(40); // Air went by fast for four seconds ...
    expect(early).toEqual([]); // ... and did not count.
    expect(reachedIn(world, 1500)).toHaveLength(1);
  });
});

describe('litres that passed', () => {
  it('are summed over breaks, both ways', () => {
    let sum = 0;
    let at = -1;
    const look = (w: World): void => {
      sum += Math.abs(flowIn(w, 'pipe_a')) * w.dt;
      if (sum >= 0.06 && at < 0) at = w.state.counter[0]! - 1;
    };
    const script = { 10: [pump(true)], 200: [pump(false)], 320: [pump(true)] };
    const world = rigWith({ kind: 'passed', link: 'pipe_a', litres: 60 });
    const reached = reachedIn(world, 800, script, look);
    expect(at).toBeGreaterThan(330);
    expect(Math.abs(reached[0]!.tick - at)).toBeLessThanOrEqual(2);
    expect(reached[0]!.value).toBeGreaterThanOrEqual(0.06);
  });
});

describe('a pump that is shut in', () => {
  const shut = { kind: 'shut_in', pump: 'pump', valve: 'valve_a', for_s: 20 };

  it('has to turn against the shut valve all the time', () => {
    const script = { 0: [pump(true)], 100: [turn('valve_a', 0)] };
    const reached = reachedIn(rigWith(shut), 500, script);
    // Reach 0.8 s, a quarter turn at 60 degrees a second, then 20 s.
    expect(reached).toHaveLength(1);
    expect(Math.abs(reached[0]!.tick - (100 + 8 + 15 + 200))).toBeLessThan(5);
    const opened = { ...script, 250: [turn('valve_a', 90)] };
    expect(reachedIn(rigWith(shut), 500, opened)).toEqual([]);
    expect(reachedIn(rigWith(shut), 500, { 100: [turn('valve_a', 0)] })).toEqual([]);
  });

  it('proves nothing with a dry casing', () => {
    const nodes = PARTS.nodes.map((n) => (n.id === 'casing' ? { ...n, start_gas_fraction: 1 } : n));
    const links = PARTS.links.map((l) =>
      l.id === 'suction' || l.id === 'valve_a' ? { ...l, start_deg: 0 } : l,
    );
    expect(reachedIn(rigWith(shut, { nodes, links }), 500, { 0: [pump(true)] })).toEqual([]);
  });
});

describe('a line that was noted', () => {
  const noted = { kind: 'noted', entry: 'line' };
  const note: Command = { kind: 'note', entry: 'line', value_milli: 5000 };

  it('counts when it is written, whatever it says', () => {
    expect(reachedIn(rigWith(noted), 50, { 20: [note] })).toMatchObject([
      { tick: 20, milestone: 'one', value: 5000 },
    ]);
    expect(reachedIn(rigWith(noted), 50)).toEqual([]);
  });

  it('counts in the tick of the hand-over as well', () => {
    const facts = step(rigWith(noted), [note, { kind: 'done' }]);
    expect(facts.map((f) => f.kind).filter((k) => k === 'reached' || k === 'done')).toEqual([
      'reached',
      'done',
    ]);
  });
});

describe('a control that stood so', () => {
  const stood = { kind: 'stood', control: 'valve_a', at: 45 };

  it('is not one that turned past', () => {
    expect(reachedIn(rigWith(stood), 100, { 0: [turn('valve_a', 0)] })).toEqual([]);
    expect(reachedIn(rigWith(stood), 100, { 0: [turn('valve_a', 45)] })).toHaveLength(1);
  });

  it('may be a pump or a device, and may stand so from the start', () => {
    const on = rigWith({ kind: 'stood', control: 'pump', at: 1 });
    expect(reachedIn(on, 40, { 5: [pump(true)] })).toHaveLength(1);
    const worn = rigWith({ kind: 'stood', control: 'goggles', at: 1 });
    const put: Command = { kind: 'set', device: 'goggles', position: 1 };
    const reached = reachedIn(worn, 200, { 0: [put] });
    expect(reached).toHaveLength(1);
    expect(reached[0]!.tick).toBeGreaterThan(80); // It takes 8 s.
    const open = rigWith({ kind: 'stood', control: 'valve_a', at: 90 });
    expect(reachedIn(open, 3)).toMatchObject([{ tick: 0 }]);
  });
});

describe('a night', () => {
  const nights = (hours: readonly number[]): number => {
    const world = rigWith({ kind: 'left', hours: 12 });
    let told = 0;
    for (const away of hours) {
      for (const fact of [{ kind: 'left', hours: away } as const, { kind: 'back' } as const]) {
        const facts: Fact[] = [{ tick: 0, ...fact }];
        heedFacts(world, facts);
        told += facts.length - 1;
      }
    }
    return told;
  };

  it('is one that was long enough at a stretch', () => {
    expect(nights([12])).toBe(1);
    expect(nights([11])).toBe(0);
    expect(nights([6, 6])).toBe(0);
    expect(nights([1, 14, 14])).toBe(1);
  });
});

it('a night that hands really left for is told when they are back', () => {
  const milestones = [{ id: 'one', ...WAY, kind: 'left', hours: 1 }];
  const world = createWorld(goalRig({ milestones }, { ends_after_s: 7200 }), 1);
  const told = reachedIn(world, 1, { 0: [{ kind: 'leave', hours: 1 }] });
  for (let n = 0; n < 5000 && world.state.counter[0]! < 36_020; n++) {
    for (const fact of step(world, [])) if (fact.kind === 'reached') told.push(fact);
  }
  expect(told).toMatchObject([{ tick: 36_000, value: 3600 }]);
});

describe('the state of milestones', () => {
  const milestones = [
    { id: 'one', ...WAY, kind: 'passed', link: 'pipe_a', litres: 30 },
    { id: 'two', ...WAY, kind: 'ran', link: 'pipe_a', above_L_s: 0.3, for_s: 20 },
  ];

  it('is in what is copied, saved and hashed', () => {
    const world = createWorld(goalRig({ milestones }), 3);
    reachedIn(world, 150, { 0: [pump(true)] });
    const twins = [clone(world), loadState(world.plan.scenario, 3, saveState(world))];
    const ahead = [world, ...twins].map((w) => reachedIn(w, 400));
    expect(ahead[0]).toHaveLength(2);
    expect(ahead[1]).toEqual(ahead[0]);
    expect(ahead[2]).toEqual(ahead[0]);
    expect(new Set([world, ...twins].map(hash)).size).toBe(1);
    const other = clone(world);
    other.state.goal[0] = other.state.goal[0]! + 1e-6;
    expect(hash(other)).not.toBe(hash(world));
  });

  it('is empty where a job has none', () => {
    const world = createWorld(goalRig({}), 3);
    expect(world.state.goal).toHaveLength(0);
    expect(reachedIn(world, 50, { 0: [pump(true)] })).toEqual([]);
  });
});
