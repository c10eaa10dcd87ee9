// The one database of the pages: attempts and where they stand, assignments taken up, best marks,
// and what is being typed before an attempt.
// Makes what a version lacks and carries over what older ones kept; leaves what is written to
// library.ts and to the store of marks.
import { openDB, type IDBPDatabase, type IDBPTransaction } from 'idb';
import { entryOfOld } from './entry.ts';

export const NAME = 'loopyard';
export const VERSION = 4;
/** An entry for each attempt; under [id, 0] and [id, 1] the two places it is saved to in turn. */
export const RUNS = 'runs';
export const SLOTS = 'slots';
/** Assignments taken up here, with the label that was typed, by the ticket's id. */
export const TICKETS = 'tickets';
export const MARKS = 'marks';
/** What is typed on a job sheet and not yet written down, by `draftKey`. */
export const DRAFTS = 'drafts';
const ALL = [RUNS, SLOTS, TICKETS, MARKS, DRAFTS] as const;
/** Until version 2: one attempt for each job, under the job's id. */
const OLD = 'attempts';

export type Trouble = 'full' | 'blocked';

export function troubleOf(error: unknown): Trouble {
  const full = error instanceof DOMException && error.name === 'QuotaExceededError';
  return full ? 'full' : 'blocked';
}

type Stores = IDBPTransaction<unknown, string[], 'readwrite'>;

/** One transaction, whole or not at all: what throws inside it undoes what it wrote. */
export async function within<T>(
  db: IDBPDatabase,
  names: readonly string[],
  work: (stores: Stores) => Promise<T>,
): Promise<T> {
  const stores = db.transaction([...names], 'readwrite');
  stores.done.catch(() => {}); // Awaited below as well, unless the work itself fails before.
  try {
    const result = await work(stores);
    await stores.done;
    return result;
  } catch (error) {
    try {
      stores.abort();
    } catch { /* It has ended by itself. */ }
    throw error;
  }
}

type Upgrade = IDBPTransaction<unknown, string[], 'versionchange'>;

async function carryOver(db: IDBPDatabase, upgrade: Upgrade): Promise<void> {
  const old = upgrade.objectStore(OLD);
  for (const key of await old.getAllKeys()) {
    const kept: unknown = await old.get(key);
    const entry = entryOfOld(String(key), kept);
    await upgrade.objectStore(RUNS).put(entry, entry.id);
    await upgrade.objectStore(SLOTS).put(kept, [entry.id, entry.slot]);
  }
  db.deleteObjectStore(OLD);
}

/** One connection, opened when it is first needed and again after a refusal. */
export class Database {
  private db: Promise<IDBPDatabase> | null = null;

  open(): Promise<IDBPDatabase> {
    this.db ??= openDB(NAME, VERSION, {
      async upgrade(db, _from, _to, upgrade) {
        for (const name of ALL) {
          if (!db.objectStoreNames.contains(name)) db.createObjectStore(name);
        }
        if (db.objectStoreNames.contains(OLD)) await carryOver(db, upgrade as Upgrade);
      },
      // A later version of the page in another tab must not wait for this one.
      blocking: () => { this.close(); },
      // The browser took the storage away: the next use asks for it again.
      terminated: () => { this.db = null; },
    });
    this.db.catch(() => { this.db = null; });
    return this.db;
  }

  close(): void {
    void this.db?.then((db) => db.close(), () => {});
    this.db = null;
  }
}
