// Jobs and the phases of a day as an assignment names them.
import { levelById, LEVELS, type Level } from '../../levels/index.ts';
import { drillId, type Phase } from '../../sim/index.ts';

/** A drill is put together anew whenever it is asked for; a page asks for it at every writing. */
const known = new Map<string, Level | null>();

/** The job, or one phase of it; null where there is none here. */
export function levelOf(job: string, phase: Phase | null = null): Level | null {
  const id = phase === null ? job : drillId(job, phase);
  let level = known.get(id);
  if (level === undefined) {
    level = levelById(id);
    known.set(id, level);
  }
  return level;
}

/** Phases of a job that can be practised apart. */
export function phasesOf(job: string): readonly Phase[] {
  return LEVELS.find(({ id }) => id === job)?.drills ?? [];
}
