// Figures that a trainee works the job sheet out with, as drawing, plates and tables have them. No
// line's own number is among them.
import { max, min } from '../base/math.ts';
import { fractionForFreezePoint, mixDensity, type Fluid } from '../laws/antifreeze.ts';
import { density } from '../laws/water.ts';
import type { ConduitSpec, Scenario } from '../scenario.ts';
import { makeUpFlow } from './amounts.ts';
import { giveOfAll, PROOF, shareLeft } from './give.ts';
import { rigOf } from './judge.ts';
import { leftIn } from './pressures.ts';
import { flowing, isConduit, type Rig } from './rig.ts';

/** All SI; lists of what a sheet has no line for are empty, and numbers null. */
export interface Plates {
  /** Pipes of the loop by their bore, m: how many, from which length to which, and in all. */
  readonly pipes: readonly {
    readonly bore: number;
    readonly count: number;
    readonly shortest: number;
    readonly longest: number;
    readonly total: number;
  }[];
  /** Hoses and pipes of the rig that the purge goes through. */
  readonly hoses: readonly {
    readonly id: string;
    readonly bore: number;
    readonly length: number;
  }[];
  readonly pump: string;
  readonly curve: readonly { readonly flow: number; readonly head: number }[];
  /** m3/s into the tank, as a pail and a watch say it. */
  readonly tap: number | null;
  readonly fluid: Fluid;
  /** Freeze point C, mass fraction and density of mixtures; of the product. */
  readonly mixtures: readonly {
    readonly freeze_C: number;
    readonly fraction: number;
    readonly density: number;
  }[];
  readonly product: { readonly fraction: number; readonly density: number } | null;
  /** m3 that loop and hoses give for 100 kPa within a minute. */
  readonly stretch: number | null;
  /** Share of a pressure that plastic leaves after so many s. */
  readonly left: readonly { readonly after: number; readonly share: number }[];
}

const FREEZE_C = [-5, -10, -15, -20] as const;
const HOURS = [1, 12, 24, 48] as const;
const STEP = 1e5;

export function platesOf(scenario: Scenario): Plates | null {
  const lines = scenario.job?.sheet?.lines ?? [];
  if (lines.length === 0) return null;
  const rig = rigOf(scenario);
  const has = (kind: string): boolean => lines.some((line) => line.kind === kind);
  const flows = has('head') || has('banks');
  const tap = lines.find((line) => line.kind === 'make_up');
  const t = scenario.temperature_C;
  const path = flows || has('drop') ? hosesOf(rig) : [];
  return {
    pipes: pipesOf(rig),
    hoses: path.map(({ id, bore_mm, length_m }) => ({
      id,
      bore: bore_mm / 1000,
      length: length_m,
    })),
    pump: rig.pump.id,
    curve: flows
      ? rig.pump.curve.map(({ flow_L_s, head_m }) => ({ flow: flow_L_s / 1000, head: head_m }))
      : [],
    tap: tap?.kind === 'make_up' ? makeUpFlow(rig, tap) : null,
    ...mixturesOf(scenario),
    stretch: has('drop') ? STEP * giveOfAll([...rig.loop, ...path], t, PROOF) : null,
    left: leftOf(rig, t),
  };
}

function pipesOf({ loop }: Rig): Plates['pipes'] {
  const bores = [...new Set(loop.map(({ bore_mm }) => bore_mm))];
  return bores.map((bore_mm) => {
    const lengths = loop.filter((link) => link.bore_mm === bore_mm).map((link) => link.length_m);
    return {
      bore: bore_mm / 1000,
      count: lengths.length,
      shortest: lengths.reduce((x, y) => min(x, y)),
      longest: lengths.reduce((x, y) => max(x, y)),
      total: lengths.reduce((x, y) => x + y, 0),
    };
  });
}

/** What the purge goes through outside the loop. */
function hosesOf({ scenario, loop, purge }: Rig): readonly ConduitSpec[] {
  const inLoop = new Set(loop.map(({ id }) => id));
  const onWay = new Set(flowing(purge).map(({ id }) => id));
  return scenario.links.filter(isConduit).filter(({ id }) => onWay.has(id) && !inLoop.has(id));
}

function leftOf(rig: Rig, t: number): Plates['left'] {
  const line = rig.sheet.lines.find(({ kind }) => kind === 'leave');
  if (line?.kind !== 'leave') return [];
  const parts = leftIn(rig, line);
  return HOURS.map((hours) => {
    const after = 3600 * hours;
    return { after, share: shareLeft(parts, t, after) };
  });
}

function mixturesOf(scenario: Scenario): Pick<Plates, 'fluid' | 'mixtures' | 'product'> {
  const { antifreeze: fluid, temperature_C: t, nodes, job } = scenario;
  const line = job?.sheet?.lines.find(({ kind }) => kind === 'antifreeze');
  if (line?.kind !== 'antifreeze' || fluid === 'none') {
    return { fluid: 'none', mixtures: [], product: null };
  }
  const drum = nodes.find(({ id }) => id === line.from);
  const product = drum?.kind === 'tank' ? drum.start_antifreeze_fraction : 0;
  const mixture = (freeze_C: number) => {
    const fraction = fractionForFreezePoint(fluid, freeze_C);
    return { freeze_C, fraction, density: mixDensity(fluid, t, fraction) };
  };
  const dense = product > 0 ? mixDensity(fluid, t, product) : density(t);
  const mixtures = FREEZE_C.map(mixture);
  return { fluid, mixtures, product: { fraction: product, density: dense } };
}
