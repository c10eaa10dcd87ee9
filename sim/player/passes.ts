// Passes: one way round with some circuits open, until enough has come back as it should. Which
// ones a loop needs goes by the drawing.
import type { Sight } from '../lens.ts';
import { cutOff, type Chain, type Field } from './field.ts';
import type { Habits } from './habits.ts';
import type { Know } from './know.ts';
import type { Rig, Way } from './map.ts';

/** A way round, the circuits that are open meanwhile, and what is enough. */
export interface Pass {
  readonly id: string;
  readonly way: Way;
  /** Null where they may stay as they are. */
  readonly open: readonly Chain[] | null;
  /** m3 that have to come back, and s for which they have to, as they should. */
  readonly enough: number;
  readonly for_s: number;
  /** What counts as good enough to come back; and m3/s at least. */
  readonly good: readonly Sight[];
  readonly least: number;
  /** m3 after which it is over though it never came so, whatever else was done meanwhile. */
  readonly most?: number;
  /** Instead of all that: over once this holds. */
  readonly until?: (know: Know) => boolean;
  /** Lines of the sheet that are written down when it is over. */
  readonly writes?: readonly string[];
  /** Degrees to which the first valve behind the pump is opened, where not all the way. */
  readonly opens_deg?: number;
  /** By the pump; or by the tap through its casing. */
  readonly by: 'pump' | 'tap';
}

export type Passes = (know: Know) => readonly Pass[];

/** What comes back: nothing but water; with fine bubbles too, or all bubbles; or with slugs. */
export const CLEAR: readonly Sight[] = ['clear'];
export const HAZY: readonly Sight[] = ['haze', 'clear'];
export const FULL: readonly Sight[] = ['bubbles', 'haze', 'clear'];
export const WET: readonly Sight[] = ['slugs', 'bubbles', 'haze', 'clear'];

/** One circuit after the other where they have valves, then all; the other way round; and back. */
export function passesOf({ ways, field }: Rig, habits: Habits): Pass[] {
  const alone = field.circuits.filter(({ valves }) => valves.length > 0);
  const single = habits.oneByOne && alone.length > 1 ? alone.map((c) => [c]) : [];
  const [forth, back] = ways;
  if (forth === undefined) return [];
  const round = [...single, field.circuits].map((open) => ({ way: forth, open }));
  const turned = back === undefined || !habits.reverses ? [] : [back, forth];
  const all = [...round, ...turned.map((way) => ({ way, open: field.circuits }))];
  const [between, last] = habits.turnovers;
  return all.map(({ way, open }, at) => {
    const enough = (at === all.length - 1 ? last : between) * contents(field, way, open);
    return { id: `pass_${at}`, way, open, enough, for_s: 0, good: CLEAR, least: 0, by: 'pump' };
  });
}

export function passNow(know: Know, passes: Passes): Pass | null {
  return passes(know).find(({ id }) => !know.has(id)) ?? null;
}

/** Valves in the field by what they shut off: the fewest that leave just these circuits open. */
export function fieldValves(field: Field, open: readonly Chain[]): [string, number][] {
  const valves = field.pieces.filter(({ deg }) => deg !== null).map(({ link }) => link.id);
  const off = new Map(valves.map((valve) => [valve, [...cutOff(field, valve)]]));
  const mayShut = valves.filter((valve) => off.get(valve)!.every((c) => !open.includes(c)));
  const needless = (valve: string): boolean =>
    mayShut.some((other) => {
      const [mine, more] = [off.get(valve)!, off.get(other)!];
      return more.length > mine.length && mine.every((circuit) => more.includes(circuit));
    });
  const shut = mayShut.filter((valve) => off.get(valve)!.length > 0 && !needless(valve));
  return valves.map((valve) => [valve, shut.includes(valve) ? 0 : 90]);
}

/** m3 on a way with these circuits open. */
export function contents(field: Field, way: Way, open: readonly Chain[]): number {
  const shut = field.circuits.filter((c) => !open.includes(c));
  return way.volume + field.volume - shut.reduce((sum, { volume }) => sum + volume, 0);
}

/** True where a pass takes longer than there is patience, whatever else was done meanwhile. */
export function isTired(know: Know, { id }: Pass): boolean {
  const since = know.mind.get(`since_${id}`) ?? know.now;
  know.keep(`since_${id}`, since);
  return know.now - since > know.habits.patience_s;
}

/** m3 that have come back since a pass began, whatever else was done meanwhile. */
export function gone(know: Know, { id }: Pass, flow: number): number {
  const [sum, seen] = [`gone_${id}`, `seen_${id}`];
  const since = know.now - (know.mind.get(seen) ?? know.now);
  know.keep(seen, know.now);
  know.keep(sum, (know.mind.get(sum) ?? 0) + flow * since);
  return know.mind.get(sum)!;
}

/** The last pass of a kind that was gone through is gone through once more, as if never begun. */
export function onceMore(know: Know, kind: string): void {
  const last = [...know.mind.keys()].filter((key) => key.startsWith(`${kind}_`)).at(-1);
  if (last === undefined) return;
  for (const key of [last, `since_${last}`, `gone_${last}`, `seen_${last}`]) know.mind.delete(key);
}
