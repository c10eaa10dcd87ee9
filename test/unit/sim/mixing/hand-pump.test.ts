// A hand pump: what a stroke gives, what stops the arm, what does not come back.
import { describe, expect, it } from 'vitest';
import { clone, hash, snapshot, truth, xray, type World } from '../../../../sim/index.ts';
import { dosing, level, strokes, TANK_AREA, worstBook } from '../../../support/dosing.ts';
import { during, turn, turnOn } from '../../../support/hands.ts';

const shutIn = [turn('discharge', 0), turn('return', 0)];
const gauge = (world: World, id: string): number =>
  (xray(world).nodes.find((n) => n.id === id)!.pressure - 101325) / 1000;

const stub = { kind: 'junction', elevation_m: 0, volume_L: 0.5 };

/** A tank, the pump, and whatever stands behind it up to a shut valve. */
function bench(between: readonly Record<string, unknown>[], last = 'stub'): World {
  const nodes = [
    {
      id: 'tank',
      kind: 'tank',
      floor_m: 0,
      area_m2: TANK_AREA,
      height_mm: 900,
      start_level_mm: 500,
      ports: [{ id: 'foot', height_mm: 40, bore_mm: 20 }],
    },
    { ...stub, id: 'stub' },
    ...(last === 'stub' ? [] : [{ ...stub, id: last }]),
    { id: 'away', kind: 'open', elevation_m: 0, goes_to: 'pail' },
  ];
  const lever = { id: 'lever', kind: 'hand_pump', from: 'tank.foot', to: 'stub', bore_mm: 12 };
  const links = [
    { ...lever, stroke_mL: 40, stroke_s: 1.5, max_kPa: 400 },
    ...between,
    { id: 'shut', kind: 'valve', from: last, to: 'away', bore_mm: 12, start_deg: 0 },
  ];
  return dosing({ more: { nodes, links, devices: [], instruments: [] } });
}

function hose(): World {
  const ends = { from: 'stub', to: 'far' };
  const give = { length_m: 20, bore_mm: 38, compliance_per_MPa: 0.05 };
  return bench([{ id: 'hose', kind: 'hose', ...ends, ...give }], 'far');
}

/** The whole rig, full and shut in. */
function shutRig(): World {
  const world = dosing();
  during(world, 10, shutIn);
  return world;
}

describe('a hand pump', () => {
  it('gives its volume with each stroke, and takes the time of each', () => {
    const world = dosing();
    const before = level(world, 'tank');
    during(world, 4, [turn('return', 0)]);
    const facts = during(world, 0.5 + 20 * 1.5 + 0.4, [strokes(20)]);
    expect(facts.filter((f) => f.kind === 'moved')).toHaveLength(1);
    expect(snapshot(world).scene.hand_pumps[0]!.strokes).toBe(20);
    // The way through the pump and the suction back to the tank is open: nothing is gained.
    expect(level(world, 'tank')).toBeCloseTo(before, 3);
    const shut = shutRig();
    const start = level(shut, 'tank');
    during(shut, 0.5 + 3 * 1.5 + 0.4, [strokes(3)]);
    expect((start - level(shut, 'tank')) * TANK_AREA * 1e6).toBeCloseTo(3 * 40, 1); // mL
    expect(worstBook(shut)).toBeLessThan(1e-9);
  });

  it('raises the pressure of a hose by what its wall gives', () => {
    const world = hose();
    during(world, 2);
    const before = gauge(world, 'far');
    during(world, 0.5 + 4 * 1.5 + 0.4, [strokes(4)]);
    // By hand: 20 m of 38 mm give 0.05 a MPa, and water itself 4.6e-10 a pascal; 1 L of fittings.
    const room = 20 * ((Math.PI * 0.038 * 0.038) / 4);
    const give = room * (0.05e-6 + 4.6e-10) + 0.001 * (4.6e-10 + 2e-10);
    expect((gauge(world, 'far') - before) / (160e-6 / give / 1000)).toBeCloseTo(1, 2);
  });

  it('stops the arm where it can push no more, and lets nothing back', () => {
    const world = shutRig();
    const facts = during(world, 150, [strokes(300)]);
    expect(facts).toContainEqual(
      expect.objectContaining({ kind: 'held', control: 'lever', why: 'too_hard' }),
    );
    const end = gauge(world, 'supply');
    expect(end).toBeGreaterThan(395);
    expect(end).toBeLessThan(425);
    const held = level(world, 'tank');
    during(world, 120);
    expect(level(world, 'tank')).toBeCloseTo(held, 9);
    expect(gauge(world, 'supply')).toBeGreaterThan(0.98 * end);
    // And at once again: no stroke is given.
    expect(during(world, 3, [strokes(5)])).toContainEqual(
      expect.objectContaining({ kind: 'held', why: 'too_hard' }),
    );
    expect(worstBook(world)).toBeLessThan(1e-9);
  });

  it('is stopped dead by a shut valve right behind it, without a blow', () => {
    const world = bench([]);
    during(world, 5, [strokes(3)]);
    expect(gauge(world, 'stub')).toBeGreaterThan(360);
    expect(gauge(world, 'stub')).toBeLessThan(425);
    expect(worstBook(world)).toBeLessThan(1e-9);
  });

  it('gives air once its source is empty', () => {
    const world = dosing({ tank_mm: 45 });
    during(world, 10, shutIn);
    const before = truth(world).gas.now;
    const facts = during(world, 120, [strokes(60)]);
    expect(truth(world).gas.now - before).toBeGreaterThan(1e-4); // m3 at one atmosphere.
    expect(facts.length).toBeGreaterThan(0);
    expect(worstBook(world)).toBeLessThan(1e-9);
  });

  it('can be worked by a helper, and goes the same way on a copy', () => {
    const world = shutRig();
    during(world, 6, [{ kind: 'stroke', pump: 'lever', strokes: 50, by: 'helper' }, turnOn(true)]);
    expect(snapshot(world).scene.helper!.busy).toBe('lever');
    const copy = clone(world);
    during(world, 30);
    during(copy, 30);
    expect(hash(copy)).toBe(hash(world));
    expect(snapshot(world).scene.hand_pumps[0]!.wanted).toBe(50);
  });
});
