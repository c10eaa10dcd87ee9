// Random hands at a job, and what must come of it whatever they do: a replay, a copy, and a world
// saved and loaded all go the same way bit for bit.
import { expect } from 'vitest';
import {
  advance,
  clone,
  hash,
  loadState,
  recordOf,
  replay,
  saveState,
  startRun,
  step,
  type Scenario,
  type World,
} from '../../sim/index.ts';
import { generator, randomHands } from './rigs.ts';

/** Plays so many ticks, shows each, and holds a replay against it. */
export function playedTwice(
  scenario: Scenario,
  seed: number,
  ticks: number,
  look: (world: World, tick: number) => void,
): void {
  const chance = generator(seed);
  const played = startRun(scenario, seed);
  for (let tick = 0; tick < ticks; tick++) {
    advance(played, tick % 40 === 0 && chance() < 0.6 ? randomHands(scenario, chance) : []);
    look(played.world, tick);
  }
  const again = replay(scenario, recordOf(played));
  expect(again.divergedAt).toBeNull();
  expect(hash(again.world)).toBe(hash(played.world));
  expect(again.facts).toEqual(played.facts);
}

/** Plays so many ticks, takes a copy and a saved world, and goes on with all three. */
export function goneOn(
  scenario: Scenario,
  [hands, seed]: readonly [hands: number, seed: number],
  [before, after]: readonly [before: number, after: number],
): void {
  const chance = generator(hands);
  const now = (tick: number) => (tick % 40 === 0 ? randomHands(scenario, chance) : []);
  const played = startRun(scenario, seed);
  for (let tick = 0; tick < before; tick++) advance(played, now(tick));
  const worlds = [played.world, clone(played.world)];
  worlds.push(loadState(scenario, seed, saveState(played.world)));
  for (let tick = 0; tick < after; tick++) {
    const commands = now(tick);
    for (const world of worlds) step(world, commands);
  }
  const [one, copy, loaded] = worlds.map(hash);
  expect(copy).toBe(one);
  expect(loaded).toBe(one);
}
