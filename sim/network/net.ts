// What the solver works with beside plan and state: numbers of one tick, written anew in every
// tick. They are no state: a copy of a world makes its own.
import type { State } from '../state.ts';
import type { Factor } from './matrix.ts';
import type { Plan } from './plan.ts';

/** Numbers that each half of a column has in `halves`. */
export const HALVES = 6;

/** Numbers of one tick, overwritten every tick; not state. */
export interface Scratch {
  /** Gas share of each volume. */
  readonly alpha: Float64Array;
  /** Room, give and drop of each volume: the plan's, with what warmth and creep add to it. */
  readonly shape: Float64Array;
  /** m3/Pa. Room by which the gas of each cell of a pipe shrinks under pressure. */
  readonly yields: Float64Array;
  /** 1 for each link with gas in one of its cells. */
  readonly gassy: Uint8Array;
  /** m3/s that each volume takes beyond the pressure's doing (discrepancy S, negated). */
  readonly excess: Float64Array;
  /**
   * Six numbers of each half of each column (HALVES): what it weighs, Pa; sum of densities, of
   * shares of liquid, and of `excess`; of gas shares to the
   * fourth power; and what its gas yields, m3/Pa.
   */
  readonly halves: Float64Array;
  /** The first cell of each half: where the one before it ends. */
  readonly halfAt: Int32Array;
  /** 1 for each half of a column whose `alpha` and `yields` may be more than nothing. */
  readonly foul: Uint8Array;
  /** Pa. What the contents of each cell weigh along from -> to. */
  readonly pull: Float64Array;
  /** Per column: weight G (Pa), inertia (Pa s2/m3), liquid length (m). */
  readonly weight: Float64Array;
  readonly inertia: Float64Array;
  readonly wet: Float64Array;
  /** Per column: what running layers answer to a change of its flow, Pa s/m3. */
  readonly layer: Float64Array;
  /** Per point: gas compliance sum(m/p^2), excess S. */
  readonly gasC: Float64Array;
  /** Per point: room of gas, weighed by the square of its share in its cell, m3. */
  readonly pocket: Float64Array;
  /** J in a cubic metre of each volume's gas, where gas heats. */
  readonly perRoom: Float64Array;
  readonly source: Float64Array;
  /** Per link: degrees open, 0..90. */
  readonly open: Float64Array;
  /** Per column: loss coefficient of what pinches it; per node: Pa that a supply falls short. */
  readonly pinch: Float64Array;
  readonly sag: Float64Array;
  /** Per column: what tees add to its drive along from -> to, Pa. */
  readonly teePush: Float64Array;
  readonly out: Float64Array;
}

export interface Heads {
  readonly factor: Factor;
  /** Unknown's number of each point, or -1 where the pressure is given. */
  readonly unknown: Int32Array;
  /** Where each column between two unknowns adds to the factor's `off`, or -1. */
  readonly slot: Int32Array;
  readonly rhs: Float64Array;
  /** Linearised column: Q = q0 + gain (p_a - p_b); explicit part of its drive. */
  readonly gain: Float64Array;
  readonly q0: Float64Array;
  readonly drive: Float64Array;
  /** Net drive and its slope, and the flow where they were last worked out in this tick. */
  readonly at: Float64Array;
  readonly push: Float64Array;
  readonly slope: Float64Array;
  /** Points of each column, and their unknowns. */
  readonly columnA: Int32Array;
  readonly columnB: Int32Array;
  /** Link of each column; 1 where its flow is imposed, 2 of a hand pump. */
  readonly columnLink: Int32Array;
  /** Pump in each column, or -1. */
  readonly columnPump: Int32Array;
  readonly imposed: Uint8Array;
  /** m of pipe; 0 of a fitting. */
  readonly columnLength: Float64Array;
  /** Per column: the volumes whose gas it can let through (choke.ts). */
  readonly beside: Int32Array;
  /** m3/s. Most gas that a column lets through freely, and most of what it holds in this tick. */
  readonly mostGas: Float64Array;
  readonly most: Float64Array;
  readonly ua: Int32Array;
  readonly ub: Int32Array;
  readonly theta: Float64Array;
  /** Offset of the pressure a column feels at a tank's port against the node's, Pa. */
  readonly offsetA: Float64Array;
  readonly offsetB: Float64Array;
  /** Pa. Pressures that a step starts from, and that the tick started from. */
  readonly before: Float64Array;
  readonly start: Float64Array;
  /** Per point: share of what it can store that its gas stores. */
  readonly gasShare: Float64Array;
  /** Per point: what V goes with, (p1/p2) to this; share of warmth a tick leaves; V over V then. */
  readonly exponent: Float64Array;
  readonly stays: Float64Array;
  readonly squeeze: Float64Array;
  /** Gas compliance of each point as a step starts, m3/Pa. */
  readonly gasNow: Float64Array;
}

/** What solving a tick needs; a world is one. */
export interface Net {
  readonly plan: Plan;
  readonly state: State;
  readonly scratch: Scratch;
  readonly heads: Heads;
  /** Flow of each column as the passes find it, m3/s. */
  readonly trial: Float64Array;
  readonly dt: number;
}
