// Random hands on the first level: the books close, nothing is lost or not finite, a copy and a
// replay go the same way bit for bit.
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { hash, parseScenario, truth } from '../../sim/index.ts';
import { goneOn, playedTwice } from '../support/twins.ts';

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
      playedTwice(scenario, seed, 12000, (world, tick) => {
        if (tick % 1000 !== 999) return;
        const books = truth(world);
        for (const kind of ['liquid', 'antifreeze', 'gas'] as const) {
          expect(Math.abs(books[kind].error), `${kind} at tick ${tick}`).toBeLessThan(1e-9);
        }
        expect(hash(world)).toMatch(/^[0-9a-f]{16}$/); // Throws where a number is not finite.
      });
    });
  }

  it('a copy, and a world saved and loaded, go on as the original does', () => {
    goneOn(scenario, [99, 5], [3000, 3000]);
  });
});
