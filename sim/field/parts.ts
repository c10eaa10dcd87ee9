// Small makers of nodes and links, and the list that they are written into. Numbers are rounded
// to a tenth of a millimetre, so that a scenario reads as if typed and every run of the builder
// gives the same text.
import { round } from '../base/math.ts';
import { idNominal, outsideDiameter, wallMin, type PipeSize } from '../laws/pipe.ts';
import type { ScenarioSchema } from '../scenario.ts';
import type { Contents } from './site.ts';

/** A scenario as it is written, with defaults left out. */
export type ScenarioText = (typeof ScenarioSchema)['_zod']['input'];
export type NodeText = ScenarioText['nodes'][number];
export type LinkText = ScenarioText['links'][number];
export type InstrumentText = NonNullable<ScenarioText['instruments']>[number];
export type DeviceText = NonNullable<ScenarioText['devices']>[number];
export type DebrisText = NonNullable<ScenarioText['debris']>;

/** What the builder has written so far. */
export interface Draft {
  readonly nodes: NodeText[];
  readonly links: LinkText[];
  readonly instruments: InstrumentText[];
  readonly devices: DeviceText[];
  /** Screens and bags, and what wears one at the start. */
  readonly elements: NonNullable<DebrisText['elements']>;
  readonly catchers: NonNullable<DebrisText['catchers']>;
  /** Pipes that must be free of air at hand-over. */
  readonly loop: string[];
}

export function emptyDraft(): Draft {
  const kit = { devices: [], elements: [], catchers: [] };
  return { nodes: [], links: [], instruments: [], ...kit, loop: [] };
}

/** The link with this id, which the builder has written before. */
export function linkOf(draft: Draft, id: string): LinkText {
  const link = draft.links.find((one) => one.id === id);
  if (link === undefined) throw new Error(`the builder has no link ${id}`);
  return link;
}

/** m above the ground of a fitting that the builder has written before. */
export function heightOf(draft: Draft, id: string): number {
  const node = draft.nodes.find((one) => one.id === id);
  if (node?.kind !== 'junction') throw new Error(`the builder has no fitting ${id}`);
  return node.elevation_m;
}

/** Rounds metres to a tenth of a millimetre. */
function tidy(x: number): number {
  return round(x * 10000) / 10000;
}

/** Bore and wall in mm of polyethylene pipe, to a hundredth [ASTMD3035]. */
export function pipeSection(size: PipeSize, dr: number): { bore_mm: number; wall_mm: number } {
  const od = outsideDiameter(size);
  const mm = (x: number): number => round(x * 100000) / 100;
  return { bore_mm: mm(idNominal(od, dr)), wall_mm: mm(wallMin(od, dr)) };
}

export interface Fitting {
  readonly id: string;
  readonly elevation_m: number;
  readonly gas: 'air' | 'water';
  readonly rating_kPa?: number;
  readonly volume_L?: number;
  readonly start_pressure_kPa?: number;
}

/** A fitting with room for half a litre, or as much as it says. */
export function addFitting(draft: Draft, fitting: Fitting): void {
  const { id, elevation_m, gas, rating_kPa, volume_L = 0.5, start_pressure_kPa } = fitting;
  draft.nodes.push({
    id,
    kind: 'junction',
    elevation_m: tidy(elevation_m),
    volume_L,
    ...(gas === 'air' ? { start_gas_fraction: 1 } : {}),
    ...(start_pressure_kPa === undefined ? {} : { start_pressure_kPa }),
    ...(rating_kPa === undefined ? {} : { rating_kPa }),
  });
}

export interface HandValve {
  readonly id: string;
  readonly from: string;
  readonly to: string;
  readonly bore_mm: number;
  readonly start_deg?: number;
  readonly rate_deg_s?: number;
  readonly loss_k_open?: number;
}

/** A quarter-turn valve, shut unless told otherwise. */
export function addValve(draft: Draft, valve: HandValve): void {
  draft.links.push({ start_deg: 0, rate_deg_s: 45, ...valve, kind: 'valve' });
}

/** The stretches of a pipe that hold air, as a scenario writes them; none where it is full. */
export function gasIn(contents: Contents, length_m: number) {
  if (contents === 'water') return {};
  if (contents === 'air') return { gas: [{ from_m: 0, to_m: length_m }] };
  if (!('air_at_ends_m' in contents)) {
    return contents.length === 0 ? {} : { gas: contents.map((stretch) => ({ ...stretch })) };
  }
  const { air_at_ends_m: end } = contents;
  if (end <= 0) return {};
  if (2 * end >= length_m) return { gas: [{ from_m: 0, to_m: length_m }] };
  return {
    gas: [
      { from_m: 0, to_m: end },
      { from_m: tidy(length_m - end), to_m: length_m },
    ],
  };
}

export interface LoopPipe {
  readonly id: string;
  readonly from: string;
  readonly to: string;
  readonly size: PipeSize;
  readonly dr: number;
  readonly length_m: number;
  readonly loss_k: number;
  readonly contents: Contents;
  readonly profile?: readonly { at_m: number; elevation_m: number }[];
  readonly start_pressure_kPa?: number;
}

/** A buried polyethylene pipe, one of those that must come free of air. */
export function addLoopPipe(draft: Draft, pipe: LoopPipe): void {
  const { id, from, to, loss_k, contents, start_pressure_kPa } = pipe;
  const length_m = tidy(pipe.length_m);
  const profile = (pipe.profile ?? []).map((p) => ({
    at_m: tidy(p.at_m),
    elevation_m: tidy(p.elevation_m),
  }));
  draft.links.push({
    id,
    kind: 'pipe',
    from,
    to,
    ...pipeSection(pipe.size, pipe.dr),
    length_m,
    loss_k,
    ...(profile.length > 0 ? { profile } : {}),
    ...gasIn(contents, length_m),
    ...(start_pressure_kPa === undefined ? {} : { start_pressure_kPa }),
  });
  draft.loop.push(id);
}
