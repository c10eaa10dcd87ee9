// Truth to reading: lag while the world steps, range and resolution when somebody looks.
import { abs, min, round } from './base/math.ts';
import { P_ATM } from './base/units.ts';
import type { InstrumentSpec } from './scenario.ts';
import { NOTES, SIGHTS, type Note, type Reading, type Sight } from './lens.ts';
import { readSample } from './samples.ts';
import { GAS_FACTOR, LOCKED, NPSH_FACTOR, SPEED } from './machines.ts';
import { tankLevel } from './network/columns.ts';
import type { Plan } from './network/plan.ts';
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
    case 'flow': {
      const link = plan.links[plan.linkIx.get(spec.link)!]!;
      return state.flow[link.firstColumn]!;
    }
    case 'level':
      return tankLevel(plan, state, plan.nodes[plan.nodeIx.get(spec.tank)!]!.tank);
    default:
      return 0;
  }
}

/** C of a volume; the scenario's own where heat is left out. */
export function temperatureOf(plan: Plan, state: State, v: number): number {
  return plan.thermal === null ? plan.scenario.temperature_C : state.temp[v]!;
}

/** Every tick: gauges and meters follow with their lag. */
export function followInstruments(plan: Plan, state: State, dt: number): void {
  plan.scenario.instruments.forEach((spec, i) => {
    const truth = truthOf(plan, state, spec);
    const lag = spec.kind === 'pressure' || spec.kind === 'flow' ? spec.lag_s : 0;
    state.shown[i]! += (lag === 0 ? 1 : min(1, dt / (lag + dt))) * (truth - state.shown[i]!);
  });
}

function steps(value: number, step: number): number {
  return round(value / step) * step;
}

function dial(
  value: number,
  range: number,
  step: number,
): { value: number; off_scale: -1 | 0 | 1 } {
  if (value > range) return { value: range, off_scale: 1 };
  if (value < -step / 2) return { value: 0, off_scale: -1 };
  return { value: steps(value, step), off_scale: 0 };
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

/** All readings in the scenario's order. */
export function readInstruments(plan: Plan, state: State, alpha: Float64Array): Reading[] {
  return plan.scenario.instruments.map((spec, i): Reading => {
    const shown = state.shown[i]!;
    const id = spec.id;
    switch (spec.kind) {
      case 'pressure': {
        const range = spec.range_kPa * 1000;
        return { id, kind: 'pressure', range, ...dial(shown, range, spec.resolution_kPa * 1000) };
      }
      case 'flow': {
        const range = spec.range_L_min / 60000;
        return { id, kind: 'flow', range, ...dial(shown, range, spec.resolution_L_min / 60000) };
      }
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
        return { id, kind: 'sight', value: sightOf(plan, alpha, spec.link), moving };
      }
      case 'hydrometer':
      case 'refractometer':
      case 'dip_thermometer':
        return readSample(plan, state, spec);
      case 'note':
        return { id, kind: 'note', value: noteOf(plan, state, alpha, spec.pump) };
    }
  });
}
