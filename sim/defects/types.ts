// Defects as the engine sees them: parts by index, numbers in SI, fixed for a world's life.
import type { TimedSpec } from '../scenario-defects.ts';

/** What is looked at to begin or end a defect. */
export const LOOKS = ['time', 'pressure', 'flow', 'level', 'valve', 'pump'] as const;
export type Look = (typeof LOOKS)[number];

/** Holds while what is looked at lies above one number and below the other; time: from `above`. */
export interface Moment {
  readonly look: Look;
  /** Node, column, tank or link; -1 of time. */
  readonly index: number;
  /** SI; time in seconds. */
  readonly above: number;
  readonly below: number;
}

/** A defect that may come and go; -1 where it has no such part. */
export interface TimedDefect {
  readonly spec: TimedSpec;
  readonly from: Moment;
  readonly until: Moment | null;
  readonly link: number;
  readonly column: number;
  readonly node: number;
  readonly pump: number;
  readonly instrument: number;
}

export interface Defects {
  /** In the scenario's order; those that the seed left out are not there. */
  readonly timed: readonly TimedDefect[];
  /** Of each link: the defect that holds its handle fast, or -1. */
  readonly stuck: Int32Array;
  /** Of each pump: the defect that wears its wheel, or -1. */
  readonly worn: Int32Array;
  /** Of each instrument: its defects. */
  readonly gauges: readonly (readonly number[])[];
  /** Of each instrument: what it shows too much from the start, SI. */
  readonly errors: Float64Array;
  /** Ids of all that the seed left in, built ones as well. */
  readonly there: ReadonlySet<string>;
  /** Openings that nobody sees, by node. */
  readonly unseen: ReadonlySet<number>;
}

/** Numbers that a defect has in the state: tick in which it began, ended, or -1; how bad; own. */
export const DEFECT_STRIDE = 5;
export const BEGAN = 0;
export const ENDED = 1;
export const LEVEL = 2;
/** Of a slipping handle: the ball and the handle, degrees. Of a needle: 1 while it is free. Of a
 *  stuck handle: s of pushing. Of a supply: m3 out of its vessel, and 1 while its pump runs. */
export const FIRST = 3;
export const SECOND = 4;
