// Judges what was kept: whether it can be gone on with here, and what can be saved of it if not.
import { ENGINE, isAttempt, parseRecord, scenarioHash, type RunRecord } from '../../sim/index.ts';
import type { Level } from '../../levels/index.ts';
import { Session } from '../session.ts';
import { isKeptShape, type Entry, type Kept } from './entry.ts';
import { follows, type Tail } from './tail.ts';

export type Found =
  | { readonly kind: 'none' }
  | { readonly kind: 'resumed'; readonly session: Session; readonly kept: Kept }
  /** Made by another engine or on another form of the job: its record can be taken away. */
  | { readonly kind: 'old'; readonly kept: Kept }
  | { readonly kind: 'damaged' };

/** What can be done with the save `json` of an attempt at this level. */
export function judge(level: Level, json: unknown, tail: Tail | null = null): Found {
  if (json === null || json === undefined) return { kind: 'none' };
  if (!isKept(json)) return { kind: 'damaged' };
  const record: RunRecord = json.saved.record;
  if (!isOwn(level, record)) return { kind: 'old', kept: json };
  try {
    const session = Session.resume(level, json.mode, json.saved);
    if (tail !== null && follows(tail, json)) session.catchUp(tail);
    return { kind: 'resumed', session, kept: json };
  } catch {
    return { kind: 'damaged' };
  }
}

/** The newest of the saves that can be gone on with; where none can, what the newest one is. */
export function judgeAll(
  level: Level,
  saves: readonly unknown[],
  tail: Tail | null = null,
): Found {
  let first: Found = { kind: 'none' };
  for (const json of saves) {
    const found = judge(level, json, tail);
    if (found.kind === 'resumed') return found;
    if (first.kind === 'none') first = found;
  }
  return first;
}

type Version = Pick<Entry, 'engine' | 'scenario_hash'>;

/** Made with this engine, on this form of the job. */
export function isOwn(level: Level, { engine, scenario_hash }: Version): boolean {
  return engine === ENGINE && scenario_hash === scenarioHash(level.scenario);
}

/** Where on its clock an attempt stands, s; null where there is none to go on with. */
export function placeOf(level: Level, entry: Entry | null): number | null {
  if (entry === null || entry.job !== level.id || entry.finished) return null;
  return isOwn(level, entry) ? entry.end_tick * level.scenario.solver.tick_s : null;
}

/** Newest first in, newest first out: the attempts of a job that no assignment asked for. */
export function freeAttempts(entries: readonly Entry[], job: string): readonly Entry[] {
  return entries.filter((one) => one.job === job && one.assigned === null && !one.imported);
}

function isKept(json: unknown): json is Kept {
  if (isAttempt(json) || !isKeptShape(json)) return false;
  try {
    parseRecord(json.saved.record);
    return true;
  } catch {
    return false;
  }
}
