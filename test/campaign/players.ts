// Players that see panel and scene alone, job by job, so that jobs can be run side by side: the
// reference at many seeds, and every wrong player, held against the table of what each fails by.
import { fallsBy, playedBy, TABLE, type Fails } from '../unit/sim/player/jobs.ts';
import { DAY_TABLE } from '../unit/sim/player/days.ts';
import { DAYS, drill, PLAYED, WRONG } from '../unit/sim/player/drills.ts';
import { AS_WRITTEN } from '../../sim/form.ts';
import { scenarioOf } from '../tools/golden.ts';

type Say = (line: string) => void;

type Table = Readonly<Record<string, Fails | null>>;

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

function wrongAt(folder: string, table: Table, seed: number): Part {
  const told = Object.entries(table).map(([name, fails]) => {
    const result = playedBy(scenarioOf(folder), name, seed);
    const found = JSON.stringify(fallsBy(result));
    const wanted = fails ?? { reasons: [], lost: [], critical: [] };
    const passes = wanted.reasons.length === 0;
    const good = found === JSON.stringify(wanted) && result.marks.passed === passes;
    const by = fails === null ? 'passes, as it may' : wanted.lost.join(' ');
    return { text: `${name} ${good ? by : `NOT AS EXPECTED ${found}`}`, good };
  });
  const line = `- ${folder}, wrong in one way: ${told.map(({ text }) => text).join('; ')}`;
  return { line, failed: told.some(({ good }) => !good) };
}

function wrongAtDrills(folder: string, seed: number): Part {
  let failed = false;
  const told = WRONG.flatMap(([day, phase, name, fails]) => {
    if (day !== folder) return [];
    const found = JSON.stringify(fallsBy(playedBy(drill(folder, phase), name, seed)));
    const good = found === JSON.stringify(fails);
    if (!good) failed = true;
    return `${phase}, ${name}: ${good ? fails.lost.join(' ') : `NOT AS EXPECTED ${found}`}`;
  });
  return { line: `- ${folder}, its drills, wrong in one way: ${told.join('; ')}`, failed };
}

/** Each drill at every seed: what a seed draws there are gauges alone. */
function drillsAt(folder: string, first: number, count: number): Part {
  let bad = 0;
  const told = PLAYED.filter(([day]) => day === folder).map(([, phase]) => {
    const scenario = drill(folder, phase);
    const totals: number[] = [];
    for (let seed = first; seed < first + count; seed++) {
      const { marks } = playedBy(scenario, 'reference', seed);
      totals.push(marks.passed ? marks.total : 0);
    }
    const least = Math.min(...totals);
    if (least < 90) bad += 1;
    return `${phase} ${least.toFixed(0)}${least < 90 ? ' FAILED' : ''}`;
  });
  const who = `${folder}, its drills, the reference, ${count} seeds`;
  const line = `- ${who}, least marks: ${told.join(', ')}`;
  return { line, failed: bad > 0 };
}

const TABLES: Readonly<Record<string, Table>> = { ...TABLE, ...DAY_TABLE };

/** Jobs that players are tried at. */
export const PLAYER_JOBS: readonly string[] = Object.keys(TABLES);

interface Seeds {
  readonly first: number;
  readonly count: number;
}

/** The reference at one job, and at the drills of a whole day; as lines, and how many failed. */
export function referenceOf(folder: string, { first, count }: Seeds, say: Say): Told {
  const drills = DAYS.includes(folder) ? [() => drillsAt(folder, first, count)] : [];
  return toldOf(first, [() => referenceAt(folder, first, count), ...drills], say);
}

/** Every wrong player at the same. Rows of a whole day are those of the form as it is written. */
export function wrongOf(folder: string, { first }: Seeds, say: Say): Told {
  const isDay = DAYS.includes(folder);
  const seed = isDay ? AS_WRITTEN : first;
  const drills = isDay ? [() => wrongAtDrills(folder, first)] : [];
  return toldOf(seed, [() => wrongAt(folder, TABLES[folder]!, seed), ...drills], say);
}

interface Told {
  readonly text: string;
  readonly failed: number;
}

function toldOf(first: number, parts: readonly (() => Part)[], say: Say): Told {
  const told = parts.map((part) => {
    const one = part();
    say(one.line);
    return one;
  });
  const failed = told.filter((one) => one.failed).length;
  const lines = told.map(({ line }) => line).join('\n');
  return { text: `Seeds from ${first} on.\n\n${lines}`, failed };
}
