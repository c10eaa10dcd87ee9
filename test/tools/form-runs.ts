// Plays the solution of a level on the form of a seed, and what it comes to there: whether every
// form can be done by what is seen alone, and whether one is worth as much as another.
import { score, type Outcome, type Score } from '../../sim/index.ts';
import { play, RULES } from './golden.ts';

export interface FormRun {
  readonly seed: number;
  readonly outcome: Outcome;
  readonly marks: Score;
}

/** What a script of the level in `folder` comes to in the form of this seed. */
export function formRun(folder: string, seed: number, name = 'solution'): FormRun {
  const { run, outcome } = play(folder, name, seed);
  return { seed, outcome, marks: score(run.scenario, RULES, run.facts) };
}

/** On one line: seed, total, and what was lost by what. */
export function formText({ seed, outcome, marks }: FormRun): string {
  const lost = marks.deductions
    .filter(({ points }) => points > 0.05)
    .map(({ message, points }) => `${message} ${points.toFixed(1)}`);
  const told = [`seed ${seed}: ${marks.total.toFixed(2)}`, marks.passed ? 'passed' : 'NOT PASSED'];
  if (outcome.end !== 'finished') told.push(`${outcome.end} at ${outcome.step ?? '?'}`);
  return [...told, `${Math.round(outcome.time_s / 60)} min`, ...marks.reasons, ...lost].join(', ');
}
