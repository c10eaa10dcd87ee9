// How somebody works: the reference's habits, and what a wrong player does otherwise. A wrong
// player is the reference with one habit changed, so that what it fails by is that habit's.

export interface Habits {
  /** s that the pump is left to catch by itself, its casing not filled; 0 fills it first. */
  readonly hopes_s: number;
  /** Contents of the way that have to come back clear, before another pass and at the last. */
  readonly turnovers: readonly [between: number, last: number];
  /** Goes on until the return is clear; or stops as soon as water comes back. */
  readonly waitsForClear: boolean;
  /** s after which a pass counts as done, whatever comes back. */
  readonly patience_s: number;
  /** One circuit after the other, where they have valves of their own. */
  readonly oneByOne: boolean;
  /** The other way round as well, where the cart can. */
  readonly reverses: boolean;
  /** Degrees to which the first valve behind the pump is opened. */
  readonly opens_deg: number;
  /** s that the return stays shut at the proof; 0 where none is made. */
  readonly proof_s: number;
  /** Purges again where the proof shows air. */
  readonly heedsProof: boolean;
  /** Waits for a test to stand for its time. */
  readonly tests: boolean;
  /** Takes whatever is in a drum for undiluted, and doses by that. */
  readonly takes_for_neat: boolean;
  /** Puts another bag in, and cleans a mesh, where that is asked for. */
  readonly minds_filter: boolean;
  /** Lets hoses run empty before they part. */
  readonly drains: boolean;
  /** Writes down what is shown; or a number out of the head, thousandths of its unit. */
  readonly reads: boolean;
  readonly writes_milli: number;
  /** Brings the controls to where they have to stand. */
  readonly handsOver: boolean;
}

export const GOOD: Habits = {
  hopes_s: 0,
  turnovers: [1, 1],
  waitsForClear: true,
  patience_s: 36000,
  oneByOne: true,
  reverses: true,
  opens_deg: 90,
  proof_s: 20,
  heedsProof: true,
  tests: true,
  takes_for_neat: false,
  minds_filter: true,
  drains: true,
  reads: true,
  writes_milli: 0,
  handsOver: true,
};
