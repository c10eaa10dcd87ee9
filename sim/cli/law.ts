// The verb `law`: any law of the engine, by name, on rows of arguments. Rows are checked all
// before the first is worked out; a bad one is told with its place.
import { AssertionError } from '../base/assert.ts';
import { InputFaults, type Fault } from '../fault.ts';
import type { Answer } from './answer.ts';
import { read, refuse } from './files.ts';
import type { Options } from './files.ts';
import type { ArgSpec, LawEntry, PairsSpec, Result } from './laws/entry.ts';
import { DEFECT_LAWS } from './laws/defects.ts';
import { FLUID_LAWS } from './laws/fluids.ts';
import { GAS_LAWS } from './laws/gas.ts';
import { HEAT_LAWS } from './laws/heat.ts';
import { MACHINE_LAWS } from './laws/machines.ts';
import { MOTOR_LAWS } from './laws/motor.ts';
import { PIPE_LAWS } from './laws/pipes.ts';
import { SAMPLE_LAWS } from './laws/samples.ts';
import { isWithin, RANGES, rangeText, type Range } from './laws/ranges.ts';

export const LAWS: Readonly<Record<string, LawEntry>> = {
  ...FLUID_LAWS,
  ...PIPE_LAWS,
  ...MACHINE_LAWS,
  ...GAS_LAWS,
  ...HEAT_LAWS,
  ...MOTOR_LAWS,
  ...SAMPLE_LAWS,
  ...DEFECT_LAWS,
};

/** Functions of the law files that are no entry, and why. */
export const LEFT_OUT: Readonly<Record<string, string>> = {
  'friction.frictionInto': 'the same numbers as frictionFactor and frictionFactorSlope',
  'alcohol.isAlcohol': 'gives no number: it asks a name',
  'refraction.fractionByIndex': 'gives nothing where a scale ends: refractiveIndex inverted',
  'gas.drift': 'takes and fills one list: gasDrift is the same by name',
  'elastic.peCreep': 'gives a list: peCreepCompliance sums it',
  'pump.makePumpCurve': 'gives no number: pumpHead takes the points of a curve',
};

type Row = Readonly<Record<string, unknown>>;

const isNumber = (x: unknown): x is number => typeof x === 'number' && Number.isFinite(x);
const isList = (x: unknown): x is readonly unknown[] => Array.isArray(x);

/** Where a number may lie. @throws Error where nothing says. */
export function rangeOf(key: string, spec: ArgSpec): Range {
  const own = typeof spec === 'object' && 'range' in spec ? spec.range : undefined;
  const range = own ?? RANGES[key];
  if (range === undefined) throw new Error(`nobody says what ${key} may be`);
  return range;
}

/** What an argument may be, in words. */
export function allowed(key: string, spec: ArgSpec): string {
  if (typeof spec === 'object' && 'one_of' in spec) return `one of ${spec.one_of.join(', ')}`;
  if (typeof spec === 'object' && 'pairs_of' in spec) {
    const rising = spec.both_rise ? 'all rising' : 'first numbers rising';
    return `a list of ${spec.least} or more pairs of numbers from 0, ${rising}`;
  }
  return `a number ${rangeText(rangeOf(key, spec))}`.trimEnd();
}

function arePairs(x: unknown, { least, both_rise }: PairsSpec): boolean {
  if (!isList(x) || x.length < least) return false;
  const pairs = x as readonly (readonly unknown[])[];
  return pairs.every((pair, k) => {
    if (!isList(pair) || pair.length !== 2) return false;
    return pair.every((n, side) => {
      const before = k === 0 ? -1 : (pairs[k - 1]![side] as number);
      return isNumber(n) && n >= 0 && (n > before || (side === 1 && !both_rise));
    });
  });
}

function isAllowed(key: string, spec: ArgSpec, value: unknown): boolean {
  if (typeof spec === 'object' && 'one_of' in spec) {
    return typeof value === 'string' && spec.one_of.includes(value);
  }
  if (typeof spec === 'object' && 'pairs_of' in spec) return arePairs(value, spec);
  return isNumber(value) && isWithin(value, rangeOf(key, spec));
}

function rowFaults(row: unknown, path: string, { args }: LawEntry): Fault[] {
  if (typeof row !== 'object' || row === null || isList(row)) {
    return [{ path, message: 'must be an object { } of named arguments' }];
  }
  const given = row as Row;
  const faults: Fault[] = [];
  for (const [key, spec] of Object.entries(args)) {
    const mayMiss = typeof spec === 'object' && 'unless_given' in spec;
    if (!Object.hasOwn(given, key)) {
      if (!mayMiss) faults.push({ path: `${path}.${key}`, message: 'is missing' });
      continue;
    }
    if (isAllowed(key, spec, given[key])) continue;
    faults.push({ path: `${path}.${key}`, message: `must be ${allowed(key, spec)}` });
  }
  for (const key of Object.keys(given)) {
    if (Object.hasOwn(args, key)) continue;
    const takes = Object.keys(args).join(', ');
    faults.push({ path: `${path}.${key}`, message: `is no argument: it takes ${takes}` });
  }
  return faults;
}

function complete(row: Row, { args }: LawEntry): Row {
  const values: Record<string, unknown> = {};
  for (const [key, spec] of Object.entries(args)) {
    const otherwise = typeof spec === 'object' && 'unless_given' in spec ? spec.unless_given : 0;
    values[key] = Object.hasOwn(row, key) ? row[key] : otherwise;
  }
  return values;
}

/** A law's answer to one row. @throws InputFaults where it has none. */
function resultOf(entry: LawEntry, row: Row, path: string): Result {
  let result: Result;
  try {
    result = entry.call(complete(row, entry));
  } catch (error) {
    if (error instanceof AssertionError) throw new InputFaults([{ path, message: error.message }]);
    throw error;
  }
  const parts = typeof result === 'number' ? [result] : Object.values(result);
  if (parts.every(isNumber)) return result;
  throw new InputFaults([{ path, message: 'has no finite result' }]);
}

/** Every row with its result. @throws InputFaults with every bad row. */
export function lawRows(entry: LawEntry, json: unknown): unknown[] {
  if (!isList(json)) return refuse('(whole)', 'must be a list [ ] of rows');
  const faults = json.flatMap((row, k) => rowFaults(row, `[${k}]`, entry));
  if (faults.length > 0) throw new InputFaults(faults);
  const rows: unknown[] = [];
  (json as readonly Row[]).forEach((row, k) => {
    try {
      rows.push({ ...row, result: resultOf(entry, row, `[${k}]`) });
    } catch (error) {
      if (!(error instanceof InputFaults)) throw error;
      faults.push(...error.faults);
    }
  });
  if (faults.length > 0) throw new InputFaults(faults);
  return rows;
}

function unitOf(spec: ArgSpec): string | null {
  if (typeof spec === 'string') return spec;
  if ('pairs_of' in spec) return spec.pairs_of.join(', ');
  return 'unit' in spec ? spec.unit : null;
}

/** A law as the list prints it. */
export function described([name, { args, result, source }]: [string, LawEntry]): object {
  return {
    name,
    arguments: Object.entries(args).map(([key, spec]) => ({
      name: key,
      unit: unitOf(spec),
      allowed: allowed(key, spec),
      ...(typeof spec === 'object' && 'unless_given' in spec
        ? { unless_given: spec.unless_given }
        : {}),
    })),
    results: Object.entries(typeof result === 'string' ? { result } : result).map(
      ([part, unit]) => ({ name: part, unit }),
    ),
    source,
  };
}

export function lawVerb(name: string | undefined, options: Options): Answer {
  if (options.list === true) {
    if (name !== undefined || options.in !== undefined) refuse('--list', 'stands alone');
    return { code: 0, json: Object.entries(LAWS).map(described) };
  }
  if (name === undefined) return refuse('law', 'needs the name of a law, or --list');
  const entry = Object.hasOwn(LAWS, name) ? LAWS[name] : undefined;
  if (entry === undefined) return refuse(name, 'is no law: see law --list');
  if (options.in === undefined) return refuse('--in', 'needs a file of rows');
  return { code: 0, json: read(options.in, (json) => lawRows(entry, json)) };
}
