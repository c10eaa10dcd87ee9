// The forms of a scenario at the ends of its ranges: as it is written, and each range alone at its
// first and at its last.
import { countOf, formed } from '../../sim/form-made.ts';
import type { Scenario } from '../../sim/index.ts';

export function endForms({ ranges = [], ...written }: Scenario): readonly Scenario[] {
  const alone = ranges.flatMap((range, at) =>
    [0, countOf(range) - 1].map((pick) => {
      const picks = ranges.map((_, k) => (k === at ? pick : null));
      return formed(written, ranges, picks) as Scenario;
    }),
  );
  return [written, ...alone];
}
