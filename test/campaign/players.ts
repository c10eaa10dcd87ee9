// Players that see panel and scene alone: the reference at many seeds of every job it plays, and
// every wrong player at each, held against the table of what each must fail by.
import { playedBy, TABLE } from '../unit/sim/player/jobs.ts';
import { scenarioOf } from '../tools/golden.ts';

type Say = (line: string) => void;

interface Part {
  readonly line: string;
  readonly failed: boolean;
}

function referenceAt(folder: string, first: number, count: number): Part {
  const scenario = scenarioOf(folder);
  const bad: string[] = [];
  let least = 100;
  for (let seed = first; seed < first + count; seed++) {
    const { marks } = playedBy(scenario, 'reference', seed);
    least = Math.min(least, marks.total);
    if (!marks.passed || marks.total < 90) bad.push(`seed ${seed}: ${marks.reasons.join()}`);
  }
  const told = bad.length === 0 ? 'all passed' : `FAILED ${bad.join('; ')}`;
  const line = `- ${folder}, the reference, ${count} seeds: ${told}, ${least.toFixed(1)} at least`;
  return { line, failed: bad.length > 0 };
}

function wrongAt(folder: string, seed: number): Part {
  const told = Object.entries(TABLE[folder]!).map(([name, fails]) => {
    const { marks, lost } = playedBy(scenarioOf(folder), name, seed);
    const critical = marks.critical.map(({ hazard }) => hazard);
    const found = JSON.stringify({ reasons: marks.reasons, lost, critical });
    const wanted = fails ?? { reasons: [], lost: [], critical: [] };
    const good = found === JSON.stringify(wanted) && marks.passed === (fails === null);
    const by = fails === null ? 'passes, as it may' : wanted.lost.join(' ');
    return { text: `${name} ${good ? by : `NOT AS EXPECTED ${found}`}`, good };
  });
  const line = `- ${folder}, wrong in one way: ${told.map(({ text }) => text).join('; ')}`;
  return { line, failed: told.some(({ good }) => !good) };
}

/** All jobs of the table; as lines, and how many of them failed. */
export function players(first: number, count: number, say: Say): { text: string; failed: number } {
  const parts = Object.keys(TABLE).flatMap((folder) => [
    () => referenceAt(folder, first, count),
    () => wrongAt(folder, first),
  ]);
  const lines: string[] = [];
  let failed = 0;
  for (const part of parts) {
    const { line, failed: bad } = part();
    say(line);
    lines.push(line);
    if (bad) failed += 1;
  }
  return { text: lines.join('\n'), failed };
}
