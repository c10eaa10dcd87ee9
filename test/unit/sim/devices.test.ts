// Devices and two pairs of hands: what keeps a control from moving, how long things take.
import { describe, expect, it } from 'vitest';
import {
  clone,
  createWorld,
  hash,
  parseScenario,
  snapshot,
  type Command,
  type World,
} from '../../../sim/index.ts';
import { during, set, turn, turnOn } from '../../support/hands.ts';

/** A tank, a pump, a coupling with arms, and a hose back to the tank. */
function rig(more: Record<string, unknown> = {}): World {
  const ends = { bore_mm: 38 };
  return createWorld(
    parseScenario({
      format: 1,
      id: 'devices',
      temperature_C: 10,
      ends_after_s: 3600,
      nodes: [
        {
          id: 'tank',
          kind: 'tank',
          floor_m: 0,
          area_m2: 0.2,
          height_mm: 800,
          start_level_mm: 600,
          ports: [
            { id: 'out', height_mm: 50, bore_mm: 50 },
            { id: 'back', height_mm: 700, bore_mm: 38 },
          ],
        },
        { id: 'casing', kind: 'junction', elevation_m: 0, volume_L: 2 },
        { id: 'out', kind: 'junction', elevation_m: 0 },
        { id: 'half', kind: 'junction', elevation_m: 0 },
        { id: 'end', kind: 'junction', elevation_m: 0 },
      ],
      links: [
        { id: 'suction', kind: 'valve', from: 'tank.out', to: 'casing', start_deg: 90, ...ends },
        {
          id: 'pump',
          kind: 'pump',
          from: 'casing',
          to: 'out',
          best_flow_L_s: 1,
          ...ends,
          curve: [
            { flow_L_s: 0, head_m: 20 },
            { flow_L_s: 2, head_m: 2 },
          ],
        },
        {
          id: 'joint',
          kind: 'coupling',
          from: 'out',
          to: 'half',
          start: 'made',
          make_s: 4,
          ...ends,
        },
        { id: 'hose', kind: 'hose', from: 'half', to: 'end', length_m: 5, ...ends },
        { id: 'throttle', kind: 'valve', from: 'end', to: 'tank.back', start_deg: 0, ...ends },
      ],
      devices: [
        { id: 'arms', kind: 'latch', of: 'joint', take_s: 3 },
        { id: 'padlock', kind: 'lock', of: 'pump', start: 1, take_s: 20 },
        { id: 'glasses', kind: 'wear', what: 'eyes' },
      ],
      hands: { reach_s: 1, helper: { tell_s: 2 } },
      ...more,
    }),
    1,
  );
}

const on = turnOn(true);
const apart: Command = { kind: 'coupling', coupling: 'joint', made: false };
const made = (world: World) => snapshot(world).scene.couplings[0]!.made;

describe('devices', () => {
  it('a lock keeps a pump from being switched on until it is off, and takes its time', () => {
    const world = rig();
    expect(during(world, 2, [on])).toContainEqual(
      expect.objectContaining({ kind: 'held', control: 'pump', why: 'locked' }),
    );
    expect(snapshot(world).scene.pumps[0]!.on).toBe(false);
    during(world, 20, [set('padlock', 0)]);
    expect(snapshot(world).scene.devices[1]!.position).toBe(1); // 21 s with the reach.
    during(world, 2);
    expect(snapshot(world).scene.devices[1]!.position).toBe(0);
    during(world, 2, [on]);
    expect(snapshot(world).scene.pumps[0]!.on).toBe(true);
  });

  it('a valve in a vault is reached only while someone is in there, every time', () => {
    const pit = { id: 'pit', kind: 'entry', where: 'vault', inside: ['throttle'], take_s: 2 };
    const world = rig({ devices: [pit] });
    const outside = expect.objectContaining({ kind: 'held', control: 'throttle', why: 'outside' });
    const deg = () => snapshot(world).scene.valves.find(({ id }) => id === 'throttle')!.deg;
    expect(during(world, 3, [turn('throttle', 90)])).toContainEqual(outside);
    expect(deg()).toBe(0);
    during(world, 8, [set('pit', 1), turn('throttle', 90)]);
    expect(deg()).toBe(90);
    expect(during(world, 8, [set('pit', 0), turn('throttle', 0)])).toContainEqual(outside);
    expect(deg()).toBe(90);
  });

  it('a coupling with shut arms does not come apart; with open arms it does', () => {
    const world = rig();
    expect(during(world, 8, [apart])).toContainEqual(
      expect.objectContaining({ kind: 'held', control: 'joint', why: 'latched' }),
    );
    expect(made(world)).toBe(true);
    during(world, 12, [set('arms', 0), apart]);
    expect(made(world)).toBe(false);
  });

  it('open arms hold a little pressure and blow apart at more', () => {
    const world = rig();
    const facts = during(world, 6, [set('arms', 0)]);
    expect(made(world)).toBe(true);
    expect(facts.some((f) => f.kind === 'event')).toBe(false);
    const after = during(world, 40, [set('padlock', 0), on]);
    expect(after).toContainEqual(
      expect.objectContaining({ kind: 'event', event: 'blew_apart', at: 'joint' }),
    );
    expect(snapshot(world).scene.outlets.some((o) => o.total > 0.001)).toBe(true);
  });

  it('pinned arms hold the pump shut off', () => {
    const world = rig();
    const facts = during(world, 60, [set('padlock', 0), on]);
    expect(facts.some((f) => f.kind === 'event' && f.event === 'blew_apart')).toBe(false);
    expect(made(world)).toBe(true);
  });
});

describe('two pairs of hands', () => {
  it('work side by side; a helper needs to be told first', () => {
    const world = rig();
    during(world, 5.5, [
      set('glasses', 1),
      { kind: 'valve', valve: 'throttle', target_deg: 90, by: 'helper' },
    ]);
    const { scene } = snapshot(world);
    expect(scene.valves.find((v) => v.id === 'throttle')!.deg).toBe(90); // 2 + 1 + 1.5 s.
    expect(scene.hands.busy).toBe('glasses'); // 1 + 8 s.
    expect(scene.helper!.busy).toBeNull();
    const alone = rig();
    during(alone, 5.5, [set('glasses', 1), { kind: 'valve', valve: 'throttle', target_deg: 90 }]);
    expect(snapshot(alone).scene.valves.find((v) => v.id === 'throttle')!.deg).toBe(0);
  });

  it('do not get in the way of one another, and nobody helps where one is alone', () => {
    const world = rig();
    const facts = during(world, 0.2, [set('glasses', 1), set('glasses', 1, 'helper')]);
    expect(facts).toContainEqual(
      expect.objectContaining({ kind: 'refused', reason: 'in_other_hands' }),
    );
    const alone = rig({ hands: { reach_s: 1 } });
    expect(during(alone, 0.2, [set('glasses', 1, 'helper')])).toContainEqual(
      expect.objectContaining({ kind: 'refused', reason: 'no_helper' }),
    );
    expect(snapshot(alone).scene.helper).toBeNull();
  });

  it('positions that a device does not have, and devices that are not there, are refused', () => {
    const world = rig();
    const reasons = during(world, 0.2, [set('arms', 3), set('hat', 1)]).map((f) =>
      f.kind === 'refused' ? f.reason : f.kind,
    );
    expect(reasons).toEqual(['no_such_position', 'unknown_control']);
  });

  it('are part of the state: a copy in the middle of it goes the same way', () => {
    const world = rig();
    during(world, 3, [set('padlock', 0), on, set('glasses', 1, 'helper')]);
    const copy = clone(world);
    during(world, 60);
    during(copy, 60);
    expect(hash(copy)).toBe(hash(world));
    expect(snapshot(world).scene.pumps[0]!.on).toBe(true);
  });
});
