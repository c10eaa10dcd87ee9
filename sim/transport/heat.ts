// Heat that the liquid holds: one number of joules a volume, counted from liquid at -150 C, ice as
// liquid less its latent heat. From it follow temperature, ice and density.
// Simplification: capacity linear in the fraction, ice has its liquid's; gas and walls hold none.
import { max } from '../base/math.ts';
import { LATENT } from '../laws/heat.ts';
import { LEDGER_DUST, type Plan } from '../network/plan.ts';
import {
  BISECTIONS,
  COLDEST,
  freezes,
  HEAT_ZERO,
  heatCapacity,
  HOTTEST,
  liquidus,
  slurryDensity,
  type Thermal,
} from '../network/thermal.ts';
import type { State } from '../state.ts';

/** J/kg of a mixture at t C, its ice with it. */
function contentAt(thermal: Thermal, t: number, x: number, ice: number): number {
  return heatCapacity(thermal, x) * (t - HEAT_ZERO) - LATENT * ice;
}

/** What a kilogram from each boundary brings, J; empty where heat is not followed. */
export function givenHeat(plan: Plan, fractions: Float64Array): Float64Array {
  const { thermal } = plan;
  if (thermal === null) return new Float64Array(0);
  const t = plan.scenario.temperature_C;
  return fractions.map((x) => contentAt(thermal, t, x, iceAt(thermal, t, x)));
}

/** kg of water that the metal of each node holds as much heat as. */
export function besideHeat({ thermal, nodes }: Plan): Float64Array {
  if (thermal === null) return new Float64Array(nodes.length);
  return thermal.metal.map((own) => own / thermal.water);
}

/** Mass fraction of ice at t C in a mixture of fraction x. */
function iceAt(thermal: Thermal, t: number, x: number): number {
  if (t >= freezes(thermal, x)) return 0;
  const liquid = liquidus(thermal, t);
  return liquid <= x ? 0 : 1 - x / liquid;
}

/** Fraction below which ice forms at 0 C, as in water. */
const TRACE = 1e-6;

/** kg. So little liquid has no warmth of its own: what rounding leaves would make it boil. */
const FILM = 1e-6;

/** A volume at t C: what it holds, its ice and its density. Its mass and fraction must stand. */
export function setTemperature(plan: Plan, state: State, v: number, t: number): void {
  const thermal = plan.thermal!;
  const x = state.fraction[v]!;
  const ice = x < TRACE ? (t < 0 ? 1 : 0) : iceAt(thermal, t, x);
  const metal = v < plan.nodes.length ? thermal.metal[v]! : 0;
  state.heatShare[v] = contentAt(thermal, t, x, ice);
  state.heat[v] = state.mass[v]! * state.heatShare[v]! + metal * (t - HEAT_ZERO);
  state.temp[v] = t;
  state.ice[v] = ice;
  weighIce(thermal, state, v);
}

function weighIce(thermal: Thermal, state: State, v: number): void {
  const t = state.temp[v]!;
  state.density[v] = slurryDensity(thermal, t, state.fraction[v]!, state.ice[v]!);
}

/**
 * Temperature, ice and density of a volume from the heat it holds. A volume without metal and
 * with a film at most keeps its temperature, and what heat it has over that goes to the dust.
 */
export function warm(thermal: Thermal, state: State, v: number): void {
  const mass = max(0, state.mass[v]!);
  const metal = v < thermal.metal.length ? thermal.metal[v]! : 0;
  const x = state.fraction[v]!;
  const capacity = mass * heatCapacity(thermal, x) + metal;
  if (metal === 0 && mass < FILM) {
    const share = contentAt(thermal, state.temp[v]!, x, state.ice[v]!);
    state.heatBook[LEDGER_DUST] = state.heatBook[LEDGER_DUST]! + state.heat[v]! - mass * share;
    state.heat[v] = mass * share;
    state.heatShare[v] = share;
    return;
  }
  const t = state.heat[v]! / capacity + HEAT_ZERO;
  let ice = 0;
  let found = t;
  if (t < 0 && mass > 0 && t < freezes(thermal, x)) {
    const latent = (mass * LATENT) / capacity;
    if (x < TRACE) {
      const share = -t / latent; // Water stays at 0 C until all of it is ice.
      ice = share < 1 ? share : 1;
      found = share < 1 ? 0 : t + latent;
    } else {
      found = settle(thermal, t, x, latent);
      ice = iceAt(thermal, found, x);
    }
  }
  state.temp[v] = found < COLDEST ? COLDEST : found > HOTTEST ? HOTTEST : found;
  state.ice[v] = ice;
  state.heatShare[v] = contentAt(thermal, state.temp[v]!, x, ice);
  weighIce(thermal, state, v);
}

/** Temperature t0 + latent * ice(t), where ice and cooling balance; between t0 and freezing. */
function settle(thermal: Thermal, t0: number, x: number, latent: number): number {
  let lo = t0;
  let hi = freezes(thermal, x);
  for (let k = 0; k < BISECTIONS; k++) {
    const t = (lo + hi) / 2;
    if (t0 + latent * iceAt(thermal, t, x) > t) lo = t;
    else hi = t;
  }
  return (lo + hi) / 2;
}
