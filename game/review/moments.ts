// The three to five moments of a job that matter, by one rule: see `momentsOf`. Chosen from marks
// and facts, and from the two ticks that only a new run of the record finds. In order of time.
import type { Fact, HazardKind, Scenario, Score } from '../../sim/index.ts';
import { isOfSheet } from '../verdict.ts';

const MOMENTS_LEAST = 3;
const MOMENTS_MOST = 5;
const CRITICAL_MOST = 3;
/** A deduction below this is no moment of its own, points. */
const POINTS_LEAST = 1;
const SAME_S = 20;

export type Moment = { readonly tick: number; readonly good: boolean } & (
  | { readonly kind: 'critical'; readonly hazard: HazardKind; readonly nth: number }
  /** `nth` in the score's deductions. */
  | { readonly kind: 'deduction'; readonly nth: number }
  | { readonly kind: 'hand_over'; readonly points: number }
  | { readonly kind: 'loss' }
  | { readonly kind: 'purged' }
  | { readonly kind: 'milestone'; readonly id: string }
  | { readonly kind: 'handed_over' }
  | { readonly kind: 'primed'; readonly at: string }
);

/** Ticks that only a new run of the record finds; null where there is nothing, or not yet. */
export interface Found {
  readonly purged: number | null;
  readonly loss: number | null;
}

const NOT_FOUND: Found = { purged: null, loss: null };

export interface Told {
  readonly score: Score;
  readonly facts: readonly Fact[];
  readonly scenario: Scenario;
}

/**
 * 1. Critical errors, the first of each kind, three at most, which stand for their deductions too.
 * 2. What cost points at the hand-over, as one moment; then every other deduction of a point or
 *    more that has its moment, dearest first; the greatest loss of fluid where losses cost any.
 *    The job sheet has none: nothing of it can be seen in the yard, and it has its own part below.
 * 3. One place of the five is kept for what went right: the loop free of air for good, else the
 *    dearest milestone that came in its turn. Where errors do not make three, more of these
 *    follow, then a hand-over that cost nothing, then the pump's first catch.
 * What lies within 20 s of a moment already taken is that moment.
 */
export function momentsOf(told: Told, found: Found = NOT_FOUND): readonly Moment[] {
  const near = SAME_S / told.scenario.solver.tick_s;
  const taken: Moment[] = [];
  const take = (all: readonly Moment[], most: number): void => {
    for (const one of all) {
      if (taken.length >= most) return;
      if (!taken.some(({ tick }) => Math.abs(tick - one.tick) < near)) taken.push(one);
    }
  };
  const right = wentRight(told, found);
  take(criticals(told.score), CRITICAL_MOST);
  take(errors(told, found), MOMENTS_MOST - Math.min(1, right.length));
  take(right, Math.max(MOMENTS_LEAST, Math.min(taken.length + 1, MOMENTS_MOST)));
  take(plain(told), MOMENTS_LEAST);
  return taken.sort((a, b) => a.tick - b.tick);
}

/** Every tick that may come up: of the moments, and of all that cost points. */
export function wantedOf(told: Told): readonly number[] {
  const right = wentRight(told, NOT_FOUND).slice(0, MOMENTS_MOST);
  const may = [...right, ...plain(told)].map(({ tick }) => tick);
  const lost = told.score.deductions.flatMap((one) => (isOfSheet(one) ? [] : one.tick ?? []));
  return [...new Set([...may, ...lost, ...told.score.critical.map(({ tick }) => tick)])];
}

function criticals({ critical }: Score): readonly Moment[] {
  const seen = new Set<HazardKind>();
  return critical.flatMap(({ hazard, tick }, nth) => {
    if (seen.has(hazard)) return [];
    seen.add(hazard);
    return [{ kind: 'critical', hazard, tick, nth, good: false } as const];
  });
}

function errors({ score, facts }: Told, { loss }: Found): readonly Moment[] {
  const end = endOf(facts);
  const weighed: { readonly points: number; readonly moment: Moment }[] = [];
  const told = score.critical.map(({ hazard, at }) => `${hazard} ${at}`);
  score.deductions.forEach((one, nth) => {
    const { tick, points, dimension, rule, at } = one;
    if (dimension === 'time' || tick === null || told.includes(`${rule} ${at}`)) return;
    if (isOfSheet(one)) return;
    if (tick !== end && points >= POINTS_LEAST) {
      weighed.push({ points, moment: { kind: 'deduction', tick, nth, good: false } });
    }
  });
  const atEnd = lostAt(score, end);
  if (end !== null && atEnd >= POINTS_LEAST) {
    const moment = { kind: 'hand_over', tick: end, points: atEnd, good: false } as const;
    weighed.push({ points: Infinity, moment }); // First of all: there the job is judged.
  }
  const lost = score.deductions.reduce((sum, { dimension, points }) =>
    sum + (dimension === 'losses' ? points : 0), 0);
  if (loss !== null && lost > 0) {
    weighed.push({ points: lost, moment: { kind: 'loss', tick: loss, good: false } });
  }
  weighed.sort((a, b) => b.points - a.points || a.moment.tick - b.moment.tick);
  return weighed.map(({ moment }) => moment);
}

const endOf = (facts: readonly Fact[]): number | null =>
  facts.find(({ kind }) => kind === 'done')?.tick ?? null;

/** What was lost at one tick, but for time, which is lost all along. */
function lostAt({ deductions }: Score, at: number | null): number {
  return deductions.reduce((sum, one) =>
    sum + (one.dimension !== 'time' && one.tick === at && !isOfSheet(one) ? one.points : 0), 0);
}

function wentRight({ score, scenario }: Told, { purged }: Found): readonly Moment[] {
  const points = new Map((scenario.job?.milestones ?? []).map((one) => [one.id, one.points]));
  const done = score.milestones
    .flatMap(({ id, tick, in_order }) =>
      tick === null || tick === 0 || !in_order ? [] : [{ id, tick }])
    .sort((a, b) => (points.get(b.id) ?? 0) - (points.get(a.id) ?? 0) || a.tick - b.tick)
    .map(({ id, tick }): Moment => ({ kind: 'milestone', id, tick, good: true }));
  return purged === null ? done : [{ kind: 'purged', tick: purged, good: true }, ...done];
}

/** What every job has that was worked at. */
function plain({ score, facts }: Told): readonly Moment[] {
  const end = endOf(facts);
  const caught = facts.find((fact) => fact.kind === 'event' && fact.event === 'primed');
  return [
    ...(end === null || lostAt(score, end) >= POINTS_LEAST ? []
      : [{ kind: 'handed_over', tick: end, good: true } as const]),
    ...(caught?.kind !== 'event' ? []
      : [{ kind: 'primed', tick: caught.tick, at: caught.at, good: true } as const]),
  ];
}
