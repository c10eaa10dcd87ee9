// Pumps that turn as they should not: dry, starved, against shut valves or bound by air.
import { abs, max } from '../base/math.ts';
import { HEAT, NPSH_FACTOR, SPEED } from '../machines.ts';
import type { Plan } from '../network/plan.ts';
import { PUMP_STRIDE } from '../state.ts';
import { timed, type Hazard, type Judged, type Place, type Watch } from './kind.ts';

/** Share of liquid below which a casing counts as dry, and of best flow as no flow. */
const DRY_ABOVE = 0.5;
const NO_FLOW_BELOW = 0.04;
const STARVED_BELOW = 0.6;
/** Casing this much above the ground's temperature also counts as deadheaded too long, K. */
const HOT_CASING = 45;
const TURNS_ABOVE = 0.5;

const everyPump = (plan: Plan): Place[] =>
  plan.pumps.map((pump, index) => ({ at: pump.id, index }));

function turns({ state }: Judged, ix: number): boolean {
  return state.pump[ix * PUMP_STRIDE + SPEED]! >= TURNS_ABOVE;
}

function isDry({ plan, alpha }: Judged, ix: number): boolean {
  return alpha[plan.links[plan.pumps[ix]!.link]!.from]! > DRY_ABOVE;
}

function isStarved(world: Judged, ix: number): boolean {
  return world.state.pump[ix * PUMP_STRIDE + NPSH_FACTOR]! < STARVED_BELOW;
}

/** Shut valves or air in the casing: either way the same water is stirred, and warms. */
function stirs(world: Judged, ix: number): boolean {
  if (!turns(world, ix) || isDry(world, ix) || isStarved(world, ix)) return false;
  const { link, spec } = world.plan.pumps[ix]!;
  const flow = world.state.flow[world.plan.links[link]!.firstColumn]!;
  return abs(flow) < (NO_FLOW_BELOW * spec.best_flow_L_s) / 1000;
}

function dryFor(world: Judged, { index }: Watch, slot: number): number {
  const holds = turns(world, index) && isDry(world, index);
  return timed(world.state.watch[slot]!, holds, world.dt);
}

function starvedFor(world: Judged, { index }: Watch, slot: number): number {
  const holds = turns(world, index) && !isDry(world, index) && isStarved(world, index);
  return timed(world.state.watch[slot]!, holds, world.dt);
}

function deadFor(world: Judged, { index, trip }: Watch, slot: number): number {
  const holds = stirs(world, index);
  const time = timed(world.state.watch[slot]!, holds, world.dt);
  const hot = holds && world.state.pump[index * PUMP_STRIDE + HEAT]! > HOT_CASING;
  return hot ? max(time, trip) : time;
}

/** s. Seals fail in seconds to a few minutes [common practice, no source]. */
export const dryRun: Hazard = {
  kind: 'dry_run',
  limits: { warn: 5, trip: 30 },
  places: everyPump,
  measure: dryFor,
};

/** s, as long as dry [common practice, no source]. */
export const starved: Hazard = {
  kind: 'starved',
  limits: { warn: 5, trip: 30 },
  places: everyPump,
  measure: starvedFor,
};

/** s. A proof of 10 to 60 s is harmless, minutes are not [common practice, no source]. */
export const deadhead: Hazard = {
  kind: 'deadhead',
  limits: { warn: 60, trip: 300 },
  places: everyPump,
  measure: deadFor,
};
