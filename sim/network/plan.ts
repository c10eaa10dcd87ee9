// What a scenario becomes: nodes, links, columns, cells and faces by index, fixed for a world's
// life. Leaves out anything that changes, and how it is worked out (cut.ts, topology.ts).
import type { GasSection } from '../laws/gas.ts';
import type { PumpCurve } from '../laws/pump.ts';
import type { LossTable } from '../laws/coil.ts';
import type { NodeSpec, PumpSpec, Scenario, TankSpec } from '../scenario.ts';
import type { Defects } from '../defects/types.ts';
import type { PartSpec } from './expand.ts';
import type { DebrisPlan } from './debris-plan.ts';
import type { PowerPlan } from './power.ts';
import type { Thermal } from './thermal.ts';
import type { MixPlan } from './vessel-plan.ts';

export const JUNCTION = 0;
export const TANK = 1;
export const RESERVOIR = 2;
export const OPEN = 3;

/** One node as the engine sees it. */
export interface NodePlan {
  readonly id: string;
  readonly spec: NodeSpec;
  readonly kind: number;
  readonly elevation: number;
  readonly volume: number;
  readonly tank: number;
  readonly ledger: number;
  readonly fixed: boolean;
  /** Pa abs, of a reservoir or an open end. */
  readonly pressure: number;
  readonly fraction: number;
  readonly rating: number;
}

/** One link: a run of cells (pipe, hose) or a fitting without length. */
export interface LinkPlan {
  readonly id: string;
  readonly spec: PartSpec;
  /** Link whose control rules how far this one stands open; most often itself. */
  readonly control: number;
  /** Of a coil. */
  readonly table: LossTable | null;
  readonly from: number;
  readonly to: number;
  /** Elevation of each end, and the tank port's bore and height there (or -1). */
  readonly zFrom: number;
  readonly zTo: number;
  readonly area: number;
  readonly bore: number;
  readonly length: number;
  readonly firstCell: number;
  readonly cells: number;
  readonly firstFace: number;
  readonly firstColumn: number;
  readonly columns: number;
  readonly pump: number;
  /** Section of a fitting, for the drift of gas through it. */
  readonly section: GasSection;
}

/** One rigid column: part of a pipe between two pressure points, or a fitting. */
export interface ColumnPlan {
  readonly link: number;
  readonly a: number;
  readonly b: number;
  /** First cell and count; the first `half` cells lean on point a, the rest on point b. */
  readonly cell: number;
  readonly cells: number;
  readonly half: number;
  readonly face: number;
  readonly lossK: number;
  readonly share: number;
}

export interface PumpPlan {
  readonly id: string;
  readonly link: number;
  readonly spec: PumpSpec;
  readonly curve: PumpCurve;
}
export interface TankPlan {
  readonly id: string;
  readonly node: number;
  readonly spec: TankSpec;
  /** Ends of links at its ports. */
  readonly ends: readonly EndPlan[];
}
/** The end of a link at a boundary: its face, height and bore; out = +1 where the link leaves. */
export interface EndPlan {
  readonly node: number;
  readonly column: number;
  readonly face: number;
  /** Place in a list with two numbers a face: what stands on its from side, on its to side. */
  readonly slot: number;
  readonly z: number;
  readonly bore: number;
  readonly area: number;
  readonly out: number;
}

/** Where three columns meet: those of the run and the branch; +1 where a column ends here. */
export interface TeePlan {
  readonly node: number;
  readonly columns: readonly [number, number, number];
  readonly inward: readonly [number, number, number];
  readonly area: readonly [number, number, number];
  /** Branch over run, areas. */
  readonly ratio: number;
  readonly angle_deg: number;
}

/** Walls that creep (creep.ts). */
export interface CreepPlan {
  /** Ticks from one move to the next. */
  readonly every: number;
  /** Volumes that creep, and Pa abs under which each wall has come to rest before the start. */
  readonly cells: Int32Array;
  readonly rest: Float64Array;
  /** Room that a pascal makes each element of each cell give in the end, m3: cell by cell. */
  readonly give: Float64Array;
  /** Share of what is still to come that each element gives in one move. */
  readonly share: Float64Array;
}

/** One side of a part that shuts, where the pressure may jump (surge.ts). */
export interface SurgePlan {
  /** Id of its control. */
  readonly at: string;
  readonly link: number;
  /** +1 on the side that the link leaves, -1 on the other. */
  readonly out: 1 | -1;
  readonly node: number;
  /** Pa gauge, of the weakest part that the wave meets. */
  readonly rating: number;
  /** s in which a wave is back from the nearest boundary, and ticks that are kept for it. */
  readonly period: number;
  readonly ticks: number;
  /** Columns of the pipes that meet there. */
  readonly columns: readonly number[];
  /** Place of its memory in the state. */
  readonly first: number;
}

export interface Plan {
  /** s of one step by this plan, and the scenario's own ticks in it: 1, or more at night. */
  readonly tick: number;
  readonly per: number;
  /** Density of the mixture by mass fraction (transport/solute.ts). */
  readonly mixture: Float64Array;
  /** Viscosity of the mixture by mass fraction, Pa s. */
  readonly thickness: Float64Array;
  /** What is wrong with the plant in this run. */
  readonly defects: Defects;
  /** What heat needs; null where the scenario has none. */
  readonly thermal: Thermal | null;
  /** What debris needs; null where the scenario has none. */
  readonly debris: DebrisPlan | null;
  /** Supply and motors; null where the scenario has none. */
  readonly power: PowerPlan | null;
  /** m/s. Rise of the small bubbles in a tank, and of the large ones. */
  readonly fineRise: number;
  readonly coarseRise: number;
  /** Ticks from one carrying of solutes to the next. */
  readonly soluteEvery: number;
  /** Ticks from one look at the liquid of every column to the next: a second. */
  readonly mixEvery: number;
  /** 1/s. Share of a discrepancy of room that is put right each second. */
  readonly relaxRate: number;
  /** True where water that runs under a pocket weighs nothing. */
  readonly layers: boolean;
  /** True where gas warms when it is squeezed; s/Pa, how slowly it cools at each point. */
  readonly heats: boolean;
  readonly cooling: Float64Array;
  readonly scenario: Scenario;
  readonly nodes: readonly NodePlan[];
  readonly links: readonly LinkPlan[];
  readonly columns: readonly ColumnPlan[];
  readonly pumps: readonly PumpPlan[];
  readonly tanks: readonly TankPlan[];
  readonly tees: readonly TeePlan[];
  /** Every end of a link at a tank, a reservoir or an open end. */
  readonly ends: readonly EndPlan[];
  /** Links that do not always stand open. */
  readonly turning: readonly number[];
  readonly ledgers: readonly string[];
  /** Kind of each volume: of a node its own, of a cell as of a junction: it holds what it has. */
  readonly kinds: Uint8Array;
  /** Pressure points: nodes first, then joints between columns of one pipe. */
  readonly points: number;
  readonly volumes: number;
  readonly faces: number;
  /** Per volume: room m3, compliance 1/Pa, length m, elevation of both faces, section. */
  readonly room: Float64Array;
  readonly compliance: Float64Array;
  /** Room that a pascal adds, m3; Pa per kg/m3 of contents from its start to its end. */
  readonly give: Float64Array;
  readonly drop: Float64Array;
  /** Room, give and drop of each volume side by side: the loops that weigh read all three. */
  readonly shape: Float64Array;
  /**
   * Two a face between cells: share of an exchange that the cell behind it takes part in as the
   * sink, and that the cell before it does.
   */
  readonly crest: Float64Array;
  /** Per point: elastic room a pascal adds, m3. */
  readonly wallC: Float64Array;
  /** Per column: what its losses need of its pipe (columns.ts); all 0 of a fitting. */
  readonly bores: Float64Array;
  readonly creep: CreepPlan;
  /** Empty where the scenario does not ask for surges. */
  readonly surges: readonly SurgePlan[];
  readonly cellLength: Float64Array;
  readonly zStart: Float64Array;
  readonly zEnd: Float64Array;
  readonly section: readonly (GasSection | null)[];
  /** Per cell: the first cell behind it in its pipe that has another section. */
  readonly runEnd: Int32Array;
  /** Per volume: pressure point it leans on. Per face: volumes on both sides, area. */
  readonly leans: Int32Array;
  readonly faceFrom: Int32Array;
  readonly faceTo: Int32Array;
  readonly nodeIx: ReadonlyMap<string, number>;
  readonly linkIx: ReadonlyMap<string, number>;
  readonly deviceIx: ReadonlyMap<string, number>;
  /** Cups, pails, hand pumps and a room's air. */
  readonly mix: MixPlan;
  /** Link that each device belongs to, or -1. */
  readonly deviceOf: Int32Array;
  /** Instrument of each line of the sheet, or -1. */
  readonly recorded: Int32Array;
  readonly water: {
    readonly rho: number;
    readonly mu: number;
    readonly sigma: number;
    readonly compressibility: number;
  };
}

/** Steps of this plan's length that have gone by: what is done every so many goes by it. */
export function turnOf({ per }: Plan, { counter }: { readonly counter: Int32Array }): number {
  return (counter[0]! / per) | 0;
}

/** Ledgers that every world has; open ends and tanks add their own. */
export const COMMON_LEDGERS = ['supplied', 'dust'] as const;
export const LEDGER_SUPPLIED = 0;
export const LEDGER_DUST = 1;
