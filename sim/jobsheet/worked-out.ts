// The job sheet as one who can do it fills it in: from drawing and plates alone, three figures.
import { abs, floor, log10, pow, round } from '../base/math.ts';
import type { Command } from '../command.ts';
import type { Scenario } from '../scenario.ts';
import { UNIT_SI } from '../scenario-sheet.ts';
import { truthOf } from './judge.ts';

const FIGURES = 3;

/** Every line answered; none of a job without a sheet. */
export function workedOut(scenario: Scenario): readonly Extract<Command, { kind: 'answer' }>[] {
  return (scenario.job?.sheet?.lines ?? []).map((line) => {
    const { value, cannot_tell } = truthOf(scenario, line);
    const milli = (1000 * value) / UNIT_SI[line.kind];
    return { kind: 'answer', line: line.id, value_milli: cannot_tell ? null : rounded(milli) };
  });
}

function rounded(x: number): number {
  if (x === 0) return 0;
  const unit = pow(10, floor(log10(abs(x)) + 1e-9) - FIGURES + 1);
  return unit <= 1 ? round(x) : round(x / unit) * round(unit);
}
