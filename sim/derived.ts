// The one line of the sheet of readings that no instrument shows: the air that is left in the loop,
// worked out from two readings of the tank's level, with the return open and shut. A job has it
// whose job sheet asks for that fall and whose sheet of readings has both levels.
import type { Scenario } from './scenario.ts';

export interface Residual {
  readonly tank: string;
  /** The valve that is shut against the pump. */
  readonly valve: string;
  /** Lines of the sheet of readings: the level with that valve open, and shut. */
  readonly open: string;
  readonly shut: string;
}

const known = new WeakMap<Scenario, Residual | null>();

/** Null where a job does not have it. */
export function residualOf(scenario: Scenario): Residual | null {
  const before = known.get(scenario);
  if (before !== undefined) return before;
  const found = lookedFor(scenario);
  known.set(scenario, found);
  return found;
}

function lookedFor({ job, record, instruments }: Scenario): Residual | null {
  const drop = job?.sheet?.lines.find((line) => line.kind === 'drop');
  if (drop?.kind !== 'drop') return null;
  const shows = instruments.filter((one) => one.kind === 'level' && one.tank === drop.tank);
  const levels = record.filter(({ reading }) => shows.some(({ id }) => id === reading));
  const [open, shut] = levels;
  if (open === undefined || shut === undefined) return null;
  return { tank: drop.tank, valve: drop.valve, open: open.id, shut: shut.id };
}
