// Beyond what this model represents: limits of the laws and of the scheme, looked for in truth.
// Each is told once a run, as a fact with the value that passed it. Facts only: no marks.
import { abs, max } from './base/math.ts';
import { PRESSURE_MIN } from './constants.ts';
import { BEYOND, type BeyondLimit, type Fact } from './fact.ts';
import { vapourPressure } from './laws/water.ts';
import { HEAT } from './machines.ts';
import { TANK, turnOf, type Plan } from './network/plan.ts';
import { PUMP_STRIDE, type State } from './state.ts';
import type { World } from './world-parts.ts';

/**
 * Bores: those in which the drift of pockets was measured. Overshoot: air squeezed so fast keeps
 * its heat; a head of three times its pressure that comes on at once makes 15.2 times of it while
 * the air stays cool, 11.0 times without loss of heat. The rest are the ranges of their laws.
 */
export const BEYOND_LIMITS = {
  bore_least: 0.02, //          m
  bore_most: 0.1, //            m
  overshoot: 3, //              absolute pressure over its lowest of the last one to two seconds
  temperature_least: 0, //      C
  temperature_most: 60, //      C
  fraction: 0.6, //             by mass
  roughness: 0.05, //           over the bore
} as const;

/** s. How often what changes slowly is looked at, and how long a bucket of low pressures is. */
const LOOK_S = 1;
/** m3. Gas at a point less than this, or softer walls beside it, is no cushion. */
const CUSHION = 1e-6;
/** Share of the most a column lets through at which its choke counts as acting. */
const CHOKED = 0.999;
const ALL = (1 << BEYOND.length) - 1;

/** The state's `beyond`: limits told, as bits; then lows of this second and of the last. */
export function startBeyond({ plan, state }: { plan: Plan; state: State }): void {
  state.beyond.set(state.point, 1);
  state.beyond.set(state.point, 1 + plan.points);
}

/** Looks at every limit that was not told yet. Allocates only when it tells one. */
export function watchBeyond(world: World, facts: Fact[]): void {
  const { plan, state, dt } = world;
  if (state.beyond[0] === ALL) return;
  const tick = state.counter[0]!;
  if (tick === 0) lookAtParts(world, facts);
  if (!told(state, 'gas_speed')) lookAtGas(world, facts);
  followLows(world, facts);
  const every = max(1, ((LOOK_S / dt + 0.5) | 0));
  if (turnOf(plan, state) % every !== every - 1) return;
  lookAtLows(world, facts);
  lookAtFluid(world, facts);
  for (let p = 0; p < plan.points; p++) {
    state.beyond[1 + plan.points + p] = state.beyond[1 + p]!;
    state.beyond[1 + p] = state.point[p]!;
  }
}

const bit = (limit: BeyondLimit): number => 1 << BEYOND.indexOf(limit);

function told(state: State, limit: BeyondLimit): boolean {
  return (state.beyond[0]! & bit(limit)) !== 0;
}

function tell(state: State, facts: Fact[], limit: BeyondLimit, value: number): void {
  if (told(state, limit)) return;
  state.beyond[0] = state.beyond[0]! | bit(limit);
  facts.push({ tick: state.counter[0]!, kind: 'beyond', limit, value });
}

/**
 * What stands when the run starts: bores, m, and roughness over bore, of pipes and hoses; of a
 * job, of its loop, which is what it is judged by.
 */
function lookAtParts({ plan, state }: World, facts: Fact[]): void {
  const { bore_least, bore_most, roughness } = BEYOND_LIMITS;
  const loop = plan.scenario.job?.loop_links;
  for (const { id, spec, bore } of plan.links) {
    if (spec.kind !== 'pipe' && spec.kind !== 'hose') continue;
    if (loop !== undefined && !loop.includes(id)) continue;
    // Half a micrometre is the rounding of millimetres, no other bore.
    if (bore < bore_least - 5e-7 || bore > bore_most + 5e-7) tell(state, facts, 'bore', bore);
    const rough = spec.roughness_mm / 1000 / bore;
    if (rough > roughness) tell(state, facts, 'roughness', rough);
  }
}

/** m/s of gas where a column's choke holds it back. */
function lookAtGas({ plan, state, heads }: World, facts: Fact[]): void {
  for (let c = 0; c < plan.columns.length; c++) {
    const most = heads.most[c]!;
    const flow = abs(state.flow[c]!);
    if (flow < CHOKED * most || heads.imposed[c] === 1) continue;
    const share = heads.mostGas[c]! / most;
    const { area } = plan.links[plan.columns[c]!.link]!;
    tell(state, facts, 'gas_speed', (flow * share) / area);
    return;
  }
}

/** Keeps the lowest pressures; where a gassy point has risen far above its own, that is told. */
function followLows({ plan, state, scratch }: World, facts: Fact[]): void {
  const { beyond, point } = state;
  const { points, wallC } = plan;
  for (let p = 0; p < points; p++) {
    const now = point[p]!;
    if (now < beyond[1 + p]!) beyond[1 + p] = now;
    const least = BEYOND_LIMITS.overshoot * beyond[1 + p]!;
    if (now <= BEYOND_LIMITS.overshoot * beyond[1 + points + p]! && now <= least) continue;
    const give = scratch.gasC[p]!;
    if (give <= wallC[p]! || give * now < CUSHION) continue;
    const low = beyond[1 + p]! < beyond[1 + points + p]! ? 1 + p : 1 + points + p;
    tell(state, facts, 'overshoot', now / beyond[low]!);
  }
}

/** Pa abs. Where water would boil, a void opens in the model as a leak and in earnest as steam. */
function lookAtLows({ plan, state }: World, facts: Fact[]): void {
  if (told(state, 'vapour')) return;
  const boils = max(PRESSURE_MIN * 1.2, vapourPressure(plan.scenario.temperature_C));
  for (let p = 0; p < plan.points; p++) {
    if (state.beyond[1 + p]! < boils) tell(state, facts, 'vapour', state.beyond[1 + p]!);
  }
}

/** Temperature of ground and casings, C; antifreeze by mass. */
function lookAtFluid({ plan, state }: World, facts: Fact[]): void {
  const { temperature_least, temperature_most, fraction } = BEYOND_LIMITS;
  const ground = plan.scenario.temperature_C;
  if (ground < temperature_least) tell(state, facts, 'temperature', ground);
  for (let k = -1; k < plan.pumps.length; k++) {
    const t = k < 0 ? ground : ground + state.pump[k * PUMP_STRIDE + HEAT]!;
    if (t > temperature_most) tell(state, facts, 'temperature', t);
  }
  if (plan.scenario.antifreeze !== 'none') {
    for (let v = 0; v < plan.volumes; v++) {
      // A drum may hold it neat: what goes on there are volumes, and those are known.
      if (v < plan.nodes.length && plan.nodes[v]!.kind === TANK) continue;
      // Rounding of a share is no share.
      if (state.fraction[v]! > fraction + 1e-9) tell(state, facts, 'fraction', state.fraction[v]!);
    }
  }
}
