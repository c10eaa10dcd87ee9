// What the seed decides before a run begins: which of the possible defects are there, and how far
// each instrument is off. Worked out anew from the seed whenever a world is made, so that it is no
// state. Streams of chance: 0 for defects, 1 for instruments, one draw for each in their order.
import { nextUnit, seedStream } from '../base/rng.ts';
import type { DefectSpec } from '../scenario-defects.ts';
import type { InstrumentSpec, Scenario } from '../scenario.ts';

const DEFECT_STREAM = 0;
const INSTRUMENT_STREAM = 1;

/** What is drawn for a run. */
export interface Drawn {
  /** Those that are there, in the scenario's order. */
  readonly defects: readonly DefectSpec[];
  /** What each instrument shows too much from the start, SI. */
  readonly errors: Float64Array;
}

/** A plant as it was designed: nothing is wrong with it, and every instrument is right. */
export function asDesigned({ instruments }: Scenario): Drawn {
  return { defects: [], errors: new Float64Array(instruments.length) };
}

/** What this seed makes of the scenario. */
export function drawFor(scenario: Scenario, seed: number): Drawn {
  const words = new Uint32Array(4);
  const drawn = asDesigned(scenario);
  seedStream(words, 0, seed, DEFECT_STREAM);
  const defects = (scenario.defects ?? []).filter(({ chance }) => nextUnit(words, 0) < chance);
  seedStream(words, 0, seed, INSTRUMENT_STREAM);
  scenario.instruments.forEach((spec, i) => {
    const side = 2 * nextUnit(words, 0) - 1;
    drawn.errors[i] = side * classOf(spec) * scaleOf(spec).range;
  });
  return { ...drawn, defects };
}

/** Accuracy class as a share of the range; 0 where none is said. */
function classOf(spec: InstrumentSpec): number {
  return 'error_share' in spec ? (spec.error_share ?? 0) : 0;
}

/** Where an instrument's scale begins and how far it goes, SI; nothing of what has none. */
export function scaleOf(spec: InstrumentSpec): { from: number; range: number } {
  switch (spec.kind) {
    case 'pressure': {
      const from = 1000 * (spec.from_kPa ?? 0);
      return { from, range: spec.range_kPa * 1000 - from };
    }
    case 'difference':
      return { from: 0, range: spec.range_kPa * 1000 };
    case 'flow':
      return { from: 0, range: spec.range_L_min / 60000 };
    case 'temperature':
      return { from: spec.from_C, range: spec.to_C - spec.from_C };
    default:
      return { from: 0, range: 0 };
  }
}
