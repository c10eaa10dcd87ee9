// What a world keeps for the steps of a night.

/** What choosing a step goes by; fixed for a world. */
export interface Night {
  /** The scenario's own ticks in each of a night's steps. */
  readonly steps: readonly number[];
  readonly least: Float64Array;
  readonly tick_s: number;
  /** Tick at which the scenario's time is up. */
  readonly ends: number;
}
