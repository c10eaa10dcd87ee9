// Debris in tanks: what sinks settles on the floor and stays there, what floats comes to the
// surface, goes over the rim with what runs over, and is drawn down by an outlet it stands at.
import { abs, min } from '../base/math.ts';
import { tankLevel } from '../network/columns.ts';
import type { DebrisPlan } from '../network/debris-plan.ts';
import type { TankPlan } from '../network/plan.ts';
import { thicknessOf } from '../network/mixture.ts';
import type { GrainFlow } from './grain-room.ts';
import { falls, grain, setGrain } from './grains.ts';

/** m. Depth of the layer at the surface that runs over a rim first [fit]. */
const SKIN = 0.02;

/** One class, after a move. */
export function settleTankGrains(flow: GrainFlow, debris: DebrisPlan): void {
  for (let ix = 0; ix < flow.plan.tanks.length; ix++) settleTank(flow, debris, ix);
}

function settleTank(flow: GrainFlow, debris: DebrisPlan, ix: number): void {
  const { plan, state, grainRoom } = flow;
  const { grains } = state;
  const tank = plan.tanks[ix]!;
  const { node, spec } = tank;
  const moving = 2 * grainRoom.c * plan.volumes + node;
  const lying = moving + plan.volumes;
  if (grains[moving] === 0 && grains[lying] === 0) return;
  const rho = state.density[node]!;
  const depth = state.mass[node]! / rho / spec.area_m2;
  const mu = thicknessOf(plan, state, node);
  setGrain(debris.classes[grainRoom.c]!, 1, rho, mu / rho);
  if (grain.w < 0 && drawn(flow, tank, ix)) {
    grains[moving] = grains[moving]! + grains[lying]!;
    grains[lying] = 0;
  } else {
    const share = depth > 0 ? falls((abs(grain.w) * debris.dt) / depth) : 1;
    const settles = grains[moving]! * share;
    grains[moving] = grains[moving]! - settles;
    grains[lying] = grains[lying]! + settles;
  }
  const over = state.overRim[ix]!; // m3
  if (over <= 0) return;
  const ledger = grainRoom.c * (plan.ledgers.length + 1) + plan.nodes[node]!.ledger;
  const rides = grains[moving]! * min(1, over / (depth * spec.area_m2 + over));
  const floats = grain.w < 0 ? grains[lying]! * min(1, over / (SKIN * spec.area_m2)) : 0;
  grains[moving] = grains[moving]! - rides;
  grains[lying] = grains[lying]! - floats;
  state.grainBook[ledger] = state.grainBook[ledger]! + (rides + floats);
}

/** True where an outlet that draws lies within its own bore of the surface. */
function drawn({ plan, state }: GrainFlow, { ends, node }: TankPlan, ix: number): boolean {
  const surface = plan.nodes[node]!.elevation + tankLevel(plan, state, ix);
  for (let e = 0; e < ends.length; e++) {
    const { out, face, z, bore } = ends[e]!;
    if (out * state.swept[face]! > 0 && surface - z < bore) return true;
  }
  return false;
}
