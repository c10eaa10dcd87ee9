// Jobs that are whole days: which they are, what is drilled of them, and which of their mistakes
// take hours; and kept records of any job.
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { parseRecord } from '../../sim/record-schema.ts';
import { replay } from '../../sim/run.ts';
import { phasesOf, PHASES } from '../../sim/phases.ts';
import { LEVELS, readJson, rowOf, RULES, scenarioOf, scriptsOf, TABLE } from './golden.ts';
import type { Row } from './golden.ts';
import type { Day } from './phases.ts';

/** Ticks. A mistake of a whole day that takes longer is for the campaign. */
const SHORT = 6_000;

export const isDay = (folder: string): boolean => existsSync(join(LEVELS, folder, 'phases.json'));

/** Mistakes of a day that run for hours. */
export function longMistakes(folder: string): string[] {
  const table = readJson(TABLE) as Record<string, Row>;
  return scriptsOf(folder).filter(
    (name) => isDay(folder) && name !== 'solution' && table[`${folder}/${name}`]!.end_tick > SHORT,
  );
}

/** A kept record without its script: where its hashes part, if anywhere, and what it comes to. */
export function replayed(folder: string, name: string) {
  const scenario = scenarioOf(folder);
  const record = parseRecord(readJson(LEVELS, folder, `${name}.record.json`), scenario);
  const { divergedAt, facts } = replay(scenario, record);
  return { divergedAt, row: rowOf(folder, record, facts) };
}

export function dayOf(folder: string): Day {
  const read = (name: string): unknown => readJson(LEVELS, folder, name);
  return { scenario: read('scenario.json'), script: read('solution.script.json'), rules: RULES };
}

/** Phases that can be drilled, with their patches. */
export function drillsIn(folder: string) {
  const phases = phasesOf(readJson(LEVELS, folder, 'phases.json'));
  return PHASES.flatMap((phase) => {
    const drill = phases[phase];
    return drill === undefined ? [] : [{ phase, patch: drill.scenario }];
  });
}
