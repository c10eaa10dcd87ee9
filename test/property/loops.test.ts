// The maker of random loops, and the checks that a hunt among them makes. The hunt itself, with
// random hands, is test/campaign/loops.ts. It still finds loops in which fast air leaves the books
// or all bounds, so it is no part of the test command yet.
import { describe, expect, it } from 'vitest';
import { parseScenario, scenarioFaults } from '../../sim/index.ts';
import { noFigures, work } from '../campaign/hunt.ts';
import { chance } from '../tools/chance.ts';
import { randomLoop } from '../tools/loops.ts';

const seed = Number(process.env['LOOPYARD_SEED'] ?? Date.now() % 1_000_000_000);
/** A loop that is known to go well, for what is planted in it. */
const CALM = 626933056;

describe(`random loops, seed ${seed}`, () => {
  it('are of every kind', () => {
    const kinds = new Set<string>();
    for (let n = 0; n < 100; n++) {
      const scenario = parseScenario(randomLoop(chance(seed + n)));
      for (const part of [...scenario.links, ...scenario.nodes]) kinds.add(part.kind);
    }
    const parts = ['pipe', 'hose', 'valve', 'three_way', 'check_valve', 'filter', 'coil'];
    const more = ['coupling', 'pump', 'fixed_flow', 'junction', 'tank', 'reservoir', 'open'];
    expect([...kinds].sort()).toEqual([...parts, ...more].sort());
  });

  it('are all valid: not one of 500 has a fault', () => {
    for (let n = 0; n < 500; n++) {
      expect(scenarioFaults(randomLoop(chance(seed - n))), `seed ${seed - n}`).toEqual([]);
    }
  });
});

describe('the checks of these hunts', () => {
  it('see a book that does not close', () => {
    const figures = noFigures();
    const broken = work(CALM, 3, figures, (world) => {
      world.state.gas[world.plan.nodes.length] = world.state.gas[world.plan.nodes.length]! + 1e6;
    });
    expect(broken?.what).toMatch(/^gas: .* is missing$/);
  });

  it('see a number that is not finite, and one below nothing', () => {
    const nan = work(CALM, 3, noFigures(), (world) => (world.state.point[0] = NaN));
    expect(nan?.what).toMatch(/NaN/);
    const below = work(CALM, 3, noFigures(), (world) => (world.state.mass[0] = -1));
    expect(below?.what).toMatch(/falls to/);
  });
});
