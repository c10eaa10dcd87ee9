// What moving debris works with: numbers of one move of one class, made once, and no state.
import type { Plan } from '../network/plan.ts';
import type { Flow } from './flow.ts';

/** Numbers of one move; not state. Empty where no debris is followed. */
export interface GrainRoom {
  /** m/s: of the liquid, its shear velocity; of the grains of one class, by volume and by link. */
  readonly u: Float64Array;
  readonly shear: Float64Array;
  readonly speed: Float64Array;
  readonly linkSpeed: Float64Array;
  /** What `Fate` says of each volume. */
  readonly lift: Float64Array;
  readonly rest: Float64Array;
  /** kg of one class through each face, along from -> to. */
  readonly flux: Float64Array;
  /** Share of what moves in a node that its links ask for together. */
  readonly asked: Float64Array;
  /** 1 of a link that holds any grains of the class. */
  readonly holds: Uint8Array;
  /** 1 of a node with any; where there is nothing nobody has to ask how fast it would go. */
  readonly stands: Uint8Array;
  /** The class that is moved. */
  c: number;
}

export function makeGrainRoom(plan: Plan): GrainRoom {
  const volumes = plan.debris === null ? 0 : plan.volumes;
  return {
    u: new Float64Array(volumes),
    shear: new Float64Array(volumes),
    speed: new Float64Array(volumes),
    linkSpeed: new Float64Array(plan.debris === null ? 0 : plan.links.length),
    lift: new Float64Array(volumes),
    rest: new Float64Array(volumes),
    flux: new Float64Array(plan.debris === null ? 0 : plan.faces),
    asked: new Float64Array(plan.debris === null ? 0 : plan.nodes.length),
    holds: new Uint8Array(plan.debris === null ? 0 : plan.links.length),
    stands: new Uint8Array(plan.debris === null ? 0 : plan.nodes.length),
    c: 0,
  };
}

/** A world that follows debris. */
export interface GrainFlow extends Flow {
  readonly grainRoom: GrainRoom;
}
