// The sheet of readings as the page offers it: its lines with their units, what was written and
// when, and numbers as people type them. Only whole thousandths of a unit leave here.
import type { Command, Fact, InstrumentSpec, Scenario } from '../sim/index.ts';
import { number, UNITS, type Unit } from './i18n/format.ts';
import { isWord, t } from './i18n/index.ts';

export interface Line {
  readonly id: string;
  /** The instrument it is read from; null where none is named. */
  readonly reading: string | null;
  /** Null where there is no instrument: then the name of the line says what is meant. */
  readonly unit: Unit | null;
  /** True where values below nothing are read, so that a keypad needs a minus. */
  readonly signed: boolean;
}

/** The units that readings are shown in, by kinds of instruments that show a number. */
const UNIT_OF: Readonly<Partial<Record<InstrumentSpec['kind'], Unit>>> = {
  pressure: UNITS.kPa,
  difference: UNITS.fine_kPa,
  flow: UNITS.L_min,
  level: UNITS.mm,
  meter: UNITS.L,
  temperature: UNITS.C,
  current: UNITS.A,
  voltage: UNITS.V,
};

function isSigned(spec: InstrumentSpec | undefined): boolean {
  if (spec?.kind === 'pressure') return (spec.from_kPa ?? 0) < 0;
  return spec === undefined || spec.kind === 'temperature' || spec.kind === 'difference';
}

export function linesOf({ record, instruments }: Scenario): Line[] {
  return record.map(({ id, reading }) => {
    const spec = instruments.find((one) => one.id === reading);
    const unit = spec === undefined ? null : (UNIT_OF[spec.kind] ?? null);
    return { id, reading: reading ?? null, unit, signed: isSigned(spec) };
  });
}

export function unitWord({ unit }: Line): string {
  return unit !== null && isWord(unit.key) ? t(unit.key) : '';
}

/** One value on the sheet, in thousandths of the line's unit, and when it was written. */
export interface Written {
  readonly value_milli: number;
  readonly tick: number;
}

/** Thousandths of the line's unit in a value in SI; for notes it is whole to begin with. */
export function milliIn(line: Line, value: number): number {
  return Math.round((1000 * value) / (line.unit?.size ?? 1));
}

/** As it was written: "95.5 kPa". */
export function writtenText(line: Line, value_milli: number): string {
  const decimals = [1000, 100, 10].findIndex((part) => value_milli % part === 0);
  const value = number(value_milli / 1000, decimals < 0 ? 3 : decimals);
  return line.unit === null ? value : t('unit.pair', { value, unit: unitWord(line) });
}

/** All that was written on a line, the last one last; `waiting` is written at the next tick. */
export function writtenOn(
  line: Line,
  facts: readonly Fact[],
  waiting: readonly Command[],
  now: number,
): Written[] {
  const done = facts.flatMap((fact) =>
    fact.kind === 'noted' && fact.entry === line.id
      ? [{ value_milli: milliIn(line, fact.value), tick: fact.tick }]
      : []);
  const asked = waiting.flatMap((command) =>
    command.kind === 'note' && command.entry === line.id
      ? [{ value_milli: command.value_milli, tick: now }]
      : []);
  return [...done, ...asked];
}

/** Why something typed is not taken. */
export type TypedFault = 'empty' | 'no_number' | 'which' | 'too_fine' | 'too_large';

export type Typed =
  | { readonly value_milli: number; readonly fault: null }
  | { readonly value_milli: null; readonly fault: TypedFault };

/** Thousandths; what the engine takes at most. */
const MILLI_MOST = 1e9;
const SPACES = /[\s\u00a0\u2009\u202f]/g;
/** Groups of three with one kind of mark, and a decimal mark of the other kind. */
const GROUPED = [
  { shape: /^\d{1,3}(,\d{3})+\.\d+$/, group: /,/g, mark: '.' },
  { shape: /^\d{1,3}(\.\d{3})+,\d+$/, group: /\./g, mark: ',' },
  { shape: /^\d{1,3}(,\d{3}){2,}$/, group: /,/g, mark: '.' },
  { shape: /^\d{1,3}(\.\d{3}){2,}$/, group: /\./g, mark: ',' },
] as const;
/** "1,234" is more than a thousand to one and a little more than one to another. */
const EITHER = /^[1-9]\d{0,2},\d{3}$/;

const refused = (fault: TypedFault): Typed => ({ value_milli: null, fault });

/** The digits with a point for the decimals. */
function plain(digits: string): string {
  const found = GROUPED.find(({ shape }) => shape.test(digits));
  if (found === undefined) return digits.replace(',', '.');
  return digits.replace(found.group, '').replace(found.mark, '.');
}

/**
 * A number as typed, in thousandths: with a point or a comma, with spaces, with either minus, with
 * the unit of the line behind it or without.
 */
export function readTyped(text: string, unit: string): Typed {
  const all = text.replace(SPACES, '').replace(/[\u2212\u2013]/, '-');
  const ends = unit !== '' && all.toLowerCase().endsWith(unit.toLowerCase());
  const bare = ends ? all.slice(0, -unit.length) : all;
  if (bare === '') return refused('empty');
  const sign = bare.startsWith('-') ? -1 : 1;
  const digits = bare.replace(/^[+-]/, '');
  if (EITHER.test(digits)) return refused('which');
  const found = /^(\d*)(?:\.(\d*))?$/.exec(plain(digits));
  const [whole = '', decimals = ''] = found?.slice(1) ?? [];
  if (found === null || whole + decimals === '') return refused('no_number');
  const fine = decimals.replace(/0+$/, '');
  if (fine.length > 3) return refused('too_fine');
  const value_milli = Number(whole) * 1000 + Number(fine.padEnd(3, '0'));
  if (value_milli > MILLI_MOST) return refused('too_large');
  return { value_milli: value_milli === 0 ? 0 : sign * value_milli, fault: null };
}
