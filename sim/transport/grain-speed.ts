// Speeds of one class of grain in every pipe and fitting, and what lies down or is picked up in
// the cells of pipes. Two cells that send to each other hold a heap: the foot of a rise that the
// flow is too slow for, or, of what floats, a crest.
import { abs, min, sqrt } from '../base/math.ts';
import { GRAIN_LEAST } from '../constants.ts';
import { SHUT_DEG } from '../laws/fitting.ts';
import type { DebrisPlan } from '../network/debris-plan.ts';
import { thicknessOf } from '../network/mixture.ts';
import { JUNCTION, type LinkPlan } from '../network/plan.ts';
import { COLUMN_LIQUID_STRIDE } from '../state.ts';
import type { GrainFlow } from './grain-room.ts';
import { fate, layerMass, place, setGrain, settleFate } from './grains.ts';

/** Liquid share of a volume below which its grains stay where they are: only a film is left. */
export const FILM = 0.01;
/** Root of an eighth of a friction factor of 0.03, of short fittings [fit]. */
const FITTING_SHEAR = 0.0612;

/** Of a link without length: by what has crossed it; none where it stands shut. */
export function speedOfFitting(flow: GrainFlow, debris: DebrisPlan, i: number): void {
  const { plan, state, scratch, grainRoom } = flow;
  const link = plan.links[i]!;
  const kg = state.swept[link.firstFace]!;
  grainRoom.linkSpeed[i] = 0;
  if (grainRoom.stands[link.from] === 0 && grainRoom.stands[link.to] === 0) return;
  const imposed = link.spec.kind === 'fixed_flow';
  if (scratch.open[i]! <= SHUT_DEG || (imposed && kg === 0)) return;
  const donor = kg < 0 ? link.to : link.from;
  const rho = state.density[donor]!;
  const wet = liquidShare(flow, donor);
  if (wet < FILM) return;
  setGrain(debris.classes[grainRoom.c]!, link.bore, rho, thicknessOf(plan, state, donor) / rho);
  place.u = kg / (rho * link.area * debris.dt * wet);
  place.shear = abs(place.u) * FITTING_SHEAR;
  place.sine = debris.linkSine[i]!;
  place.cosine = sqrt(1 - place.sine * place.sine);
  settleFate(debris.dt);
  grainRoom.linkSpeed[i] = fate.speed;
}

/** Boundaries and tanks give liquid. */
export function liquidShare({ plan, scratch }: GrainFlow, n: number): number {
  return plan.kinds[n] === JUNCTION ? 1 - scratch.alpha[n]! : 1;
}

/** Of all its cells; where it holds none of the class, of those at its ends that a node asks. */
export function speedsOfPipe(flow: GrainFlow, debris: DebrisPlan, i: number): void {
  const { plan, grainRoom } = flow;
  const link = plan.links[i]!;
  const { firstColumn, columns, firstCell, cells } = link;
  const last = firstCell + cells - 1;
  if (!holdsAny(flow, link)) {
    grainRoom.holds[i] = 0;
    if (grainRoom.stands[link.from] === 1) speedOfEnd(flow, debris, firstColumn, firstCell);
    if (grainRoom.stands[link.to] === 1) {
      speedOfEnd(flow, debris, firstColumn + columns - 1, last);
    }
    return;
  }
  grainRoom.holds[i] = 1;
  for (let c = firstColumn; c < firstColumn + columns; c++) {
    const column = plan.columns[c]!;
    gripColumn(flow, debris, c);
    for (let v = column.cell; v < column.cell + column.cells; v++) speedOfCell(flow, debris, v);
  }
  heap(flow, link);
  // Of the grain this goes by size and bore alone, which are those of the last column.
  for (let v = firstCell; v <= last; v++) lieAndLift(flow, v);
}

function speedOfEnd(flow: GrainFlow, debris: DebrisPlan, c: number, v: number): void {
  gripColumn(flow, debris, c);
  speedOfCell(flow, debris, v);
}

/** Nodes that hold any of the class, moving or lying. */
export function findStanding({ plan, state, grainRoom }: GrainFlow): void {
  const moving = 2 * grainRoom.c * plan.volumes;
  const lying = moving + plan.volumes;
  const { stands } = grainRoom;
  for (let n = 0; n < stands.length; n++) {
    stands[n] = state.grains[moving + n] !== 0 || state.grains[lying + n] !== 0 ? 1 : 0;
  }
}

function holdsAny({ plan, state, grainRoom }: GrainFlow, { firstCell, cells }: LinkPlan): boolean {
  const moving = 2 * grainRoom.c * plan.volumes;
  for (let v = firstCell; v < firstCell + cells; v++) {
    if (state.grains[moving + v]! > GRAIN_LEAST) return true;
    if (state.grains[moving + plan.volumes + v]! > GRAIN_LEAST) return true;
  }
  return false;
}

/** Sets the grain to the liquid of a column. */
function gripColumn({ plan, state, grainRoom }: GrainFlow, debris: DebrisPlan, c: number): void {
  const rho = state.liquid[c * COLUMN_LIQUID_STRIDE]!;
  const nu = state.liquid[c * COLUMN_LIQUID_STRIDE + 1]! / rho;
  setGrain(debris.classes[grainRoom.c]!, plan.links[plan.columns[c]!.link]!.bore, rho, nu);
}

function speedOfCell({ scratch, grainRoom }: GrainFlow, debris: DebrisPlan, v: number): void {
  const { u, shear, speed, lift, rest } = grainRoom;
  if (1 - scratch.alpha[v]! < FILM) {
    speed[v] = 0;
    lift[v] = 0;
    rest[v] = 1;
    return;
  }
  place.u = u[v]!;
  place.shear = shear[v]!;
  place.sine = debris.sine[v]!;
  place.cosine = debris.cosine[v]!;
  settleFate(debris.dt);
  speed[v] = fate.speed;
  lift[v] = fate.lift;
  rest[v] = fate.rest;
}

function heap({ grainRoom }: GrainFlow, { firstCell, cells }: LinkPlan): void {
  const { speed, lift, rest } = grainRoom;
  for (let v = firstCell; v < firstCell + cells - 1; v++) {
    if (speed[v]! <= 0 || speed[v + 1]! >= 0) continue;
    for (let side = v; side <= v + 1; side++) {
      speed[side] = 0;
      lift[side] = 0;
      rest[side] = 1;
    }
  }
}

/** What moves in a cell comes to rest, or what lies there is picked up. */
function lieAndLift({ plan, state, grainRoom }: GrainFlow, v: number): void {
  const { grains } = state;
  const moving = 2 * grainRoom.c * plan.volumes + v;
  const lying = moving + plan.volumes;
  const rests = grains[moving]! * grainRoom.rest[v]!;
  if (rests > GRAIN_LEAST) {
    grains[moving] = grains[moving]! - rests;
    grains[lying] = grains[lying]! + rests;
  }
  const there = grains[lying]!;
  const layers = grainRoom.lift[v]!;
  if (layers === 0 || there <= GRAIN_LEAST) return;
  const layer = layerMass(plan.cellLength[v]!);
  // Only the top layer is within reach of the flow; a steep or swift wall holds none.
  const lifted = layers < 0 ? there * min(1, -layers) : min(there, min(there, layer) * layers);
  grains[lying] = there - lifted;
  grains[moving] = grains[moving]! + lifted;
}
