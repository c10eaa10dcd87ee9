// Where an attempt and the best marks are kept between visits: IndexedDB, one entry a job. Nothing
// leaves the device. Every fault of the storage is answered with a word, never with an exception.
import { openDB, type IDBPDatabase } from 'idb';
import { betterOf, readBest, type Best } from './best.ts';
import type { SavedSession } from '../session.ts';
import type { Mode } from '../session.ts';
import type { Speed } from '../loop.ts';

/** What is kept of an attempt; the bytes of the state stand in `saved.state`. */
export interface Kept {
  readonly format: 1;
  readonly mode: Mode;
  readonly saved: SavedSession;
  readonly speed: Speed;
  readonly began: string;
}

export type StoreTrouble = 'full' | 'blocked';

const DATABASE = 'loopyard';
const VERSION = 2;
const ATTEMPTS = 'attempts';
const MARKS = 'marks';
/** No job has this id. */
const LEARNT = 'controls learnt';

export class Store {
  trouble: StoreTrouble | null = null;
  private db: Promise<IDBPDatabase> | null = null;
  private last: Promise<void> = Promise.resolve();
  /** What is to be kept and has not been begun, by job: only the newest is worth writing. */
  private readonly next = new Map<string, Kept>();

  /** Null where there is nothing, or where the storage cannot be read. */
  async load(job: string): Promise<unknown> {
    try {
      return (await (await this.open()).get(ATTEMPTS, job)) ?? null;
    } catch {
      this.trouble = 'blocked';
      return null;
    }
  }

  /** One after the other, so that an older save never lands on a newer one. */
  keep(job: string, kept: Kept): Promise<void> {
    const queued = this.next.has(job);
    this.next.set(job, kept);
    if (queued) return this.last;
    return this.queue(async (db) => {
      const newest = this.next.get(job);
      this.next.delete(job);
      if (newest !== undefined) await db.put(ATTEMPTS, newest, job);
    });
  }

  /** The best marks so far; null where there are none that can be read. */
  async best(job: string): Promise<Best | null> {
    try {
      return readBest(await (await this.open()).get(MARKS, job));
    } catch {
      this.trouble = 'blocked';
      return null;
    }
  }

  /** Keeps these marks if they are better than those kept before. */
  keepBest(job: string, marks: Best): Promise<void> {
    return this.queue(async (db) => {
      await db.put(MARKS, betterOf(readBest(await db.get(MARKS, job)), marks), job);
    });
  }

  /** Whether the controls were gone through once. */
  async learnt(): Promise<boolean> {
    try {
      return (await (await this.open()).get(MARKS, LEARNT)) === true;
    } catch {
      return false;
    }
  }

  keepLearnt(): Promise<void> {
    return this.queue((db) => db.put(MARKS, true, LEARNT));
  }

  drop(job: string): Promise<void> {
    this.next.delete(job);
    return this.queue((db) => db.delete(ATTEMPTS, job));
  }

  private queue(work: (db: IDBPDatabase) => Promise<unknown>): Promise<void> {
    this.last = this.last.then(async () => {
      try {
        await work(await this.open());
        this.trouble = null;
      } catch (error) {
        const full = error instanceof DOMException && error.name === 'QuotaExceededError';
        this.trouble = full ? 'full' : 'blocked';
      }
    });
    return this.last;
  }

  private open(): Promise<IDBPDatabase> {
    this.db ??= openDB(DATABASE, VERSION, {
      upgrade(db) {
        for (const name of [ATTEMPTS, MARKS]) {
          if (!db.objectStoreNames.contains(name)) db.createObjectStore(name);
        }
      },
      // A later version of the page in another tab must not wait for this one.
      blocking: () => {
        void this.db?.then((db) => db.close());
        this.db = null;
      },
    });
    // A refusal is not kept: the next save tries again.
    this.db.catch(() => { this.db = null; });
    return this.db;
  }
}
