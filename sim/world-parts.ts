// What a world is made of: the plan, the state, and room to work in that is no state.
import type { Watch } from './hazards/kind.ts';
import type { Crack } from './network/cracks.ts';
import type { Goal } from './milestones.ts';
import type { Night } from './night-parts.ts';
import type { Scratch } from './network/net.ts';
import type { Heads } from './network/net.ts';
import type { Plan } from './network/plan.ts';
import type { State } from './state.ts';
import type { GrainRoom } from './transport/grain-room.ts';
import type { Loads } from './transport/load.ts';
import type { Moves } from './transport/flow.ts';
import type { Fluxes } from './transport/flow.ts';

export interface World {
  readonly plan: Plan;
  readonly seed: number;
  /** s. */
  readonly dt: number;
  readonly state: State;
  /** kg, kg, J of gas, J of heat, kg of debris at the start. */
  readonly start: Float64Array;
  readonly scratch: Scratch;
  readonly heads: Heads;
  readonly fluxes: Fluxes;
  readonly moves: Moves;
  readonly loads: Loads;
  readonly grainRoom: GrainRoom;
  readonly watches: readonly Watch[];
  readonly cracks: readonly Crack[];
  readonly goals: readonly Goal[];
  readonly trial: Float64Array;
  readonly night: Night;
  /** Worlds on the same state with a night's steps, made when they are asked for; `last` is what
   *  the last step was made with: its scratch is up to date. */
  readonly frames: { readonly steps: (World | null)[]; last: World | null };
}
