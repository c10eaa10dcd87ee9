// What mistakes cost: deductions as what they are about, so that what a file tells and what a run
// comes to can be compared, and the hazard or dimension that each belongs to.
import { isOfHandOver } from '../../sim/deductions.ts';
import { HAZARDS, type HazardKind } from '../../sim/fact.ts';
import type { Score } from '../../sim/marks.ts';
import type { Cost, Mistake } from '../../sim/script-mistake.ts';
import type { Scenario } from '../../sim/scenario.ts';

/** What a file tells before its run, and what a run comes to, to be held against one another. */
export interface Told {
  readonly passed: boolean;
  readonly costs: readonly string[];
  readonly reasons: readonly string[];
  readonly critical: readonly string[];
}

export const toldBy = ({ expects }: Mistake): Told => ({
  passed: expects.passed,
  costs: toldCosts(expects.deductions),
  reasons: [...expects.reasons].sort(),
  critical: [...expects.critical].sort(),
});

/** A critical error counts once, however often it was made. */
export const foundIn = (marks: Score): Told => ({
  passed: marks.passed,
  costs: costsOf(marks),
  reasons: [...marks.reasons].sort(),
  critical: [...new Set(marks.critical.map(({ hazard }) => hazard))].sort(),
});

/** `rule about`, with ` warning` where a hazard went no further; in a fixed order. */
export function costsOf({ deductions }: Score): string[] {
  return deductions
    .map(({ rule, milestone, line, at, stage }) => {
      const about = milestone ?? line?.id ?? at ?? '-';
      return text(rule, about, stage === 'warning');
    })
    .sort();
}

export function toldCosts(costs: readonly Cost[]): string[] {
  return costs
    .map(({ rule, about, stage }) => text(rule, about ?? '-', stage !== undefined))
    .sort();
}

const text = (rule: string, about: string, warning: boolean): string =>
  `${rule} ${about}${warning ? ' warning' : ''}`;

const DIMENSION_OF: ReadonlyArray<readonly [RegExp, string]> = [
  [/^time_/, 'time'],
  [/^(sheet|residual)_/, 'record'],
  [/^(air_left|outcome_)/, 'outcome'],
  [/^fluid_lost$/, 'losses'],
  [/^suction_before_pump$/, 'safety'],
];

/** The hazard of a deduction; of any other its dimension. */
export function kindOf(scenario: Scenario, { rule, about }: Cost): string {
  if (HAZARDS.includes(rule as HazardKind)) return rule;
  if (isOfHandOver(rule)) return 'safety';
  const milestone = scenario.job?.milestones?.find(({ id }) => id === about);
  if (milestone !== undefined) return milestone.dimension;
  const found = DIMENSION_OF.find(([pattern]) => pattern.test(rule));
  if (found === undefined) throw new Error(`${rule} is of no dimension`);
  return found[1];
}
