// A page without a screen: the attempt as the panels drive it, on a wall moved by hand.
import type { Draft } from '../../game/attempts/draft.ts';
import type { Assigned, Entry } from '../../game/attempts/entry.ts';
import { Keeper } from '../../game/attempts/keeper.ts';
import { Library } from '../../game/attempts/library.ts';
import { LEVELS, type Level } from '../../levels/index.ts';
import type { Lesson } from '../../game/lesson.ts';
import type { Wall } from '../../game/loop.ts';
import { Play } from '../../game/play.ts';
import { Store } from '../../game/records/store.ts';
import type { Mode } from '../../game/session.ts';

export const HERON = LEVELS[0]!;

const benches = new Set<Bench>();

/** Waits until everything that was to be kept has been written, and lets go of what was open. */
export async function settled(): Promise<void> {
  for (const { library, store, keeper } of benches) {
    await library.settled();
    await store.keepBest('no such job', NO_MARKS);
    keeper.leave();
    await library.settled();
  }
  benches.clear();
}

const NO_MARKS = {
  format: 1, points: 0, passed: false, time_s: 0, engine: '?', scenario_hash: '?',
} as const;

export interface Bench {
  readonly play: Play;
  readonly library: Library;
  readonly store: Store;
  readonly keeper: Keeper;
  /** Lets wall time pass, with frames of 20 ms. */
  readonly pass: (seconds: number) => void;
}

/** What a page can be given beside the first job in learning mode. */
export interface BenchOptions {
  readonly library?: Library;
  readonly level?: Level;
  readonly mode?: Mode;
  readonly assigned?: Assigned;
  /** One to go on with. */
  readonly entry?: Entry;
  readonly lesson?: Lesson;
  readonly seed?: number;
  /** What was being typed when the page was last closed. */
  readonly draft?: Draft | null;
}

export function playerAt(options: BenchOptions = {}): Bench {
  const { library = new Library({ locks: null }), level = HERON, mode = 'learn' } = options;
  const { assigned = null, lesson, seed = 3, draft = null } = options;
  const store = new Store();
  const keeper = new Keeper({ library, store, assigned });
  if (options.entry !== undefined) keeper.adopt(options.entry);
  let now = 0;
  let waiting: (() => void) | null = null;
  const wall: Wall = {
    now: () => now,
    request: (frame) => { waiting = frame; return 1; },
    cancel: () => { waiting = null; },
  };
  const date = () => new Date(Date.UTC(2026, 0, 2, 3, 4, 5) + now);
  const play = new Play({
    ...{ level, mode, seed, keeper, wall, date, draft },
    ...(lesson === undefined ? {} : { lesson, learnt: () => void store.keepLearnt() }),
  });
  const pass = (seconds: number) => {
    for (let k = 0; k < seconds / 0.02; k++) {
      now += 20;
      const frame = waiting;
      waiting = null;
      frame?.();
    }
  };
  const bench = { play, library, store, keeper, pass };
  benches.add(bench);
  return bench;
}

/** Enters the yard as if the drawing stood at once. */
export function entered(options: BenchOptions = {}): Bench {
  const bench = playerAt(options);
  bench.play.enter();
  bench.play.ready();
  return bench;
}
