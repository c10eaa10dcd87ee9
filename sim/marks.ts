// What a score is made of: marks, deductions and reasons as ids and numbers. The pages and the
// stored attempts read these; only score.ts makes them.
import type { HazardKind } from './fact.ts';
import type { SheetMark } from './jobsheet/judge.ts';
import type { Phase } from './phases.ts';
import type { Dimension, Quantity } from './rules.ts';
import type { LineKind, MilestoneKind } from './scenario.ts';

/** Why an attempt did not pass; all that hold are given. */
export const REASONS = [
  'not_finished',
  'time_ran_out',
  'critical',
  'air_left',
  'outcome_missed',
  'hand_over',
  'minimum_outcome',
  'minimum_safety',
  'minimum_record',
  'minimum_losses',
  'minimum_time',
  'too_little_done',
  'essential_missed',
  'total',
] as const;
export type Reason = (typeof REASONS)[number];

export interface Deduction {
  readonly rule: string;
  readonly dimension: Dimension;
  readonly stage: 'warning' | 'tripped' | null;
  /** Taken off, and the most this rule can take at once. */
  readonly points: number;
  readonly max: number;
  /** When it happened; null where it is the sum of the whole run. */
  readonly tick: number | null;
  /** The part it happened at. */
  readonly at: string | null;
  /** What was measured and what it is held against, SI. */
  readonly value: number | null;
  readonly limit: number | null;
  readonly quantity: Quantity;
  /** Of a milestone: its id; and those that had to come before it and came later. */
  readonly milestone?: string;
  readonly first?: readonly string[];
  /** Of a line of the job sheet: which. */
  readonly line?: { readonly id: string; readonly kind: LineKind; readonly bore: number | null };
  /** Other rules broken by the same act, or milestones missed with it, not counted again. */
  readonly includes: readonly string[];
  /** Key of the rules' sources, and keys of the words. */
  readonly source: string;
  readonly message: string;
  readonly seen: string;
  readonly how: string;
}

export interface DimensionMark {
  readonly dimension: Dimension;
  readonly points: number;
  readonly max: number;
  readonly minimum: number;
  /** True where the least share is reached. */
  readonly met: boolean;
}

export interface CriticalError {
  readonly hazard: HazardKind;
  readonly at: string;
  readonly tick: number;
  readonly value: number;
  readonly limit: number;
  readonly quantity: Quantity;
  readonly source: string;
  readonly message: string;
}

/** A milestone, and when it was reached, if it was. */
export interface MilestoneMark {
  readonly id: string;
  readonly phase: Phase;
  readonly kind: MilestoneKind;
  /** The part it looks at; null where it looks at none. */
  readonly at: string | null;
  readonly tick: number | null;
  /** What there was then, SI. */
  readonly value: number | null;
  /** False where something came later that had to come first. */
  readonly in_order: boolean;
  /** True of an essential one that was not reached, or only after what rests on it. */
  readonly fails: boolean;
}

export interface Score {
  readonly standard: 'provisional';
  readonly finished: boolean;
  readonly passed: boolean;
  /** Of 100, unrounded: who left more air always stands lower. The page rounds. */
  readonly total: number;
  readonly pass_total: number;
  /** Those that the job tests, with weights that make 100 together. */
  readonly dimensions: readonly DimensionMark[];
  readonly untested: readonly Dimension[];
  readonly milestones: readonly MilestoneMark[];
  /** Lines of the job sheet; none of a job without one. */
  readonly sheet: readonly SheetMark[];
  /** The air that was left at the proof; null where a job does not ask, or nobody read it. */
  readonly residual: SheetMark | null;
  readonly deductions: readonly Deduction[];
  readonly critical: readonly CriticalError[];
  readonly reasons: readonly Reason[];
}
