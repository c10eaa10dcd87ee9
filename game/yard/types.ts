// What the layout hands to the drawers and to the HTML layer. All lengths are drawing units;
// a box is given by its top left corner. Elevations are metres above the ground at the cart.

import type { BoreMark, Strip } from './types-field.ts';

export type * from './types-field.ts';

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

export const PLACED_KINDS = [
  'valve',
  'coupling',
  'hand_pump',
  'pump',
  'tank',
  'gauge',
  'meter',
  'sight',
  'note',
  'device',
  'held',
] as const;
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
  /** Rings of tape on a hose across the yard, by which it can be followed: one on the supply. */
  readonly rings?: number;
  /** Of a circuit's pipe: the share of the whole circuit at which it starts and ends. */
  readonly share?: readonly [number, number];
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
  /** True where its pipe runs up and down. */
  readonly upright?: boolean;
  /** Of a three-way valve: where its third end points, and at which side its `from` lies. */
  readonly branch?: 'up' | 'down';
  readonly fromLeft?: boolean;
}

export const PART_KINDS = [
  'check_valve', 'filter', 'coupling', 'coil', 'fixed_flow', 'hand_pump',
] as const;
export type PartKind = (typeof PART_KINDS)[number];

/** A part in the line that no valve's handle turns; `way` is where its `to` lies. */
export interface PartMark extends Point {
  readonly id: string;
  readonly kind: PartKind;
  readonly size: number;
  readonly width: number;
  readonly way: 'left' | 'right' | 'up' | 'down';
}
export interface DialMark extends Point {
  readonly id: string;
  readonly r: number;
  readonly stem: Point;
  /** Both ends of the scale in the unit the dial is marked in, and that unit in the reading's. */
  readonly from: number;
  readonly full: number;
  readonly per: number;
  readonly unit: (typeof DIAL_UNITS)[number];
  /** To what it measures, of a dial that neither stands on its stem nor sits in the line. */
  readonly leader?: readonly Point[];
}
export const DIAL_UNITS = ['kPa', 'L/min', 'C', 'A', 'V', 'L'] as const;

/** A device beside what it belongs to, and the line that says so. */
export interface KitMark extends Box {
  readonly id: string;
  readonly leader: readonly Point[];
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

export const RIGS = ['deck', 'barrow', 'mast'] as const;
export type Rig = (typeof RIGS)[number];

/** What carries the parts of the cart. */
export interface FrameMark {
  readonly rig: Rig;
  readonly deck: Box;
  readonly wheels: readonly Point[];
  readonly wheelR: number;
  /** Posts stand from the deck up to the rail, if there is one. */
  readonly posts: readonly number[];
  readonly railY: number | null;
}
export interface GroundMark {
  readonly back: number;
  readonly line: number;
  readonly cut: number;
  /** Ground line of the stubs and the house; `line` where they stand beside the cart. */
  readonly front: number;
  /** Ground line of the house; `front` unless it has a band of its own. */
  readonly house: number;
  readonly frostY: number;
  /** Ground lines of benches below the cart, from above. */
  readonly benches: readonly number[];
  readonly frost_m: number;
}
export interface HouseMark extends Box {
  readonly wall: number;
  /** The unit that waits, or null where the plant is drawn part by part. */
  readonly unit: Box | null;
  readonly taps: readonly Point[];
}

/** A numbered plate: what it stands for is told in the key, or in the list of controls. */
export interface Plate extends Point {
  readonly id: string;
  readonly text: string;
  readonly r: number;
  /** From the plate to the thing it stands for. */
  readonly leader: readonly Point[];
}

/** A chamber in the soil around parts that hands reach from above. */
export type Vault = Box;

/** What a plate's letter stands for, written beside the drawing. */
export interface KeyMark extends Box {
  readonly rows: readonly { readonly text: string; readonly key: string }[];
  readonly columns: number;
  readonly pitch: number;
}

/** An end of a hose across the yard: where it starts, and which way its part lies. */
export interface HoseEnd {
  readonly at: Point;
  readonly dir: -1 | 1;
  readonly onCart: boolean;
  /** Ground line under it. */
  readonly ground: number;
  /** Where the hose stands upright, if it turns into its part by an elbow. */
  readonly x?: number;
}

/** Top of a pipe into the field: it comes from the side and turns down. */
export interface RiserEnd {
  readonly start: Point;
  readonly at: Point;
}

/** A tee or an elbow of the header, drawn over the pipes that meet there. */
export interface JointMark extends Point {
  readonly r: number;
}

export interface CouplerMark extends Point {
  readonly upright: boolean;
}

export const PLACE_NAMES = [
  'board', 'cart', 'cart_low', 'store', 'unit', 'ends', 'field', 'key',
] as const;

/** Where a part of the yard begins, from above. */
export interface PlaceMark {
  readonly name: (typeof PLACE_NAMES)[number];
  readonly y: number;
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
  readonly plates: readonly Plate[];
  readonly key: KeyMark | null;
  readonly cartScale: Scale;
  readonly stubScale: Scale;
  readonly conduits: readonly Conduit[];
  readonly fittings: readonly Fitting[];
  readonly valves: readonly ValveMark[];
  readonly parts: readonly PartMark[];
  readonly dials: readonly DialMark[];
  readonly kit: readonly KitMark[];
  /** The board that the loose kit hangs on, or null. */
  readonly board: Box | null;
  readonly pumps: readonly PumpMark[];
  readonly tanks: readonly TankMark[];
  readonly outlets: readonly OutletMark[];
  readonly spouts: readonly SpoutMark[];
  readonly couplers: readonly CouplerMark[];
  readonly joints: readonly JointMark[];
  readonly frames: readonly FrameMark[];
  readonly ground: GroundMark;
  readonly house: HouseMark;
  readonly strips: readonly Strip[];
  readonly bores: readonly BoreMark[];
  readonly vaults: readonly Vault[];
  /** From above to below. */
  readonly places: readonly PlaceMark[];
}

/** What an act on the board is a picture of. */
export type ActSign = 'read' | 'wipe' | 'tag' | 'hand_over' | 'air_test' | 'attend';

/** What a level may say about its drawing; all of it can be left out. */
export interface Drawing {
  readonly rig?: Rig;
  /** Pictures of acts, by their ids. */
  readonly acts?: Readonly<Record<string, ActSign>>;
  readonly field?: { readonly frost_m?: number };
}
