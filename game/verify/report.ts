// What is found of one attempt file: whether it is what it says, and its marks from a new run.
import type { Score } from '../../sim/index.ts';
import type { Ticket } from '../assign/ticket.ts';
import type { Mode } from '../session.ts';

/**
 * `replays`: every hash, fact and mark of the file comes out again. `marks_differ` and
 * `facts_differ`: the run does, what the file says about it does not. `ticket_differs`: it is not
 * the run that its assignment asks for. `diverged`: the run itself is not the one the file claims.
 * The others could not be run: made by another build, at a job that is not here, no attempt at
 * all, or no whole file.
 */
export const VERDICTS = [
  'replays', 'marks_differ', 'facts_differ', 'ticket_differs', 'diverged', 'other_build',
  'unknown_job', 'not_attempt', 'unreadable',
] as const;
export type Verdict = (typeof VERDICTS)[number];

/** The first place where the file and the new run say different things, each as JSON. */
export interface Difference {
  readonly path: string;
  readonly file: string;
  readonly found: string;
}

/** What the file says of itself. */
export interface Claims {
  readonly id: string | null;
  readonly who: string | null;
  readonly job: string;
  readonly mode: Mode | null;
  readonly seed: number;
  readonly nth: number | null;
  readonly ticket: Ticket | null;
  readonly began: string | null;
  readonly ended: string | null;
  readonly looks: number;
  /** How often and how long in all the page was away, s. */
  readonly absences: number;
  readonly away_s: number;
}

/** What a new run of its timed inputs gave. */
export interface Rerun {
  readonly finished: boolean;
  readonly time_s: number;
  readonly score: Score;
}

export interface Report {
  /** Name of the file. */
  readonly file: string;
  readonly verdict: Verdict;
  readonly claims: Claims | null;
  readonly rerun: Rerun | null;
  readonly difference: Difference | null;
  /** Print of the content, and of the timed inputs alone; null where there are none to compare. */
  readonly content: string | null;
  readonly inputs: string | null;
}
