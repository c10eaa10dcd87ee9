// The job sheet as the page offers it: its lines with names and units, what was answered, and
// answers as commands. What a line should say does not pass through here.
import { SHEET_UNIT_SI, type Command, type Fact, type LineKind } from '../sim/index.ts';
import type { Scenario, SheetKind, SheetLine, SheetMark } from '../sim/index.ts';
import { figure, UNITS, type Unit } from './i18n/format.ts';
import { t, upper, type Lexicon } from './i18n/index.ts';
import { asGiven, withUnit, word } from './readings.ts';

/** What an answer is written in; the decimals are those that say something. */
const UNIT_OF: Readonly<Record<LineKind, Unit>> = {
  residual: { ...UNITS.L, decimals: 2 },
  flow: { key: 'unit.L_s', size: SHEET_UNIT_SI.flow, decimals: 3 },
  total: { key: 'unit.L_s', size: SHEET_UNIT_SI.total, decimals: 3 },
  head: UNITS.m,
  banks: { key: 'unit.banks', size: 1, decimals: 0 },
  volume: UNITS.L,
  make_up: { key: 'unit.min', size: SHEET_UNIT_SI.make_up, decimals: 1 },
  antifreeze: UNITS.L,
  drop: UNITS.fine_mm,
  test: UNITS.kPa,
  leave: UNITS.kPa,
};

/** The same in another unit, where the trade or an instrument has one. */
const SECOND: Readonly<Partial<Record<LineKind, Unit>>> = {
  flow: UNITS.fine_L_min,
  total: UNITS.fine_L_min,
  head: UNITS.ft,
  volume: UNITS.gal,
  antifreeze: UNITS.gal,
  drop: UNITS.fine_in,
  test: UNITS.psi,
  leave: UNITS.psi,
};

export const unitWordOf = (kind: LineKind): string => word(UNIT_OF[kind].key);

/** An answer as it stands on paper, SI, and when it was written. */
export interface WrittenAnswer {
  readonly value: number | null;
  readonly tick: number;
}

/** All that was answered on a line, the last one last; `waiting` is written at the next tick. */
export function writtenAnswers(
  line: LineKind,
  facts: readonly Pick<Fact, 'kind'>[],
  waiting: readonly Command[],
  now: number,
): WrittenAnswer[] {
  const done = (facts as readonly Fact[]).flatMap((fact) =>
    fact.kind === 'answered' && fact.line === line
      ? [{ value: fact.value, tick: fact.tick }]
      : []);
  const asked = waiting.flatMap((command) => {
    if (command.kind !== 'answer' || command.line !== line) return [];
    const milli = command.value_milli;
    return [{ value: milli === null ? null : (milli * SHEET_UNIT_SI[line]) / 1000, tick: now }];
  });
  return [...done, ...asked];
}

/** A line by its kind, and the bore that a line of flow is for. */
export interface Named {
  readonly kind: LineKind;
  readonly bore: number | null;
}

export function lineName({ kind, bore }: Named, lex: Lexicon): string {
  const wide = bore === null ? '' : withUnit(bore, UNITS.fine_mm);
  return lex.say(`sheet_line.${kind}`, { bore: wide });
}

export interface Field {
  readonly id: string;
  readonly kind: SheetKind;
  readonly name: string;
  /** Word of its unit; of banks what is counted. */
  readonly unit: string;
}

/** Lines of the job's sheet; none of a job without one. */
export function fieldsOf({ job, links }: Scenario, lex: Lexicon): Field[] {
  return (job?.sheet?.lines ?? []).map((line) => {
    const { id, kind } = line;
    return {
      ...{ id, kind, name: upper(lineName({ kind, bore: boreOf(line, links) }, lex)) },
      unit: word(UNIT_OF[kind].key),
    };
  });
}

function boreOf(line: SheetLine, links: Scenario['links']): number | null {
  if (line.kind !== 'flow') return null;
  const link = links.find(({ id }) => id === line.link);
  return link !== undefined && 'bore_mm' in link ? link.bore_mm / 1000 : null;
}

/** "1.43 L/s (85.8 L/min)"; what cannot be told says so. */
export function answerText(kind: LineKind, value: number | null): string {
  if (value === null) return t('jobsheet.cannot_tell');
  if (kind === 'banks' && value < 2) return t(value === 1 ? 'jobsheet.at_once' : 'jobsheet.never');
  const unit = UNIT_OF[kind];
  const first = asGiven(value, unit);
  const second = SECOND[kind];
  return second === undefined ? first : t('unit.both', { first, second: asGiven(value, second) });
}

/** What stands on each line, SI: answered, or asked for at the next tick. */
export function answersIn(
  { job }: Scenario,
  facts: readonly Pick<Fact, 'kind'>[],
  waiting: readonly Command[],
): ReadonlyMap<string, number | null> {
  const found = new Map<string, number | null>();
  for (const fact of facts as readonly Fact[]) {
    if (fact.kind === 'answered') found.set(fact.line, fact.value);
  }
  for (const command of waiting) {
    if (command.kind !== 'answer') continue;
    const line = job?.sheet?.lines.find(({ id }) => id === command.line);
    const milli = command.value_milli;
    if (line === undefined) continue;
    found.set(line.id, milli === null ? null : (milli * SHEET_UNIT_SI[line.kind]) / 1000);
  }
  return found;
}

/** Value in the unit of its line, as one would type it; empty where nothing can be told. */
export function typedText(kind: SheetKind, value: number | null): string {
  if (value === null) return '';
  const milli = Math.round((1000 * value) / SHEET_UNIT_SI[kind]);
  return String(milli / 1000);
}

/** What is right: one number, from one to another, or that it cannot be told. */
export function rangeText(mark: SheetMark): string {
  const { kind, value, from, to, cannot_tell } = mark;
  if (kind === 'banks') return answerText(kind, value);
  const range = t('jobsheet.right_range', {
    value: answerText(kind, value), from: bare(kind, from), to: bare(kind, to),
  });
  return cannot_tell ? t('jobsheet.or_cannot_tell', { range }) : range;
}

const bare = (kind: LineKind, value: number): string =>
  figure(value / UNIT_OF[kind].size, UNIT_OF[kind].decimals);
