// The forms of a job: what its seed makes of a scenario with ranges. Drawn once, before a world is
// made, from a stream of chance of its own; what comes of it is an ordinary scenario. Which defects
// are there and how far instruments are off is drawn besides, by defects/drawn.ts.
import { floor, min } from './base/math.ts';
import { nextUnit, seedStream } from './base/rng.ts';
import { countOf, formed } from './form-made.ts';
import type { Scenario } from './scenario.ts';
import type { RangeSpec } from './scenario-ranges.ts';

/** The seed of the job as it is written: nothing is drawn for it. */
export const AS_WRITTEN = 1;
/** The state has streams 0 to 3. */
const FORM_STREAM = 4;

/** The scenario that this seed's world is made of; the same object where nothing can differ. */
export function formOf(scenario: Scenario, seed: number): Scenario {
  const { ranges, ...written } = scenario;
  if (ranges === undefined) return scenario;
  return seed === AS_WRITTEN
    ? written
    : (formed(written, ranges, picksOf(ranges, seed)) as Scenario);
}

/** For each range which of its values this seed takes, from 0: one draw each, in their order. */
function picksOf(ranges: readonly RangeSpec[], seed: number): readonly number[] {
  const words = new Uint32Array(4);
  seedStream(words, 0, seed, FORM_STREAM);
  return ranges.map((range) => {
    const count = countOf(range);
    return min(count - 1, floor(count * nextUnit(words, 0)));
  });
}
