// What a hazard is made of: where it is watched for, what is measured there, and the limits that
// the measure is held against. Leaves stages and episodes to hazard.ts.
import type { Fact, HazardKind } from '../fact.ts';
import type { Scratch } from '../network/net.ts';
import type { Plan } from '../network/plan.ts';
import type { State } from '../state.ts';

/** What a measure may look at: the world as the tick has left it, and the tick's facts. */
export interface Judged {
  readonly plan: Plan;
  readonly state: State;
  readonly alpha: Float64Array;
  readonly scratch: Scratch;
  readonly dt: number;
  readonly facts: readonly Fact[];
}

/** Where a warning is given and where it has happened, in the unit of the measure. */
export interface Limits {
  readonly warn: number;
  readonly trip: number;
}

/** One place that is watched; `at` is the id of a part, which words know. */
export interface Place {
  readonly at: string;
  /** What the kind counts by: a pump, a tank, a node, a link, a device. */
  readonly index: number;
  /** Whatever else it has to look at, by index. */
  readonly more?: readonly number[];
  /** Where they are the place's own, as by a rating. */
  readonly limits?: Limits;
}

/** One kind of hazard. A measure allocates nothing while nothing happens. */
export interface Hazard {
  readonly kind: HazardKind;
  readonly limits: Limits;
  /** Every place where it can happen; none where the scenario has nothing of the kind. */
  readonly places: (plan: Plan) => readonly Place[];
  /** The measure now, SI; `slot` is where the watch keeps its numbers (WATCH, in the state). */
  readonly measure: (world: Judged, watch: Watch, slot: number) => number;
}

/** A place under watch. */
export interface Watch {
  readonly hazard: HazardKind;
  readonly at: string;
  readonly index: number;
  readonly more: readonly number[];
  readonly warn: number;
  readonly trip: number;
  readonly measure: Hazard['measure'];
}

/** Offsets in a watch's part of the state: `KEPT` is a number of the kind's own. */
export const VALUE = 0;
export const STAGE = 1;
export const WORST = 2;
export const KEPT = 3;

/** How fast a timer runs back once its condition is gone, over the time that goes by. */
const RECOVERY = 5;

/** A timer while something holds, s or whatever `step` counts a tick by. */
export function timed(before: number, holds: boolean, step: number): number {
  if (holds) return before + step;
  const less = before - RECOVERY * step;
  return less > 0 ? less : 0;
}

/** The part that a hidden node or link belongs to: `joint.from_air` is the coupling `joint`. */
export function partOf(id: string): string {
  const dot = id.indexOf('.');
  return dot < 0 ? id : id.slice(0, dot);
}
