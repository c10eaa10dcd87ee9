// Random loops of any structure under random hands, four thousand commands: every book closes,
// nothing is lost, below nothing or not finite, nothing throws, and a copy and a replay go the
// same way bit for bit. The seed is printed; LOOPYARD_SEED takes another, or a fresh one comes
// from the clock. npm run campaign does the same for as long as one likes.
import { describe, expect, it } from 'vitest';
import { parseScenario, scenarioFaults } from '../../sim/index.ts';
import { noFigures, told, work, type Failure } from '../campaign/hunt.ts';
import { chance, freshSeed } from '../tools/chance.ts';
import { randomLoop } from '../tools/loops.ts';

const COMMANDS = 4_000;
const EACH = 50;
const BATCHES = 8;
/** A loop for what is planted in it. */
const CALM = 626933056;
const seed = freshSeed();

describe(`random loops and hands, seed ${seed}`, () => {
  const figures = noFigures();
  const loops = COMMANDS / EACH / BATCHES;

  it.each(Array.from({ length: BATCHES }, (_, batch) => batch))(
    'batch %i: books close, numbers stay finite, copies and replays agree',
    (batch) => {
      const failures: Failure[] = [];
      for (let n = 0; n < loops; n++) {
        const failure = work(seed + batch * loops + n, EACH, figures);
        if (failure !== null) failures.push(failure);
      }
      expect(failures).toEqual([]);
    },
    300_000,
  );

  it('were many and of every kind', () => {
    console.log(`seed ${seed}: ${told(figures)}`);
    expect(figures.commands).toBeGreaterThanOrEqual(COMMANDS);
    expect(figures.refused).toBeGreaterThan(0);
    const kinds = new Set<string>();
    for (let n = 0; n < 100; n++) {
      const scenario = parseScenario(randomLoop(chance(seed + n)));
      for (const part of [...scenario.links, ...scenario.nodes]) kinds.add(part.kind);
    }
    const parts = ['pipe', 'hose', 'valve', 'three_way', 'check_valve', 'filter', 'coil'];
    const more = [
      'coupling',
      'pump',
      'fixed_flow',
      'hand_pump',
      'junction',
      'tank',
      'reservoir',
      'open',
    ];
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
