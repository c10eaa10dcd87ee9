// Files and arguments of the command line: each is read, checked and refused with its name.
import { accessSync, constants, existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { writeFileSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { InputFaults, type Fault } from '../fault.ts';
import { isAttempt, parseAttempt, parseRecord } from '../record-schema.ts';
import type { RunRecord } from '../run.ts';
import { parseScenario, type Scenario } from '../scenario.ts';

/** A fault in one file of those given. */
export interface FileFault extends Fault {
  readonly file: string;
}

export interface Options {
  readonly script?: string | undefined;
  readonly phase?: string | undefined;
  readonly record?: string | undefined;
  readonly scenario?: string | undefined;
  readonly rules?: string | undefined;
  readonly out?: string | undefined;
  readonly answers?: string | undefined;
  readonly until?: string | undefined;
  readonly seed?: string | undefined;
  readonly every?: string | undefined;
  readonly set?: readonly string[] | undefined;
  readonly in?: string | undefined;
  readonly list?: boolean | undefined;
  readonly rounds?: string | undefined;
  readonly player?: string | undefined;
  readonly seeds?: string | undefined;
  readonly why?: boolean | undefined;
}

type Text = string | undefined;

export function refuse(path: string, message: string): never {
  throw new InputFaults([{ path, message }]);
}

/** What each part gives. @throws InputFaults with the faults of every part, not the first's. */
export function together<T extends readonly unknown[]>(
  ...parts: { readonly [K in keyof T]: () => T[K] }
): T {
  const faults: Fault[] = [];
  const given = parts.map((part) => {
    try {
      return part();
    } catch (error) {
      if (!(error instanceof InputFaults)) throw error;
      faults.push(...error.faults);
      return undefined;
    }
  });
  if (faults.length > 0) throw new InputFaults(faults);
  return given as unknown as T;
}

export function recordIn(json: unknown, scenario?: Scenario): RunRecord {
  return isAttempt(json) ? parseAttempt(json, scenario).record : parseRecord(json, scenario);
}

interface RecordFile {
  readonly record: RunRecord;
  readonly scenario: Scenario;
  readonly at: string;
}

/** A record with the scenario it belongs to, and where that stands. */
export function recordFile(file: string, options: Options): RecordFile {
  const inner = (json: unknown): unknown => (isAttempt(json) ? memberOf(json, 'record') : json);
  const id = read(file, (json) => memberOf(inner(json), 'scenario'));
  const at = scenarioFile(file, id, options);
  // Without its scenario the record can still be told its own faults.
  if (at === null) return notFound(file, read(file, (json) => recordIn(json)).scenario);
  const scenario = read(at, parseScenario);
  return { record: read(file, (json) => recordIn(json, scenario)), scenario, at };
}

export function notFound(file: string, id: string): never {
  return refuse(file, `belongs to scenario "${id}", which was not found: give --scenario`);
}

/** The file named, or the first that holds the scenario `id`; null where none does. */
export function scenarioFile(beside: string, id: unknown, options: Options): string | null {
  if (options.scenario !== undefined) return options.scenario;
  const folders = existsSync('levels') ? readdirSync('levels') : [];
  const places = [dirname(beside), ...folders.map((folder) => join('levels', folder))];
  const paths = places.map((place) => join(place, 'scenario.json')).filter((p) => existsSync(p));
  return paths.find((path) => read(path, (json) => memberOf(json, 'id')) === id) ?? null;
}

export function memberOf(json: unknown, key: string): unknown {
  return (json as Record<string, unknown> | null)?.[key];
}

/** Reads and checks a file; every fault in it says which file. */
export function read<T>(file: string, parse: (json: unknown) => T): T {
  let text: string;
  try {
    text = readFileSync(file, 'utf8');
  } catch (error) {
    return refuse(file, `cannot be read: ${codeOf(error)}`);
  }
  let json: unknown;
  try {
    json = JSON.parse(text);
  } catch (error) {
    return refuse(file, `is not JSON: ${error instanceof Error ? error.message : ''}`);
  }
  try {
    return parse(json);
  } catch (error) {
    if (!(error instanceof InputFaults)) throw error;
    throw new InputFaults(error.faults.map((fault): FileFault => ({ ...fault, file })));
  }
}

/**
 * Refuses, before the work is done, a place that could not be written after it, or that is one
 * of the files `read` from. @throws InputFaults that name the place.
 */
export function checkPlace(path: Text, readFrom: readonly Text[]): void {
  if (path === undefined) return;
  if (readFrom.some((file) => file !== undefined && resolve(file) === resolve(path))) {
    refuse(path, 'is a file that is read: it would be written over');
  }
  try {
    const there = existsSync(path);
    if (there && statSync(path).isDirectory()) refuse(path, 'is a folder');
    accessSync(there ? path : dirname(path), constants.W_OK);
    if (!there && !statSync(dirname(path)).isDirectory()) refuse(path, 'is not in a folder');
  } catch (error) {
    if (error instanceof InputFaults) throw error;
    const missing = (error as { code?: unknown }).code === 'ENOENT';
    refuse(path, `cannot be written: ${missing ? 'there is no such folder' : codeOf(error)}`);
  }
}

/** Writes a file. @throws InputFaults that name it where it cannot be written. */
export function written(path: string, content: unknown): void {
  try {
    writeFileSync(path, typeof content === 'string' ? content : `${JSON.stringify(content)}\n`);
  } catch (error) {
    refuse(path, `cannot be written: ${codeOf(error)}`);
  }
}

export function codeOf(error: unknown): string {
  const code = (error as { code?: unknown }).code;
  return code === 'ENOENT' ? 'there is no such file' : String(code ?? error);
}

export function wholeNumber(text: Text, path: string, most: number): number | undefined {
  if (text === undefined) return undefined;
  const value = Number(text);
  if (/^\d+$/.test(text) && value <= most) return value;
  return refuse(path, `must be a whole number from 0 to ${most}, not ${text}`);
}

/** Largest seed that a script or a record can name. */
const SEED_MOST = 4294967295;

export const seedOf = (text: Text, path = '--seed'): number | undefined =>
  wholeNumber(text, path, SEED_MOST);

export function seconds(text: Text, path: string): number | undefined {
  if (text === undefined) return undefined;
  const value = Number(text);
  if (/^\d+(\.\d+)?$/.test(text) && value <= 604800) return value;
  return refuse(path, `must be seconds from 0 to 604800, not ${text}`);
}
