// A reading of the panel as it is written: value, unit, second unit and a remark. Pure text; what
// cannot be read off an instrument does not pass through here.
import type { Reading, SampleReading, Scenario } from '../sim/index.ts';
import { fahrenheit, figure, inUnit, number, UNITS, type Unit } from './i18n/format.ts';
import { isWord, t, type Lexicon } from './i18n/index.ts';

export interface ReadingText {
  readonly id: string;
  readonly kind: Reading['kind'];
  readonly name: string;
  /** What stands large, and its unit; words have none. */
  readonly value: string;
  readonly unit: string;
  /** The same in the other unit, or a remark. */
  readonly second: string;
  readonly remark: string;
}

/** What an instrument has to say, without its name. */
type Written = Omit<ReadingText, 'id' | 'kind' | 'name'>;
type Measured = Extract<Reading, { kind: 'pressure' | 'difference' | 'flow' }>;

const FIRST = { pressure: UNITS.kPa, difference: UNITS.fine_kPa, flow: UNITS.L_min } as const;
const SECOND = { pressure: UNITS.psi, difference: UNITS.fine_psi, flow: UNITS.gpm } as const;

/** What is read in one unit everywhere. */
const ALIKE = { current: UNITS.A, voltage: UNITS.V } as const;

/** Decimals that one division of an instrument's scale asks for, as far as a sheet takes them. */
export function decimalsOf({ instruments }: Pick<Scenario, 'instruments'>, id: string): number {
  const spec = instruments.find((one) => one.id === id) ?? {};
  const found = Object.entries(spec).find(([key]) => key.startsWith('resolution_'));
  const step = Number(found?.[1] ?? 1);
  return [0, 1, 2].find((n) => Math.abs(step - Number(step.toFixed(n))) < 1e-9) ?? 3;
}

/** A unit with the decimals that are asked for, where it has less. */
function finer(unit: Unit, decimals: number): Unit {
  return decimals > unit.decimals ? { ...unit, decimals } : unit;
}

/** Word of a unit, or what stands for it. */
export const word = (key: string): string => (isWord(key) ? t(key) : key);

export const withUnit = (value: number, unit: Unit): string =>
  t('unit.pair', { value: inUnit(value, unit), unit: word(unit.key) });

/** The same without zeros at its end: what is given or asked for, not measured. */
export const asGiven = (value: number, unit: Unit): string =>
  t('unit.pair', { value: figure(value / unit.size, unit.decimals), unit: word(unit.key) });

/** "95 kPa (14 psi)". */
export const inBoth = (value: number, first: Unit, second: Unit): string =>
  t('unit.both', { first: withUnit(value, first), second: withUnit(value, second) });

function measured(reading: Measured, decimals: number): Written {
  const [first, second] = [finer(FIRST[reading.kind], decimals), SECOND[reading.kind]];
  const unit = word(first.key);
  if (reading.off_scale === 0) {
    const other = withUnit(reading.value, second);
    return { value: inUnit(reading.value, first), unit, second: other, remark: '' };
  }
  const from = reading.kind === 'pressure' ? (reading.from ?? 0) : 0;
  const end = reading.off_scale > 0 ? reading.range : from;
  const beyond = reading.off_scale > 0 ? 'readings.beyond_above' : 'readings.beyond_below';
  return {
    value: t(beyond, { value: inUnit(end, first) }), unit,
    second: t(beyond, { value: withUnit(end, second) }), remark: '',
  };
}

type Alike = Extract<Reading, { kind: 'current' | 'voltage' }>;

function alike(reading: Alike, decimals: number): Written {
  const one = finer(ALIKE[reading.kind], decimals);
  const value = inUnit(reading.value, one);
  const beyond = t('readings.beyond_above', { value });
  const shown = reading.off_scale > 0 ? beyond : value;
  return { value: shown, unit: word(one.key), second: '', remark: '' };
}

const DECIMALS = { density: 3, freeze: 1, index: 4, temperature: 1 } as const;
const inFahrenheit = (t_C: number): string =>
  t('unit.pair', { value: number(fahrenheit(t_C)), unit: t('unit.F') });

/** What an instrument makes of the sample in a cup; nothing where there is none. */
function ofSample(reading: SampleReading, decimals: number): Written {
  const { kind, value, off_scale } = reading;
  if (value === null) {
    return { value: t('readings.none'), unit: '', second: t('readings.no_sample'), remark: '' };
  }
  const degrees = kind === 'freeze' || kind === 'temperature';
  const fine = kind === 'temperature' ? decimals : 0;
  const written = number(value, Math.max(DECIMALS[kind], fine));
  const beyond = off_scale > 0 ? 'readings.beyond_above' : 'readings.beyond_below';
  const shown = (text: string): string => (off_scale === 0 ? text : t(beyond, { value: text }));
  return {
    value: shown(written),
    unit: degrees ? t('unit.C') : '',
    second: degrees ? shown(inFahrenheit(value)) : '',
    remark: kind === 'freeze' ? t('readings.by_its_scale') : '',
  };
}

const MOVING = {
  '1': 'readings.moving',
  '0': 'readings.standing',
  '-1': 'readings.moving_back',
} as const;

const GRIT = { some: 'grit.some', much: 'grit.much' } as const;

/** `decimals`: how many its scale asks for. What is shown is written down, so none may be lost. */
export function readingText(reading: Reading, lex: Lexicon, decimals = 0): ReadingText {
  const base = { id: reading.id, kind: reading.kind, name: lex.say(`reading.${reading.id}`) };
  switch (reading.kind) {
    case 'pressure':
    case 'difference':
    case 'flow':
      return { ...base, ...measured(reading, decimals) };
    case 'meter': {
      const second = withUnit(reading.value, UNITS.gal);
      const value = inUnit(reading.value, finer(UNITS.L, decimals));
      return { ...base, value, unit: t('unit.L'), second, remark: '' };
    }
    case 'current':
    case 'voltage':
      return { ...base, ...alike(reading, decimals) };
    case 'level': {
      const { value, mark } = reading;
      const change = mark === null ? '' : `${inUnit(value - mark, UNITS.mm, true)} ${t('unit.mm')}`;
      const remark = mark === null ? t('readings.marker_none') : t('readings.marker', { change });
      return {
        ...base, value: inUnit(value, finer(UNITS.mm, decimals)), unit: t('unit.mm'),
        second: withUnit(value, UNITS.in), remark,
      };
    }
    case 'sight': {
      const moving = String(reading.moving) as keyof typeof MOVING;
      const sight = word(`sight.${reading.value}`);
      const value = reading.grit === 'none'
        ? sight
        : t('readings.with_grit', { sight, grit: t(GRIT[reading.grit]) });
      return { ...base, value, unit: '', second: t(MOVING[moving]), remark: '' };
    }
    case 'density':
    case 'freeze':
    case 'index':
    case 'temperature':
      return { ...base, ...ofSample(reading, decimals) };
    case 'note': {
      const value = word(`note.${reading.value}`);
      return { ...base, value, unit: '', second: word(`note_why.${reading.value}`), remark: '' };
    }
  }
}

/** The reading in one breath: "discharge gauge, 95 kPa". */
export function spoken(text: ReadingText): string {
  const value = text.unit === '' ? text.value : `${text.value} ${text.unit}`;
  return `${text.name}, ${value}`;
}
