// How a run begins: what stands in every pipe, fitting and tank, and how every control is set.
// What follows from it (temperature, losses, instruments) is world.ts's to ask for.
import { max, min } from './base/math.ts';
import { P_ATM } from './base/units.ts';
import type { DeviceSpec } from './scenario-devices.ts';
import { FITTED_STRIDE, PUMP_STRIDE, type State } from './state.ts';
import { loadElements } from './transport/catch.ts';
import { restHands } from './hands.ts';
import { mixDensity } from './laws/antifreeze.ts';
import { GAS_FACTOR, NPSH_FACTOR, SPEED } from './machines.ts';
import { roomOfWalls, startCreep } from './network/creep.ts';
import { startFractions } from './network/mixture.ts';
import type { Plan } from './network/plan.ts';
import { fitRooms } from './network/weigh.ts';
import { swellRooms } from './transport/exchange.ts';
import type { World } from './world-parts.ts';

/** Contents and controls as the scenario says; hands at rest. */
export function fillWorld(world: World): void {
  const { plan, state, scratch } = world;
  state.pressure.fill(P_ATM);
  state.point.fill(P_ATM);
  state.warmth.fill(1);
  state.mark.fill(-1);
  restHands(state);
  startCreep(plan, state);
  startWarmth(plan, state);
  fitRooms(plan, state, scratch);
  roomOfWalls(plan, state, scratch);
  fillPipes(world);
  fillNodes(world);
  layGrains(world);
  plan.links.forEach((_, ix) => {
    state.control[ix] = startOf(plan, ix);
  });
  plan.scenario.devices.forEach((spec, d) => (state.device[d] = startPosition(plan, spec, d)));
  plan.pumps.forEach((pump, k) => {
    state.pump[k * PUMP_STRIDE + SPEED] = pump.spec.start_on ? 1 : 0;
    state.pump[k * PUMP_STRIDE + GAS_FACTOR] = 1;
    state.pump[k * PUMP_STRIDE + NPSH_FACTOR] = 1;
  });
}

/** C of every volume, where heat is followed, and the room it has by that. */
function startWarmth(plan: Plan, state: State): void {
  if (plan.thermal === null) return;
  state.temp.fill(plan.scenario.temperature_C);
  plan.nodes.forEach(({ spec }, n) => {
    if ('start_C' in spec) state.temp[n] = spec.start_C ?? plan.scenario.temperature_C;
  });
  for (const { spec, firstCell, cells } of plan.links) {
    if ((spec.kind !== 'pipe' && spec.kind !== 'hose') || spec.start_C === undefined) continue;
    state.temp.fill(spec.start_C, firstCell, firstCell + cells);
  }
  swellRooms(plan.thermal, plan, state);
}

/** Grains as they lie when the run starts, and the elements that are worn. */
function layGrains({ plan, state }: World): void {
  const { debris, volumes, links, linkIx } = plan;
  const spec = plan.scenario.debris;
  if (debris === null || spec === undefined) return;
  for (const { link: id, class: name, from_m, to_m, grams } of spec.lying) {
    const { cells, length, firstCell } = links[linkIx.get(id)!]!;
    const c = debris.classes.findIndex((one) => one.id === name);
    const dx = length / cells;
    for (let k = 0; k < cells; k++) {
      const lap = min(to_m, (k + 1) * dx) - max(from_m, k * dx);
      if (lap > 0)
        state.grains[(2 * c + 1) * volumes + firstCell + k]! +=
          (grams * lap) / (to_m - from_m) / 1000;
    }
  }
  debris.starts.forEach((element, k) => (state.fitted[FITTED_STRIDE * k] = element));
  loadElements(plan, debris, state);
}

/** A housing begins with what its link wears. */
function startPosition({ debris, deviceOf }: Plan, spec: DeviceSpec, d: number): number {
  if (spec.kind !== 'housing') return spec.start;
  if (debris === null) return 0;
  const worn = debris.starts[debris.catcherOf[deviceOf[d]!]!] ?? -1;
  return worn < 0 ? 0 : spec.elements.indexOf(debris.elements[worn]!.id) + 1;
}

/** Where a link's control stands when the run starts. */
export function startOf(plan: Plan, ix: number): number {
  const { spec, id } = plan.links[ix]!;
  switch (spec.kind) {
    case 'valve':
      return spec.start_deg;
    case 'leg': {
      const whole = plan.scenario.links.find((link) => link.id === id);
      return whole?.kind === 'three_way' ? whole.start_deg : 0;
    }
    case 'fixed_flow':
      return spec.flow_L_s / 1000;
    case 'pump':
      return spec.start_on ? 1 : 0;
    case 'coupling':
      return spec.start === 'made' ? 1 : 0;
    case 'filter':
      return spec.start_blocked;
    default:
      return 0;
  }
}

interface Content {
  /** Share of the room that holds gas; fraction of antifreeze in the liquid; Pa abs. */
  readonly gas: number;
  readonly x: number;
  readonly p: number;
}

function fill(world: World, v: number, { gas, x, p }: Content): void {
  const { plan, state } = world;
  const { antifreeze, temperature_C } = plan.scenario;
  const rho = mixDensity(antifreeze, temperature_C, x);
  const room = plan.room[v]! * (1 + plan.compliance[v]! * (p - P_ATM)) + roomGiven(world, v);
  const mass = room * (1 - gas) * rho;
  state.density[v] = rho;
  state.fraction[v] = x;
  state.mass[v] = mass;
  state.solute[v] = mass * x;
  state.gas[v] = room * gas * p;
  state.pressure[v] = p;
  if (v >= plan.nodes.length) state.point[plan.leans[v]!] = p;
}

/** m3 that warmth and creep have added to a volume. */
function roomGiven({ plan, scratch }: World, v: number): number {
  return scratch.shape[3 * v]! - plan.room[v]!;
}

const startPressure = (gauge_kPa: number | undefined) => P_ATM + 1000 * (gauge_kPa ?? 0);

/** Fittings after pipes: where both know the pressure of a point, the fitting's stands. */
function fillNodes(world: World): void {
  const { plan, state } = world;
  const fractions = startFractions(plan);
  plan.nodes.forEach(({ spec }, n) => {
    if (spec.kind === 'junction') {
      const p = startPressure(spec.start_pressure_kPa);
      fill(world, n, { gas: spec.start_gas_fraction, x: fractions[n]!, p });
      state.point[n] = p;
      return;
    }
    fill(world, n, { gas: 0, x: fractions[n]!, p: P_ATM });
    state.point[n] = P_ATM;
    if (spec.kind !== 'tank') return;
    state.mass[n] = (spec.area_m2 * spec.start_level_mm * state.density[n]!) / 1000;
    state.solute[n] = state.mass[n]! * spec.start_antifreeze_fraction;
  });
}

function fillPipes(world: World): void {
  const { plan } = world;
  for (const link of plan.links) {
    const spec = link.spec;
    if (spec.kind !== 'pipe' && spec.kind !== 'hose') continue;
    const dx = link.length / link.cells;
    const p = startPressure(spec.start_pressure_kPa);
    for (let k = 0; k < link.cells; k++) {
      let gas = 0;
      for (const stretch of spec.gas) {
        const lap = min(stretch.to_m, (k + 1) * dx) - max(stretch.from_m, k * dx);
        if (lap > 0) gas += lap / dx;
      }
      fill(world, link.firstCell + k, { gas: min(1, gas), x: spec.start_antifreeze_fraction, p });
    }
  }
}
