// What moving the contents works with: fluxes and amounts of one tick, written anew in every tick.
import type { Heads, Scratch } from '../network/net.ts';
import type { Plan } from '../network/plan.ts';
import type { State } from '../state.ts';

/** Numbers that each volume has in `sent`. */
export const SENT = 3;

export interface Fluxes {
  /** m3/s of everything through each face, along from -> to. */
  readonly total: Float64Array;
  /** Gas share that a boundary offers to a face that draws from it; from side, to side. */
  readonly offered: Float64Array;
  readonly out: Float64Array;
  /** m3/Pa. What the walls of each column's first half give, and of its second. */
  readonly gives: Float64Array;
  /**
   * Three numbers a volume, side by side since they are read together: gas that rides with a flow
   * of 1 m/s; gas that its slip sends ahead (towards the end) and back, m/s. Above zero the slip
   * goes that way, into what room there is; below zero it holds back what the flow would carry.
   */
  readonly sent: Float64Array;
  /** m/s. What layers and jumps add at the face before each cell. */
  readonly layers: Float64Array;
  /** m3/s of gas through the face before each cell; 0 before the first of a pipe. */
  readonly gas: Float64Array;
  /** m3/s at which the haze of each cell rises along from -> to, over its share. */
  readonly rise: Float64Array;
}

export interface Moves {
  /** J and kg through each face in this tick, along from -> to. */
  readonly gas: Float64Array;
  readonly liquid: Float64Array;
  /** What a volume would lose, J and kg; then the share of it that it can give. */
  readonly gasOut: Float64Array;
  readonly liquidOut: Float64Array;
  /** What each node is asked for, J and kg, and what arrives at it in this tick. */
  readonly gasAsked: Float64Array;
  readonly liquidAsked: Float64Array;
  readonly arrived: Float64Array;
}

/** False where no antifreeze can ever be: then nothing of it has to be followed. */
export function carriesSolute(plan: Plan): boolean {
  return plan.scenario.antifreeze !== 'none';
}

/** True where the scenario says what is around the pipes: then heat is followed. */
export function carriesHeat(plan: Plan): boolean {
  return plan.thermal !== null;
}

/** True where air in solution is followed. */
export function carriesAir(plan: Plan): boolean {
  return plan.scenario.dissolved_air !== undefined;
}

/** True where the liquid carries anything at all. */
export function carriesLoads(plan: Plan): boolean {
  return carriesSolute(plan) || carriesHeat(plan) || carriesAir(plan);
}

/** What moving the contents needs; a world is one. */
export interface Flow {
  readonly plan: Plan;
  readonly state: State;
  readonly scratch: Scratch;
  readonly fluxes: Fluxes;
  readonly heads: Heads;
  readonly moves: Moves;
  readonly dt: number;
}
