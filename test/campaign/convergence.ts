// How far the engine's answers depend on its tick and its cells. Both are halved twice, together
// for the limit by Richardson's rule, and one at a time to see which of them rules the error.
import { ASKED, LOOPS, type Loop, type Solver } from './convergence-loops.ts';

/** What the jobs are played with, and its halves: together, the tick alone, the cells alone. */
const TICKS = [0.2, 0.1, 0.05] as const;
const CELLS = [1, 0.5, 0.25] as const;
type Three = readonly [number, number, number];
type Ask = (loop: Loop, solver: Solver) => number;

/**
 * Richardson: three answers at steps that halve. The order is what the answers show, between a
 * half and two; where they do not fall into line, the first order is taken.
 */
export function limit([coarse, middle, fine]: Three): number {
  const ratio = (coarse - middle) / (middle - fine);
  const factor = ratio > Math.SQRT2 && ratio < 4 ? ratio : 2;
  return fine === middle ? fine : fine + (fine - middle) / (factor - 1);
}

export interface Row {
  readonly loop: string;
  readonly what: string;
  readonly got: Three;
  readonly limit: number;
  /** Share by which the answer of the jobs' own step is off the limit, and may be. */
  readonly off: number;
  readonly most: number | null;
  readonly stated: number | null;
  /** Change of the answer when only the tick or only the cells are quartered, as a share. */
  readonly byTick: number;
  readonly byCell: number;
}

function three(ask: Ask, loop: Loop): Three {
  const at = (k: number): number => ask(loop, { tick_s: TICKS[k]!, cell_m: CELLS[k]! });
  return [at(0), at(1), at(2)];
}

type Asked = { ask: Ask; most: number | null; stated: number | null };

function row(loop: Loop, [what, { ask, most, stated }]: [string, Asked]): Row {
  const got = three(ask, loop);
  const to = limit(got);
  // What is the scheme's own doing has a limit near nothing: it is a share of the answer itself.
  const scale = Math.abs(most === null ? got[0] : to);
  const tick = ask(loop, { tick_s: TICKS[2], cell_m: CELLS[0] });
  return {
    loop: loop.name,
    what,
    got,
    limit: to,
    off: (got[0] - to) / scale,
    most,
    stated,
    byTick: (tick - got[0]) / scale,
    byCell: (got[2] - tick) / scale, // At the finest tick: a cell is never left in less than one.
  };
}

const within = (off: number, most: number | null) => most === null || Math.abs(off) <= most;

const percent = (share: number): string => `${(100 * share).toFixed(1)} %`;
const short = (x: number): string => String(Number(x.toPrecision(4)));

export function told(r: Row): string {
  const mark = within(r.off, r.most)
    ? ''
    : within(r.off, r.stated)
      ? ', **beyond**, as MODEL.md says'
      : ', **beyond**, and by more than MODEL.md says';
  const bound = r.most === null ? 'no bound' : `${percent(r.most)}${mark}`;
  const rules = Math.abs(r.byTick) > Math.abs(r.byCell) ? 'tick' : 'cells';
  const numbers = [...r.got, r.limit].map(short).join(' | ');
  const by = `${percent(r.byTick)} | ${percent(r.byCell)} | ${rules}`;
  return `| ${r.loop} | ${r.what} | ${numbers} | ${percent(r.off)} | ${bound} | ${by} |`;
}

const HEADS = [
  ['loop', 'what', '0.2 s, 1 m', '0.1 s, 0.5 m', '0.05 s, 0.25 m', 'limit', 'off by', 'may be'],
  ['tick alone quartered', 'cells alone quartered', 'rules'],
].flat();

export interface Study {
  /** A section of the report. */
  readonly text: string;
  readonly failed: number;
}

/** All answers of all loops; `failed` are further from their limit than MODEL.md says. */
export function study(say: (line: string) => void): Study {
  const rows: Row[] = [];
  for (const loop of LOOPS) {
    for (const asked of Object.entries(ASKED)) {
      const found = row(loop, asked);
      rows.push(found);
      say(told(found));
    }
  }
  const beyond = rows.filter((r) => !within(r.off, r.most)).length;
  const failed = rows.filter((r) => !within(r.off, r.stated)).length;
  const text = [
    'Tick and cells are halved twice from what the jobs use; the limit is by Richardson. Columns',
    'of up to 25 m stay as they are. "Off by" is how far the jobs\' own step is from the limit.',
    '',
    `| ${HEADS.join(' | ')} |`,
    `|${'---|'.repeat(HEADS.length)}`,
    ...rows.map(told),
    '',
    `${beyond} of ${rows.length} are beyond their bounds, ${failed} by more than MODEL.md says.`,
  ].join('\n');
  return { text, failed };
}
