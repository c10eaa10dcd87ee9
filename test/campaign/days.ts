// Whole days: each solution and each mistake that runs for hours comes to its kept record, and
// every drill is passed by its piece of the solution.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { recordText } from '../../sim/record-schema.ts';
import { dayOf, drillsIn, isDay, longMistakes } from '../tools/days.ts';
import { folders, LEVELS, play, rowOf } from '../tools/golden.ts';
import { playDrill } from '../tools/phases.ts';

type Say = (line: string) => void;

function keptAt(folder: string, name: string): { line: string; failed: boolean } {
  const { run, record, outcome } = play(folder, name);
  const { total, passed, critical } = rowOf(folder, record, run.facts);
  const text = readFileSync(join(LEVELS, folder, `${name}.record.json`), 'utf8');
  const same = recordText(record) === text;
  const failed = !same || outcome.end !== 'finished' || passed !== (name === 'solution');
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

/** Every whole day there is; as lines, and how many of them failed. */
export function days(say: Say): { text: string; failed: number } {
  const lines: string[] = [];
  let failed = 0;
  for (const folder of folders.filter(isDay)) {
    const parts = ['solution', ...longMistakes(folder)].map((name) => () => keptAt(folder, name));
    for (const part of [...parts, () => drillsAt(folder)]) {
      const { line, failed: bad } = part();
      say(line);
      lines.push(line);
      if (bad) failed += 1;
    }
  }
  return { text: lines.join('\n'), failed };
}
