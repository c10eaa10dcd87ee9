// What liquid carries along: antifreeze, and heat. Fittings and tanks mix every tick; pipes move
// it five times a second with a limiter that keeps fronts sharp. What crosses a pipe's end in
// between waits in `pending`, so nothing is lost and nothing is counted twice.
// Limiter: van Leer (1974) harmonic form on the upwind ratio [VanLeer1974].
import { abs, min } from '../base/math.ts';
import { JUNCTION, OPEN, RESERVOIR, TANK, type LinkPlan, type Plan } from '../network/plan.ts';
import { LEDGER_STRIDE, type State } from '../state.ts';
import { givenHeat } from './heat.ts';
import { carriesHeat, carriesSolute, type Moves } from './flow.ts';

/** One thing that is carried, in its own unit (kg, J): views of the state. */
export interface Load {
  readonly amount: Float64Array;
  /** Of a kilogram of liquid, as of the last time it was worked out. */
  readonly share: Float64Array;
  readonly pending: Float64Array;
  /** What a kilogram from a reservoir or an open end brings. */
  readonly given: Float64Array;
  /** Book of ledgers, and where in it a ledger's number stands. */
  readonly book: Float64Array;
  readonly stride: number;
  readonly offset: number;
  /**
   * True where a volume must never be asked for more than it holds. Heat is not bounded: liquid
   * that runs through an almost empty cell takes along what it brings later.
   */
  readonly bounded: boolean;
}

export interface Loads {
  readonly solute: Load | null;
  readonly heat: Load | null;
}

export function makeLoads(plan: Plan, state: State): Loads {
  const given = Float64Array.from(plan.nodes, (n) => (n.kind === RESERVOIR ? n.fraction : 0));
  const solute = {
    amount: state.solute,
    share: state.fraction,
    pending: state.pending,
    given,
    book: state.ledger,
    stride: LEDGER_STRIDE,
    offset: 1,
    bounded: true,
  };
  const heat = {
    amount: state.heat,
    share: state.heatShare,
    pending: state.heatPending,
    given: givenHeat(plan, given),
    book: state.heatBook,
    stride: 1,
    offset: 0,
    bounded: false,
  };
  return {
    solute: carriesSolute(plan) ? solute : null,
    heat: carriesHeat(plan) ? heat : null,
  };
}

function shareAt(plan: Plan, load: Load, v: number): number {
  if (v < plan.nodes.length) {
    const { kind } = plan.nodes[v]!;
    if (kind === RESERVOIR || kind === OPEN) return load.given[v]!;
  }
  return load.share[v]!;
}

/** Books `amount` into a node, an endless boundary, or a pipe end's waiting room. */
function give(plan: Plan, load: Load, v: number, { face, amount }: Parcel): void {
  if (v >= plan.nodes.length) {
    load.pending[2 * face + (v === plan.faceTo[face] ? 1 : 0)]! += amount;
    return;
  }
  const node = plan.nodes[v]!;
  if (node.kind === JUNCTION || node.kind === TANK) load.amount[v]! += amount;
  else load.book[node.ledger * load.stride + load.offset]! += amount;
}

interface Parcel {
  face: number;
  amount: number;
}
const parcel: Parcel = { face: 0, amount: 0 };

/** What a volume can still give: of a pipe's end cell, what has not been promised yet. */
function available(plan: Plan, load: Load, v: number, { slot, other }: Slots): number {
  if (!load.bounded) return 1e300;
  if (v >= plan.nodes.length) {
    return load.amount[v]! + load.pending[slot]! + (other < 0 ? 0 : load.pending[other]!);
  }
  const kind = plan.nodes[v]!.kind;
  return kind === RESERVOIR || kind === OPEN ? 1e300 : load.amount[v]!;
}

interface Slots {
  slot: number;
  other: number;
}
const slots: Slots = { slot: 0, other: 0 };

/** Every tick: across pipe ends and fittings. */
export function crossEnds(plan: Plan, moves: Moves, load: Load): void {
  for (let i = 0; i < plan.links.length; i++) {
    const { firstFace, cells } = plan.links[i]!;
    const last = firstFace + cells;
    // A pipe of one cell promises the same amount at both of its ends.
    slots.other = cells === 1 ? 2 * last : -1;
    crossEnd(plan, moves, load, firstFace);
    slots.other = cells === 1 ? 2 * firstFace + 1 : -1;
    if (cells > 0) crossEnd(plan, moves, load, last);
  }
}

function crossEnd(plan: Plan, moves: Moves, load: Load, face: number): void {
  const liquid = moves.liquid[face]!;
  if (liquid === 0) return;
  const from = plan.faceFrom[face]!;
  const to = plan.faceTo[face]!;
  const donor = liquid > 0 ? from : to;
  const want = abs(liquid) * shareAt(plan, load, donor);
  slots.slot = 2 * face + (donor === from ? 0 : 1);
  const amount = min(want, available(plan, load, donor, slots));
  if (amount <= 0) return;
  parcel.face = face;
  parcel.amount = -amount;
  give(plan, load, donor, parcel);
  parcel.amount = amount;
  give(plan, load, donor === from ? to : from, parcel);
}

/** Five times a second: along one pipe. `flux` is scratch, one number a face. */
export function carryAlong(state: State, link: LinkPlan, load: Load, flux: Float64Array): void {
  limitedFluxes(state, link, load, flux);
  settle(load, link.firstCell, 2 * link.firstFace + 1);
  settle(load, link.firstCell + link.cells - 1, 2 * (link.firstFace + link.cells));
  moveAlong(load, link, flux);
}

/** Once all has been carried: nothing has crossed since. */
export function forgetCarried({ carried }: State, link: LinkPlan): void {
  for (let k = 1; k < link.cells; k++) carried[link.firstFace + k] = 0;
}

function moveAlong({ amount, bounded }: Load, link: LinkPlan, flux: Float64Array): void {
  for (let k = 1; k < link.cells; k++) {
    const right = link.firstCell + k;
    const wanted = flux[k]!;
    let moved = wanted;
    if (bounded) {
      const most = wanted >= 0 ? amount[right - 1]! : -amount[right]!;
      moved = wanted >= 0 ? (wanted < most ? wanted : most) : wanted > most ? wanted : most;
    }
    amount[right - 1] = amount[right - 1]! - moved;
    amount[right] = amount[right]! + moved;
  }
}

function settle({ amount, pending }: Load, v: number, slot: number): void {
  amount[v] = amount[v]! + pending[slot]!;
  pending[slot] = 0;
}

/** What crosses inner faces since last time: upwind, sharpened by the limiter. */
function limitedFluxes(
  { carried, mass }: State,
  link: LinkPlan,
  { share: shares }: Load,
  flux: Float64Array,
): void {
  const first = link.firstCell;
  const end = first + link.cells;
  for (let k = 1; k < link.cells; k++) {
    const liquid = carried[link.firstFace + k]!;
    const up = liquid > 0 ? first + k - 1 : first + k;
    const down = liquid > 0 ? up + 1 : up - 1;
    const far = liquid > 0 ? up - 1 : up + 1;
    const x = shares[up]!;
    const step = shares[down]! - x;
    flux[k] = liquid * x;
    if (step === 0 || far < first || far >= end) continue;
    const r = (x - shares[far]!) / step;
    if (r <= 0) continue;
    const held = mass[up]!;
    const share = held > 0 ? (liquid < 0 ? -liquid : liquid) / held : 1;
    const courant = share < 1 ? share : 1;
    flux[k] = liquid * (x + (r / (1 + r)) * (1 - courant) * step);
  }
}
