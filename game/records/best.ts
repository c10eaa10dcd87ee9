// The best marks of a job so far, as the list of jobs shows them. A practice score: the proof of an
// attempt is its record, which anybody can run again.
import type { Fact, RunRecord, Score } from '../../sim/index.ts';

export interface Best {
  readonly format: 1;
  readonly points: number;
  readonly passed: boolean;
  /** On the job's clock. */
  readonly time_s: number;
  /** What the marks belong to: they mean little on another form of the job. */
  readonly engine: string;
  readonly scenario_hash: string;
}

export function bestOf(score: Score, record: RunRecord, facts: readonly Fact[]): Best {
  const done = facts.find((fact) => fact.kind === 'done');
  const time_s = done?.kind === 'done' ? done.measures.time_s : 0;
  const { engine, scenario_hash } = record;
  return {
    format: 1, points: score.total, passed: score.passed, time_s, engine, scenario_hash,
  };
}

const rank = (marks: Best): number => marks.points + (marks.passed ? 1000 : 0);

/**
 * Passed beats not passed, then points, then the shorter time. Marks of another engine or form of
 * the job give way to fresh ones.
 */
export function betterOf(old: Best | null, fresh: Best): Best {
  if (old === null || !sameJob(old, fresh)) return fresh;
  if (rank(old) !== rank(fresh)) return rank(old) > rank(fresh) ? old : fresh;
  return old.time_s <= fresh.time_s ? old : fresh;
}

type Version = Pick<Best, 'engine' | 'scenario_hash'>;

export function sameJob(a: Version, b: Version): boolean {
  return a.engine === b.engine && a.scenario_hash === b.scenario_hash;
}

/** Null for anything that is not what `bestOf` makes. */
export function readBest(json: unknown): Best | null {
  if (typeof json !== 'object' || json === null) return null;
  const { format, points, passed, time_s, engine, scenario_hash } = json as Partial<Best>;
  const right = format === 1 && Number.isFinite(points) && Number.isFinite(time_s)
    && typeof passed === 'boolean' && typeof engine === 'string'
    && typeof scenario_hash === 'string';
  return right ? (json as Best) : null;
}
