// What is typed on a job sheet and not yet part of an attempt, with the mode and the form that were
// chosen: kept as attempts are, so that a page which is closed or killed loses nothing of it. One
// for each job or attempt at an assignment.
import { MODES, type Mode } from '../session.ts';
import type { Assigned } from './entry.ts';
import { Small, type SmallStorage } from './small.ts';

/** Text by line; null where one says that it cannot be told. */
export type Typed = Readonly<Record<string, string | null>>;

export interface Draft {
  readonly format: 1;
  /** Grows with every change: of two that were kept the newer one counts. */
  readonly count: number;
  /** The attempt it is typed in; null before there is one. */
  readonly attempt: string | null;
  readonly mode: Mode;
  readonly seed: number;
  readonly typed: Typed;
}

export function draftKey(job: string, assigned: Assigned | null): string {
  return assigned === null ? job : `${assigned.ticket.id} ${assigned.nth}`;
}

export function isDraft(json: unknown): json is Draft {
  if (typeof json !== 'object' || json === null) return false;
  const { format, count, attempt, mode, seed, typed } = json as Partial<Draft>;
  return format === 1 && Number.isInteger(count) && Number.isInteger(seed)
    && (attempt === null || typeof attempt === 'string') && MODES.some((one) => one === mode)
    && typeof typed === 'object' && typed !== null
    && Object.values(typed).every((text) => text === null || typeof text === 'string');
}

/** The newest change of each, until the large storage has it. */
export class Jotted {
  private readonly small: Small;

  constructor(storage: SmallStorage | null) {
    this.small = new Small(storage, 'draft');
  }

  write(key: string, draft: Draft): void {
    this.small.write(key, draft);
  }

  read(key: string): Draft | null {
    const json = this.small.read(key);
    return isDraft(json) ? json : null;
  }

  /** Unless it has changed since. */
  landed(key: string, count: number): void {
    if (this.read(key)?.count === count) this.small.drop(key);
  }
}
