// Where things stand from left to right, for the wide and for the tall drawing. Heights are not
// here: they follow from the scenario's elevations and the plan's scale. Distances across are
// free, since a pipe's drawn length says nothing; only the trench strips are true along.
import type { Shape } from './types.ts';

export interface Plan {
  readonly shape: Shape;
  readonly width: number;
  /** Ground line at the cart and units per metre above it. */
  readonly line: number;
  readonly perMetre: number;
  /** The same where the loop's stubs come up. */
  readonly front: number;
  readonly stubPerMetre: number;
  /** Back and front edge of the turf that is seen from slightly above. */
  readonly turfBack: number;
  readonly cut: number;
  /** Units per metre from the ground to the frost line. */
  readonly soilPerMetre: number;
  /** Side of a control's area; radius of a dial; least text; width of pipes. */
  readonly control: number;
  readonly dialR: number;
  readonly type: number;
  readonly pipe: number;
  readonly x: Readonly<Record<Stand, number>>;
  readonly field: FieldPlan;
}

export type Stand =
  | 'drum'
  | 'wasteValve'
  | 'tee'
  | 'returnValve'
  | 'returnTop'
  | 'tankL'
  | 'tankR'
  | 'tube'
  | 'spout'
  | 'fillValve'
  | 'fillIn'
  | 'suctionValve'
  | 'hoseL'
  | 'hoseR'
  | 'pump'
  | 'riser'
  | 'motorR'
  | 'dischargeValve'
  | 'discharge'
  | 'coupler'
  | 'deckL'
  | 'deckR'
  | 'wheelL'
  | 'wheelR'
  | 'supplyValve'
  | 'supplyRiser'
  | 'returnStub'
  | 'returnRiser'
  | 'houseL'
  | 'houseR';

export interface FieldPlan {
  /** Strip ends: where the out run starts and where the fold is. */
  readonly start: number;
  readonly fold: number;
  /** Where the pipes to and from the strips stand, or the headers when there are many. */
  readonly supplyX: number;
  readonly returnX: number;
  /** Room above a strip for its name (0 where the name stands beside it). */
  readonly title: number;
  /** Room below a strip for distances. */
  readonly ticks: number;
  /** Units per metre of height in a strip, when there is one circuit. */
  readonly perMetre: number;
  readonly gap: number;
  readonly columns: (circuits: number) => number;
}

const WIDE: Plan = {
  shape: 'wide',
  width: 1600,
  line: 486,
  perMetre: 330,
  front: 486,
  stubPerMetre: 330,
  turfBack: 448,
  cut: 520,
  soilPerMetre: 66,
  control: 60,
  dialR: 33,
  type: 17,
  pipe: 1,
  x: {
    drum: 60,
    wasteValve: 118,
    tee: 186,
    returnValve: 256,
    returnTop: 388,
    tankL: 286,
    tankR: 500,
    tube: 322,
    spout: 440,
    fillValve: 474,
    fillIn: 520,
    suctionValve: 560,
    hoseL: 590,
    hoseR: 668,
    pump: 712,
    riser: 738,
    motorR: 826,
    dischargeValve: 800,
    discharge: 866,
    coupler: 950,
    deckL: 146,
    deckR: 890,
    wheelL: 240,
    wheelR: 800,
    supplyValve: 1196,
    supplyRiser: 1244,
    returnStub: 1312,
    returnRiser: 1360,
    houseL: 1404,
    houseR: 1600,
  },
  field: {
    start: 1200,
    fold: 92,
    supplyX: 1244,
    returnX: 1360,
    title: 0,
    ticks: 22,
    perMetre: 230,
    gap: 14,
    columns: (n) => (n <= 3 ? 1 : n <= 8 ? 2 : 3),
  },
};

const TALL: Plan = {
  shape: 'tall',
  width: 780,
  line: 622,
  perMetre: 400,
  front: 930,
  stubPerMetre: 230,
  turfBack: 580,
  cut: 952,
  soilPerMetre: 66,
  control: 88,
  dialR: 44,
  type: 32,
  pipe: 1.4,
  x: {
    drum: 44,
    wasteValve: 106,
    tee: 166,
    returnValve: 226,
    returnTop: 306,
    tankL: 198,
    tankR: 420,
    tube: 246,
    spout: 346,
    fillValve: 378,
    fillIn: 440,
    suctionValve: 486,
    hoseL: 530,
    hoseR: 588,
    pump: 626,
    riser: 606,
    motorR: 716,
    dischargeValve: 672,
    discharge: 728,
    coupler: 736,
    deckL: 130,
    deckR: 738,
    wheelL: 216,
    wheelR: 654,
    supplyValve: 316,
    supplyRiser: 246,
    returnStub: 122,
    returnRiser: 52,
    houseL: 516,
    houseR: 780,
  },
  field: {
    start: 150,
    fold: 730,
    supplyX: 108,
    returnX: 52,
    title: 42,
    ticks: 0,
    perMetre: 200,
    gap: 14,
    columns: () => 1,
  },
};

export function planOf(shape: Shape): Plan {
  return shape === 'wide' ? WIDE : TALL;
}

/** Inside width of a pipe on the drawing: grows with its bore, but slower. */
export function widthOf(plan: Plan, bore_mm: number): number {
  return Math.round((4 + 0.32 * bore_mm) * plan.pipe * 2) / 2;
}

export const cartY = (plan: Plan, elevation_m: number): number =>
  plan.line - elevation_m * plan.perMetre;

export const stubY = (plan: Plan, elevation_m: number): number =>
  plan.front - elevation_m * plan.stubPerMetre;
