// Heat between the liquid and what is around it, once a second: pipes to ground or air with sun,
// fittings and tanks to the air, the shaft power of pumps into their casings. Each lot of heat
// has its ledger. Leaves what the liquid carries to load.ts.
import { abs, max, min } from '../base/math.ts';
import { mixConductivity } from '../laws/antifreeze.ts';
import {
  filmResistance,
  innerResistance,
  nusselt,
  soilResistance,
  ABSORBED,
  sunHeat,
} from '../laws/heat.ts';
import { JUNCTION, TANK, type LinkPlan, type Plan } from '../network/plan.ts';
import { heatCapacity, type Thermal, type ThermalLink } from '../network/thermal.ts';
import { COLUMN_LIQUID_STRIDE, type State } from '../state.ts';
import { warm } from './heat.ts';

/** Places in the book of heat behind the ledgers of liquid, as HEAT_LEDGERS has them. */
const SOIL = 0;
const AIR = 1;
const SUN = 2;
const SHAFT = 3;
const SURFACE = 4;

interface Held {
  readonly plan: Plan;
  readonly state: State;
}

/** Heat comes in from a ledger: what a ledger holds has gone there. */
function bring({ plan, state }: Held, v: number, ledger: number, J: number): void {
  state.heat[v] = state.heat[v]! + J;
  const at = plan.ledgers.length + ledger;
  state.heatBook[at] = state.heatBook[at]! - J;
}

/** Every tick: what a pump's shaft puts into its casing. */
export function bringShaft(held: Held, casing: number, J: number): void {
  if (J !== 0) bring(held, casing, SHAFT, J);
}

/** Once a second, after contents have been carried; `dt` the seconds since the last time. */
export function exchangeHeat(held: Held, dt: number): void {
  const { plan, state } = held;
  const thermal = plan.thermal!;
  for (let k = 0; k < thermal.links.length; k++) exchangeLink(held, thermal.links[k]!, dt);
  for (let n = 0; n < plan.nodes.length; n++) {
    const { kind } = plan.nodes[n]!;
    if (kind === JUNCTION || kind === TANK) exchangeNode(held, n, dt);
  }
  swellRooms(thermal, plan, state);
}

/** K m/W from the middle of the liquid to the outside, and what the sun adds outside, W/m. */
const way = { all: 0, outer: 0, sun: 0 };

function wayOut(plan: Plan, state: State, { link, soil, outside, wall }: ThermalLink): void {
  const { spec } = plan.thermal!;
  const time = state.counter[0]! * plan.scenario.solver.tick_s;
  way.outer = soil
    ? soilResistance(time + spec.soil_age_s, outside / 2, {
        k: spec.soil_W_mK,
        a: spec.soil_diffusivity_mm2_s * 1e-6,
      })
    : filmResistance(spec.air_film_W_m2K, outside);
  way.sun = soil ? 0 : sunHeat(outside, spec.sun_W_m2);
  way.all = insideOf(plan, state, plan.links[link]!) + wall + way.outer;
}

/** K m/W of the film in a pipe, by its first column. */
function insideOf(plan: Plan, state: State, link: LinkPlan): number {
  const { fluid } = plan.thermal!;
  const at = link.firstColumn * COLUMN_LIQUID_STRIDE;
  const rho = state.liquid[at]!;
  const mu = state.liquid[at + 1]!;
  const v = link.firstCell + (link.cells >> 1);
  const k = mixConductivity(fluid, state.temp[v]!, state.fraction[v]!);
  const Re = (rho * abs(state.flow[link.firstColumn]!) * link.bore) / (link.area * mu);
  const Pr = (mu * heatCapacity(plan.thermal!, state.fraction[v]!)) / k;
  return innerResistance(nusselt(min(Re, 5e6), min(Pr, 2000)), k);
}

function exchangeLink(held: Held, thermal: ThermalLink, dt: number): void {
  const { plan, state } = held;
  const { spec } = plan.thermal!;
  const { firstCell, cells } = plan.links[thermal.link]!;
  wayOut(plan, state, thermal);
  const outside = thermal.soil ? spec.soil_C : spec.air_C;
  const sun = way.sun === 0 ? 0 : (way.sun * way.outer) / way.all;
  for (let v = firstCell; v < firstCell + cells; v++) {
    const mass = state.mass[v]!;
    if (mass <= 0) continue;
    // Only the length that is wet takes part: what is dry has nothing to warm.
    const wet = min(1, mass / state.density[v]! / plan.room[v]!) * plan.cellLength[v]!;
    const still = soften(plan.thermal!, state, v, (wet * dt) / way.all);
    const J = ((outside - state.temp[v]!) * wet * still * dt) / way.all;
    bring(held, v, thermal.soil ? SOIL : AIR, J);
    if (sun !== 0) bring(held, v, SUN, sun * wet * still * dt);
    warm(plan.thermal!, state, v);
  }
}

/**
 * Share of a step that is taken so that it never overshoots (backward Euler); `gain` in J/K.
 */
function soften(thermal: Thermal, state: State, v: number, gain: number): number {
  const metal = v < thermal.metal.length ? thermal.metal[v]! : 0;
  const capacity = max(0, state.mass[v]!) * heatCapacity(thermal, state.fraction[v]!) + metal;
  return capacity > 0 ? capacity / (capacity + gain) : 0;
}

function exchangeNode(held: Held, n: number, dt: number): void {
  const { plan, state } = held;
  const thermal = plan.thermal!;
  const { spec } = thermal;
  const open = thermal.exposed[n]!;
  if (open === 0) return;
  const tank = plan.nodes[n]!.kind === TANK;
  const share = tank ? 1 : min(1, state.mass[n]! / state.density[n]! / plan.room[n]!);
  const gain = open * (thermal.metal[n]! > 0 ? 1 : share) * dt;
  const still = soften(thermal, state, n, gain);
  bring(held, n, tank ? SURFACE : AIR, (spec.air_C - state.temp[n]!) * gain * still);
  if (tank && spec.sun_W_m2 > 0) {
    const area = open / spec.air_film_W_m2K;
    bring(held, n, SUN, ABSORBED * spec.sun_W_m2 * area * still * dt);
  }
  warm(thermal, state, n);
}

/** Room that pipes have grown by since the start, m3. */
export function swellRooms(thermal: Thermal, plan: Plan, state: State): void {
  const from = plan.scenario.temperature_C;
  for (let v = plan.nodes.length; v < plan.volumes; v++) {
    state.swell[v] = plan.room[v]! * thermal.swell[v]! * (state.temp[v]! - from);
  }
}
