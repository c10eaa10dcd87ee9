// What dosing looks like to the engine: cups, pails, hand pumps, a room's air, by index.
// Fixed for a world's life; mixing.ts works it out.

export interface CupPlan {
  /** Index among the devices; nodes of its places; m3. */
  readonly device: number;
  readonly places: Int32Array;
  readonly room: number;
  /** m. Edge of a cube of that room. */
  readonly side: number;
}

export interface CarryPlan {
  readonly device: number;
  /** Nodes; m3 a trip. */
  readonly from: number;
  readonly to: number;
  readonly room: number;
}

export interface RoomPlan {
  /** m3; m3/s that leaks; devices that are fans, and m3/s of each. */
  readonly volume: number;
  readonly leak: number;
  readonly fans: readonly { readonly device: number; readonly flow: number }[];
  /** Nodes of open tanks in it, and ledgers of what is spilled in it. */
  readonly tanks: readonly number[];
  readonly spills: readonly number[];
  readonly ledger: number;
}

export interface MixPlan {
  readonly cups: readonly CupPlan[];
  readonly carries: readonly CarryPlan[];
  /** Of each device: its number among cups or carries, or -1. */
  readonly cupOf: Int32Array;
  readonly carryOf: Int32Array;
  /** Links that are hand pumps; of each link its number among them, or -1. */
  readonly strokes: readonly number[];
  readonly strokeOf: Int32Array;
  /** Ledger of what cups have taken, or -1. */
  readonly sample: number;
  readonly room: RoomPlan | null;
}
