// Judges what was kept: whether it can be gone on with here, and what can be saved of it if not.
import { ENGINE, isAttempt, parseRecord, scenarioHash, type RunRecord } from '../../sim/index.ts';
import type { Level } from '../../levels/index.ts';
import { SPEEDS, type Speed } from '../loop.ts';
import { MODES, Session } from '../session.ts';
import type { Kept } from './store.ts';

export type Found =
  | { readonly kind: 'none' }
  | {
      readonly kind: 'resumed';
      readonly session: Session;
      readonly speed: Speed;
      readonly began: string;
    }
  /** Made by another engine or on another form of the job: its record can be taken away. */
  | { readonly kind: 'old'; readonly kept: Kept }
  | { readonly kind: 'damaged' };

/** What can be done with the entry `json` that was kept for this level. */
export function judge(level: Level, json: unknown): Found {
  if (json === null || json === undefined) return { kind: 'none' };
  if (!isKept(json)) return { kind: 'damaged' };
  const record: RunRecord = json.saved.record;
  if (record.engine !== ENGINE || record.scenario_hash !== scenarioHash(level.scenario)) {
    return { kind: 'old', kept: json };
  }
  try {
    const session = Session.resume(level, json.mode, json.saved);
    return { kind: 'resumed', session, speed: json.speed, began: json.began };
  } catch {
    return { kind: 'damaged' };
  }
}

/** Where on its clock a kept attempt stands, s; null where there is none to go on with. */
export function placeOf(level: Level, json: unknown): number | null {
  if (!isKept(json)) return null;
  const { record, facts } = json.saved;
  const own = record.engine === ENGINE && record.scenario_hash === scenarioHash(level.scenario);
  if (!own || facts.some(({ kind }) => kind === 'done')) return null;
  return record.end_tick * level.scenario.solver.tick_s;
}

function isKept(json: unknown): json is Kept {
  if (typeof json !== 'object' || json === null || isAttempt(json)) return false;
  const { format, mode, saved, speed, began } = json as Partial<Kept>;
  if (format !== 1 || !MODES.some((one) => one === mode)) return false;
  if (!SPEEDS.some((one) => one === speed) || typeof began !== 'string') return false;
  if (saved === undefined || !(saved.state instanceof ArrayBuffer)) return false;
  if (!Array.isArray(saved.facts) || !Array.isArray(saved.pending)) return false;
  try {
    parseRecord(saved.record);
    return true;
  } catch {
    return false;
  }
}
