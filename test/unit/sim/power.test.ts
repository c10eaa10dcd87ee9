// Electricity of the cart: what turns, what trips, what comes back by itself, and that none of it
// is there where the scenario does not ask.
import { describe, expect, it } from 'vitest';
import {
  clone,
  createWorld,
  hash,
  parseScenario,
  snapshot,
  truth,
  type Fact,
  type World,
} from '../../../sim/index.ts';
import { scenarioFaults } from '../../../sim/scenario.ts';
import { parseScript, scriptFaults } from '../../../sim/script-schema.ts';
import { runScript } from '../../../sim/script.ts';
import { cart, secondsUntil } from '../../support/power.ts';
import { during, reading, set, turnOn } from '../../support/hands.ts';
import { generator } from '../../support/rigs.ts';

const power = (world: World) => truth(world).power!;
const speed = (world: World) => power(world).motors[0]!.speed;
const events = (facts: readonly Fact[]) =>
  facts.flatMap((f) => (f.kind === 'event' ? [f.event] : []));
describe('a scenario without power', () => {
  const { power: _power, ...bare } = cart().plan.scenario;
  const links = bare.links.map((l) => (l.kind === 'pump' ? { ...l, motor: undefined } : l));
  const parts = { ...bare, links, devices: [], instruments: [] };

  it('keeps none of its numbers, and pumps turn as they are told', () => {
    const world = createWorld(parseScenario(parts), 1);
    expect(world.state.power).toHaveLength(0);
    expect(truth(world).power).toBeNull();
    during(world, 1.5, [turnOn(true)]);
    expect(snapshot(world).scene.pumps[0]!.speed).toBe(1);
    expect(world.watches.some((w) => w.hazard === 'overload')).toBe(false);
  });

  it('leaves a pump without a motor as it is where others have one', () => {
    const scenario = cart().plan.scenario;
    const world = createWorld(parseScenario({ ...scenario, links }), 1);
    during(world, 1.5, [turnOn(true)]);
    expect(snapshot(world).scene.pumps[0]!.speed).toBe(1);
    expect(power(world).cord_A).toBe(0);
  });
});

describe('a pump with a motor', () => {
  it('stands while the plug is out, whatever its switch says', () => {
    const world = cart({ plug: 0 });
    during(world, 5, [turnOn(true)]);
    expect(snapshot(world).scene.pumps[0]!.on).toBe(true);
    expect(speed(world)).toBe(0);
    expect(reading(world, 'volts')).toBe(0);
    expect(events(during(world, 5, [set('plug', 1)]))).toEqual(['restarted']);
    expect(speed(world)).toBeGreaterThan(0.95);
  });

  it('draws its rush at the start and its own at speed', () => {
    const world = cart();
    const seen: number[] = [];
    during(world, 0.6, [turnOn(true)]);
    for (let k = 0; k < 60; k++) {
      during(world, 0.1);
      seen.push(power(world).cord_A);
    }
    const full = world.plan.power!.motors[0]!.motor.full;
    expect(Math.max(...seen) / full).toBeGreaterThan(4.5);
    expect(Math.max(...seen) / full).toBeLessThan(5.6);
    expect(seen.at(-1)! / full).toBeGreaterThan(0.9);
    expect(seen.at(-1)! / full).toBeLessThan(1.2);
    expect(seen.findIndex((A) => A < 1.3 * full && A > 0)).toBeLessThan(15);
  });

  it('loses over the cord what current and copper say, and slows on a long thin one', () => {
    const short = cart({ start_on: true });
    const long = cart({ start_on: true, cord: { length_m: 60, copper_mm2: 1.3 } });
    for (const [world, ohm] of [
      [short, 0.1567],
      [long, 1.5914],
    ] as const) {
      during(world, 30);
      const drop = reading(world, 'volts_outlet') - reading(world, 'volts');
      expect(drop / (ohm * reading(world, 'clamp'))).toBeCloseTo(1, 2);
    }
    expect(speed(long)).toBeLessThan(speed(short) - 0.02);
    expect(reading(long, 'gauge')).toBeLessThan(reading(short, 'gauge'));
    expect(power(short).leak_A).toBe(0);
  });

  it('is held by ice in its casing, and draws the current of a held rotor', () => {
    const heat = { air_C: -20, soil_C: -5 };
    const world = cart({ open_deg: 0, world: { heat, temperature_C: 0 } });
    const casing = world.plan.nodeIx.get('casing')!;
    // Half of what is in it freezes at once: the freezing itself has tests of its own.
    world.state.heat[casing]! -= 0.5 * 333.6e3 * world.state.mass[casing]!;
    during(world, 3, [turnOn(true)]);
    expect(power(world).motors[0]!.current_A).toBeGreaterThan(
      4.4 * world.plan.power!.motors[0]!.motor.full,
    );
    expect(speed(world)).toBe(0);
  });

  it('comes up the slower, the less voltage it has', () => {
    const times = [120, 95].map((voltage_V) => {
      const world = cart({ supply: { voltage_V } });
      during(world, 0.6, [turnOn(true)]);
      let ticks = 0;
      for (; speed(world) < 0.8 && ticks < 100; ticks++) during(world, world.dt);
      return ticks;
    });
    expect(times[0]).toBeLessThan(9);
    expect(times[1]! / times[0]!).toBeGreaterThan(1.4); // Torque by the square: (120/95)^2 = 1.6.
    expect(times[1]! / times[0]!).toBeLessThan(2);
  });

  it('hangs on a generator that is too small', () => {
    const fit = cart({ supply: { kind: 'generator', max_W: 4000 } });
    const small = cart({ supply: { kind: 'generator', max_W: 1500 } });
    for (const world of [fit, small]) during(world, 20, [turnOn(true)]);
    expect(speed(fit)).toBeGreaterThan(0.97);
    expect(reading(fit, 'volts_outlet')).toBeGreaterThan(115);
    expect(speed(small)).toBeLessThan(0.7);
    expect(reading(small, 'volts_outlet')).toBeLessThan(80);
    const { outlet_V, supply_A } = power(small);
    expect((outlet_V * supply_A) / 1500).toBeCloseTo((0.95 * 120) / outlet_V, 1);
  });
});

describe('what trips', () => {
  it('a breaker that carries too much lets go, and the pump coasts down with its switch on', () => {
    const world = cart({ start_on: true, supply: { breaker_A: 8 } });
    expect(secondsUntil(world, 'breaker_tripped', 200)).toBeLessThan(70);
    expect(speed(world)).toBeGreaterThan(0.7);
    during(world, 3);
    expect(speed(world)).toBe(0);
    const { scene } = snapshot(world);
    expect(scene.pumps[0]!.on).toBe(true);
    expect(scene.devices.find((d) => d.id === 'breaker')!.position).toBe(0);
    // Still hot.
    expect(events(during(world, 6, [set('breaker', 1)]))).toEqual(['breaker_tripped']);
    during(world, 200);
    expect(events(during(world, 6, [set('breaker', 1)]))).toEqual(['restarted']);
    expect(speed(world)).toBeGreaterThan(0.9);
  });

  it('a motor that is overloaded cuts itself out, and comes back by itself', () => {
    const motor = { rated_W: 500, thermal_cutout: true };
    const world = cart({ start_on: true, motor, world: { solver: { tick_s: 0.2, cell_m: 1 } } });
    during(world, 60);
    const over = reading(world, 'clamp') / world.plan.power!.motors[0]!.motor.full;
    const by_hand = 600 * Math.log(over ** 2 / (over ** 2 - 1.15 ** 2));
    const cut = 60 + secondsUntil(world, 'motor_cut_out', 1200);
    expect(cut / by_hand).toBeCloseTo(1, 2);
    during(world, 5);
    expect(speed(world)).toBe(0);
    expect(reading(world, 'clamp')).toBe(0);
    expect(reading(world, 'volts')).toBe(120);
    const after = secondsUntil(world, 'restarted', 1200);
    expect(after).toBeGreaterThan(300);
    expect(after).toBeLessThan(700); // 600 s ln(1.3225/0.5) is 584 s.
  });

  it('the rush of a start does not trip it', () => {
    const world = cart({ supply: { breaker_A: 15 } });
    expect(events(during(world, 10, [turnOn(true)]))).toEqual([]);
  });

  it('the test of a protector trips it where it is alive, and nothing where it is dead', () => {
    const world = cart({ start_on: true });
    const at = () => snapshot(world).scene.devices.find((d) => d.id === 'protector')!.position;
    expect(events(during(world, 4, [set('protector', 2)]))).toEqual(['ground_fault_tripped']);
    expect(at()).toBe(0);
    expect(speed(world)).toBe(0);
    expect(events(during(world, 4, [set('protector', 1)]))).toEqual(['restarted']);
    const dead = cart({ breaker: 0 });
    expect(events(during(dead, 4, [set('protector', 2)]))).toEqual([]);
    expect(snapshot(dead).scene.devices.find((d) => d.id === 'protector')!.position).toBe(1);
  });

  it('a leak trips a protector before the plug, and no other', () => {
    const leak = { motor: { leak_mA: 20 } };
    const world = cart({ start_on: true, ...leak });
    const watched = during(world, 0.9);
    expect(watched.filter((f) => f.kind === 'hazard')).toEqual([]); // It is cut off in time.
    expect(0.9 + secondsUntil(world, 'ground_fault_tripped', 5)).toBeCloseTo(1, 5);
    const bare = cart({ start_on: true, plug: 2, ...leak });
    expect(secondsUntil(bare, 'ground_fault_tripped', 5)).toBe(Infinity);
    expect(power(bare).leak_A).toBeCloseTo(0.02, 12);
  });

  it('a leak below 4 mA trips nothing, and a switched-off motor leaks none', () => {
    const small = cart({ start_on: true, motor: { leak_mA: 3.9 } });
    expect(secondsUntil(small, 'ground_fault_tripped', 60)).toBe(Infinity);
    const off = cart({ motor: { leak_mA: 50 } });
    expect(secondsUntil(off, 'ground_fault_tripped', 10)).toBe(Infinity);
  });
});

describe('readings of the supply', () => {
  const { scenario } = cart().plan;
  const steps = (until: unknown) => ({
    ...{ format: 1, level: 'cart', seed: 1 },
    steps: [{ do: turnOn(true) }, { until, max_s: 10 }],
  });

  it('can be waited for by a script', () => {
    const up = parseScript(steps({ reading: 'clamp', above_A: 12, below_A: 18 }), scenario);
    expect(runScript(scenario, up).outcome.end).toBe('finished');
    const never = parseScript(steps({ reading: 'volts', above_V: 121 }), scenario);
    expect(runScript(scenario, never).outcome.end).toBe('gave_up');
  });

  it('are told from others', () => {
    const path = (until: unknown) => scriptFaults(steps(until), scenario).map((f) => f.path);
    expect(path({ reading: 'volts', above_A: 3 })).toEqual(['steps[1].until.above_A']);
    expect(path({ reading: 'clamp', below_V: 3 })).toEqual(['steps[1].until.below_V']);
  });
});

describe('a scenario with power', () => {
  const { devices, ...scenario } = cart().plan.scenario;
  const faults = (change: object): string[] =>
    scenarioFaults({ ...scenario, devices, ...change }).map((f) => f.path);

  it('has each of its devices once, and motors that its voltage does not burn', () => {
    const { power } = scenario;
    const second = { id: 'b2', kind: 'breaker', start: 1 };
    const high = { ...power!.supply, voltage_V: 230 };
    expect(faults({})).toEqual([]);
    expect(faults({ devices: devices.slice(0, 2) })).toEqual(['power']);
    expect(faults({ devices: [...devices, second] })).toEqual(['devices[3].kind']);
    expect(faults({ power: { ...power, ground_fault: false } })).toEqual(['devices[2].kind']);
    expect(faults({ power: { ...power, supply: high } })).toEqual(['links[1].motor.voltage_V']);
  });
});

describe('the state of the supply', () => {
  it('is copied in the middle of anything, and goes the same way', () => {
    const chance = generator(7);
    const pick = (n: number) => Math.floor(chance() * n);
    const world = cart({ motor: { leak_mA: 8 }, supply: { kind: 'generator', max_W: 2500 } });
    let copy = clone(world);
    for (let k = 0; k < 120; k++) {
      const what = [
        turnOn(chance() < 0.7),
        set('plug', pick(3)),
        set('breaker', pick(2)),
        set('protector', pick(3)),
      ][pick(4)]!;
      const facts = during(world, 2, [what]);
      expect(during(copy, 2, [what])).toEqual(facts);
      if (k % 20 === 0) copy = clone(copy);
      expect(Math.abs(truth(world).liquid.error)).toBeLessThan(1e-9);
    }
    expect(hash(copy)).toBe(hash(world));
  });
});
