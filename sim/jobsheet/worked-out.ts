// Job sheet and derived line as one who can do it fills them in: from drawing, plates and what was
// written down, three figures.
import { abs, floor, log10, pow, round } from '../base/math.ts';
import type { Command } from '../command.ts';
import { residualOf } from '../derived.ts';
import type { Fact } from '../fact.ts';
import type { Scenario } from '../scenario.ts';
import { RESIDUAL, UNIT_SI } from '../scenario-sheet.ts';
import { truthOf } from './judge.ts';
import { proofBook } from './residual.ts';

const FIGURES = 3;

type Answer = Extract<Command, { kind: 'answer' }>;

/** Every line answered; none of a job without a sheet. */
export function workedOut(scenario: Scenario): readonly Answer[] {
  return (scenario.job?.sheet?.lines ?? []).map((line) => {
    const { value, cannot_tell } = truthOf(scenario, line);
    const milli = (1000 * value) / UNIT_SI[line.kind];
    return { kind: 'answer', line: line.id, value_milli: cannot_tell ? null : rounded(milli) };
  });
}

/**
 * The derived line from the two levels that were written down last: a number, or that it cannot be
 * told. Nothing of a job without that line, and before both are there.
 */
export function airWorkedOut(scenario: Scenario, facts: readonly Fact[]): readonly Answer[] {
  const [line, book] = [residualOf(scenario), proofBook(scenario)];
  if (line === null || book === null) return [];
  const level = (entry: string): number | null => {
    const note = facts.filter((fact) => fact.kind === 'noted' && fact.entry === entry).at(-1);
    return note?.kind === 'noted' ? note.value : null;
  };
  const [open, shut] = [level(line.open), level(line.shut)];
  if (open === null || shut === null) return [];
  const fall = open - shut - book.stretch;
  const milli = (1000 * fall) / book.each / UNIT_SI[RESIDUAL];
  return [
    { kind: 'answer', line: RESIDUAL, value_milli: fall < book.read ? null : rounded(milli) },
  ];
}

function rounded(x: number): number {
  if (x === 0) return 0;
  const unit = pow(10, floor(log10(abs(x)) + 1e-9) - FIGURES + 1);
  return unit <= 1 ? round(x) : round(x / unit) * round(unit);
}
