// The file a trainee takes away: the record in its envelope, and how it reaches the disk.
import type { Level } from '../../levels/index.ts';
import { formOf, score, type Fact, type RunRecord, type Score } from '../../sim/index.ts';
import type { Assigned, Away, Branch, Entry, Kept } from '../attempts/entry.ts';
import { isOwn } from '../attempts/resume.ts';
import type { Ticket } from '../assign/ticket.ts';
import type { Rating } from '../review/rating.ts';
import type { Mode } from '../session.ts';

export interface AttemptFile {
  readonly format: 1;
  readonly kind: 'attempt';
  readonly id: string;
  readonly mode: Mode;
  readonly record: RunRecord;
  readonly facts: readonly Fact[];
  readonly marks: Score | null;
  /** As the trainee typed it; no account stands behind it. */
  readonly who: string | null;
  readonly ticket: Ticket | null;
  /** The how manieth at this assignment, from 1, as this device counted. */
  readonly nth: number | null;
  /** Ticks of looks inside where they are noted; absences from an assessment. */
  readonly looks: readonly number[];
  readonly away: readonly Away[];
  /** How it was rated before its marks were shown. */
  readonly rating: Rating | null;
  /** Of one that goes on from the middle of another. */
  readonly branch: Branch | null;
  /** As this device's clock says, which nobody has checked. */
  readonly wall_clock: { readonly began: string; readonly ended: string };
}

export interface Parts {
  readonly kept: Kept;
  readonly marks: Score | null;
  readonly id: string;
  readonly assigned: Assigned | null;
  readonly who?: string | null;
}

export function attemptFile({ kept, marks, id, assigned, who }: Parts): AttemptFile {
  const { mode, saved, began, at: ended = began, away = [] } = kept;
  const { rating = null, branch = null } = kept;
  const over = saved.facts.some(({ kind }) => kind === 'done');
  const hidden = mode === 'assess' && !over; // The truth is not to be read there meanwhile.
  return {
    format: 1, kind: 'attempt', id, mode, record: saved.record, facts: hidden ? [] : saved.facts,
    marks, who: who ?? assigned?.label ?? null, ticket: assigned?.ticket ?? null,
    nth: assigned?.nth ?? null, looks: saved.looks ?? [], away,
    rating, branch,
    wall_clock: { began, ended },
  };
}

/** Of what stands in the storage; marks where it is over and this is the job's own form. */
export function fileOfKept(kept: Kept, { id, assigned }: Entry, level: Level | null): AttemptFile {
  const { record, facts } = kept.saved;
  const over = facts.some(({ kind }) => kind === 'done');
  const own = level !== null && isOwn(level, record);
  const marks = over && own ? score(formOf(level.scenario, record.seed), level.rules, facts) : null;
  return attemptFile({ kept, marks, id, assigned });
}

/** "loopyard-heron-lane-2026-11-25-1240.json": sorts by time, says what it is. */
export function fileName(scenario: string, now: Date): string {
  const stamp = now.toISOString().slice(0, 16).replace('T', '-').replace(':', '');
  return `loopyard-${scenario.replaceAll('_', '-')}-${stamp}.json`;
}

export function download(name: string, content: unknown): void {
  downloadText(name, `${JSON.stringify(content, null, 1)}\n`, 'application/json');
}

export function downloadText(name: string, text: string, type: string): void {
  const blob = new Blob([text], { type });
  const url = URL.createObjectURL(blob);
  const link = document.createElement('a');
  link.href = url;
  link.download = name;
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(url), 10_000);
}
