// Hands that know nothing must not pass, and who leaves more air must stand lower. The seed is
// printed; LOOPYARD_SEED takes another. Most hands work for about a minute of simulated time,
// because two hundred jobs of full length take many minutes; npm run campaign works those.
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Command } from '../../sim/command.ts';
import type { Fact } from '../../sim/fact.ts';
import { parseRules } from '../../sim/rules.ts';
import type { Run } from '../../sim/run.ts';
import { parseScenario } from '../../sim/scenario.ts';
import { score } from '../../sim/score.ts';
import { chance, seedOfRun } from '../tools/chance.ts';
import { randomHands, worked } from '../tools/job-hands.ts';

const load = (path: string): unknown =>
  JSON.parse(readFileSync(new URL(`../../levels/${path}`, import.meta.url), 'utf8'));
const scenario = parseScenario(load('01-heron-lane/scenario.json'));
const rules = parseRules(load('rules.json'));
const seed = seedOfRun();

const valves = scenario.links.filter((l) => l.kind === 'valve').map((l) => l.id);

const marksOf = (run: Run) => score(scenario, rules, run.facts);

function fails(n: number, minutes: number): void {
  const found = marksOf(
    worked(scenario, seed + n, minutes, randomHands(scenario, chance(seed + n))),
  );
  expect(found.finished, `seed ${seed + n}`).toBe(true);
  expect(found.passed, `seed ${seed + n}: ${found.total}`).toBe(false);
}

describe(`hands that know nothing, seed ${seed}`, () => {
  // 190 jobs of a quarter to one and a quarter minutes, five of five, five of twenty.
  const BATCHES = Array.from({ length: 19 }, (_, batch) => batch);
  it.each(BATCHES)(
    'fail in ten short jobs (%i)',
    (batch) => {
      for (let n = 10 * batch; n < 10 * batch + 10; n += 1)
        fails(n, 0.25 + chance(seed - n).unit());
    },
    300_000,
  );

  it.each([1, 2, 3, 4, 5])('fail in a job of five minutes (%i)', (n) => fails(500 + n, 5));

  it.each([1, 2, 3, 4, 5])('fail in a job of twenty (%i)', (n) => fails(1000 + n, 20));

  it('fail by the result when they do nothing for twenty minutes', () => {
    const found = marksOf(worked(scenario, seed, 20, () => []));
    expect(found.reasons).toEqual(expect.arrayContaining(['air_left', 'minimum_outcome']));
  });

  it('fail by the result when they are done at once', () => {
    const found = marksOf(worked(scenario, seed, 0, () => []));
    expect(found).toMatchObject({ finished: true, passed: false });
    expect(found.reasons).toEqual(expect.arrayContaining(['air_left', 'minimum_outcome']));
  });

  it('fail when they open everything, switch on and wait', () => {
    const all: Command[] = valves.map((valve) => ({ kind: 'valve', valve, target_deg: 90 }));
    all.push({ kind: 'switch', pump: 'pump', on: true });
    const found = marksOf(worked(scenario, seed, 20, (tick) => (tick === 0 ? all : [])));
    expect(found.passed).toBe(false);
    expect(found.reasons).toContain('hand_over');
  });
});

describe('who leaves more air', () => {
  /** Facts of a run with another amount of air found at the end. */
  function withAir(facts: readonly Fact[], loop_air_m3: number): readonly Fact[] {
    return facts.map((fact) =>
      fact.kind === 'done' ? { ...fact, measures: { ...fact.measures, loop_air_m3 } } : fact,
    );
  }

  it('stands lower in each of 20 pairs that are equal otherwise', () => {
    const random = chance(seed + 5000);
    const { facts } = worked(scenario, seed, 0.5, randomHands(scenario, random));
    for (let n = 0; n < 20; n += 1) {
      const less = random.pick([0, 1e-6, 1e-4, 5e-4, 0.005, 0.05]) * (0.5 + random.unit());
      const more = less + random.pick([1e-9, 1e-7, 1e-5, 1e-3]) * (0.5 + random.unit());
      const a = score(scenario, rules, withAir(facts, less));
      const b = score(scenario, rules, withAir(facts, more));
      expect(b.total, `${less} and ${more} m3`).toBeLessThan(a.total);
    }
  });
});
