// What the list knows of an attempt without reading its state, and what is saved of it.
import type { RunRecord, Score } from '../../sim/index.ts';
import { isSpeed, type Speed } from '../loop.ts';
import { isRating, type Rating } from '../review/rating.ts';
import { MODES, type Mode, type SavedSession } from '../session.ts';
import type { Ticket } from '../assign/ticket.ts';

/** From a tick on the page was away for so many seconds of the wall: hidden, or gone. */
export type Away = readonly [tick: number, wall_s: number];

/** What is kept of an attempt; the bytes of the state stand in `saved.state`. */
export interface Kept {
  readonly format: 1;
  readonly mode: Mode;
  readonly saved: SavedSession;
  readonly speed: Speed;
  readonly began: string;
  /** By the device's clock, when this was kept. */
  readonly at?: string;
  readonly away?: readonly Away[];
  /** One's own rating; null where it was passed over. */
  readonly rating?: Rating | null;
  readonly branch?: Branch;
}

/** The attempt that this one goes on with from its middle, and from which tick. */
export interface Branch {
  readonly of: string;
  readonly tick: number;
}

/** The assignment an attempt belongs to, who it is by, and the how manieth it is, from 1. */
export interface Assigned {
  readonly ticket: Ticket;
  readonly label: string;
  readonly nth: number;
}

export interface EntryMarks {
  readonly total: number;
  readonly passed: boolean;
}

export interface Entry {
  readonly format: 1;
  readonly id: string;
  /** Id of the scenario: of a job, or of one phase of it. */
  readonly job: string;
  readonly mode: Mode;
  readonly seed: number;
  /** ISO 8601, by the device's clock, which nobody has checked. */
  readonly began: string;
  readonly changed: string;
  readonly engine: string;
  readonly scenario_hash: string;
  readonly end_tick: number;
  readonly finished: boolean;
  readonly marks: EntryMarks | null;
  readonly assigned: Assigned | null;
  readonly imported: boolean;
  readonly branch?: Branch;
  /** Which of the two places holds the newest save. */
  readonly slot: 0 | 1;
  /** The page that may write it, and until when (ms of the device's clock) it said so. */
  readonly owner: string | null;
  readonly lease_until: number;
}

/** What a page knows of its attempt when it saves. */
export interface About {
  readonly id: string;
  readonly assigned: Assigned | null;
  readonly imported: boolean;
  readonly marks: Score | null;
}

type Lease = Pick<Entry, 'slot' | 'owner' | 'lease_until'>;

export function entryOf(kept: Kept, about: About, lease: Lease): Entry {
  const { record, facts } = kept.saved;
  const { scenario: job, seed, engine, scenario_hash, end_tick } = record;
  const { id, assigned, imported, marks } = about;
  return {
    format: 1, id, job, mode: kept.mode, seed, began: kept.began, changed: kept.at ?? kept.began,
    engine, scenario_hash, end_tick, finished: facts.some(({ kind }) => kind === 'done'),
    marks: marks === null ? null : { total: marks.total, passed: marks.passed },
    assigned, imported, ...(kept.branch === undefined ? {} : { branch: kept.branch }), ...lease,
  };
}

const UNKNOWN = '?';

/** For what an older version of the pages kept of a job; nothing in it is taken for granted. */
export function entryOfOld(job: string, json: unknown): Entry {
  const kept = (typeof json === 'object' && json !== null ? json : {}) as Partial<Kept>;
  const record = (kept.saved?.record ?? {}) as Partial<RunRecord>;
  const facts = Array.isArray(kept.saved?.facts) ? kept.saved.facts : [];
  const began = typeof kept.began === 'string' ? kept.began : new Date(0).toISOString();
  return {
    format: 1, id: `old_${job}`, job, mode: MODES.find((mode) => mode === kept.mode) ?? 'learn',
    seed: record.seed ?? 0, began, changed: began, engine: record.engine ?? UNKNOWN,
    scenario_hash: record.scenario_hash ?? UNKNOWN, end_tick: record.end_tick ?? 0,
    finished: facts.some((fact) => fact?.kind === 'done'), marks: null, assigned: null,
    imported: false, slot: 0, owner: null, lease_until: 0,
  };
}

/** True for what can be shown in the list; what cannot is passed over there. */
export function isEntry(json: unknown): json is Entry {
  if (typeof json !== 'object' || json === null) return false;
  const one = json as Partial<Entry>;
  const { format, id, job, mode, began, changed, end_tick, finished, slot } = one;
  return format === 1 && typeof id === 'string' && typeof job === 'string'
    && MODES.some((known) => known === mode) && typeof began === 'string'
    && typeof changed === 'string' && Number.isFinite(end_tick) && typeof finished === 'boolean'
    && (slot === 0 || slot === 1);
}

/** The shape alone; whether it can be gone on with is judged in resume.ts. */
export function isKeptShape(json: unknown): json is Kept {
  if (typeof json !== 'object' || json === null) return false;
  const { format, mode, saved, speed, began, rating = null } = json as Partial<Kept>;
  return format === 1 && MODES.some((one) => one === mode) && isSpeed(speed)
    && (rating === null || isRating(rating))
    && typeof began === 'string' && typeof saved === 'object' && saved !== null
    && saved.state instanceof ArrayBuffer && Array.isArray(saved.facts)
    && Array.isArray(saved.pending);
}
