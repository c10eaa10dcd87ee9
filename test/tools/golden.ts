// The reviewed table: what every kept script of every level comes to. Run this file by hand
// after a change of physics: it records every script again and writes the table; the change
// is then a diff of marks that somebody reads and signs.
//   node --import tsx test/tools/golden.ts [FOLDER | FOLDER/NAME ...]
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { isDeepStrictEqual } from 'node:util';
import type { Fact } from '../../sim/fact.ts';
import { mistakeScript, parseMistake } from '../../sim/mistake.ts';
import type { Mistake } from '../../sim/script-mistake.ts';
import { recordText } from '../../sim/record-schema.ts';
import { parseRules } from '../../sim/rules.ts';
import type { RunRecord } from '../../sim/run.ts';
import { parseScenario, type Scenario } from '../../sim/scenario.ts';
import { score } from '../../sim/score.ts';
import { parseScript } from '../../sim/script-schema.ts';
import { runScript } from '../../sim/script.ts';
import { foundIn, toldBy } from './mistakes.ts';

export const LEVELS = fileURLToPath(new URL('../../levels/', import.meta.url));
export const TABLE = fileURLToPath(new URL('../golden/marks.json', import.meta.url));

export function readJson(...path: string[]): unknown {
  return JSON.parse(readFileSync(join(...path), 'utf8'));
}

/** One line of the table. Marks to four digits: enough to see a change, short to read. */
export interface Row {
  readonly end_tick: number;
  readonly hash: string;
  readonly passed: boolean;
  readonly total: number;
  readonly outcome?: number;
  readonly safety: number;
  readonly record?: number;
  readonly losses: number;
  readonly time: number;
  readonly loop_air_mL: number;
  readonly lost_L: number;
  readonly reasons: readonly string[];
  readonly rules: readonly string[];
  readonly critical: readonly string[];
}

export const RULES = parseRules(readJson(LEVELS, 'rules.json'));
const short = (x: number): number => Number(x.toFixed(4));

export const folders = readdirSync(LEVELS).filter((name) => /^\d\d-/.test(name));

const read = new Map<string, Scenario>();

/** Read once: it is looked at with the forms at the ends of its ranges, for a third of a second. */
export function scenarioOf(folder: string): Scenario {
  const known = read.get(folder) ?? parseScenario(readJson(LEVELS, folder, 'scenario.json'));
  read.set(folder, known);
  return known;
}

const namesOf = (folder: string, end: string): string[] =>
  readdirSync(join(LEVELS, folder))
    .filter((name) => name.endsWith(end))
    .map((name) => name.replace(end, ''))
    .sort();

/** Mistakes that are a script of the level with one edit. */
export const mistakesOf = (folder: string): string[] => namesOf(folder, '.mistake.json');

/** All that is kept of a level: scripts that are written out, and mistakes. */
export function scriptsOf(folder: string): string[] {
  return [...namesOf(folder, '.script.json'), ...mistakesOf(folder)].sort();
}

export const mistakeOf = (folder: string, name: string): Mistake =>
  parseMistake(readJson(LEVELS, folder, `${name}.mistake.json`));

/** A kept script as JSON; of a mistake, what its edit makes. */
export function scriptJson(folder: string, name: string): unknown {
  const written = (one: string): unknown => readJson(LEVELS, folder, `${one}.script.json`);
  if (!mistakesOf(folder).includes(name)) return written(name);
  const mistake = mistakeOf(folder, name);
  return mistakeScript(mistake, written(mistake.of));
}

export function rowOf(folder: string, record: RunRecord, facts: readonly Fact[]): Row {
  const marks = score(scenarioOf(folder), RULES, facts);
  const done = facts.find((fact) => fact.kind === 'done');
  if (done === undefined) throw new Error('the script does not hand over');
  const { loop_air_m3, spilled_m3, wasted_m3 } = done.measures;
  const points = Object.fromEntries(marks.dimensions.map((d) => [d.dimension, short(d.points)]));
  return {
    end_tick: record.end_tick,
    hash: record.checks[record.checks.length - 1]?.[1] ?? '',
    passed: marks.passed,
    total: short(marks.total),
    ...(points as Pick<Row, 'outcome' | 'safety' | 'record' | 'losses' | 'time'>),
    loop_air_mL: short(loop_air_m3 * 1e6),
    lost_L: short((spilled_m3 + wasted_m3) * 1000),
    reasons: marks.reasons,
    rules: marks.deductions.map((d) => d.rule),
    critical: marks.critical.map((c) => c.hazard),
  };
}

/** @param seed of the form; that of the script where none is given */
export function play(folder: string, name: string, seed?: number) {
  const scenario = scenarioOf(folder);
  const script = parseScript(scriptJson(folder, name), scenario);
  return { script, ...runScript(scenario, script, { seed }) };
}

/** All levels, or levels and scripts (`FOLDER/NAME`) that are named; rows of the others stay. */
function rewrite(named: readonly string[]): void {
  const all = folders.flatMap((folder) => scriptsOf(folder).map((name) => `${folder}/${name}`));
  const wanted = (key: string): boolean =>
    named.length === 0 || named.includes(key) || named.includes(dirname(key));
  const old = Object.entries(readJson(TABLE) as Record<string, Row>);
  const table: Record<string, Row> = Object.fromEntries(old.filter(([key]) => all.includes(key)));
  for (const key of all.filter(wanted)) {
    const [folder, name] = [dirname(key), basename(key)];
    const { run, record, outcome } = play(folder, name);
    const row = rowOf(folder, record, run.facts);
    table[key] = row;
    writeFileSync(join(LEVELS, folder, `${name}.record.json`), recordText(record));
    console.log(key, JSON.stringify(outcome), JSON.stringify(row));
    if (!mistakesOf(folder).includes(name)) continue;
    const found = foundIn(score(run.scenario, RULES, run.facts));
    if (isDeepStrictEqual(found, toldBy(mistakeOf(folder, name)))) continue;
    console.log(`NOT AS TOLD: ${JSON.stringify(found)}`);
  }
  const sorted = Object.fromEntries(Object.entries(table).sort(([a], [b]) => (a < b ? -1 : 1)));
  writeFileSync(TABLE, `${JSON.stringify(sorted, null, 2)}\n`);
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) rewrite(process.argv.slice(2));
