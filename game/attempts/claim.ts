// Which tab works on an attempt. Where the browser has locks, a lock that dies with its tab says
// so at once; elsewhere a lease in the store does, renewed while the tab lives. Either way a save
// of a tab that is no longer the owner is refused in its own transaction (library.ts): this file
// only finds out whether somebody is there.

/** What of the browser's lock manager is used. */
export interface Locks {
  request: (
    name: string,
    options: { ifAvailable?: boolean; steal?: boolean },
    held: (lock: unknown) => Promise<void> | void,
  ) => Promise<unknown>;
}

export function browserLocks(): Locks | null {
  const found: unknown = typeof navigator === 'undefined' ? undefined : navigator.locks;
  return (found as Locks | undefined) ?? null;
}

const nameOf = (id: string): string => `loopyard-attempt-${id}`;

export class Holder {
  private readonly locks: Locks | null;
  private readonly lost: (id: string) => void;
  private readonly held = new Map<string, () => void>();

  constructor(locks: Locks | null, lost: (id: string) => void) {
    this.locks = locks;
    this.lost = lost;
  }

  /** Null where only the lease can tell; else whether the lock is ours now. */
  take(id: string, steal: boolean): Promise<boolean | null> {
    if (this.held.has(id)) return Promise.resolve(true);
    const { locks } = this;
    if (locks === null) return Promise.resolve(null);
    return new Promise((answer) => {
      const wait = (lock: unknown): Promise<void> | void => {
        if (lock === null || lock === undefined) return answer(false);
        return new Promise<void>((release) => {
          this.held.set(id, release);
          answer(true);
        });
      };
      locks.request(nameOf(id), steal ? { steal } : { ifAvailable: true }, wait).catch(() => {
        // Refused outright, or taken by another tab while it was held.
        if (this.held.delete(id)) this.lost(id);
        else answer(null);
      });
    });
  }

  release(id: string): void {
    this.held.get(id)?.();
    this.held.delete(id);
  }
}
