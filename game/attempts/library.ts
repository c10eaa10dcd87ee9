// Every attempt made on this device, in IndexedDB; nothing leaves it. A save goes to the place that
// does not hold the newest one and turns the pointer in the same transaction, so that a tab that is
// killed at any moment leaves the last whole save. Only the tab that owns an attempt can write it.
// Every fault of the storage is answered with a word, never with an exception.
import type { IDBPDatabase } from 'idb';
import { drawId } from '../assign/ticket.ts';
import { browserLocks, Holder, type Locks } from './claim.ts';
import {
  Database, DRAFTS, RUNS, SLOTS, TICKETS, troubleOf, within, type Trouble,
} from './database.ts';
import { isDraft, Jotted, type Draft } from './draft.ts';
import { entryOf, isEntry, type About, type Entry, type Kept } from './entry.ts';
import { browserStorage, type SmallStorage } from './small.ts';
import { Tails } from './tail.ts';

/** A lease that was not renewed for so long is void: its tab is gone, ms. */
export const LEASE_MS = 5000;

/** What came of a save: it stands, another tab owns the attempt, or the storage failed. */
export type Saved = 'kept' | 'taken' | Trouble;

/** Undoes a save that turned out to be by a tab that is no longer the owner. */
class TakenOver extends Error {}

/** Awaited later, or undone before that, which is then nobody's fault. */
function quiet<T>(asked: Promise<T>): Promise<T> {
  asked.catch(() => {});
  return asked;
}

export interface LibraryOptions {
  readonly locks?: Locks | null;
  readonly small?: SmallStorage | null;
  /** ms of the device's clock. */
  readonly now?: () => number;
}

export class Library {
  /** Of the last thing that was asked of the storage; null when it went well. */
  trouble: Trouble | null = null;
  /** Told when another tab took over an attempt that this one worked on. */
  onLost: (id: string) => void = () => {};
  readonly tails: Tails;
  private readonly jotted: Jotted;
  readonly owner = drawId();
  private readonly database = new Database();
  private readonly holder: Holder;
  private readonly now: () => number;
  private last: Promise<unknown> = Promise.resolve();
  /** What is to be kept and has not been begun, by id: only the newest is worth writing. */
  private readonly next = new Map<string, { kept: Kept; about: About }>();
  /** Which place this tab saved to last, by id. */
  private readonly slots = new Map<string, 0 | 1>();

  constructor(options: LibraryOptions = {}) {
    const { locks = browserLocks(), small = browserStorage(), now = () => Date.now() } = options;
    this.tails = new Tails(small);
    this.jotted = new Jotted(small);
    this.holder = new Holder(locks, (id) => this.onLost(id));
    this.now = now;
  }

  /** Newest first. Empty where there is nothing, or where the storage cannot be read. */
  async list(): Promise<readonly Entry[]> {
    const all = await this.ask((db) => db.getAll(RUNS) as Promise<unknown[]>, []);
    const entries = all.filter(isEntry);
    return entries.sort((a, b) => (a.changed < b.changed ? 1 : a.changed > b.changed ? -1 : 0));
  }

  async entry(id: string): Promise<Entry | null> {
    const found = await this.ask((db) => db.get(RUNS, id) as Promise<unknown>, null);
    return isEntry(found) ? found : null;
  }

  /** The two saves of an attempt, the newest first; what is in them nobody has checked. */
  async saves(id: string): Promise<readonly unknown[]> {
    return this.ask(async (db) => {
      const reading = db.transaction([RUNS, SLOTS]);
      const entry: unknown = await reading.objectStore(RUNS).get(id);
      const first = isEntry(entry) ? entry.slot : 0;
      const slots = reading.objectStore(SLOTS);
      const both = [await slots.get([id, first]), await slots.get([id, 1 - first])] as unknown[];
      return both.filter((one) => one !== undefined);
    }, []);
  }

  /**
   * Makes this tab the owner, which ends what another tab could write. Without `steal` it does not
   * where another tab is alive.
   */
  async claim(id: string, steal = false): Promise<'mine' | 'elsewhere'> {
    const lock = await this.holder.take(id, steal);
    if (lock === false) return 'elsewhere';
    return this.ask((db) => within(db, [RUNS], async (stores) => {
      const runs = stores.objectStore(RUNS);
      const entry: unknown = await runs.get(id);
      if (!isEntry(entry)) return 'mine';
      const alive = entry.owner !== null && entry.owner !== this.owner
        && entry.lease_until > this.now();
      if (lock === null && alive && !steal) return 'elsewhere';
      await runs.put(this.leased(entry), id);
      return 'mine';
    }), 'mine');
  }

  /** Says that this tab still lives; 'taken' where another one has become the owner. */
  renew(id: string): Promise<Saved> {
    return this.change(id, (entry) => (entry.owner === this.owner ? this.leased(entry) : 'taken'));
  }

  /** The tab leaves, or goes to another attempt. */
  release(id: string): Promise<Saved> {
    this.holder.release(id);
    return this.change(id, (entry) =>
      entry.owner === this.owner ? { ...entry, owner: null, lease_until: 0 } : 'kept');
  }

  /** One after the other, so that an older save never lands on a newer one. */
  keep(kept: Kept, about: About): Promise<Saved> {
    const queued = this.next.has(about.id);
    this.next.set(about.id, { kept, about });
    if (queued) return this.last as Promise<Saved>;
    return this.queue(async (db) => {
      const newest = this.next.get(about.id);
      this.next.delete(about.id);
      return newest === undefined ? 'kept' : this.write(db, newest.kept, newest.about);
    });
  }

  /** Only where no other tab is at it. */
  async drop(id: string): Promise<'dropped' | 'elsewhere' | Trouble> {
    if ((await this.claim(id)) === 'elsewhere') return 'elsewhere';
    this.next.delete(id);
    this.tails.drop(id);
    const remove = (db: IDBPDatabase) => within(db, [RUNS, SLOTS], async (stores) => {
      await stores.objectStore(RUNS).delete(id);
      for (const slot of [0, 1]) await stores.objectStore(SLOTS).delete([id, slot]);
      return 'kept' as const;
    });
    const found = await this.queue(remove);
    this.holder.release(id);
    return found === 'full' || found === 'blocked' ? found : 'dropped';
  }

  /** An assignment taken up here and the label typed for it. */
  keepTicket(id: string, taken: unknown): Promise<Saved> {
    return this.queue(async (db) => {
      await db.put(TICKETS, taken, id);
      return 'kept';
    });
  }

  ticket(id: string): Promise<unknown> {
    return this.ask(async (db) => (await db.get(TICKETS, id)) ?? null, null);
  }

  /** What is being typed: jotted down at once, and kept when the storage answers. */
  async keepDraft(key: string, draft: Draft): Promise<Saved> {
    this.jotted.write(key, draft);
    const saved = await this.queue(async (db) => {
      await db.put(DRAFTS, draft, key);
      return 'kept';
    });
    if (saved === 'kept') this.jotted.landed(key, draft.count);
    return saved;
  }

  /** The newest that was kept; null where there is none. */
  async draft(key: string): Promise<Draft | null> {
    const kept = await this.ask((db) => db.get(DRAFTS, key) as Promise<unknown>, null);
    const jotted = this.jotted.read(key);
    if (!isDraft(kept)) return jotted;
    return jotted !== null && jotted.count > kept.count ? jotted : kept;
  }

  /** When everything asked for so far has been written. */
  async settled(): Promise<void> {
    await this.last;
  }

  /**
   * Where this tab knows which place is the old one, all is asked for at once and undone if another
   * tab turns out to be the owner: a page that draws has few free moments to wait for an answer.
   */
  private async write(db: IDBPDatabase, kept: Kept, about: About): Promise<Saved> {
    const { id } = about;
    const last = this.slots.get(id) ?? (await this.entry(id))?.slot ?? 1;
    const slot = last === 1 ? 0 : 1;
    const lease = { slot, owner: this.owner, lease_until: this.now() + LEASE_MS } as const;
    try {
      await within(db, [RUNS, SLOTS], async (stores) => {
        const runs = stores.objectStore(RUNS);
        const before: Promise<unknown> = quiet(runs.get(id));
        const puts = [
          quiet(stores.objectStore(SLOTS).put(kept, [id, slot])),
          quiet(runs.put(entryOf(kept, about, lease), id)),
        ];
        const old = await before;
        if (isEntry(old) && old.owner !== this.owner) throw new TakenOver();
        stores.commit();
        await Promise.all(puts);
      });
    } catch (error) {
      if (error instanceof TakenOver) return 'taken';
      throw error;
    }
    this.slots.set(id, slot);
    return 'kept';
  }

  /** What the list knows of an attempt, changed; a word instead of an entry leaves it as it is. */
  private change(id: string, to: (entry: Entry) => Entry | Saved): Promise<Saved> {
    return this.queue((db) => within(db, [RUNS], async (stores): Promise<Saved> => {
      const runs = stores.objectStore(RUNS);
      const entry: unknown = await runs.get(id);
      if (!isEntry(entry)) return 'kept';
      const changed = to(entry);
      if (typeof changed === 'string') return changed;
      await runs.put(changed, id);
      return 'kept';
    }));
  }

  private leased(entry: Entry): Entry {
    return { ...entry, owner: this.owner, lease_until: this.now() + LEASE_MS };
  }

  private queue(work: (db: IDBPDatabase) => Promise<Saved>): Promise<Saved> {
    const done = this.last.then(async (): Promise<Saved> => {
      try {
        const saved = await work(await this.database.open());
        this.trouble = null;
        return saved;
      } catch (error) {
        this.trouble = troubleOf(error);
        return this.trouble;
      }
    });
    this.last = done;
    return done;
  }

  private async ask<T>(read: (db: IDBPDatabase) => Promise<T>, none: T): Promise<T> {
    try {
      return await read(await this.database.open());
    } catch (error) {
      this.trouble = troubleOf(error);
      return none;
    }
  }
}
