// Tasks: what is done in an order of its own, each step until what is seen says that it is over.
import { round } from '../base/math.ts';
import type { Command } from '../command.ts';
import type { Reading } from '../lens.ts';
import { astray, bring, NOTHING, type Goal } from './goals.ts';
import type { Know } from './know.ts';

/** What to do now, nothing while it waits; null when the step is over. */
export type Step = (know: Know) => readonly Command[] | null;

export interface Task {
  readonly id: string;
  readonly why: string;
  readonly steps: readonly Step[];
  /** Not before this holds. */
  readonly when?: (know: Know) => boolean;
}

export function goalOf({ id, why, steps, when }: Task): Goal {
  const key = `task_${id}`;
  const at = (know: Know): number => know.mind.get(key) ?? 0;
  return {
    id,
    why,
    wants: (know) => at(know) < steps.length && (when === undefined || when(know)),
    act: (know) => {
      while (at(know) < steps.length) {
        const commands = steps[at(know)]!(know);
        if (commands !== null) return commands;
        know.keep(key, at(know) + 1);
      }
      return NOTHING;
    },
  };
}

type Wanted = readonly (readonly [string, number])[];

/** Until all stand so. */
export function stand(wanted: Wanted | ((know: Know) => Wanted)): Step {
  return (know) => {
    const list = typeof wanted === 'function' ? wanted(know) : wanted;
    const commands = bring(know, list);
    return commands.length > 0 ? commands : null;
  };
}

/** Skipped where this does not hold. */
export const onlyIf = (holds: (know: Know) => boolean, step: Step): Step => {
  return (know) => (holds(know) ? step(know) : null);
};

/** One after the other, in this order. */
export function inOrder(wanted: Wanted | ((know: Know) => Wanted)): Step {
  return (know) => {
    const [next] = astray(know, typeof wanted === 'function' ? wanted(know) : wanted);
    return next === undefined ? null : bring(know, [next]);
  };
}

/** Until something has held for so long; with `most_s` no longer than that. */
export function await_(
  key: string,
  holds: (know: Know) => boolean,
  for_s: number,
  most_s = Infinity,
): Step {
  return (know) => {
    const waited = know.held(`${key}_at_all`, true);
    return know.held(key, holds(know)) >= for_s || waited >= most_s ? null : NOTHING;
  };
}

export const rest = (key: string, s: number): Step => await_(key, () => true, s);

/** Thousandths of the unit in which a sheet has it: kPa, L/min, mm, L, C. */
const MILLI: Readonly<Partial<Record<Reading['kind'], number>>> = {
  pressure: 1,
  difference: 1,
  flow: 6e7,
  meter: 1e6,
  level: 1e6,
  temperature: 1000,
  freeze: 1000,
};

/** Writes down what the line's instrument shows now. */
export function note(entry: string): Step {
  return (know) => {
    const key = `noted_${entry}`;
    if (know.has(key)) return null;
    const line = know.rig.briefing.sheet.find(({ id }) => id === entry);
    const reading = know.reading(line?.reading ?? null);
    if (reading === null || typeof reading.value !== 'number') return null;
    const shown = reading.value * (MILLI[reading.kind] ?? 1000);
    const value_milli = know.habits.reads ? round(shown) : know.habits.writes_milli;
    know.keep(key, value_milli);
    return [{ kind: 'note', entry, value_milli }];
  };
}

/** Strokes of a hand pump until a gauge shows so much, one at a time. */
export function pressTo(key: string, pump: string, gauge: string, aim: number): Step {
  return (know) => {
    const shown = know.number(gauge) ?? 0;
    const done = know.mind.get(`strokes_${key}`) ?? 0;
    if (shown >= aim || done >= MOST_STROKES) return null;
    know.keep(`strokes_${key}`, done + 1);
    return [{ kind: 'stroke', pump, strokes: 1 }];
  };
}

/** A pail is empty by then. */
const MOST_STROKES = 400;
