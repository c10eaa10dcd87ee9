// A page without a screen: the attempt as the panels drive it, on a wall moved by hand.
import { LEVELS, type Level } from '../../levels/index.ts';
import type { Lesson } from '../../game/lesson.ts';
import type { Wall } from '../../game/loop.ts';
import { Play } from '../../game/play.ts';
import { Store } from '../../game/records/store.ts';
import type { Mode } from '../../game/session.ts';

export const HERON = LEVELS[0]!;

const stores = new Set<Store>();

/** Waits until everything that was to be kept has been written. */
export async function settled(): Promise<void> {
  for (const store of stores) await store.drop('no such job');
}

export interface Bench {
  readonly play: Play;
  readonly store: Store;
  /** Lets wall time pass, with frames of 20 ms. */
  readonly pass: (seconds: number) => void;
}

/** What a page can be given beside the first job in learning mode. */
export interface Given { readonly level?: Level; readonly mode?: Mode; readonly lesson?: Lesson }

export function playerAt(store: Store = new Store(), given: Given | Mode = {}): Bench {
  const { level = HERON, mode = 'learn', lesson } = typeof given === 'string'
    ? ({ mode: given } as Given)
    : given;
  stores.add(store);
  let now = 0;
  let waiting: (() => void) | null = null;
  const wall: Wall = {
    now: () => now,
    request: (frame) => { waiting = frame; return 1; },
    cancel: () => { waiting = null; },
  };
  const date = () => new Date(Date.UTC(2026, 0, 2, 3, 4, 5));
  const play = new Play({
    ...{ level, mode, seed: 3, store, wall, date },
    ...(lesson === undefined ? {} : { lesson }),
  });
  const pass = (seconds: number) => {
    for (let k = 0; k < seconds / 0.02; k++) {
      now += 20;
      const frame = waiting;
      waiting = null;
      frame?.();
    }
  };
  return { play, store, pass };
}

/** Enters the yard as if the drawing stood at once. */
export function entered(store?: Store, given?: Given): Bench {
  const bench = playerAt(store, given);
  bench.play.enter();
  bench.play.ready();
  return bench;
}
