// A site in a few numbers: the rig, the make-up water, the header and what hangs on it. This is
// what a person knows from the drawing; build.ts makes a whole scenario of it.
import type { PipeSize } from '../laws/pipe.ts';
import type { JobSpec, RangeSpec } from '../scenario.ts';
import type { DaySite, PlantRoom } from './kit-site.ts';

/** Three carts of different anatomy, all invented for this project; numbers in the rig-*.ts. */
export const RIGS = ['deck', 'barrow', 'mast'] as const;
export type RigKind = (typeof RIGS)[number];

/** Where make-up water comes from. */
export interface MakeUp {
  /** Gauge pressure of the tap or hydrant, standing. */
  readonly pressure_kPa: number;
  readonly hose_m: number;
  readonly bore_mm: number;
}

export interface RigSite {
  readonly kind: RigKind;
  /** Length of each of the two hoses between rig and loop stubs; at least 4. */
  readonly hose_m: number;
  /** What stands in the tank at the start; else about two thirds of its height. */
  readonly start_level_mm?: number;
  /** What stands in pump, pipework and hoses; else air, as on arrival. */
  readonly contents?: 'air' | 'water';
  /** Else a garden hose: 280 kPa, 15 m of 13 mm bore (the mast: 300 kPa, 20 m of 25 mm). */
  readonly make_up?: MakeUp;
}

/** A stretch of a pipe, from its supply end. */
export interface Stretch {
  readonly from_m: number;
  readonly to_m: number;
}

/**
 * What stands in a circuit at the start: all air, all water, air in so much of each end, or air
 * in these stretches.
 */
export type Contents = 'air' | 'water' | { readonly air_at_ends_m: number } | readonly Stretch[];

/** A hump in a trench: up over `half_m`, down over as much. */
export interface Crest {
  readonly at_m: number;
  readonly rise_m: number;
  readonly half_m: number;
}

interface OneCircuit {
  /** Iron-pipe size of polyethylene pipe; bore as in laws/pipe.ts [ASTMD3035]. */
  readonly size: PipeSize;
  /** Dimension ratio; else that of the field. */
  readonly dr?: number;
  readonly contents: Contents;
  /** Local losses in velocity heads; else as in circuits.ts. */
  readonly loss_k?: number;
  /** A service valve at each end, at the header; or at its supply end alone. */
  readonly valves?: boolean | 'supply';
}

/** One pipe out along a trench and back. */
export interface Trench extends OneCircuit {
  readonly kind: 'trench';
  readonly length_m: number;
  /** Floor of the trench; ground is 0, below is negative. */
  readonly elevation_m: number;
  readonly crests?: readonly Crest[];
}

/** One bore: along from the header, down, a U-bend, up, and back. */
export interface Bore extends OneCircuit {
  readonly kind: 'bore';
  /** From the header's elevation to the U-bend. */
  readonly depth_m: number;
  /** Level pipe between header and bore, each way. */
  readonly run_m: number;
}
export type Circuit = Trench | Bore;

/** One of the two lines of a header. */
export interface Side {
  /**
   * Sizes of its stretches from the building outwards: the run-out first, then those between
   * tees. The last size given holds for all that follow: one size is a constant header.
   */
  readonly sizes: readonly PipeSize[];
  /** How much lower the last tee lies than the first; negative where it lies higher. */
  readonly fall_m?: number;
}

export interface Header {
  /** Direct: first fed is first back. Reverse: first fed comes back by the longest way. */
  readonly return_kind: 'direct' | 'reverse';
  /** Of the first tee. */
  readonly elevation_m: number;
  /** From the building (or the vault) to the first tee. */
  readonly run_out_m: number;
  /** Between tees along the header. */
  readonly spacing_m: number;
  readonly supply: Side;
  readonly return: Side;
}

/** Circuits with a header and a pair of valves of their own. */
export interface Bank {
  readonly kind: 'bank';
  /** Valves stand where the bank leaves the header, in a vault. */
  readonly header: Header;
  readonly circuits: readonly Circuit[];
}

export interface Field {
  readonly header: Header;
  /** In the order of the supply header's tees. Circuits are numbered through the banks. */
  readonly branches: readonly (Circuit | Bank)[];
  /** What stands in the headers. */
  readonly contents: 'air' | 'water';
  /** Dimension ratio of all pipe; else 11. */
  readonly dr?: number;
  /** Gauge pressure in the shut-in field at the start: test air, or water under pressure. */
  readonly start_pressure_kPa?: number;
}

/** The heat-pump side behind two three-way service valves. */
export interface PlantSide {
  /** The unit's table of loss by flow, rising. */
  readonly coil: readonly { readonly flow_L_s: number; readonly loss_kPa: number }[];
  readonly size: PipeSize;
  /** Pipe between the service valves and the unit, each way. */
  readonly pipe_m: number;
  /** Height of the unit's connections. */
  readonly elevation_m: number;
  readonly contents: 'air' | 'water';
  /** The loop's own pump and what else stands in the plant room. */
  readonly room?: PlantRoom;
}

export interface Site {
  readonly id: string;
  readonly temperature_C: number;
  readonly rig: RigSite;
  readonly field: Field;
  readonly plant?: PlantSide;
  /** What a whole day needs beside rig, loop and unit. */
  readonly day?: DaySite;
  readonly tee_losses?: boolean;
  readonly ends_after_s: number;
  /** Length of a control volume; else 1 m, and more where the field is very large. */
  readonly cell_m?: number;
  /** What differs from form to form, by the places of the scenario that is built. */
  readonly ranges?: readonly RangeSpec[];
  /** What the job asks; the loop's pipes and the usual hand-over are filled in. */
  readonly job?: Omit<JobSpec, 'loop_links' | 'hand_over'> & Partial<Pick<JobSpec, 'hand_over'>>;
}
