// What a site has against frost: a make-up hose that runs out by its drain, and drums whose pump
// comes empty and catches once its valve is open.
import { describe, expect, it } from 'vitest';
import { buildSite } from '../../../sim/field/build.ts';
import type { DaySite } from '../../../sim/field/kit-site.ts';
import type { Command, World } from '../../../sim/index.ts';
import { createWorld, snapshot, step } from '../../../sim/index.ts';
import { linkPatches } from '../../tools/phases-parts.ts';
import { daySite } from '../../support/day-site.ts';
import { fieldOf, hole, siteOf } from './field-sites.ts';

const site = daySite('deck');
const day: DaySite = {
  ...site.day,
  hose_drain: true,
  drum: { litres: 120, fraction: 0.25, by: 'pump', area_m2: 0.5, empty: true },
};

function worldOf(): World {
  return createWorld(buildSite({ ...site, day }), 1);
}

function play(world: World, commands: readonly Command[], seconds: number): void {
  step(world, commands);
  for (let tick = 1; tick < seconds / world.dt; tick += 1) step(world, []);
}

const turn = (valve: string, target_deg: number): Command => ({ kind: 'valve', valve, target_deg });

/** kg of liquid in a pipe or hose. */
function held({ plan, state }: World, id: string): number {
  const { firstCell, cells } = plan.links[plan.linkIx.get(id)!]!;
  return state.mass.slice(firstCell, firstCell + cells).reduce((sum, kg) => sum + kg, 0);
}

describe('the make-up hose', () => {
  it('stands full behind a shut tap, and runs out by its drain once air comes in', () => {
    const world = worldOf();
    const full = held(world, 'make_up_hose');
    play(world, [turn('hose_drain', 90)], 5);
    expect(held(world, 'make_up_hose')).toBeGreaterThan(0.8 * full);
    play(world, [turn('fill_valve', 90)], 120);
    expect(held(world, 'make_up_hose')).toBeLessThan(0.25 * full);
    const tap = world.plan.nodeIx.get('tap_out')!;
    const [mass, room] = [world.state.mass[tap]!, world.plan.room[tap]!];
    expect(mass / 1000).toBeLessThan(0.9 * room); // Room for ice.
  });

  it('has no drain without the guard and its tap', () => {
    const { things: _things, ...without } = day;
    expect(() => buildSite({ ...site, day: without })).toThrow('guard');
  });
});

it('the pump of the drums comes empty, catches, and brings premix into the tank', () => {
  const world = worldOf();
  expect(held(world, 'drum_hose')).toBeLessThan(0.01);
  play(world, [turn('drum_valve', 90)], 8);
  play(world, [{ kind: 'switch', pump: 'drum_pump', on: true }], 60);
  const { panel } = snapshot(world);
  const level = panel.readings.find((r) => r.id === 'drum_level');
  // Two drums: half the fall of one. 20 to 60 L are out.
  expect(level?.kind === 'level' && level.value).toBeLessThan(0.24 - 0.02 / 0.5);
  expect(level?.kind === 'level' && level.value).toBeGreaterThan(0.24 - 0.06 / 0.5);
  expect(world.state.fraction[world.plan.nodeIx.get('tank')!]!).toBeGreaterThan(0.02);
});

it('a drill starts a bore with gas at its top at the pressure of that gas', () => {
  const world = createWorld(buildSite(siteOf(fieldOf([hole, hole]))), 1);
  play(world, [], 30);
  const patch = linkPatches(world).find(({ id }) => id === 'circuit_1')!;
  // The mean of the whole bore would be some 300 kPa: the water of 60 m below.
  expect(patch.start_pressure_kPa).toBeGreaterThan(-20);
  expect(patch.start_pressure_kPa).toBeLessThan(40);
});
