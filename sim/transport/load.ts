// What liquid carries along: antifreeze, heat, and air in solution. Fittings and tanks mix every
// tick, pipes move it five times a second (along.ts). What crosses a pipe's end in between waits in
// `pending`, so nothing is lost and nothing is counted twice.
import { abs, max, min } from '../base/math.ts';
import { JUNCTION, OPEN, RESERVOIR, TANK, type LinkPlan, type Plan } from '../network/plan.ts';
import { LEDGER_STRIDE, type State } from '../state.ts';
import { airEvery, givenAir } from './dissolved.ts';
import { besideHeat, givenHeat } from './heat.ts';
import { carriesAir, carriesHeat, carriesSolute, type Moves } from './flow.ts';

/** One thing that is carried, in its own unit (kg, J): views of the state. */
export interface Load {
  readonly amount: Float64Array;
  /** Of a kilogram of liquid, as of the last time it was worked out. */
  readonly share: Float64Array;
  readonly pending: Float64Array;
  /** What a kilogram from a reservoir or an open end brings. */
  readonly given: Float64Array;
  /** kg of liquid that what stands beside the liquid of a node holds as much as: iron for heat. */
  readonly beside: Float64Array;
  /** Book of ledgers, and where in it a ledger's number stands. */
  readonly book: Float64Array;
  readonly stride: number;
  readonly offset: number;
  /** True of what liquid may have none of: of heat there is always some. */
  readonly none: boolean;
}

export interface Loads {
  readonly solute: Load | null;
  readonly heat: Load | null;
  readonly air: Load | null;
  /** Ticks from one exchange of air in solution to the next; 0 where there is none. */
  readonly airEvery: number;
  /** m3/s through each node, for that exchange. */
  readonly through: Float64Array;
  /** Numbers of one tick: liquid that is still to leave a fitting, kg; faces still to bring it. */
  readonly leaving: Float64Array;
  readonly awaited: Int32Array;
  /** 1 for a face whose liquid has been followed. */
  readonly done: Uint8Array;
  /** Link and face of what is still to be followed. */
  readonly waiting: Int32Array;
}

export function makeLoads(plan: Plan, state: State): Loads {
  const given = Float64Array.from(plan.nodes, (n) => (n.kind === RESERVOIR ? n.fraction : 0));
  const solute = {
    amount: state.solute,
    share: state.fraction,
    pending: state.pending,
    given,
    beside: new Float64Array(plan.nodes.length),
    book: state.ledger,
    stride: LEDGER_STRIDE,
    offset: 1,
    none: true,
  };
  const heat = {
    amount: state.heat,
    share: state.heatShare,
    pending: state.heatPending,
    given: givenHeat(plan, given),
    beside: besideHeat(plan),
    book: state.heatBook,
    stride: 1,
    offset: 0,
    none: false,
  };
  return {
    solute: carriesSolute(plan) ? solute : null,
    heat: carriesHeat(plan) ? heat : null,
    air: carriesAir(plan) ? airLoad(plan, state) : null,
    airEvery: airEvery(plan),
    through: new Float64Array(plan.nodes.length),
    leaving: new Float64Array(plan.nodes.length),
    awaited: new Int32Array(plan.nodes.length),
    done: new Uint8Array(plan.faces),
    waiting: new Int32Array(2 * plan.faces),
  };
}

/** Air in solution has no book of its own: gas and it have one. */
function airLoad(plan: Plan, state: State): Load {
  return {
    amount: state.air,
    share: state.airShare,
    pending: state.airPending,
    given: givenAir(plan),
    beside: new Float64Array(plan.nodes.length),
    book: state.ledger,
    stride: LEDGER_STRIDE,
    offset: 2,
    none: true,
  };
}

/** Books `amount` into a node, an endless boundary, or a pipe end's waiting room. */
function give(plan: Plan, load: Load, v: number, { face, amount }: Parcel): void {
  if (v >= plan.nodes.length) {
    load.pending[2 * face + (v === plan.faceTo[face] ? 1 : 0)]! += amount;
    return;
  }
  const kind = plan.kinds[v]!;
  if (kind === JUNCTION || kind === TANK) load.amount[v]! += amount;
  else load.book[plan.nodes[v]!.ledger * load.stride + load.offset]! += amount;
}

interface Parcel {
  face: number;
  amount: number;
}
const parcel: Parcel = { face: 0, amount: 0 };

/** kg. What holds less has no share of its own; it hands on what it had. */
export const TRACE = 1e-12;

/**
 * Every tick: across pipe ends and fittings, in the order of the flow. What a fitting hands on is
 * the mean of what it held and of what came in: then a film that much runs through never shows
 * what none of it brought.
 */
export function crossEnds(flow: Crossing, loads: Loads): void {
  const { plan, moves } = flow;
  const { leaving, awaited, waiting } = loads;
  leaving.fill(0);
  awaited.fill(0);
  let left = 0;
  for (let i = 0; i < plan.links.length; i++) {
    const { firstFace, cells } = plan.links[i]!;
    for (let face = firstFace; face <= firstFace + cells; face += cells > 0 ? cells : 1) {
      if (!expect(plan, moves, loads, face)) continue;
      waiting[2 * left] = i;
      waiting[2 * left++ + 1] = face;
    }
  }
  // Pipe ends and boundaries give at once, fittings when all that they wait for has come. What
  // runs in a ring of fittings has no first: then in the order of the links.
  while (left > 0) {
    let still = 0;
    for (let k = 0; k < left; k++) {
      const link = waiting[2 * k]!;
      const face = waiting[2 * k + 1]!;
      if (tryCross(flow, loads, link, face)) continue;
      waiting[2 * still] = link;
      waiting[2 * still++ + 1] = face;
    }
    if (still === left) awaited.fill(0);
    left = still;
  }
}

export interface Crossing {
  readonly plan: Plan;
  readonly state: State;
  readonly moves: Moves;
}

const isJunction = (plan: Plan, v: number): boolean =>
  v < plan.nodes.length && plan.kinds[v] === JUNCTION;

function expect(plan: Plan, moves: Moves, loads: Loads, face: number): boolean {
  const liquid = moves.liquid[face]!;
  loads.done[face] = liquid === 0 ? 1 : 0;
  if (liquid === 0) return false;
  const donor = liquid > 0 ? plan.faceFrom[face]! : plan.faceTo[face]!;
  const taker = liquid > 0 ? plan.faceTo[face]! : plan.faceFrom[face]!;
  if (isJunction(plan, donor)) loads.leaving[donor] = loads.leaving[donor]! + abs(liquid);
  if (isJunction(plan, taker)) loads.awaited[taker] = loads.awaited[taker]! + 1;
  return true;
}

/** Follows the liquid across a face; false while its donor still waits. */
function tryCross(flow: Crossing, loads: Loads, link: number, face: number): boolean {
  const { plan, moves } = flow;
  const { leaving, awaited, done, solute, heat, air } = loads;
  const liquid = moves.liquid[face]!;
  const donor = liquid > 0 ? plan.faceFrom[face]! : plan.faceTo[face]!;
  const taker = liquid > 0 ? plan.faceTo[face]! : plan.faceFrom[face]!;
  const fitting = isJunction(plan, donor);
  if (fitting && awaited[donor]! > 0) return false;
  parcel.face = face;
  place.link = link;
  place.donor = donor;
  place.face = face;
  place.leaves = abs(liquid);
  place.leavesOther = atOther(flow, done);
  if (solute !== null) hand(flow, solute, shareOf(flow, solute, loads, place));
  if (heat !== null) hand(flow, heat, shareOf(flow, heat, loads, place));
  if (air !== null) hand(flow, air, shareOf(flow, air, loads, place));
  if (fitting) leaving[donor] = max(0, leaving[donor]! - abs(liquid));
  if (isJunction(plan, taker)) awaited[taker] = awaited[taker]! - 1;
  done[face] = 1;
  return true;
}

function hand({ plan, moves }: Crossing, load: Load, share: number): void {
  const { face } = parcel;
  const liquid = moves.liquid[face]!;
  const amount = abs(liquid) * share;
  parcel.amount = -amount;
  give(plan, load, liquid > 0 ? plan.faceFrom[face]! : plan.faceTo[face]!, parcel);
  parcel.amount = amount;
  give(plan, load, liquid > 0 ? plan.faceTo[face]! : plan.faceFrom[face]!, parcel);
}

/** Of a kilogram that crosses a face: what its donor held, with what has come to it. */
function shareOf({ plan, state }: Crossing, load: Load, loads: Loads, place: Place): number {
  const { donor } = place;
  if (donor >= plan.nodes.length) return endShare(plan, state, load, place);
  const kind = plan.kinds[donor]!;
  if (kind === RESERVOIR || kind === OPEN) return load.given[donor]!;
  const mass = state.mass[donor]! + loads.leaving[donor]!;
  if (kind === TANK || mass < TRACE) return load.share[donor]!;
  return load.amount[donor]! / (mass + load.beside[donor]!);
}

/** Cells of a pipe of which both ends may count on the same neighbour, as its flow turns. */
const SHORT = 3;

/** All that a pipe has, with what waits at its ends: neither gives more than that. */
function wholeOf({ amount, pending }: Load, { firstCell, firstFace, cells }: LinkPlan): number {
  let sum = pending[2 * firstFace + 1]! + pending[2 * (firstFace + cells)]!;
  for (let v = firstCell; v < firstCell + cells; v++) sum += amount[v]!;
  return sum;
}

/** Of a pipe's end cell: what it held, what has crossed its end, what its neighbour has sent. */
function endShare(plan: Plan, state: State, load: Load, { link, donor, face }: Place): number {
  const { firstCell, firstFace, cells } = plan.links[link]!;
  const atStart = donor === firstCell && face === firstFace;
  const slot = 2 * face + (atStart ? 1 : 0);
  let amount = load.amount[donor]! + load.pending[slot]!;
  if (cells === 1) amount += load.pending[atStart ? 2 * (firstFace + 1) : 2 * firstFace + 1]!;
  else {
    const inner = state.carried[atStart ? firstFace + 1 : firstFace + cells - 1]!;
    const came = atStart ? -inner : inner;
    const beside = atStart ? donor + 1 : donor - 1;
    if (came > 0) amount += min(came * load.share[beside]!, max(0, load.amount[beside]!));
    else amount += came * load.share[donor]!;
    if (cells <= SHORT) amount = min(amount, wholeOf(load, plan.links[link]!));
  }
  let mass = state.mass[donor]! + place.leaves;
  if (cells === 1) mass += place.leavesOther;
  if (amount <= 0) return load.none ? 0 : load.share[donor]!;
  // More may run through in a tick than was held: no more is handed on than there is.
  if (mass < TRACE) return min(load.share[donor]!, amount / place.leaves);
  return amount / max(mass, place.leaves);
}

/** A face that is crossed now; one for all, since a tick makes none anew. */
interface Place {
  link: number;
  donor: number;
  face: number;
  /** kg that leave the donor here, and, where it is a pipe of one cell, at its other end. */
  leaves: number;
  leavesOther: number;
}
const place: Place = { link: 0, donor: 0, face: 0, leaves: 0, leavesOther: 0 };

/** What is still to leave by the other end of a pipe of one cell, or has not come there yet. */
function atOther({ plan, moves }: Crossing, done: Uint8Array): number {
  const { firstFace, cells } = plan.links[place.link]!;
  if (cells !== 1) return 0;
  const other = place.face === firstFace ? firstFace + 1 : firstFace;
  if (done[other] === 1) return 0;
  const liquid = moves.liquid[other]!;
  return other === firstFace ? -liquid : liquid;
}
