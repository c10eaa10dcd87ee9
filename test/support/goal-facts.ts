// Facts of a made-up run for marks: milestones reached in an order, and what was true at the end.
import type { Fact, Measures } from '../../sim/index.ts';
import { score, parseRules, type Scenario, type Score } from '../../sim/index.ts';
import rulesJson from '../../levels/rules.json' with { type: 'json' };

export const rules = parseRules(rulesJson);

export const PERFECT: Measures = {
  loop_air_m3: 0,
  other_air_m3: 0,
  loop_volume_m3: 0.02,
  spilled_m3: 0,
  wasted_m3: 0,
  time_s: 600,
  controls: { pump: 0 },
};

/** Each milestone of this list is reached ten ticks after the one before it. */
export function reachedInTurn(ids: readonly string[]): Fact[] {
  return ids.map((milestone, k) => ({ tick: 10 * (k + 1), kind: 'reached', milestone, value: 1 }));
}

export function marksOf(
  scenario: Scenario,
  facts: readonly Fact[],
  change: Partial<Measures> = {},
): Score {
  const measures = { ...PERFECT, ...change };
  return score(scenario, rules, [...facts, { tick: 6000, kind: 'done', asked: true, measures }]);
}
