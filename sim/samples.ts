// What instruments make of the sample in a cup: a hydrometer floats in it, a refractometer takes a
// drop of it, a thermometer is dipped. Each says what it would say, right scale or wrong.
import { round } from './base/math.ts';
import { freezePoint_C, mixDensity } from './laws/antifreeze.ts';
import { fractionByIndex, refractiveIndex, type Refracted } from './laws/refraction.ts';
import { density } from './laws/water.ts';
import type { SampleReading } from './lens.ts';
import type { Plan } from './network/plan.ts';
import type { InstrumentSpec } from './scenario.ts';
import { CUP_STRIDE, type State } from './state.ts';

export type SampleSpec = Extract<
  InstrumentSpec,
  { kind: 'hydrometer' | 'refractometer' | 'dip_thermometer' }
>;

/** 1/K by which a glass float grows in volume [common practice, no source]. */
const GLASS = 2.5e-5;
/** C of a float's own scale. */
const SCALE_C = 20;

interface Sample {
  readonly x: number;
  readonly t: number;
  readonly air: number;
  readonly fluid: Plan['scenario']['antifreeze'];
}

/** The reading of an instrument that looks at a cup; `value` null while the cup is empty. */
export function readSample(plan: Plan, state: State, spec: SampleSpec): SampleReading {
  const at = plan.mix.cupOf[plan.deviceIx.get(spec.cup)!]! * CUP_STRIDE;
  const { antifreeze: fluid, heat, temperature_C } = plan.scenario;
  const air = heat?.air_C ?? temperature_C;
  const [kg, x, t] = [state.cup[at]!, state.cup[at + 1]!, state.cup[at + 2]!];
  const sample = kg > 0 ? { x, t, air, fluid } : null;
  if (spec.kind === 'hydrometer') return hydrometer(spec, sample);
  if (spec.kind === 'refractometer') return refractometer(spec, sample);
  const { id, from_C, to_C, resolution_C } = spec;
  const scale = { range: [from_C, to_C], step: resolution_C } as const;
  return { id, kind: 'temperature', ...onScale(sample === null ? null : sample.t, scale) };
}

interface Scale {
  readonly range: readonly [number, number];
  readonly step: number;
}

function onScale(value: number | null, { range, step }: Scale) {
  const [lo, hi] = range;
  if (value === null) return { value, range, off_scale: 0 } as const;
  if (value < lo - step / 2) return { value: lo, range, off_scale: -1 } as const;
  if (value > hi + step / 2) return { value: hi, range, off_scale: 1 } as const;
  return { value: round(value / step) * step, range, off_scale: 0 } as const;
}

/** Relative density as the float shows it: the liquid as warm as it is over water of 20 C. */
function floats({ fluid, t, x }: Sample): number {
  return (mixDensity(fluid, t, x) / density(SCALE_C)) * (1 + GLASS * (t - SCALE_C));
}

function hydrometer(
  spec: Extract<SampleSpec, { kind: 'hydrometer' }>,
  sample: Sample | null,
): SampleReading {
  const { id, from, to, resolution, corrects_for } = spec;
  const scale = { range: [from, to], step: resolution } as const;
  const shown = sample === null ? null : floats(sample);
  const brought =
    sample === null || shown === null || corrects_for === undefined
      ? shown
      : atScale(corrects_for, sample.t, shown);
  return { id, kind: 'density', ...onScale(brought, scale) };
}

const BISECTIONS = 40;

/**
 * What a scale of corrections printed for one antifreeze makes of a reading at t C: the mixture of
 * it that floats so, and how it would at 20 C.
 */
function atScale(kind: Refracted, t: number, shown: number): number {
  const reads = (x: number, at: number): number => floats({ fluid: kind, t: at, x, air: at });
  const rises = reads(0.5, t) > reads(0, t);
  let lo = 0;
  let hi = 0.6;
  for (let k = 0; k < BISECTIONS; k++) {
    const x = (lo + hi) / 2;
    if (reads(x, t) < shown === rises) lo = x;
    else hi = x;
  }
  return shown + reads(lo, SCALE_C) - reads(lo, t);
}

function refractometer(
  spec: Extract<SampleSpec, { kind: 'refractometer' }>,
  sample: Sample | null,
): SampleReading {
  const { id, made_for, reads, lowest_C, resolution_C, resolution_index, compensates } = spec;
  const n =
    sample === null
      ? null
      : refractiveIndex(sample.fluid, compensates ? SCALE_C : sample.air, sample.x);
  if (reads === 'index') {
    const scale = { range: [1.33, 1.45], step: resolution_index } as const;
    return { id, kind: 'index', ...onScale(n, scale) };
  }
  const scale = { range: [lowest_C, 0], step: resolution_C } as const;
  if (n === null) return { id, kind: 'freeze', ...onScale(null, scale) };
  const x = fractionByIndex(made_for, n);
  const water = refractiveIndex('none', SCALE_C, 0);
  const t = x !== null ? freezePoint_C(made_for, x) : n < water ? 99 : -99;
  return { id, kind: 'freeze', ...onScale(t, scale) };
}
