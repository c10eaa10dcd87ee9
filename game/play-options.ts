// What an attempt is given to begin with, and what it asks of the drawing.
import type { Snapshot, Xray } from '../sim/index.ts';
import type { Level } from '../levels/index.ts';
import type { Lesson } from './lesson.ts';
import type { Speed, Wall } from './loop.ts';
import type { Kept, Store } from './records/store.ts';
import type { Mode } from './session.ts';

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

export interface PlayOptions {
  readonly level: Level;
  readonly mode: Mode;
  readonly seed: number;
  readonly store: Store;
  readonly wall: Wall;
  /** The device's date, for the file only. */
  readonly date: () => Date;
  /** Where the controls are learnt: heeds what is done, and nothing is marked. */
  readonly lesson?: Lesson;
}
