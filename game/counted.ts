// What hands do so many times over: strokes of a hand pump, trips with a pail. How far they are,
// and what another press of a button asks for: it adds to what is under way.
import type { Command, HandsSeen, Snapshot } from '../sim/index.ts';

export interface Counted {
  /** Done of those asked for last, and how many those were. */
  readonly done: number;
  readonly wanted: number;
  /** Whole ones that are still to come; 0 when nothing is under way. */
  readonly left: number;
}

interface Seen { readonly id: string; readonly done: number; readonly wanted: number }

/** Less is the rounding of a tenth of a second. */
const HAIR = 1e-6;

/** One's own hands, and a helper's where there is one. */
export function pairsOf({ scene }: Snapshot): readonly HandsSeen[] {
  return scene.helper === null ? [scene.hands] : [scene.hands, scene.helper];
}

/** True while a pair of hands is at a control, and while it stands in line. */
export function inHands(now: Snapshot, id: string): { at: boolean; queued: boolean } {
  const pairs = pairsOf(now);
  return {
    at: pairs.some(({ busy }) => busy === id),
    queued: pairs.some(({ waiting }) => waiting.includes(id)),
  };
}

/** `asked`: how many were asked for while the clock stood. */
export function countedOf(now: Snapshot, { id, done, wanted }: Seen, asked?: number): Counted {
  const { at, queued } = inHands(now, id);
  if (!at && !queued && asked === undefined) return { done, wanted: done, left: 0 };
  // A count begins anew when hands take it up, not before.
  const so = at ? done : 0;
  const all = asked ?? wanted;
  return { done: so, wanted: all, left: Math.max(0, Math.ceil(all - so - HAIR)) };
}

/** How many to ask for so that `more` are added, never more than `most` at a time. */
export function added({ wanted, left }: Counted, more: number, most: number): number {
  return Math.min(most, left > 0 ? wanted + more : more);
}

/** How many to ask for so that hands stop after the one that is begun. */
export function stopped({ done }: Counted): number {
  return Math.max(1, Math.ceil(done - HAIR));
}

/** Buttons that are offered; the most that one command may ask for. */
export const STROKES = [1, 5, 20] as const;
export const STROKES_MOST = 500;
export const TRIPS = [1, 2, 5, 10] as const;

export function strokeCommand(pump: string, strokes: number): Command {
  return { kind: 'stroke', pump, strokes };
}
