// Gas that warms as it is squeezed: copies go on bit for bit, the books stay exact, and nothing
// differs where nobody asks for it.
import { describe, expect, it } from 'vitest';
import { readFileSync } from 'node:fs';
import {
  clone,
  createWorld,
  hash,
  loadState,
  parseScenario,
  saveState,
  step,
  truth,
} from '../../../sim/index.ts';
import { squeezeBy, squeezeSlope } from '../../../sim/network/warmth.ts';
import { generator, randomHands } from '../../support/rigs.ts';
import { closed, run } from '../../support/worlds.ts';

const level = JSON.parse(readFileSync('levels/01-heron-lane/scenario.json', 'utf8')) as object;

describe('gas that heats', () => {
  it.each([3, 4, 5])('keeps its books under random hands, and copies agree (%s)', (seed) => {
    const scenario = parseScenario({ ...level, gas_heats: true });
    const chance = generator(seed);
    const world = createWorld(scenario, seed);
    for (let tick = 0; tick < 4000; tick++)
      step(world, tick % 40 === 0 && chance() < 0.6 ? randomHands(scenario, chance) : []);
    const books = truth(world);
    for (const kind of ['liquid', 'gas'] as const)
      expect(Math.abs(books[kind].error)).toBeLessThan(1e-9);
    const copy = clone(world);
    const loaded = loadState(scenario, seed, saveState(world));
    for (const each of [world, copy, loaded])
      for (let tick = 0; tick < 500; tick++) step(each, []);
    expect(hash(copy)).toBe(hash(world));
    expect(hash(loaded)).toBe(hash(world));
  });

  it('warms in a fast squeeze and cools to the ground', () => {
    const still = closed({
      pressure_kPa: 300,
      bore_mm: 100,
      length_m: 11,
      gas: { from_m: 10, to_m: 11 },
      end_gas: 1,
    });
    const world = createWorld({ ...still, gas_heats: true }, 1);
    let hottest = 1;
    for (let tick = 0; tick < 50; tick++) {
      step(world, []);
      hottest = Math.max(hottest, ...world.state.warmth);
    }
    expect(hottest).toBeGreaterThan(1.3); // 4^(2/7) is 1.49.
    expect(hottest).toBeLessThan(2.5);
    run(world, 900);
    for (const warmth of world.state.warmth) expect(Math.abs(warmth - 1)).toBeLessThan(1e-3);
  });

  it('stays at the ground where nobody asks', () => {
    const plain = closed({ pressure_kPa: 300, bore_mm: 100, length_m: 5, end_gas: 1 });
    const world = createWorld(plain, 1);
    run(world, 5);
    expect(world.state.warmth.every((x) => x === 1)).toBe(true);
  });

  it('the fraction for a power is it to 4e-6 at 5 %, and is r where nothing warms', () => {
    expect(squeezeBy(0.7, 1)).toBe(0.7);
    expect(squeezeSlope(0.7, 1)).toBe(1);
    for (const r of [0.95, 1.05]) {
      expect(Math.abs(squeezeBy(r, 5 / 7) - r ** (5 / 7))).toBeLessThan(4e-6);
    }
    const h = 1e-6;
    const slope = (squeezeBy(0.9 + h, 0.8) - squeezeBy(0.9 - h, 0.8)) / (2 * h);
    expect(squeezeSlope(0.9, 0.8)).toBeCloseTo(slope, 6);
  });
});
