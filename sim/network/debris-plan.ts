// What debris needs of a plan: classes and elements by index, which links wear one, which are
// coils, and how steep every cell and fitting stands. How it is worked out is debris-tables.ts's.

export interface GrainClass {
  readonly id: string;
  /** m, kg/m3. */
  readonly d: number;
  readonly density: number;
}

export interface ElementPlan {
  readonly id: string;
  /** Loss of its cake, Pa, over viscosity, flow and mass: 1/(m3 kg). */
  readonly cake: number;
  readonly lossK: number;
  readonly sheds: number;
  /** Share of each class that it keeps in a pass. */
  readonly keeps: Float64Array;
}

export interface DebrisPlan {
  /** Ticks from one move to the next, and the seconds of them. */
  readonly every: number;
  readonly dt: number;
  readonly classes: readonly GrainClass[];
  readonly elements: readonly ElementPlan[];
  /** Links that can wear an element, the element each starts with; the catcher of a link or -1. */
  readonly catchers: Int32Array;
  readonly starts: Int32Array;
  readonly catcherOf: Int32Array;
  /** Coils, and the coil of a link or -1. */
  readonly coils: Int32Array;
  readonly coilOf: Int32Array;
  /** kg that may come to a coil. */
  readonly allowed: number;
  /** Sine and cosine of the rise from -> to: of every volume, of every link without length. */
  readonly sine: Float64Array;
  readonly cosine: Float64Array;
  readonly linkSine: Float64Array;
}

/** Sizes of its lists in the state. */
export function countsOf({ classes, catchers, coils }: DebrisPlan) {
  return { classes: classes.length, catchers: catchers.length, coils: coils.length };
}
