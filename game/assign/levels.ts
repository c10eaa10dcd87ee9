// Jobs and the phases of a day as an assignment names them.
import { levelById, type Level } from '../../levels/index.ts';
import { drillId, PHASES, type Phase } from '../../sim/index.ts';

/** The job, or one phase of it; null where there is none here. */
export function levelOf(job: string, phase: Phase | null = null): Level | null {
  return levelById(phase === null ? job : drillId(job, phase));
}

/** Phases of a job that can be practised apart. */
export function phasesOf(job: string): readonly Phase[] {
  return PHASES.filter((phase) => levelOf(job, phase) !== null);
}
