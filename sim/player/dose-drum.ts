// A drum of antifreeze: how it gets into the cart's tank, how much has come out of it, and rounds
// of a dose through loop or machine.
import { min, round } from '../base/math.ts';
import type { Command } from '../command.ts';
import { bring, NOTHING } from './goals.ts';
import { pathsOf, positionsOf } from './graph.ts';
import type { Habits } from './habits.ts';
import type { Know } from './know.ts';
import { each } from './part.ts';
import type { Rig } from './map.ts';
import { contents, WET, type Pass, type Passes } from './passes.ts';
import { wayFor } from './rounds.ts';
import { stand, type Step } from './tasks.ts';

/** What the antifreeze comes in, and how it gets into the cart's tank. */
export interface Drum {
  readonly id: string;
  /** m2. */
  readonly area: number;
  /** m3 of it in a m3 of the mixture that is asked for. */
  readonly share: number;
  readonly level: string;
  readonly valves: readonly string[];
  /** A pump, or one that a hand works with so many m3 a stroke. */
  readonly pump: string;
  readonly stroke: number;
}

export function drumOf(rig: Rig, { takes_for_neat }: Habits): Drum | null {
  const { briefing, graph, tank } = rig;
  for (const { tank: id, ...product } of briefing.products) {
    const share = takes_for_neat ? product.neat_share : product.share;
    const node = briefing.nodes.find((one) => one.id === id)!;
    const level = briefing.instruments.find((i) => i.kind === 'level' && i.at.includes(id));
    const [way] = pathsOf(graph, { from: id, to: (to) => to === tank.id, not: () => false });
    const pump = way?.pieces.find(({ link }) => link.kind === 'pump' || link.kind === 'hand_pump');
    if (way === undefined || pump === undefined || level === undefined) continue;
    const valves = [...positionsOf(way.pieces).keys()];
    const { id: by, stroke } = pump.link;
    return { id, area: node.area, share, level: level.id, valves, pump: by, stroke };
  }
  return null;
}

/** Share of the tank's height up to which something is put in. */
export const FULL_TO = 0.85;

/** m3 that have come out of the drum so far. */
export function taken(know: Know, drum: Drum): number {
  const full = know.mind.get('drum_full');
  const shown = know.number(drum.level) ?? 0;
  if (full === undefined) know.keep('drum_full', shown);
  return ((full ?? shown) - shown) * drum.area;
}

/** s for which nothing has come out of a drum whose pump runs. */
const DRY_FOR = 20;

function isDry(know: Know, { pump, level }: Drum): boolean {
  const shown = know.number(level) ?? 0;
  const same = know.at(pump) === 1 && know.mind.get('drum_shown') === shown;
  know.keep('drum_shown', shown);
  if (know.held('drum_dry', same) >= DRY_FOR) know.keep('drum_empty');
  return know.has('drum_empty');
}

/** Strokes that hands can be told of at once. */
const STROKES_MOST = 500;

/** Puts in so many m3, by hand or by its pump; never above the brim. */
export function put(drum: Drum, key: string, wanted: (know: Know) => number): Step {
  const goal = (know: Know): number => {
    const old = know.mind.get(key);
    if (old !== undefined) return old;
    const now = taken(know, drum);
    know.keep(key, now + wanted(know));
    return know.mind.get(key)!;
  };
  return (know) => {
    const to = goal(know);
    if (drum.stroke > 0) {
      if (know.has(`${key}_stroked`)) return null;
      know.keep(`${key}_stroked`);
      const strokes = min(STROKES_MOST, round((to - taken(know, drum)) / drum.stroke));
      return strokes < 1 ? null : [{ kind: 'stroke', pump: drum.pump, strokes }];
    }
    const brim = know.level > FULL_TO * know.rig.tank.height;
    if (taken(know, drum) < to && !brim && !isDry(know, drum)) return ranDrum(know, drum, true);
    return know.at(drum.pump) === 0 ? null : ranDrum(know, drum, false);
  };
}

export function ranDrum(know: Know, { valves, pump }: Drum, on: boolean): readonly Command[] {
  if (!on) return know.at(pump) === 1 ? [know.to(pump, 0)] : NOTHING;
  const shut = bring(know, each(valves, 90));
  return shut.length > 0 ? shut : know.at(pump) === 0 ? [know.to(pump, 1)] : NOTHING;
}

export const still: Step = (know) =>
  know.pumpOn ? [know.to(know.rig.pump, 0)] : know.pumpStill ? null : NOTHING;

export const shutDrum = ({ valves }: Drum): Step => stand(each(valves, 0));

interface Round {
  readonly id: string;
  readonly end: 'tank' | 'waste';
  readonly unit?: boolean;
  readonly turnovers?: number;
  readonly until?: (know: Know) => boolean;
  readonly good?: Pass['good'];
  readonly when?: (know: Know) => boolean;
  readonly slow?: number;
}

/** One way round, through the loop or the machine, kept as it was chosen first. */
export function goRound(of: Round): Passes {
  const { id, end, unit = false, turnovers = 0, until, good = WET, when, slow } = of;
  let made: readonly Pass[] | null = null;
  const make = (know: Know): readonly Pass[] => {
    const { rig } = know;
    const field = unit ? rig.unit : rig.field;
    const way = field === null ? null : wayFor(know, field, end, unit ? 'forth' : undefined);
    if (field === null || way === null) return [];
    const enough = turnovers * contents(field, way, field.circuits);
    const open = unit ? null : rig.field.circuits;
    const base = { id, way, open, enough, for_s: 0, good, least: 0, by: 'pump' as const };
    const more = until === undefined ? {} : { until };
    return [{ ...base, ...more, ...(slow === undefined ? {} : { opens_deg: slow }) }];
  };
  return (know) => (when !== undefined && !when(know) ? [] : (made ??= make(know)));
}
