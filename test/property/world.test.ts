// Random hands on the first level: the books close, nothing is lost or not finite, a copy and a
// replay go the same way bit for bit.
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import {
  advance,
  clone,
  hash,
  loadState,
  parseScenario,
  recordOf,
  replay,
  saveState,
  startRun,
  step,
  truth,
  type Command,
} from '../../sim/index.ts';
import { generator, randomHands } from '../support/rigs.ts';

const scenario = parseScenario(
  JSON.parse(readFileSync('levels/01-heron-lane/scenario.json', 'utf8')),
);
const seeds = process.env['LOOPYARD_SEED']
  ? [Number(process.env['LOOPYARD_SEED'])]
  : [11, 12, 13, 14, 15, 16];
const fresh = Number(process.env['LOOPYARD_FRESH'] ?? Date.now() % 1000000);

describe('random hands', () => {
  for (const seed of [...seeds, fresh]) {
    it(`books close to 1e-9 and a replay is bit-equal (seed ${seed})`, () => {
      const chance = generator(seed);
      const run = startRun(scenario, seed);
      for (let tick = 0; tick < 12000; tick++) {
        const commands = tick % 40 === 0 && chance() < 0.6 ? randomHands(scenario, chance) : [];
        advance(run, commands);
        if (tick % 1000 === 999) {
          const books = truth(run.world);
          for (const kind of ['liquid', 'antifreeze', 'gas'] as const) {
            expect(Math.abs(books[kind].error), `${kind} at tick ${tick}`).toBeLessThan(1e-9);
          }
          expect(hash(run.world)).toMatch(/^[0-9a-f]{16}$/); // Throws where a number is not finite.
        }
      }
      const again = replay(scenario, recordOf(run));
      expect(again.divergedAt).toBeNull();
      expect(hash(again.world)).toBe(hash(run.world));
      expect(again.facts).toEqual(run.facts);
    });
  }

  it('a copy, and a world saved and loaded, go on as the original does', () => {
    const chance = generator(99);
    const run = startRun(scenario, 5);
    for (let tick = 0; tick < 3000; tick++)
      advance(run, tick % 40 === 0 ? randomHands(scenario, chance) : []);
    const copy = clone(run.world);
    const loaded = loadState(scenario, 5, saveState(run.world));
    const later: Command[][] = Array.from({ length: 3000 }, (_, k) =>
      k % 40 === 0 ? randomHands(scenario, chance) : [],
    );
    for (const commands of later) {
      step(run.world, commands);
      step(copy, commands);
      step(loaded, commands);
    }
    expect(hash(copy)).toBe(hash(run.world));
    expect(hash(loaded)).toBe(hash(run.world));
  });
});
