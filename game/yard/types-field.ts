// What the layout hands to the drawers of the field: trenches unfolded, and bores.

/** One run of a trench, laid out flat: its own datum line, its own vertical scale. */
export interface Strip {
  readonly circuit: string;
  readonly run: 'out' | 'back' | 'whole';
  readonly datum_m: number;
  readonly datumY: number;
  readonly perMetre: number;
  readonly along: number;
  readonly x0: number;
  readonly x1: number;
  readonly top: number;
  readonly bottom: number;
  /** Ruler beside the strip. */
  readonly rulerX: number;
  readonly ruler: readonly number[];
  /** Distances marked on the datum line: metres from the circuit's start, and where. */
  readonly ticks: readonly { readonly at_m: number; readonly x: number }[];
}

/** A bore hole: both legs hang from `top`, heights below it in a scale of their own. */
export interface BoreMark {
  readonly circuit: string;
  /** Middle between the legs, and how far each leg stands from it. */
  readonly x: number;
  readonly leg: number;
  readonly top: number;
  readonly bottom: number;
  readonly top_m: number;
  readonly bottom_m: number;
  readonly width: number;
  /** Depths below the ground marked in the hole, m. */
  readonly marks: readonly { readonly depth_m: number; readonly y: number }[];
}
