// Where expected values come from. Every row that claims another method or a measurement names its
// origin, which is worked out or looked up here without the engine and held against the row.
// Functions from contents to lists of faults, so that they can be tried on planted ones.
import type { Answer, Case } from './cases.ts';
import { AIR } from './origin/air.ts';
import { CUSHIONS } from './origin/cushions.ts';
import { DEFECTS } from './origin/defects.ts';
import { GRAINS } from './origin/grains.ts';
import { LAYERS } from './origin/layers.ts';
import { MIXING } from './origin/mixing.ts';
import { PIPES } from './origin/pipes.ts';
import { POWER } from './origin/power.ts';
import { printed } from './origin/printed.ts';
import { SURGE } from './origin/surge.ts';
import { WALLS } from './origin/walls.ts';
import { WATER } from './origin/water.ts';

type Calc = (input: unknown) => Answer;

/** Inputs come from a file, so their shape is the file's promise: hence the one cast. */
export const CALCS = {
  ...AIR,
  ...CUSHIONS,
  ...DEFECTS,
  ...GRAINS,
  ...LAYERS,
  ...MIXING,
  ...PIPES,
  ...POWER,
  ...SURGE,
  ...WALLS,
  ...WATER,
} as unknown as Readonly<Record<string, Calc | undefined>>;

/** Share of a row's tolerance by which its value may stand off its origin. */
const OFF_SHARE = 0.2;
/** Fills, cushions and their peaks are worked out to many digits, and held closer. */
const CLOSE = { of: /^(CHK-)?5\.[258]/, share: 0.05 } as const;
/** Widest tolerance over the last printed digit: more digits than that are not warranted. */
const DIGITS_MOST = 1000;

/** One in the last digit in which a number is written. */
export function lastDigit(x: number): number {
  const [digits = '', power = '0'] = Math.abs(x).toExponential().split('e');
  return 10 ** (Number(power) - Math.max(0, digits.length - 2));
}

const tolerances = ({ expected, tolerance }: Case): number[] =>
  [expected].flat().map((want) => tolerance.abs ?? tolerance.rel! * Math.abs(want));

/** The values that a row's origin gives, by itself. @throws where it gives none. */
export function valuesOf({ id, input, origin }: Case): readonly number[] {
  if (origin === undefined) throw new Error(`${id} names no origin`);
  if ('calc' in origin) {
    const calc = CALCS[origin.calc];
    if (calc === undefined) throw new Error(`${id}: nothing works out ${origin.calc}`);
    return [calc(input)].flat();
  }
  if ('table' in origin) return origin.at.flatMap((at) => printed(origin.table, at));
  if ('bounds' in origin) return [(origin.bounds[0] + origin.bounds[1]) / 2];
  return [origin.exact];
}

/** That a row's expected values are those of its origin, to the digits they are written with. */
export function originFaults(row: Case): string[] {
  if (row.kind === 'transcribed' && row.origin === undefined) return [];
  let values: readonly number[];
  try {
    values = valuesOf(row);
  } catch (error) {
    return [String(error)];
  }
  const want = [row.expected].flat();
  if (values.length !== want.length) return [`${row.id}: ${values.length} for ${want.length}`];
  const most = tolerances(row);
  const off = want.flatMap((w, k) => {
    const share = CLOSE.of.test(row.id) ? CLOSE.share : OFF_SHARE;
    const near = Math.min(0.5000001 * lastDigit(w), share * most[k]!);
    return Math.abs(values[k]! - w) <= near + 1e-12 * Math.abs(w)
      ? []
      : [`${row.id}: ${w}, by its origin ${values[k]}`];
  });
  return [...off, ...shapeFaults(row, most)];
}

/** Bounds are those of the tolerance; what is exact is whole. */
function shapeFaults({ id, origin }: Case, most: readonly number[]): string[] {
  if (origin === undefined) return [];
  if ('bounds' in origin) {
    const half = (origin.bounds[1] - origin.bounds[0]) / 2;
    return Math.abs(half / most[0]! - 1) < 1e-9 ? [] : [`${id}: bounds are not its tolerance`];
  }
  if ('exact' in origin) return Number.isInteger(origin.exact) ? [] : [`${id}: not whole`];
  return [];
}

/** Values written with more digits than their tolerance warrants. */
export function digitFaults(row: Case): string[] {
  const most = tolerances(row);
  return [row.expected]
    .flat()
    .flatMap((want, k) =>
      want === 0 || most[k]! <= DIGITS_MOST * lastDigit(want)
        ? []
        : [`${row.id}: ${want} for a tolerance of ${most[k]}`],
    );
}

/**
 * Significant digits from which two values that agree in all of them are no chance: of another
 * method, and of the same formula worked out by another program.
 */
const CHANCE = { other: 7, same: 12 } as const;

/** Values that are the engine's own answer, in every digit of many. */
export function copyFaults(row: Case, got: readonly number[]): string[] {
  const most = row.kind === 'transcribed' ? CHANCE.same : CHANCE.other;
  return [row.expected].flat().flatMap((want, k) => {
    const digits = want.toExponential().split('e')[0]!.replace(/[-.]/g, '').length;
    const same = got[k]?.toPrecision(digits) === want.toPrecision(digits);
    return same && digits >= most ? [`${row.id}: ${want} is what the engine says`] : [];
  });
}

interface Text {
  readonly path: string;
  readonly text: string;
}

const IMPORT = /(?:\bfrom\s*|\bimport\s*\(?\s*)['"]([^'"]+)['"]/g;
const REACH = /\b(require|process|globalThis|eval|Function|fetch|import\s*\()/;

/** Files of origin/ that import, or reach for, anything but each other. */
export function reachFaults(files: readonly Text[]): string[] {
  return files.flatMap(({ path, text }) => {
    const code = text.replace(/\/\/[^\n]*|\/\*[\s\S]*?\*\//g, '');
    if (!path.endsWith('.ts')) return [];
    const from = [...code.matchAll(IMPORT)].map((m) => m[1]!);
    const away = from.filter((name) => !/^\.\/[\w-]+\.(ts|json)$/.test(name));
    const reach = REACH.exec(code);
    return [...away, ...(reach === null ? [] : [reach[0]])].map((what) => `${path}: ${what}`);
  });
}

/** Calculations that hold the digits of a value that they are to work out. */
export function literalFaults(rows: readonly Case[], files: readonly Text[]): string[] {
  return rows.flatMap((row) => {
    if (row.origin === undefined || !('calc' in row.origin)) return [];
    const name = row.origin.calc.split('.')[0]!;
    const text = files.find(({ path }) => path.endsWith(`${name}.ts`))?.text ?? '';
    return [row.expected].flat().flatMap((want) => {
      const digits = String(Math.abs(want));
      if (digits.replace(/[.0]/g, '').length < 3) return [];
      const literal = new RegExp(`(?<![\\d.])${digits.replace('.', '\\.')}(?![\\d.])`);
      return literal.test(text) ? [`${row.id}: ${digits} stands in ${name}.ts`] : [];
    });
  });
}

/** Copies of an input, each with one of its numbers a twentieth larger. */
function* nudged(input: unknown): Generator {
  const text = JSON.stringify(input);
  for (const at of text.matchAll(/(?<=[:[,])-?\d+(\.\d+)?(e-?\d+)?(?=[,\]}])/g)) {
    const before = text.slice(0, at.index);
    const larger = String(Number(at[0]) * 1.05 || 0.05);
    yield JSON.parse(before + larger + text.slice(at.index + at[0].length));
  }
}

/** Calculations that take an input and answer the same whatever it is. */
export function deafFaults(row: Case, calcs = CALCS): string[] {
  if (row.origin === undefined || !('calc' in row.origin)) return [];
  const calc = calcs[row.origin.calc]!;
  if (calc.length === 0) return [];
  const first = JSON.stringify([calc(row.input)].flat());
  for (const input of nudged(row.input)) {
    try {
      if (JSON.stringify([calc(input)].flat()) !== first) return [];
    } catch {
      return []; // It looks up what is printed, and nothing is printed for that.
    }
  }
  return [`${row.id}: heeds no input`];
}
