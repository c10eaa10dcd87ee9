// Sizes and heights of the two shapes of the drawing: how large a control is, how thick a pipe,
// how high the ground lies and how many units a metre has. Places across follow from the job.
import type { Shape } from './types.ts';

/** What does not depend on the job. */
export interface Look {
  readonly shape: Shape;
  readonly width: number;
  /** Side of a control's area; radius of a dial; least text; weight of pipes. */
  readonly control: number;
  readonly dialR: number;
  readonly type: number;
  readonly pipe: number;
  /** Width of a container under an open end, and of the room a hose's end takes. */
  readonly outlet: number;
  readonly hoseColumn: number;
  readonly gap: number;
  /** How much looser than it could be all is packed: 0, or more where pipes found no way. */
  readonly ease: number;
  readonly soilPerMetre: number;
  /** Most units per metre of height in a trench strip. */
  readonly stripPerMetre: number;
}

export interface Plan extends Look {
  /** Ground line at the cart and units per metre above it. */
  readonly line: number;
  readonly perMetre: number;
  /** The same where the loop's stubs come up and the house stands. */
  readonly front: number;
  /** Ground line of the house: `front`, or that of a band of its own between cart and stubs. */
  readonly house: number;
  readonly stubPerMetre: number;
  /** Hoses that pass a bench beside each other. */
  readonly lanes: number;
  /** Ground line under a bench below the cart, if there is one. */
  readonly bench: number | null;
  /** True where stubs and house stand in a band of their own below the cart. */
  readonly stacked: boolean;
  /** Back and front edge of the turf that is seen from slightly above. */
  readonly turfBack: number;
  readonly cut: number;
}

const WIDE: Look = {
  shape: 'wide',
  width: 1600,
  control: 64,
  dialR: 33,
  type: 17,
  pipe: 1,
  outlet: 92,
  hoseColumn: 40,
  gap: 14,
  ease: 0,
  soilPerMetre: 66,
  stripPerMetre: 230,
};

const TALL: Look = {
  shape: 'tall',
  width: 780,
  control: 88,
  dialR: 44,
  type: 32,
  pipe: 1.4,
  outlet: 70,
  hoseColumn: 78,
  gap: 6,
  ease: 0,
  soilPerMetre: 66,
  stripPerMetre: 200,
};

export function lookOf(shape: Shape, ease = 0): Look {
  const look = shape === 'wide' ? WIDE : TALL;
  return { ...look, ease, gap: look.gap + 5 * ease };
}

export interface Lift {
  readonly cart: number;
  readonly front: number;
  readonly house: number;
  readonly bench: number;
}

/** What the job asks of the plan: highest parts of cart and front, hoses, and room needed. */
export interface Needs {
  readonly cart_m: number;
  readonly front_m: number;
  readonly hoses: number;
  readonly lanes: number;
  /** Room for second rows of parts on the cart, and in front. */
  readonly lift: Lift;
  readonly stacked: boolean;
  /** True where the plant room stands in a band of its own, and how high it reaches. */
  readonly split: boolean;
  readonly house_m: number;
  /** Height of the board that the kit hangs on, over everything else. */
  readonly board: number;
}

/** Room above the highest part: a dial on its stem, and a name over it. */
const HEAD = { wide: 139, tall: 202 } as const;
const CART_LINE = 486;

export function planOf(look: Look, needs: Needs): Plan {
  const wide = look.shape === 'wide';
  const head = HEAD[look.shape];
  const cart_m = Math.max(
    0.6,
    needs.stacked ? needs.cart_m : Math.max(needs.cart_m, needs.front_m),
  );
  const perMetre = wide ? Math.min(330, (CART_LINE - head) / cart_m) : Math.min(400, 620 / cart_m);
  const alone = needs.stacked ? needs.lift.cart : Math.max(needs.lift.cart, needs.lift.front);
  const line = needs.board + (wide ? CART_LINE : head + cart_m * perMetre) + alone;
  const stubPerMetre = needs.stacked ? Math.min(230, 340 / Math.max(0.3, needs.front_m)) : perMetre;
  const over = needs.split ? 140 : 76;
  const rise = Math.max(wide ? 110 : 150, needs.front_m * stubPerMetre + over * look.pipe);
  const band = rise + needs.lift.front + (wide ? 70 : 160) + 18 * needs.hoses;
  const bench = needs.lift.bench > 0 ? line + needs.lift.bench : null;
  const roof = needs.house_m * stubPerMetre + 166 * look.pipe + 60;
  const house = needs.split ? (bench ?? line) + roof + needs.lift.house : 0;
  const front = needs.split ? house + band : needs.stacked ? (bench ?? line) + band : line;
  const rows = needs.stacked ? 0 : Math.max(0, needs.hoses - 3) * 14;
  return {
    ...look,
    line,
    perMetre,
    front,
    house: needs.split ? house : front,
    stubPerMetre,
    lanes: needs.lanes,
    stacked: needs.stacked,
    bench,
    turfBack: line - (wide ? 38 : 42),
    cut: front + (wide ? 34 + rows : 22),
  };
}

/** Inside width of a pipe on the drawing: grows with its bore, but slower. */
export function widthOf(plan: Look, bore_mm: number): number {
  return Math.round((4 + 0.32 * Math.min(80, bore_mm)) * plan.pipe * 2) / 2;
}

export const cartY = (plan: Plan, elevation_m: number): number =>
  plan.line - elevation_m * plan.perMetre;

export const houseY = (plan: Plan, elevation_m: number): number =>
  plan.house - elevation_m * plan.stubPerMetre;

export const stubY = (plan: Plan, elevation_m: number): number =>
  plan.front - elevation_m * plan.stubPerMetre;
