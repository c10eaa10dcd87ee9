// Binds a page's attempt to the library: under which id it is kept, for which assignment, whether
// this tab may still write it, and what the next attempt at the same job runs on.
import type { Score } from '../../sim/index.ts';
import { drawId, seedOf } from '../assign/ticket.ts';
import { bestOf } from '../records/best.ts';
import type { Recent } from '../session.ts';
import type { Store } from '../records/store.ts';
import type { Draft } from './draft.ts';
import type { Assigned, Entry, Kept } from './entry.ts';
import { LEASE_MS, type Library, type Saved } from './library.ts';

/** What stands in the way of keeping one's place: no room, no storage, or another tab. */
export type KeepTrouble = Exclude<Saved, 'kept'>;

export interface KeeperOptions {
  readonly library: Library;
  readonly store: Store;
  readonly assigned?: Assigned | null;
}

export class Keeper {
  /** Told when another tab took the attempt over. */
  onTaken: () => void = () => {};
  /** Told when a new attempt begins in the place of the one before. */
  onAgain: () => void = () => {};
  private readonly library: Library;
  private readonly store: Store;
  private current = drawId();
  private work: Assigned | null;
  private imported = false;
  private beat: ReturnType<typeof setInterval> | null = null;

  constructor({ library, store, assigned = null }: KeeperOptions) {
    this.library = library;
    this.store = store;
    this.work = assigned;
    library.onLost = (id) => { if (id === this.current) this.onTaken(); };
  }

  get id(): string { return this.current; }
  get assigned(): Assigned | null { return this.work; }

  /** Whether another attempt is allowed: always, unless an assignment counts them. */
  get mayBegin(): boolean {
    const most = this.work?.ticket.attempts ?? null;
    return most === null || this.work === null || this.work.nth < most;
  }

  /** Goes on with one that was kept; the caller has claimed it. */
  adopt(entry: Entry): void {
    this.current = entry.id;
    this.work = entry.assigned;
    this.imported = entry.imported;
  }

  /** One that cannot be gone on with: the next is one more at the same assignment. */
  follow(assigned: Assigned): void {
    this.work = { ...assigned, nth: assigned.nth + 1 };
  }

  /** A new attempt at the same job; gives the seed it has to run on. */
  again(seed: number): number {
    this.letGo();
    this.current = drawId();
    this.imported = false;
    this.onAgain();
    if (this.work === null) return seed;
    const { ticket, label, nth } = this.work;
    this.work = { ticket, label, nth: nth + 1 };
    return seedOf(ticket, label, nth + 1);
  }

  /** One that goes on from the middle of this one: free, whatever this one was assigned by. */
  branch(): void {
    this.letGo();
    this.current = drawId();
    this.imported = false;
    this.work = null;
    this.onAgain();
  }

  /** The yard is entered: from now on this tab is the one that works on it. */
  begin(): void {
    void this.library.claim(this.current);
    if (this.work !== null) {
      const { ticket, label, nth } = this.work;
      void this.library.keepTicket(ticket.id, { ticket, label, begun: nth });
    }
    this.beat ??= setInterval(() => { void this.stillMine(); }, LEASE_MS / 2.5);
  }

  async keep(kept: Kept, marks: Score | null): Promise<Saved> {
    const about = { id: this.current, assigned: this.work, imported: this.imported, marks };
    const saved = await this.library.keep(kept, about);
    if (saved === 'taken') this.onTaken();
    return saved;
  }

  /** At once, without waiting for the large storage. */
  jot(recent: Recent): void {
    const { tails, owner } = this.library;
    tails.write(this.current, { format: 1, owner, ...recent });
  }

  keepDraft(key: string, draft: Draft): void {
    void this.library.keepDraft(key, draft);
  }

  async keepBest(job: string, marks: Score, { saved }: Kept): Promise<void> {
    if (!this.imported) await this.store.keepBest(job, bestOf(marks, saved.record, saved.facts));
  }

  /** The page goes away, or stops working on it. */
  leave(): void {
    if (this.beat !== null) clearInterval(this.beat);
    this.beat = null;
    this.letGo();
  }

  /** Once that has landed, so has every save, and what was jotted down is of no more use. */
  private letGo(): void {
    const { library, current } = this;
    void library.release(current).then((saved) => {
      if (saved === 'kept') library.tails.drop(current);
    });
  }

  private async stillMine(): Promise<void> {
    if ((await this.library.renew(this.current)) === 'taken') this.onTaken();
  }
}
