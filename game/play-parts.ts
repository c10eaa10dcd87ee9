// The parts an attempt is made of and seen through: its views, the drawing, and what was found of
// an earlier visit. Types alone, so that panels and drawing need not read how it is driven.
import type { Level } from '../levels/index.ts';
import type { Snapshot, Xray } from '../sim/index.ts';
import type { Draft } from './attempts/draft.ts';
import type { Kept } from './attempts/entry.ts';
import type { Keeper } from './attempts/keeper.ts';
import type { Lesson } from './lesson.ts';
import type { Speed, Wall } from './loop.ts';
import type { Mode, Session } from './session.ts';

export type View = 'front' | 'yard' | 'debrief';

/** The drawing, as far as an attempt needs it. */
export interface Yard {
  draw: (now: Snapshot, xray: Xray | null, wall_s: number, speed: number) => void;
  setHot: (id: string | null) => void;
  resize: () => void;
  destroy: () => void;
}

/** What was found of an earlier visit, to be said once. */
export type Greeting =
  | { readonly kind: 'resumed'; readonly time_s: number; readonly speed: Speed }
  | { readonly kind: 'old'; readonly kept: Kept }
  | { readonly kind: 'damaged' };

/** A moment that is looked at again: its yard, and what on the page it was asked for by. */
export interface Back<Play> {
  readonly play: Play;
  readonly title: string;
  readonly tick: number;
  readonly asker: string;
}

export interface PlayOptions {
  readonly level: Level;
  readonly mode: Mode;
  readonly seed: number;
  readonly keeper: Keeper;
  readonly wall: Wall;
  /** The device's date, for the file only. */
  readonly date: () => Date;
  /** What was being typed on a job sheet when the page was last closed. */
  readonly draft?: Draft | null;
  /** Where the controls are learnt: heeds what is done, and nothing is marked or kept. */
  readonly lesson?: Lesson;
  /** A session that is only looked at, in the place of a new one. */
  readonly again?: Session;
  /** Told when all of a lesson was done. */
  readonly learnt?: () => void;
}
