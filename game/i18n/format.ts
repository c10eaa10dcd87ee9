// Numbers as people read them: the only place that rounds, and the only one that knows a locale.
// Everything comes in as SI without multiples; the factors are exact.

const POUND = 0.45359237;
const PSI = (POUND * 9.80665) / (0.0254 * 0.0254);
const INCH = 0.0254;
const FOOT = 12 * INCH;
const US_GALLON = 231 * INCH * INCH * INCH;

/** A unit a reading is written in: its words key, its size in SI and the decimals shown. */
export interface Unit {
  readonly key: string;
  readonly size: number;
  readonly decimals: number;
}

export const UNITS = {
  kPa: { key: 'unit.kPa', size: 1000, decimals: 0 },
  fine_kPa: { key: 'unit.kPa', size: 1000, decimals: 1 },
  fine_psi: { key: 'unit.psi', size: PSI, decimals: 2 },
  psi: { key: 'unit.psi', size: PSI, decimals: 0 },
  L_min: { key: 'unit.L_min', size: 1e-3 / 60, decimals: 0 },
  fine_L_min: { key: 'unit.L_min', size: 1e-3 / 60, decimals: 1 },
  gpm: { key: 'unit.gpm', size: US_GALLON / 60, decimals: 1 },
  mm: { key: 'unit.mm', size: 1e-3, decimals: 0 },
  fine_mm: { key: 'unit.mm', size: 1e-3, decimals: 1 },
  in: { key: 'unit.in', size: INCH, decimals: 1 },
  fine_in: { key: 'unit.in', size: INCH, decimals: 2 },
  C: { key: 'unit.C', size: 1, decimals: 1 },
  L: { key: 'unit.L', size: 1e-3, decimals: 1 },
  gal: { key: 'unit.gal', size: US_GALLON, decimals: 1 },
  m: { key: 'unit.m', size: 1, decimals: 1 },
  ft: { key: 'unit.ft', size: FOOT, decimals: 0 },
  m_s: { key: 'unit.m_s', size: 1, decimals: 2 },
  A: { key: 'unit.A', size: 1, decimals: 1 },
  V: { key: 'unit.V', size: 1, decimals: 0 },
  ft_s: { key: 'unit.ft_s', size: FOOT, decimals: 1 },
  kg: { key: 'unit.kg', size: 1, decimals: 2 },
  lb: { key: 'unit.lb', size: POUND, decimals: 2 },
  g: { key: 'unit.g', size: 1e-3, decimals: 1 },
  oz: { key: 'unit.oz', size: POUND / 16, decimals: 2 },
  J: { key: 'unit.J', size: 1, decimals: 0 },
} as const satisfies Record<string, Unit>;

let locale = 'en';
const formats = new Map<string, Intl.NumberFormat>();

export function setLocale(tag: string): void {
  locale = tag;
  formats.clear();
}

/** From here on thousands are set apart; four figures are read at a glance: 1400 L. */
const APART = 10_000;

/** A number with this many decimals; `signed` writes the sign of positive ones too. */
export function number(value: number, decimals = 0, signed = false): string {
  const apart = Math.abs(value) >= APART;
  const key = `${decimals}${signed ? '+' : ''}${apart ? ',' : ''}`;
  let format = formats.get(key);
  if (format === undefined) {
    format = new Intl.NumberFormat(locale, {
      minimumFractionDigits: decimals,
      maximumFractionDigits: decimals,
      signDisplay: signed ? 'exceptZero' : 'auto',
      useGrouping: apart,
    });
    formats.set(key, format);
  }
  const plain = Math.abs(value) < 0.5 / 10 ** decimals ? 0 : value; // No "-0".
  return format.format(plain).replace('-', '−');
}

/** At most this many decimals, without trailing zeros. */
export function figure(value: number, decimals: number): string {
  const rounded = (places: number) => Math.round(value * 10 ** places) / 10 ** places;
  let places = decimals;
  while (places > 0 && rounded(places - 1) === rounded(places)) places -= 1;
  return number(rounded(places), places);
}

/** Degrees Fahrenheit of degrees Celsius; all other units are multiples. */
export function fahrenheit(celsius: number): number {
  return 32 + 1.8 * celsius;
}

export function inUnit(value: number, unit: Unit, signed = false): string {
  return number(value / unit.size, unit.decimals, signed);
}

/** s. What takes as long as this is told in hours. */
export const LONG_s = 3 * 3600;

/** Seconds as hours, minutes and seconds of the clock: 00:12:40. */
export function clock(time_s: number): string {
  const whole = Math.floor(time_s + 1e-9);
  const part = (n: number): string => String(n).padStart(2, '0');
  return [Math.floor(whole / 3600), Math.floor(whole / 60) % 60, whole % 60].map(part).join(':');
}

/** A moment of the device's clock, "2026-11-25 14:03": no month can be taken for a day. */
export function moment(iso: string): string {
  const at = new Date(iso);
  if (Number.isNaN(at.getTime())) return iso;
  const part = (n: number): string => String(n).padStart(2, '0');
  const day = [at.getFullYear(), part(at.getMonth() + 1), part(at.getDate())].join('-');
  return `${day} ${part(at.getHours())}:${part(at.getMinutes())}`;
}

/** A list of names: "fill valve, pump". */
export function list(names: readonly string[]): string {
  return new Intl.ListFormat(locale, { type: 'unit', style: 'short' }).format(names);
}
