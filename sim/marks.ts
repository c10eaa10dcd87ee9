// What a score is made of: marks, deductions and reasons as ids and numbers. The pages and the
// stored attempts read these; only score.ts makes them.
import type { HazardKind } from './fact.ts';
import type { Dimension, Quantity } from './rules.ts';

/** Why an attempt did not pass; all that hold are given. */
export const REASONS = [
  'not_finished',
  'time_ran_out',
  'critical',
  'air_left',
  'hand_over',
  'minimum_completeness',
  'minimum_safety',
  'minimum_loss',
  'minimum_time',
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
  /** Other rules broken by the same act, not counted again. */
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

export interface Score {
  readonly standard: 'provisional';
  readonly finished: boolean;
  readonly passed: boolean;
  /** Of 100, unrounded: who left more air always stands lower. The page rounds. */
  readonly total: number;
  readonly pass_total: number;
  readonly dimensions: readonly DimensionMark[];
  readonly deductions: readonly Deduction[];
  readonly critical: readonly CriticalError[];
  readonly reasons: readonly Reason[];
}
