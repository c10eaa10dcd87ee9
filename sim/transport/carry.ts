// Moves gas and liquid across faces for one tick, exactly conservatively: what leaves one side
// arrives at the other or in a named ledger. Leaves solutes to solute.ts and the tank's bubbles
// to tank.ts.
import { GAS_DUST, LIQUID_DUST } from '../constants.ts';
import {
  JUNCTION,
  LEDGER_DUST,
  OPEN,
  RESERVOIR,
  type LinkPlan,
  type Plan,
} from '../network/plan.ts';
import { LEDGER_STRIDE, type State } from '../state.ts';
import { carriesLoads, type Flow, type Moves } from './flow.ts';

export function makeMoves(plan: Plan): Moves {
  return {
    gas: new Float64Array(plan.faces),
    liquid: new Float64Array(plan.faces),
    gasOut: new Float64Array(plan.volumes),
    liquidOut: new Float64Array(plan.volumes),
    gasAsked: new Float64Array(plan.nodes.length),
    liquidAsked: new Float64Array(plan.nodes.length),
    arrived: new Float64Array(plan.nodes.length),
  };
}

/** Moves contents along a link, across the faces between its cells, as split.ts worked out. */
export function carryAcross(flow: Flow, l: number): void {
  const link = flow.plan.links[l]!;
  if (link.cells < 2) return;
  if (flow.scratch.gassy[l] === 0) shiftClear(flow, link);
  else shift(flow, link);
}

/** The same across all ends of links. Tanks' gas is moved by tank.ts, which knows the surface. */
export function carryEnds(flow: Flow): void {
  const { links, nodes } = flow.plan;
  for (let i = 0; i < links.length; i++) {
    const { firstFace, firstCell, cells } = links[i]!;
    cross(flow, firstFace);
    if (cells === 0) continue;
    cross(flow, firstFace + cells);
    sweep(flow.state, firstCell);
    sweep(flow.state, firstCell + cells - 1);
  }
  for (let n = 0; n < nodes.length; n++) sweep(flow.state, n);
}

/** All faces between a pipe's cells. Then none in between holds an amount too small to matter. */
function shift({ plan, state, moves }: Flow, link: LinkPlan): void {
  const { gas, mass, carried } = state;
  const { gas: gasMoves, liquid } = moves;
  const first = link.firstCell;
  const last = first + link.cells - 1;
  const ahead = link.firstFace + 1 - first;
  const loaded = carriesLoads(plan);
  const dust = GAS_DUST; // What is imported is looked up anew at each use.
  const drop = LIQUID_DUST;
  let liquidIn = 0;
  let gasIn = 0;
  for (let v = first; v < last; v++) {
    const l = liquid[ahead + v]!;
    const g = gasMoves[ahead + v]!;
    if (loaded) carried[ahead + v] = carried[ahead + v]! + l; // load.ts asks for it later.
    const held = mass[v]! + (liquidIn - l);
    mass[v] = held;
    const before = gas[v]!;
    if (before !== 0 || gasIn !== 0 || g !== 0) {
      const joule = before + (gasIn - g);
      gas[v] = joule;
      if (joule < dust && v > first) sweep(state, v);
    }
    if (held < drop && v > first) sweep(state, v);
    liquidIn = l;
    gasIn = g;
  }
  mass[last] = mass[last]! + liquidIn;
  gas[last] = gas[last]! + gasIn;
}

/** The same along a pipe without gas. */
function shiftClear({ plan, state, moves }: Flow, link: LinkPlan): void {
  const { mass, carried } = state;
  const { liquid } = moves;
  const first = link.firstCell;
  const last = first + link.cells - 1;
  const ahead = link.firstFace + 1 - first;
  const loaded = carriesLoads(plan);
  const drop = LIQUID_DUST; // What is imported is looked up anew at each use.
  let liquidIn = 0;
  for (let v = first; v < last; v++) {
    const f = ahead + v;
    const l = liquid[f]!;
    if (loaded) carried[f] = carried[f]! + l; // load.ts asks for it later.
    const held = mass[v]! + (liquidIn - l);
    mass[v] = held;
    if (held < drop && v > first) sweep(state, v);
    liquidIn = l;
  }
  mass[last] = mass[last]! + liquidIn;
}

/** A face at a fitting or a boundary. */
function cross({ plan, state, moves }: Flow, f: number): void {
  const l = moves.liquid[f]!;
  const g = moves.gas[f]!;
  book(plan, state, plan.faceFrom[f]!, -g, -l);
  book(plan, state, plan.faceTo[f]!, g, l);
}

/** Adds to a volume's contents, or to a boundary's ledger (positive: went there). */
function book(plan: Plan, state: State, v: number, gas: number, liquid: number): void {
  const kind = plan.kinds[v]!;
  if (kind === RESERVOIR || kind === OPEN) {
    const at = plan.nodes[v]!.ledger * LEDGER_STRIDE;
    state.ledger[at] = state.ledger[at]! + liquid;
    state.ledger[at + 2] = state.ledger[at + 2]! + gas;
    return;
  }
  state.mass[v] = state.mass[v]! + liquid;
  if (kind === JUNCTION) state.gas[v] = state.gas[v]! + gas;
}

/** Contents too small to matter go to a ledger, so that no denormal numbers arise. */
export function sweep(state: State, v: number): void {
  if (state.gas[v]! < GAS_DUST && state.gas[v] !== 0) sweepGas(state, v);
  if (state.mass[v]! < LIQUID_DUST && state.mass[v] !== 0) sweepLiquid(state, v);
}

const DUST = LEDGER_DUST * LEDGER_STRIDE;

function sweepGas(state: State, v: number): void {
  state.ledger[DUST + 2] = state.ledger[DUST + 2]! + state.gas[v]!;
  state.gas[v] = 0;
}

/** What was dissolved in it has not crossed yet: solute.ts looks after it. */
function sweepLiquid(state: State, v: number): void {
  state.ledger[DUST] = state.ledger[DUST]! + state.mass[v]!;
  state.mass[v] = 0;
}
