// The jobs in their order and where each is found: plain addresses, so that a job can be linked to,
// kept as a bookmark and left with the browser's own way back.
import { LEVELS, levelById, type Level } from '../levels/index.ts';
import { drillId, type Phase, type Scenario } from '../sim/index.ts';
import { levelOf } from './assign/levels.ts';
import { figure, LONG_s, number } from './i18n/format.ts';
import { lexicon, t, type Lexicon } from './i18n/index.ts';
import type { Best } from './records/best.ts';

/** A job as the list shows it. */
export interface JobEntry {
  readonly level: Level;
  readonly best: Best | null;
  /** True where the marks are of another engine or another form of the job. */
  readonly older: boolean;
  /** s on the clock of an attempt that waits to be gone on with, or null. */
  readonly place_s: number | null;
  /** Its phases as jobs of their own. */
  readonly drills: readonly DrillEntry[];
}

export interface DrillEntry {
  readonly id: string;
  readonly phase: Phase;
  readonly passed: boolean;
}

/** What of the page's address stays when another job is opened. */
const STAYS = ['aa', 'pictures'];

/** A page of this site: "./", or "./?key=value" with what stays. */
function address(search: string, key = '', wanted: string | null = null): string {
  const old = new URLSearchParams(search);
  const fresh = new URLSearchParams();
  for (const key of STAYS) {
    const value = old.get(key);
    if (value !== null) fresh.set(key, value);
  }
  if (wanted !== null) fresh.set(key, wanted);
  const text = fresh.toString();
  return text === '' ? './' : `./?${text}`;
}

/** "./?job=heron-lane"; ids are written with hyphens where people see them. */
export function jobAddress(id: string, search: string): string {
  return address(search, 'job', id.replaceAll('_', '-'));
}

export function listAddress(search: string): string {
  return address(search);
}

export function attemptsAddress(search: string): string {
  return address(search, 'page', 'attempts');
}

/** One attempt of the list. */
export function attemptAddress(id: string, search: string): string {
  return address(search, 'attempt', id);
}

/** An assignment that was taken up here. */
export function assignmentAddress(id: string, search: string): string {
  return address(search, 'assignment', id);
}

export function jobOf(text: string): Level | null {
  return levelById(text.replaceAll('-', '_'));
}

/** The job after this one, or null after the last. */
export function nextJob(id: string): Level | null {
  const at = LEVELS.findIndex((level) => level.id === id);
  return at < 0 ? null : LEVELS[at + 1] ?? null;
}

/** The drills of a whole day, with which of them were passed. */
export function drillsOf(
  { id, drills }: Pick<Level, 'id' | 'drills'>,
  passed: ReadonlySet<string>,
): DrillEntry[] {
  return drills.map((phase) => {
    const drill = drillId(id, phase);
    return { id: drill, phase, passed: passed.has(drill) };
  });
}

/** "Otter Bank, a whole day", or of a drill, where there is less room, "Otter Bank: Prime". */
export function titleOf({ phase }: Pick<Level, 'phase'>, lex: Lexicon): string {
  if (phase === null) return lex.say('title');
  const job = lex.say(lex.has('title.short') ? 'title.short' : 'title');
  return t('jobs.drill_title', { job, phase: lex.say(`phase.${phase}`) });
}

/** The same by its id; the id where there is no such job here. */
export function titleById(id: string): string {
  const level = levelOf(id);
  return level === null ? id : titleOf(level, lexicon(level.words));
}

/** What it is in a few lines; the day's own would not be true of a drill. */
export function summaryOf({ phase }: Pick<Level, 'phase'>, lex: Lexicon): string {
  return phase === null ? lex.say('summary') : t('drill.summary', { job: lex.say('title') });
}

/** "20 s", "45 min", "22 h", "66 h 40 min": of what is planned, not measured. */
export function lengthText(time_s: number): string {
  if (time_s < 60) return t('unit.seconds', { n: figure(time_s, 1) });
  const minutes = Math.round(time_s / 60);
  if (time_s < LONG_s) return t('jobs.minutes', { n: number(minutes) });
  const hours = t('jobs.hours', { n: number(Math.floor(minutes / 60)) });
  const rest = minutes % 60;
  return rest === 0 ? hours
    : t('unit.two', { first: hours, second: t('jobs.minutes', { n: number(rest) }) });
}

/** How long a job may take for full marks, and how much of that nobody has to be there. */
export function timeText({ job }: Scenario): string {
  const all = lengthText(job?.time_full_s ?? 0);
  const away = (job?.milestones ?? []).reduce((h, one) =>
    h + (one.kind === 'left' ? one.hours : 0), 0);
  return away === 0 ? all : t('jobs.time_away', { all, away: lengthText(3600 * away) });
}
