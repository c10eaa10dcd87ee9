// Walls of polyethylene: what they have given is state, copies go on bit for bit, the books stay.
import { describe, expect, it } from 'vitest';
import { clone, createWorld, hash, loadState, saveState, truth } from '../../../sim/index.ts';
import { joint, pipe, scenario } from '../../support/fields.ts';
import { run } from '../../support/worlds.ts';
import { decayOf, reboundOf } from '../../truth/ask/walls.ts';

const START = { start_pressure_kPa: 300 };
const loop = (material: object) =>
  scenario(
    [{ ...joint('a'), ...START }, { ...joint('b', -20), ...START }],
    [{ ...pipe('p', ['a', 'b'], 27.3, 60), ...START, ...material }],
  );

describe('creep of polyethylene', () => {
  it('copies and loaded worlds go on as the original does, from the middle of a second', () => {
    const made = loop({ material: 'pe' });
    const world = run(createWorld(made, 1), 33.7);
    const copy = clone(world);
    const loaded = loadState(made, 1, saveState(world));
    for (const each of [world, copy, loaded]) run(each, 60);
    expect(hash(copy)).toBe(hash(world));
    expect(hash(loaded)).toBe(hash(world));
    expect(Math.abs(truth(world).liquid.error)).toBeLessThan(1e-12);
  });

  it('is no state where nobody asks for it', () => {
    expect(createWorld(loop({}), 1).state.creep).toHaveLength(0);
    expect(createWorld(loop({ material: 'pe' }), 1).state.creep).toHaveLength(60 * 7);
  });

  it('a full pipe that stood is at rest: its pressure stays', () => {
    const standing = scenario(
      [{ id: 'top', kind: 'reservoir', elevation_m: 0, pressure_kPa: 0 }, joint('foot', -100)],
      [{ ...pipe('p', ['top', 'foot'], 27.3, 100), material: 'pe' }],
    );
    const world = run(createWorld(standing, 1), 60);
    const first = truth(world).liquid.now;
    expect(Math.abs(truth(run(world, 3600)).liquid.now - first)).toBeLessThan(0.002);
  });

  it('trapped air slows the fall of a shut loop, and cold does too', () => {
    const at = { from_min: 3, at_min: [30], start_kPa: 400, t_C: 23 };
    const [plain] = decayOf(at);
    expect(decayOf({ ...at, gas_m: 2 })[0]! - plain!).toBeGreaterThan(0.03);
    expect(decayOf({ ...at, t_C: 5 })[0]!).toBeGreaterThan(plain!);
  });

  it('a loop let down after hours rises before it falls', () => {
    const hour = reboundOf({ psi: 100, drop_psi: 10, hours: 4, t_C: 23 });
    expect(hour[5]!).toBeGreaterThan(hour[0]!);
    expect(hour[0]!).toBeGreaterThan(1);
  });
});
