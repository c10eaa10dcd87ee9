// What crosses faces of one class of grain in a move: along pipes upwind, sharpened as other
// fronts are [VanLeer1974]; out of fittings by what each of its links takes; out of tanks with
// the liquid. Amounts are worked out from before the move, so their order does not matter.
import { GRAIN_LEAST } from '../constants.ts';
import type { DebrisPlan } from '../network/debris-plan.ts';
import { JUNCTION, TANK, type LinkPlan } from '../network/plan.ts';
import type { GrainFlow } from './grain-room.ts';
import { liquidShare } from './grain-speed.ts';

/** m3. So much liquid a fitting counts as having at least. */
const LEAST_LIQUID = 1e-9;
/** All of a fitting's grains, less what rounding could make more than all. */
const ALL = 1 - 1e-12;

/** m/s into link i at one of its ends; below zero out of it. */
function speedInto({ plan, grainRoom }: GrainFlow, i: number, atStart: boolean): number {
  const { cells, firstCell } = plan.links[i]!;
  if (cells === 0) return atStart ? grainRoom.linkSpeed[i]! : -grainRoom.linkSpeed[i]!;
  return atStart ? grainRoom.speed[firstCell]! : -grainRoom.speed[firstCell + cells - 1]!;
}

/** kg of liquid that has gone into link i at that end. */
function liquidInto({ plan, state }: GrainFlow, i: number, atStart: boolean): number {
  const { firstFace, cells } = plan.links[i]!;
  return atStart ? state.swept[firstFace]! : -state.swept[firstFace + cells]!;
}

/** Share of what moves in the node at that end that link i takes. */
function shareAsked(flow: GrainFlow, debris: DebrisPlan, i: number, atStart: boolean): number {
  const { plan, state } = flow;
  const link = plan.links[i]!;
  const n = atStart ? link.from : link.to;
  const kind = plan.kinds[n]!;
  if (kind === TANK) {
    const out = liquidInto(flow, i, atStart);
    return out > 0 ? out / (state.mass[n]! + out) : 0;
  }
  if (kind !== JUNCTION) return 0;
  const speed = speedInto(flow, i, atStart);
  if (speed <= 0) return 0;
  // Into a boundary grains go with liquid alone.
  const fixed = link.cells === 0 && plan.nodes[atStart ? link.to : link.from]!.fixed;
  if (fixed && liquidInto(flow, i, atStart) <= 0) return 0;
  const into = link.cells === 0 ? n : atStart ? link.firstCell : link.firstCell + link.cells - 1;
  const room = speed * link.area * liquidShare(flow, into) * debris.dt;
  return room / (state.mass[n]! / state.density[n]! + LEAST_LIQUID);
}

/** Adds what both ends of link i ask of their nodes, where there is any. */
export function askNodes(flow: GrainFlow, debris: DebrisPlan, i: number): void {
  const { asked, stands } = flow.grainRoom;
  const { from, to } = flow.plan.links[i]!;
  if (stands[from] === 1) asked[from] = asked[from]! + shareAsked(flow, debris, i, true);
  if (stands[to] === 1) asked[to] = asked[to]! + shareAsked(flow, debris, i, false);
}

/** In a fitting that no link takes grains from they lie; where one does, all are stirred. */
export function restInNodes({ plan, state, grainRoom }: GrainFlow): void {
  const moving = 2 * grainRoom.c * plan.volumes;
  const { grains } = state;
  for (let n = 0; n < plan.nodes.length; n++) {
    if (plan.kinds[n] !== JUNCTION) continue;
    const from = grainRoom.asked[n]! > 0 ? moving + plan.volumes + n : moving + n;
    const to = grainRoom.asked[n]! > 0 ? moving + n : moving + plan.volumes + n;
    if (grains[from] === 0) continue;
    grains[to] = grains[to]! + grains[from]!;
    grains[from] = 0;
  }
}

/** kg that leave the node at that end into link i. */
function outOfNode(flow: GrainFlow, debris: DebrisPlan, i: number, atStart: boolean): number {
  const { plan, state, grainRoom } = flow;
  const { from, to } = plan.links[i]!;
  const n = atStart ? from : to;
  const there = state.grains[2 * grainRoom.c * plan.volumes + n]!;
  if (there <= GRAIN_LEAST) return 0;
  const asked = grainRoom.asked[n]!;
  const share = shareAsked(flow, debris, i, atStart);
  return there * (asked > ALL ? (share * ALL) / asked : share);
}

/** kg that leave an end cell of link i into the node there; into a boundary only with liquid. */
function outOfPipe(flow: GrainFlow, debris: DebrisPlan, i: number, atStart: boolean): number {
  const { plan, state, grainRoom } = flow;
  const { from, to, firstCell, cells } = plan.links[i]!;
  const v = atStart ? firstCell : firstCell + cells - 1;
  const speed = -speedInto(flow, i, atStart);
  const there = state.grains[2 * grainRoom.c * plan.volumes + v]!;
  if (speed <= 0 || there <= GRAIN_LEAST) return 0;
  if (plan.nodes[atStart ? from : to]!.fixed && liquidInto(flow, i, atStart) >= 0) return 0;
  const courant = (speed * debris.dt) / plan.cellLength[v]!;
  return courant < 1 ? there * courant : there;
}

/** What crosses both ends of a pipe, or a fitting. */
export function fluxOfEnds(flow: GrainFlow, debris: DebrisPlan, i: number): void {
  const { plan, grainRoom } = flow;
  const { firstFace, cells } = plan.links[i]!;
  const { flux } = grainRoom;
  if (cells > 0) {
    flux[firstFace] = outOfNode(flow, debris, i, true) - outOfPipe(flow, debris, i, true);
    const last = firstFace + cells;
    flux[last] = outOfPipe(flow, debris, i, false) - outOfNode(flow, debris, i, false);
    return;
  }
  flux[firstFace] = outOfNode(flow, debris, i, true) - outOfNode(flow, debris, i, false);
}

/** What crosses the faces between the cells of a pipe. */
export function fluxInside(flow: GrainFlow, { dt }: DebrisPlan, link: LinkPlan): void {
  const { plan, state, grainRoom } = flow;
  const { firstCell, firstFace, cells, length } = link;
  const moving = 2 * grainRoom.c * plan.volumes;
  const { speed, flux } = grainRoom;
  const perSpeed = (dt * cells) / length;
  const first = moving + firstCell;
  const end = first + cells;
  for (let k = 1; k < cells; k++) {
    const on = speed[firstCell + k - 1]! > 0;
    const from = on ? firstCell + k - 1 : firstCell + k;
    const way = on ? 1 : -1;
    const goes = speed[from]! * way;
    const up = moving + from;
    const there = state.grains[up]!;
    flux[firstFace + k] = 0;
    if (goes <= 0 || there <= GRAIN_LEAST) continue;
    const courant = goes * perSpeed;
    let kg = courant < 1 ? there * courant : there;
    const far = up - way;
    if (courant < 1 && far >= first && far < end && speed[from + way]! * way > 0) {
      const step = state.grains[up + way]! - there;
      const r = step === 0 ? 0 : (there - state.grains[far]!) / step;
      if (r > 0) kg += courant * (r / (1 + r)) * (1 - courant) * step;
    }
    flux[firstFace + k] = way * (kg < there ? kg : there);
  }
}

/** Takes kg across a face: into a volume, or where a boundary leads. */
export function cross(flow: GrainFlow, face: number, kg: number): void {
  if (kg === 0) return;
  const { plan } = flow;
  give(flow, plan.faceFrom[face]!, -kg);
  give(flow, plan.faceTo[face]!, kg);
}

/** Adds to what moves in a volume, or to where a boundary leads. */
export function give({ plan, state, grainRoom }: GrainFlow, v: number, kg: number): void {
  const { c } = grainRoom;
  const kind = plan.kinds[v]!;
  if (kind === JUNCTION || kind === TANK) {
    const at = 2 * c * plan.volumes + v;
    state.grains[at] = state.grains[at]! + kg;
    return;
  }
  const at = c * (plan.ledgers.length + 1) + plan.nodes[v]!.ledger;
  state.grainBook[at] = state.grainBook[at]! + kg;
}
