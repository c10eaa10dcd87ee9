// Who can play: the reference, and those who go wrong in one way each. What a wrong player does
// otherwise is the edit that stands here, and nothing else; by which rules it fails a job is held
// against a table by the tests.
import type { Habits } from './habits.ts';
import { playerOf, type Player } from './player.ts';

export const REFERENCE = 'reference';

/** The one thing each does otherwise. */
export const EDITS: Readonly<Record<string, Partial<Habits>>> = {
  /** Switches the pump on with its casing empty, and hopes for a minute. */
  skips_priming: { hopes_s: 60 },
  /** Opens the first valve a little only, and does not wait for ever. */
  too_slow: { opens_deg: 12, patience_s: 1200, heedsProof: false },
  /** One way round only. */
  never_reverses: { reverses: false, heedsProof: false },
  /** All circuits at once, though each has valves of its own. */
  all_at_once: { oneByOne: false, heedsProof: false },
  /** Done as soon as water comes back. */
  stops_early: { waitsForClear: false, heedsProof: false },
  /** The return against the pump for as long as a break takes. */
  shuts_return_too_long: { proof_s: 400 },
  /** Leaves every valve as it stood at the purge. */
  leaves_as_purged: { handsOver: false },
  /** Never waits for a test to stand. */
  never_tests: { tests: false },
  /** Doses premix as if it were neat: too little by far. */
  neat_alcohol: { takes_for_neat: true },
  /** Leaves the bag as it is. */
  forgets_filter: { minds_filter: false },
  /** Fills the sheet in out of the head. */
  records_without_reading: { reads: false, writes_milli: 77000 },
  /** Parts hoses that are full. */
  spills_on_disconnect: { drains: false },
};

export const PLAYERS: readonly string[] = [REFERENCE, ...Object.keys(EDITS)];

/** Null where nobody has that name. */
export function playerNamed(id: string): Player | null {
  if (id === REFERENCE) return playerOf(id);
  const edit = Object.hasOwn(EDITS, id) ? EDITS[id] : undefined;
  return edit === undefined ? null : playerOf(id, edit);
}
