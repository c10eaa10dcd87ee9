// The clock of the work alone: nights, in which nobody is there, are cut out and leave a mark. A
// day of six hours with two nights would else be a tenth of its drawing, and the rest a flat line.
import type { Fact } from '../../sim/index.ts';

/** From a tick to another one, in which nobody is there. */
interface Night {
  readonly from: number;
  readonly to: number;
}

export interface Axis {
  readonly nights: readonly Night[];
  /** Seconds of work at the end. */
  readonly end_s: number;
  /** Seconds of work that are over at a tick. */
  readonly at: (tick: number) => number;
  /** The time on the job's clock, s, after so many seconds of work; after the night at its cut. */
  readonly clock: (work_s: number) => number;
}

/** Every absence that was told; one that the end of the run cut short ends there. */
function nightsOf(facts: readonly Fact[], end: number): readonly Night[] {
  const nights: Night[] = [];
  let from: number | null = null;
  for (const { kind, tick } of facts) {
    if (kind === 'left') from ??= tick;
    if (kind !== 'back' || from === null) continue;
    nights.push({ from, to: tick });
    from = null;
  }
  return from === null ? nights : [...nights, { from, to: end }];
}

export function axisOf(facts: readonly Fact[], end: number, tick_s: number): Axis {
  const nights = nightsOf(facts, end);
  const before = (tick: number): number =>
    nights.reduce((sum, { from, to }) => sum + Math.max(0, Math.min(tick, to) - from), 0);
  const at = (tick: number): number => (tick - before(tick)) * tick_s;
  const clock = (work_s: number): number => {
    let tick = work_s / tick_s;
    for (const { from, to } of nights) if (tick >= from) tick += to - from;
    return tick * tick_s;
  };
  return { nights, end_s: at(end), at, clock };
}
