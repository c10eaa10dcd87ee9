// Coarse bubbles and foam of a tank: books, copies, and what an outlet can reach.
import { expect, it } from 'vitest';
import { clone, createWorld, hash, snapshot, truth } from '../../../sim/index.ts';
import { held, scenario } from '../../support/fields.ts';
import { run } from '../../support/worlds.ts';
import { plunging } from '../../truth/ask/bubbles.ts';

const RETURN = { bore_mm: 52.5, velocity: 1.75, fall_m: 0.1, area_m2: 0.25, seconds: 120 };

it('the books close with foam in them, and a copy goes on bit for bit', () => {
  const world = plunging({ ...RETURN, level_m: 1 }, { foam_half_life_s: 30 });
  const copy = clone(world);
  run(world, 60);
  run(copy, 60);
  expect(hash(copy)).toBe(hash(world));
  expect(Math.abs(truth(world).gas.error)).toBeLessThan(1e-12);
  expect(snapshot(world).scene.tanks[0]!.foam).toBeGreaterThan(0.001);
});

it('coarse bubbles go under where the jet reaches the outlet, and only there', () => {
  const under = (level_m: number) => {
    const { gas } = truth(plunging({ ...RETURN, level_m }));
    return gas.went / gas.came;
  };
  expect(under(0.4)).toBeGreaterThan(2 * under(0.6)); // The jet reaches 0.45 m.
});

it('foam on still water halves in its half-life', () => {
  const tank = {
    id: 'tank',
    kind: 'tank',
    floor_m: 0,
    area_m2: 0.2,
    height_mm: 1000,
    start_level_mm: 500,
    ports: [{ id: 'out', height_mm: 100, bore_mm: 25 }],
    foam_half_life_s: 40,
  };
  const valve = { id: 'v', kind: 'valve', from: 'tank.out', to: 'away', bore_mm: 25, start_deg: 0 };
  const world = createWorld(scenario([tank, held('away', 0)], [valve]), 1);
  world.state.tankGas[1] = 100;
  expect(run(world, 40).state.tankGas[1]! / 50).toBeCloseTo(1, 2);
});
