// What the layout hands to the drawers and to the HTML layer. All lengths are drawing units;
// a box is given by its top left corner. Elevations are metres above the ground at the cart.

export const SHAPES = ['wide', 'tall'] as const;
export type Shape = (typeof SHAPES)[number];

export interface Point {
  readonly x: number;
  readonly y: number;
}
export interface Box extends Point {
  readonly w: number;
  readonly h: number;
}

export const PLACED_KINDS = ['valve', 'pump', 'tank', 'gauge', 'meter', 'sight', 'note'] as const;
export type PlacedKind = (typeof PLACED_KINDS)[number];

/** Where the HTML layer puts a control or a reading; `x`, `y` are the top left corner. */
export interface Placed extends Box {
  readonly id: string;
  readonly kind: PlacedKind;
  readonly labelKey: string;
}

export type Align = 'left' | 'center' | 'right';

/** Room kept for a text; `leader` runs from the text to a dot on the thing it names. */
export interface Label extends Box {
  readonly key: string;
  readonly values: Readonly<Record<string, number>>;
  readonly align: Align;
  readonly tone: 'name' | 'mark';
  readonly leader: readonly Point[];
}

/** A straight vertical scale: y = zero - elevation * perMetre. */
export interface Scale {
  readonly zero: number;
  readonly perMetre: number;
}

/** A point of a pipe's path: `s` metres from its start; (nx, ny) points to the crown. */
export interface PathPoint extends Point {
  readonly s: number;
  readonly nx: number;
  readonly ny: number;
  /** 1 where the crown lies along (nx, ny), 0 where the drawing looks down on the pipe. */
  readonly crown: number;
  /** True where the pipe really stands steep, so that gas fills it as slugs. */
  readonly steep: boolean;
}

export const SIDES = ['supply', 'return', 'make_up'] as const;
export type Side = (typeof SIDES)[number];

export interface Conduit {
  readonly id: string;
  readonly kind: 'pipe' | 'hose';
  readonly clear: boolean;
  readonly side: Side;
  /** Inside width on the drawing. */
  readonly width: number;
  readonly length_m: number;
  readonly points: readonly PathPoint[];
  /** Drawn over the tank's water instead of under it. */
  readonly inTank: boolean;
}

/** A piece of plain pipe between parts, whose inside is not shown. */
export interface Fitting {
  readonly points: readonly Point[];
  readonly width: number;
}

export interface ValveMark extends Point {
  readonly id: string;
  readonly size: number;
  readonly width: number;
}
export interface DialMark extends Point {
  readonly id: string;
  readonly r: number;
  readonly stem: Point;
  /** Full scale in the unit the dial is marked in (kPa, L/min). */
  readonly full: number;
  readonly per: number;
  readonly unit: 'kPa' | 'L/min';
}
export interface PumpMark extends Point {
  readonly id: string;
  readonly casing: string;
  readonly r: number;
  readonly motor: Box;
}
export interface TankMark extends Box {
  readonly id: string;
  /** Metres from floor to rim, drawn over `h`. */
  readonly height_m: number;
  readonly tubeX: number;
  readonly level: string | null;
}
export interface OutletMark extends Point {
  readonly id: string;
  readonly goesTo: 'waste' | 'ground' | 'pail';
  readonly drum: Box;
  /** Room of the drawn container, m3. */
  readonly room_m3: number;
}
export interface SpoutMark extends Point {
  readonly valve: string;
  readonly tank: string;
}

export interface CartMark {
  readonly deck: Box;
  readonly wheels: readonly Point[];
  readonly wheelR: number;
  readonly posts: readonly Point[];
  readonly railY: number;
  readonly couplers: readonly Point[];
}
export interface GroundMark {
  readonly back: number;
  readonly line: number;
  readonly cut: number;
  /** Ground line of the stubs and the house; `line` where they stand beside the cart. */
  readonly front: number;
  readonly frostY: number;
  readonly frost_m: number;
}
export interface HouseMark extends Box {
  readonly wall: number;
  readonly unit: Box;
  readonly tap: Point | null;
}

/** One run of a trench, laid out flat: its own datum line, its own vertical scale. */
export interface Strip {
  readonly circuit: string;
  readonly run: 'out' | 'back';
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

/** Where paper slips may lie over the drawing without covering what is worked on. */
export interface Calm {
  readonly sky: Box | null;
}

export interface YardLayout {
  readonly shape: Shape;
  readonly width: number;
  readonly height: number;
  /** Least text size. */
  readonly type: number;
  /** Line weights and small parts grow by this on the tall drawing. */
  readonly pipe: number;
  readonly placed: readonly Placed[];
  readonly labels: readonly Label[];
  readonly cartScale: Scale;
  readonly stubScale: Scale;
  readonly conduits: readonly Conduit[];
  readonly fittings: readonly Fitting[];
  readonly valves: readonly ValveMark[];
  readonly dials: readonly DialMark[];
  readonly pumps: readonly PumpMark[];
  readonly tanks: readonly TankMark[];
  readonly outlets: readonly OutletMark[];
  readonly spouts: readonly SpoutMark[];
  readonly sights: readonly { readonly id: string; readonly box: Box }[];
  readonly cart: CartMark;
  readonly ground: GroundMark;
  readonly house: HouseMark;
  readonly strips: readonly Strip[];
  readonly calm: Calm;
}

/** The little that a level says about its drawing. */
export interface Drawing {
  readonly format: 1;
  readonly rig: 'deck';
  /** Role on the cart and at the stubs -> id in the scenario. */
  readonly roles: Readonly<Partial<Record<Role, string>>>;
  readonly field: {
    readonly kind: 'trench';
    readonly circuits: readonly string[];
    readonly frost_m: number;
  };
}

export const ROLES = [
  'tank',
  'tank_level',
  'suction_valve',
  'suction_hose',
  'pump',
  'pump_note',
  'riser',
  'discharge_valve',
  'discharge_gauge',
  'flow_meter',
  'supply_hose',
  'loop_supply_valve',
  'return_valve',
  'return_gauge',
  'return_hose',
  'return_sight',
  'loop_return_valve',
  'drop_pipe',
  'waste_valve',
  'waste',
  'make_up_hose',
  'fill_valve',
] as const;
export type Role = (typeof ROLES)[number];
