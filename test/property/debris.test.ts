// Debris under random hands, housings opened among them: its book closes with the others, nothing
// falls below nothing, a copy and a replay go the same way bit for bit; and a plan that starts its
// elements otherwise differs.
import { describe, expect, it } from 'vitest';
import {
  clone,
  createWorld,
  hash,
  loadState,
  parseScenario,
  saveState,
  service,
  step,
  truth,
  type World,
} from '../../sim/index.ts';
import { GRAINS, yard } from '../support/debris.ts';
import { chance, freshSeed, type Chance } from '../tools/chance.ts';
import { randomCommand } from '../tools/loop-hands.ts';

const BOOKS = ['liquid', 'antifreeze', 'gas', 'debris'] as const;
const seed = freshSeed();
const lying = GRAINS.flatMap(({ id }, k) => [
  { link: 'loop', class: id, from_m: 2 * k, to_m: 6 + 5 * k, grams: 10 * (k + 1) },
  { link: 'suction', class: id, from_m: 0, to_m: 2, grams: 3 },
]);
const scenario = yard(lying);

/** One moment of hands: a command now and then, a housing opened; kg taken out of each world. */
function hands(random: Chance, worlds: readonly World[]): number {
  const commands = random.unit() < 0.02 ? [randomCommand(scenario, random)] : [];
  for (const world of worlds) step(world, commands);
  if (random.unit() > 0.004) return 0;
  const link = random.pick(['filter', 'coil']);
  const element = random.pick(['bag', 'screen', null]);
  const taken = worlds.map((world) => service(world, link, element)!);
  expect(new Set(taken).size).toBe(1);
  return taken[0]!;
}

describe(`debris under random hands, seed ${seed}`, () => {
  it.each([seed, seed + 1])('books close and nothing is less than nothing (%i)', (own) => {
    const random = chance(own);
    const world = createWorld(scenario, own);
    let taken = 0;
    for (let tick = 0; tick < 2000; tick++) {
      taken += hands(random, [world]);
      if (tick % 500 !== 499) continue;
      const books = truth(world);
      for (const kind of BOOKS) expect(Math.abs(books[kind]!.error), kind).toBeLessThan(1e-9);
      const { grains, caught, grainBook, arrived } = world.state;
      for (const list of [grains, caught, grainBook, arrived]) {
        expect(Math.min(...list), `tick ${tick}`).toBeGreaterThan(-1e-15);
      }
      expect(hash(world)).toMatch(/^[0-9a-f]{16}$/);
    }
    expect(truth(world).debris_ledgers['taken_out']).toBeCloseTo(taken, 12);
  });

  it('a copy, a world saved and loaded, and a replay go on as the original does', () => {
    const first = chance(seed);
    const again = chance(seed);
    const world = createWorld(scenario, 7);
    for (let tick = 0; tick < 501; tick++) hands(first, [world]);
    const copies = [clone(world), loadState(scenario, 7, saveState(world))];
    for (let tick = 0; tick < 500; tick++) hands(first, [world, ...copies]);
    for (const copy of copies) expect(hash(copy)).toBe(hash(world));
    const replayed = createWorld(scenario, 7);
    for (let tick = 0; tick < 1001; tick++) hands(again, [replayed]);
    expect(hash(replayed)).toBe(hash(world));
  });

  it('leaves water, gas and facts as they are where nothing wears an element', () => {
    const { debris, ...without } = structuredClone(scenario);
    const bare = parseScenario({ ...without, debris: { ...debris, catchers: [] } });
    const [one, two] = [createWorld(bare, 1), createWorld(parseScenario(without), 1)];
    const random = chance(seed);
    for (let tick = 0; tick < 500; tick++) {
      const commands = random.unit() < 0.05 ? [randomCommand(scenario, random)] : [];
      const facts = [one, two].map((world) => step(world, commands));
      expect(facts[0]!.filter((f) => f.kind !== 'hazard' || f.hazard !== 'fouled')).toEqual(
        facts[1],
      );
    }
    for (const name of ['mass', 'gas', 'flow', 'point'] as const) {
      expect(one.state[name], name).toEqual(two.state[name]);
    }
  });
});
