// Players at the levels, for the tests of players and the campaign.
import type { Scenario } from '../../../../sim/scenario.ts';
import { score } from '../../../../sim/score.ts';
import type { Score } from '../../../../sim/marks.ts';
import { playJob, type PlayedBy } from '../../../../sim/play.ts';
import { playerNamed } from '../../../../sim/player/players.ts';
import { RULES } from '../../../tools/golden.ts';

export interface Result {
  readonly marks: Score;
  readonly played: PlayedBy;
  /** Rules that took points, the same id once. */
  readonly lost: readonly string[];
}

export function playedBy(scenario: Scenario, name: string, seed: number): Result {
  const player = playerNamed(name);
  if (player === null) throw new Error(`no player ${name}`);
  const played = playJob(scenario, player, seed);
  const marks = score(played.run.scenario, RULES, played.run.facts);
  const lost = marks.deductions.filter(({ points }) => points > 0.05).map(({ rule }) => rule);
  return { marks, played, lost: [...new Set(lost)].sort() };
}

/** The same three things of what a player came to. */
export function fallsBy({ marks, lost }: Result): Fails {
  const critical = [...new Set<string>(marks.critical.map(({ hazard }) => hazard))];
  return { reasons: marks.reasons, lost, critical };
}

/** By what each fails a job, or null where there it does nothing wrong. */
export interface Fails {
  readonly reasons: readonly string[];
  /** Rules that take points. */
  readonly lost: readonly string[];
  readonly critical: readonly string[];
}

const AIR: Fails = {
  reasons: ['air_left', 'minimum_outcome', 'total'],
  lost: ['air_left', 'time_not_counted'],
  critical: [],
};
const DRY: Fails = {
  reasons: ['critical', 'minimum_safety', 'total'],
  lost: ['dry_run', 'time_not_counted'],
  critical: ['dry_run'],
};
const DEAD: Fails = {
  reasons: ['critical', 'minimum_safety', 'total'],
  lost: ['deadhead', 'time_not_counted'],
  critical: ['deadhead'],
};
const OPEN: Fails = {
  reasons: ['hand_over', 'minimum_safety', 'total'],
  lost: ['time_not_counted', 'valve_left_open'],
  critical: [],
};

/** Mistakes of a day, for which a job that is to be filled and purged leaves no room. */
const OF_A_DAY = {
  never_tests: null,
  neat_alcohol: null,
  forgets_filter: null,
  records_without_reading: null,
  spills_on_disconnect: null,
};

/** Player by job. Null: the job leaves no room for that mistake, and it passes. */
export const TABLE: Readonly<Record<string, Readonly<Record<string, Fails | null>>>> = {
  '01-heron-lane': {
    skips_priming: null, // The casing floods by itself.
    too_slow: AIR,
    never_reverses: null, // The cart has one way.
    all_at_once: null, // One circuit.
    stops_early: AIR,
    shuts_return_too_long: DEAD,
    leaves_as_purged: OPEN,
    ...OF_A_DAY,
  },
  '02-sedge-meadow': {
    skips_priming: DRY,
    too_slow: AIR,
    never_reverses: null,
    all_at_once: AIR,
    stops_early: AIR,
    shuts_return_too_long: DEAD,
    leaves_as_purged: OPEN,
    ...OF_A_DAY,
  },
  '03-kestrel-yard': {
    skips_priming: null,
    too_slow: AIR,
    never_reverses: AIR,
    all_at_once: null, // The bores have no valves.
    stops_early: AIR,
    shuts_return_too_long: DEAD,
    leaves_as_purged: OPEN,
    ...OF_A_DAY,
  },
};
