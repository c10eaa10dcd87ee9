// How long one can be away in a job: what its second visit asks for, and a whole day.
import type { Scenario } from '../sim/index.ts';

const DAY_H = 24;

/** Hours, shortest first; none where a job is done in one visit. */
export function homeHours({ job }: Pick<Scenario, 'job'>): readonly number[] {
  const milestones = job?.milestones ?? [];
  const asked = milestones.flatMap((one) => (one.kind === 'left' ? [Math.ceil(one.hours)] : []));
  const second = milestones.some(({ phase }) => phase === 'second_visit');
  if (asked.length === 0 && !second) return [];
  return [...new Set([Math.max(1, ...asked), DAY_H])].filter((n) => n > 1).sort((a, b) => a - b);
}
