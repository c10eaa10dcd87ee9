// What walls and warmth have been through is part of a drill's start: a loop that was pressed and
// has cooled for half an hour goes on from its patches as it does itself.
import { describe, expect, it } from 'vitest';
import { clone, createWorld, truth, type World } from '../../../sim/index.ts';
import { joint, pipe, scenario } from '../../support/fields.ts';
import { node, run } from '../../support/worlds.ts';
import { linkPatches, nodePatches } from '../../tools/phases-parts.ts';

const START = { start_pressure_kPa: 300 };
const NODES: object[] = [
  { ...joint('a'), ...START },
  { ...joint('b', -20), ...START },
];
const LINKS: object[] = [{ ...pipe('p', ['a', 'b'], 27.3, 60), ...START, material: 'pe' }];
const made = (nodes: object[], links: object[]): World =>
  createWorld(scenario(nodes, links, { heat: { air_C: 20, soil_C: 8, places: [] } }), 1);

const world = run(made(NODES, LINKS), 1800);

/** From the world's patches, some keys left out. */
function again(without: readonly string[] = []): World {
  const over = (own: object[], by: readonly object[]): object[] =>
    own.map((one, k) => {
      const kept = Object.entries(by[k]!).filter(([key]) => !without.includes(key));
      return { ...one, ...Object.fromEntries(kept) };
    });
  return made(over(NODES, nodePatches(world)), over(LINKS, linkPatches(world)));
}

/** kPa an hour later. */
const hourOn = (of: World): number => node(run(of, 3600), 'a') / 1000;

describe('a loop that was pressed and has cooled', () => {
  it('begins anew as it stood', () => {
    expect(Math.abs(node(again(), 'a') - node(world, 'a'))).toBeLessThan(100);
    const kg = [world, again()].map((of) => truth(of).liquid.now);
    expect(Math.abs(kg[1]! / kg[0]! - 1)).toBeLessThan(1e-5);
  });

  it('goes on as it did; without what it has been through it does not', () => {
    const goesOn = hourOn(clone(world));
    expect(Math.abs(hourOn(again()) - goesOn)).toBeLessThan(2);
    expect(Math.abs(hourOn(again(['start_crept_mL'])) - goesOn)).toBeGreaterThan(20);
    expect(Math.abs(hourOn(again(['start_C'])) - goesOn)).toBeGreaterThan(5);
  });
});
