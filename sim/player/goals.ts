// What a player is after: goals with a condition on what is seen. Each second the first goal that
// wants something acts; nothing is counted off by a clock or a list of steps.
import type { Command } from '../command.ts';
import type { Know } from './know.ts';

export interface Goal {
  readonly id: string;
  /** Key of the reason among the words of players. */
  readonly why: string;
  /** Whether there is something to do for it, by what is seen and kept in mind. */
  readonly wants: (know: Know) => boolean;
  /** What to do now; nothing where it waits. Asked with free hands only, but of reflexes. */
  readonly act: (know: Know) => readonly Command[];
  /** Done with hands full as well. */
  readonly reflex?: boolean;
}

export const NOTHING: readonly Command[] = [];

/** Controls that do not stand where they should, in the order given. */
export function astray(
  know: Know,
  wanted: Iterable<readonly [string, number]>,
): [string, number][] {
  return [...wanted].flatMap(([control, position]): [string, number][] => {
    const at = know.at(control);
    return at === null || at === position ? [] : [[control, position]];
  });
}

/** As many as hands keep in mind. */
const AT_ONCE = 8;

/** Opens first, and shuts only what has another way left. */
export function bring(know: Know, wanted: Iterable<readonly [string, number]>): readonly Command[] {
  const off = astray(know, wanted);
  const opens = off.filter(([, position]) => position !== 0);
  const next = (opens.length > 0 ? opens : off).slice(0, AT_ONCE);
  const way = wayIn(know, next);
  if (way.length > 0) return way.map(([control, position]) => know.to(control, position));
  return next.map(([control, position]) => know.to(control, position));
}

/** Down into where some of them are, after what has to be done before; empty where none is. */
function wayIn(know: Know, wanted: readonly (readonly [string, number])[]): [string, number][] {
  const place = know.rig.briefing.devices.find(({ inside }) =>
    inside.some((control) => wanted.some(([one]) => one === control)),
  );
  if (place === undefined) return [];
  const first = astray(
    know,
    place.needs.map((device) => [device, 1] as const),
  );
  return first.length > 0 ? first : astray(know, [[place.id, 1]]);
}
