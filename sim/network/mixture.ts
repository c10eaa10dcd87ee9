// Density and viscosity of the mixture by its mass fraction at a world's temperature, as tables:
// the laws have thirty terms each, and every cell that mixes asks for them. And what liquid each
// column holds, as the mean of its cells, for its losses.
import { mixDensity, mixViscosity, type Fluid } from '../laws/antifreeze.ts';
import { SLURRY } from '../laws/heat.ts';
import type { Scenario } from '../scenario.ts';
import { COLUMN_LIQUID_STRIDE, type State } from '../state.ts';
import { slurryThickness } from './thermal.ts';
import { JUNCTION, TANK, type Plan } from './plan.ts';

const FRACTION_MAX = 1;
const LAST_STEP = 2000;
const STEPS_PER_FRACTION = LAST_STEP / FRACTION_MAX;

type Law = (kind: Fluid, t_C: number, x: number) => number;

function table({ antifreeze, temperature_C }: Scenario, law: Law): Float64Array {
  // Water alone needs no table, but what is asked of one must hold.
  const water = antifreeze === 'none' ? law(antifreeze, temperature_C, 0) : -1;
  return Float64Array.from({ length: LAST_STEP + 1 }, (_, i) =>
    water < 0 ? law(antifreeze, temperature_C, i / STEPS_PER_FRACTION) : water,
  );
}

/**
 * kg/m3 at 2001 mass fractions from 0 to 1 and the scenario's temperature; straight in
 * between, which is within 2e-3 kg/m3 of the law.
 */
export function mixtureTable(scenario: Scenario): Float64Array {
  return table(scenario, mixDensity);
}

/** Pa s at the same fractions; straight in between, which is within 1e-5 of the law. */
export function viscosityTable(scenario: Scenario): Float64Array {
  return table(scenario, mixViscosity);
}

/** The table's value at mass fraction x. */
export function atFraction(values: Float64Array, x: number): number {
  const at = x < FRACTION_MAX ? x * STEPS_PER_FRACTION : LAST_STEP;
  const i = at < LAST_STEP ? at | 0 : LAST_STEP - 1;
  return values[i]! + (at - i) * (values[i + 1]! - values[i]!);
}

/** m3. What a dry cell weighs in its column's mean: a column without liquid has a mean too. */
const DRY = 1e-9;

/**
 * Density and viscosity of every column's liquid, once a second: the mean over its cells by their
 * liquid, of the viscosity itself and not of the fraction, since laminar loss adds up over a
 * column that way. A fitting has what flows into it, a pump what
 * stands in its casing; it has no length for viscosity but where ice blocks it.
 */
export function mixColumns(plan: Plan, state: State): void {
  for (let c = 0; c < plan.columns.length; c++) {
    const { cell, cells } = plan.columns[c]!;
    const at = c * COLUMN_LIQUID_STRIDE;
    if (cells === 0) {
      state.liquid[at] = fittingDensity(plan, state, c);
      state.liquid[at + 1] = blockOf(plan, state, c);
      continue;
    }
    let room = 0;
    let heavy = 0;
    let thick = 0;
    for (let v = cell; v < cell + cells; v++) {
      const rho = state.density[v]!;
      const own = state.mass[v]! / rho + DRY;
      room += own;
      heavy += own * rho;
      thick += own * thicknessOf(plan, state, v);
    }
    state.liquid[at] = heavy / room;
    state.liquid[at + 1] = thick / room;
  }
}

/** Pa s of what stands in a volume, its ice with it. */
export function thicknessOf({ thermal, thickness }: Plan, state: State, v: number): number {
  const x = state.fraction[v]!;
  if (thermal === null) return atFraction(thickness, x);
  return slurryThickness(thermal, state.temp[v]!, x, state.ice[v]!);
}

/** Pa s of what blocks a fitting: its fuller side's ice; 0 while it lets through. */
function blockOf({ links, columns, thermal }: Plan, state: State, c: number): number {
  if (thermal === null) return 0;
  const { from, to } = links[columns[c]!.link]!;
  const n = state.ice[from]! > state.ice[to]! ? from : to;
  const ice = state.ice[n]!;
  if (ice <= SLURRY.thickens) return 0;
  return slurryThickness(thermal, state.temp[n]!, state.fraction[n]!, ice);
}

function fittingDensity(plan: Plan, state: State, c: number): number {
  const { from, to, pump } = plan.links[plan.columns[c]!.link]!;
  const backward = pump < 0 && state.flow[c]! < 0;
  const donor = backward ? to : from;
  return state.density[holds(plan, donor) ? donor : backward ? from : to]!;
}

/** False of ends that never run out, or hold air: what passes there comes from the other side. */
function holds(plan: Plan, n: number): boolean {
  const { kind } = plan.nodes[n]!;
  return kind === JUNCTION || kind === TANK;
}

/** Every column as of pure water at the scenario's temperature: its bits are those of the laws. */
export function plainColumns(plan: Plan, state: State): void {
  for (let c = 0; c < plan.columns.length; c++) {
    state.liquid[c * COLUMN_LIQUID_STRIDE] = plan.water.rho;
    state.liquid[c * COLUMN_LIQUID_STRIDE + 1] = plan.columns[c]!.cells === 0 ? 0 : plan.water.mu;
  }
}

/**
 * Antifreeze fraction that a fitting starts with: the mean of the pipes that end in it by their
 * area; of a fitting between fittings, that of its neighbours, step by step outward.
 */
export function startFractions(plan: Plan): Float64Array {
  const fraction = new Float64Array(plan.nodes.length).fill(-1);
  const sum = new Float64Array(plan.nodes.length);
  const area = new Float64Array(plan.nodes.length);
  plan.nodes.forEach(({ spec, fraction: own }, n) => {
    if (spec.kind === 'tank') fraction[n] = spec.start_antifreeze_fraction;
    else if (spec.kind === 'junction') fraction[n] = spec.start_antifreeze_fraction ?? -1;
    else if (spec.kind === 'reservoir') fraction[n] = own;
  });
  for (const { spec, from, to, area: own } of plan.links) {
    if (spec.kind !== 'pipe' && spec.kind !== 'hose') continue;
    for (const n of [from, to]) {
      sum[n] = sum[n]! + own * spec.start_antifreeze_fraction;
      area[n] = area[n]! + own;
    }
  }
  for (let n = 0; n < fraction.length; n++) {
    if (fraction[n]! < 0 && area[n]! > 0) fraction[n] = sum[n]! / area[n]!;
  }
  for (let moved = true; moved; ) {
    moved = false;
    for (const { from, to } of plan.links) {
      const known = fraction[from]! >= 0 ? from : to;
      const other = known === from ? to : from;
      if (fraction[known]! < 0 || fraction[other]! >= 0) continue;
      fraction[other] = fraction[known]!;
      moved = true;
    }
  }
  return fraction.map((x) => (x < 0 ? 0 : x));
}
