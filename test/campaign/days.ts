// Whole days: each solution comes to its kept record, and every drill is passed by its piece of it.
// And of every job, each record that is kept comes to its hashes and its marks without its script.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { isDeepStrictEqual } from 'node:util';
import { recordText } from '../../sim/record-schema.ts';
import { dayOf, drillsIn, isDay, replayed } from '../tools/days.ts';
import {
  folders,
  LEVELS,
  play,
  readJson,
  rowOf,
  scriptsOf,
  TABLE,
  type Row,
} from '../tools/golden.ts';
import { playDrill } from '../tools/phases.ts';

type Say = (line: string) => void;

function keptAt(folder: string, name: string): { line: string; failed: boolean } {
  const { run, record, outcome } = play(folder, name);
  const { total, passed, critical } = rowOf(folder, record, run.facts);
  const text = readFileSync(join(LEVELS, folder, `${name}.record.json`), 'utf8');
  const same = recordText(record) === text;
  const failed = !same || outcome.end !== 'finished' || !passed;
  const marks = `${total.toFixed(1)} of 100${critical.length > 0 ? `, ${critical.join()}` : ''}`;
  return { line: `- ${folder}/${name}: ${marks}; ${same ? 'as kept' : 'NOT AS KEPT'}`, failed };
}

function drillsAt(folder: string): { line: string; failed: boolean } {
  const played = drillsIn(folder).map(({ phase, patch }) => {
    const { outcome, marks } = playDrill(dayOf(folder), phase, patch as Record<string, unknown>);
    const good = outcome.end === 'finished' && marks.passed && marks.total >= 90;
    return { text: `${phase} ${marks.total.toFixed(0)}${good ? '' : ' FAILED'}`, good };
  });
  const line = `- ${folder}, its drills: ${played.map(({ text }) => text).join(', ')}`;
  return { line, failed: played.some(({ good }) => !good) };
}

function replaysAt(folder: string): { line: string; failed: boolean } {
  const table = readJson(TABLE) as Record<string, Row>;
  const apart = scriptsOf(folder).filter((name) => {
    const { divergedAt, row } = replayed(folder, name);
    return divergedAt !== null || !isDeepStrictEqual(row, table[`${folder}/${name}`]);
  });
  const found = apart.length === 0 ? 'all as kept' : `FAILED ${apart.join(', ')}`;
  return { line: `- ${folder}, its records replayed: ${found}`, failed: apart.length > 0 };
}

/** Every whole day there is, and the records of all jobs; as lines, and how many failed. */
export function days(say: Say): { text: string; failed: number } {
  const lines: string[] = [];
  let failed = 0;
  for (const folder of folders) {
    const names = isDay(folder) ? ['solution'] : [];
    const parts = names.map((name) => () => keptAt(folder, name));
    if (isDay(folder)) parts.push(() => drillsAt(folder));
    for (const part of [...parts, () => replaysAt(folder)]) {
      const { line, failed: bad } = part();
      say(line);
      lines.push(line);
      if (bad) failed += 1;
    }
  }
  return { text: lines.join('\n'), failed };
}
