// Truth to reading: lag while the world steps, range and resolution when somebody looks.
import { abs, floor, min, round } from './base/math.ts';
import { G, P_ATM } from './base/units.ts';
import { countedOf, followNeedle } from './defects/gauges.ts';
import type { InstrumentSpec } from './scenario.ts';
import { GRITS, NOTES, SIGHTS, type Note, type Reading, type Sight } from './lens.ts';
import { readSample } from './samples.ts';
import { GAS_FACTOR, LOCKED, NPSH_FACTOR, SPEED } from './machines.ts';
import { gritOf } from './see-debris.ts';
import { tankLevel } from './network/columns.ts';
import type { Plan } from './network/plan.ts';
import { CORD_A, MOTOR_V, OUTLET_V } from './power.ts';
import { PUMP_STRIDE, type State } from './state.ts';

/** Gas share in a clear section up to which eyes call it by this name [common practice]. */
const SIGHT_LIMITS = { clear: 0.0003, haze: 0.004, bubbles: 0.06, slugs: 0.95 } as const;
/** m of clear hose that the eye takes in at once. */
const SIGHT_LENGTH = 2;

/** What the instrument is held against, SI; sights and notes are read afresh and hold nothing. */
function truthOf(plan: Plan, state: State, spec: InstrumentSpec): number {
  switch (spec.kind) {
    case 'pressure':
      return state.point[plan.nodeIx.get(spec.node)!]! - P_ATM;
    case 'difference': {
      const high = plan.nodeIx.get(spec.high)!;
      const low = plan.nodeIx.get(spec.low)!;
      const rise = plan.nodes[high]!.elevation - plan.nodes[low]!.elevation;
      return state.point[high]! - state.point[low]! + plan.water.rho * G * rise;
    }
    case 'temperature':
      return temperatureOf(plan, state, placeOf(plan, spec));
    case 'flow':
    case 'meter':
      return state.flow[plan.links[plan.linkIx.get(spec.link)!]!.firstColumn]!;
    case 'level':
      return tankLevel(plan, state, plan.nodes[plan.nodeIx.get(spec.tank)!]!.tank);
    case 'current':
      return state.power[CORD_A]!;
    case 'voltage':
      return state.power[spec.at === 'outlet' ? OUTLET_V : MOTOR_V]!;
    default:
      return 0;
  }
}

type Thermometer = Extract<InstrumentSpec, { kind: 'temperature' }>;

/** The volume that a thermometer stands in; of a fitting without length the node at that end. */
function placeOf(plan: Plan, { node, link, end }: Thermometer): number {
  if (node !== undefined) return plan.nodeIx.get(node)!;
  const { from, to, firstCell, cells } = plan.links[plan.linkIx.get(link!)!]!;
  if (cells === 0) return end === 'from' ? from : to;
  return end === 'from' ? firstCell : firstCell + cells - 1;
}

/** C of a volume; the scenario's own where heat is left out. */
export function temperatureOf(plan: Plan, state: State, v: number): number {
  return plan.thermal === null ? plan.scenario.temperature_C : state.temp[v]!;
}

/** Every tick: needles follow with their lag, and counters count. */
export function followInstruments(plan: Plan, state: State, dt: number): void {
  const { instruments } = plan.scenario;
  for (let i = 0; i < instruments.length; i++) {
    const spec = instruments[i]!;
    if (spec.kind === 'meter') {
      const { firstColumn } = plan.links[plan.linkIx.get(spec.link)!]!;
      state.shown[i]! += countedOf(plan, state, i) * state.flowMean[firstColumn]! * dt;
      continue;
    }
    const lag = 'lag_s' in spec ? spec.lag_s : 0;
    const truth = truthOf(plan, state, spec);
    if (plan.defects.gauges[i]!.length > 0) {
      followNeedle(plan, state, { i, truth, lag, dt });
      continue;
    }
    const goal = truth + plan.defects.errors[i]!;
    state.shown[i]! += (lag === 0 ? 1 : min(1, dt / (lag + dt))) * (goal - state.shown[i]!);
  }
}

function steps(value: number, step: number): number {
  return round(value / step) * step;
}

/** What a counter shows: digits that are full. Turned back beyond its zero it stands at zero. */
function counted(value: number, step: number): number {
  return value < 0 ? 0 : floor(value / step) * step;
}

/** What a needle points to: the end of its scale where it would go beyond. */
function onScale(value: number, range: number, step: number): number {
  if (value > range) return range;
  return value < -step / 2 ? 0 : steps(value, step);
}

function dial(
  value: number,
  range: number,
  step: number,
): { value: number; off_scale: -1 | 0 | 1 } {
  const off_scale = value > range ? 1 : value < -step / 2 ? -1 : 0;
  return { value: onScale(value, range, step), off_scale };
}

/** The number that instrument `i` shows, SI, as its scale has it; 0 where it shows no number. */
export function shownBy(plan: Plan, state: State, i: number): number {
  if (i < 0) return 0;
  const spec = plan.scenario.instruments[i]!;
  const shown = state.shown[i]!;
  switch (spec.kind) {
    case 'pressure': {
      const from = 1000 * (spec.from_kPa ?? 0);
      const step = spec.resolution_kPa * 1000;
      return from + onScale(shown - from, spec.range_kPa * 1000 - from, step);
    }
    case 'difference':
      return onScale(shown, spec.range_kPa * 1000, spec.resolution_kPa * 1000);
    case 'temperature': {
      const { from_C, to_C, resolution_C } = spec;
      return from_C + onScale(shown - from_C, to_C - from_C, resolution_C);
    }
    case 'meter':
      return counted(shown, spec.resolution_L / 1000);
    case 'current':
      return onScale(shown, spec.range_A, spec.resolution_A);
    case 'voltage':
      return onScale(shown, spec.range_V, spec.resolution_V);
    case 'flow':
      return onScale(shown, spec.range_L_min / 60000, spec.resolution_L_min / 60000);
    case 'level':
      return steps(shown, spec.resolution_mm / 1000);
    default:
      return 0;
  }
}

/** What eyes make of the last two metres of a clear hose. */
export function sightOf(plan: Plan, alpha: Float64Array, linkId: string): Sight {
  const link = plan.links[plan.linkIx.get(linkId)!]!;
  const cells = min(link.cells, round(SIGHT_LENGTH / (link.length / link.cells)) || 1);
  let gas = 0;
  for (let k = 0; k < cells; k++) gas += alpha[link.firstCell + link.cells - 1 - k]! / cells;
  if (gas <= SIGHT_LIMITS.clear) return 'clear';
  if (gas <= SIGHT_LIMITS.haze) return 'haze';
  if (gas <= SIGHT_LIMITS.bubbles) return 'bubbles';
  return gas <= SIGHT_LIMITS.slugs ? 'slugs' : SIGHTS[0];
}

/** What ears make of a pump. */
export function noteOf(plan: Plan, state: State, alpha: Float64Array, pumpId: string): Note {
  const ix = plan.pumps.findIndex((p) => p.id === pumpId);
  const at = ix * PUMP_STRIDE;
  if (state.pump[at + SPEED]! < 0.3) return NOTES[0];
  if (alpha[plan.links[plan.pumps[ix]!.link]!.from]! > 0.8) return 'dry';
  if (state.pump[at + LOCKED] === 1) return 'locked';
  if (state.pump[at + NPSH_FACTOR]! < 0.9) return 'starved';
  return state.pump[at + GAS_FACTOR]! < 0.93 ? 'gassy' : 'steady';
}

/** A gauge's dial; a compound one begins below the pressure of the air. */
function pressureOn(spec: Extract<InstrumentSpec, { kind: 'pressure' }>, shown: number): Reading {
  const { id, kind, from_kPa } = spec;
  const range = spec.range_kPa * 1000;
  const step = spec.resolution_kPa * 1000;
  if (from_kPa === undefined) return { id, kind, range, ...dial(shown, range, step) };
  const from = from_kPa * 1000;
  const on = dial(shown - from, range - from, step);
  return { id, kind, range, from, ...on, value: from + on.value };
}

/** All readings in the scenario's order. */
export function readInstruments(plan: Plan, state: State, alpha: Float64Array): Reading[] {
  return plan.scenario.instruments.map((spec, i): Reading => {
    const shown = state.shown[i]!;
    const id = spec.id;
    switch (spec.kind) {
      case 'pressure':
        return pressureOn(spec, shown);
      case 'flow': {
        const range = spec.range_L_min / 60000;
        return { id, kind: 'flow', range, ...dial(shown, range, spec.resolution_L_min / 60000) };
      }
      case 'difference': {
        const range = spec.range_kPa * 1000;
        return { id, kind: 'difference', range, ...dial(shown, range, spec.resolution_kPa * 1000) };
      }
      case 'temperature': {
        const { from_C, to_C, resolution_C } = spec;
        const on = dial(shown - from_C, to_C - from_C, resolution_C);
        return { id, kind: 'temperature', range: [from_C, to_C], ...on, value: from_C + on.value };
      }
      case 'meter': // Its last digit turns over when it is full.
        return { id, kind: 'meter', value: counted(shown, spec.resolution_L / 1000) };
      case 'level': {
        const tank = plan.nodes[plan.nodeIx.get(spec.tank)!]!.tank;
        const step = spec.resolution_mm / 1000;
        const mark = state.mark[tank]!;
        const range = plan.tanks[tank]!.spec.height_mm / 1000;
        return {
          id,
          kind: 'level',
          range,
          value: steps(shown, step),
          mark: mark < 0 ? null : steps(mark, step),
        };
      }
      case 'sight': {
        const link = plan.links[plan.linkIx.get(spec.link)!]!;
        const v = state.flow[link.firstColumn + link.columns - 1]! / link.area;
        const moving = abs(v) < 0.02 ? 0 : v > 0 ? 1 : -1;
        const grit = moving === 0 ? GRITS[0] : gritOf(plan, state, link);
        return { id, kind: 'sight', value: sightOf(plan, alpha, spec.link), moving, grit };
      }
      case 'hydrometer':
      case 'refractometer':
      case 'dip_thermometer':
        return readSample(plan, state, spec);
      case 'note':
        return { id, kind: 'note', value: noteOf(plan, state, alpha, spec.pump) };
      case 'current': {
        const range = spec.range_A;
        return { id, kind: 'current', range, ...dial(shown, range, spec.resolution_A) };
      }
      case 'voltage': {
        const range = spec.range_V;
        return { id, kind: 'voltage', range, ...dial(shown, range, spec.resolution_V) };
      }
    }
  });
}
