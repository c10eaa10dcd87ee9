// What the job sheet takes from the record: one deduction for each line that is not right, and one
// for all that stand empty.
import { wordsOf } from './deductions.ts';
import type { SheetMark } from './jobsheet/judge.ts';
import type { Deduction } from './marks.ts';
import type { Rules } from './rules.ts';

export function sheetDeductions(rules: Rules, marks: readonly SheetMark[]): readonly Deduction[] {
  const lost = marks.filter(({ points }) => points > 0);
  const empty = lost.filter(({ state }) => state === 'unanswered');
  const written = lost.filter(({ state }) => state !== 'unanswered').map(lineDeduction);
  return empty.length === 0 ? written : [emptyDeduction(rules, empty, marks), ...written];
}

/** What a wrong word on the air that is left costs, or none once both levels were read. */
export function residualDeductions(mark: SheetMark | null): readonly Deduction[] {
  if (mark === null || mark.points <= 0) return [];
  const { state } = mark;
  const own = state === 'could_tell' || state === 'unanswered' ? state : 'wrong';
  const rule = `residual_${own}`;
  return [{ ...lineDeduction(mark), rule, ...wordsOf(rule) }];
}

const RULE = { cancelled: 'sheet_cancelled', could_tell: 'sheet_could_tell' } as const;

function lineDeduction(mark: SheetMark): Deduction {
  const { state, id, kind, bore, points, answer, value, quantity, source, tick } = mark;
  const rule = state === 'cancelled' || state === 'could_tell' ? RULE[state] : 'sheet_wrong';
  return {
    rule,
    dimension: 'record',
    stage: null,
    points,
    max: mark.max,
    tick,
    at: null,
    value: answer,
    limit: value,
    quantity,
    line: { id, kind, bore },
    includes: [],
    source,
    ...wordsOf(rule),
  };
}

function emptyDeduction(
  rules: Rules,
  empty: readonly SheetMark[],
  all: readonly SheetMark[],
): Deduction {
  const points = empty.reduce((sum, one) => sum + one.points, 0);
  return {
    rule: 'sheet_unanswered',
    dimension: 'record',
    stage: null,
    points,
    max: all.reduce((sum, one) => sum + one.max, 0),
    tick: null,
    at: null,
    value: empty.length,
    limit: all.length,
    quantity: 'count',
    includes: [],
    source: rules.sheet.source,
    ...wordsOf('sheet_unanswered'),
  };
}
