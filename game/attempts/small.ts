// What the browser's small storage is used for: it takes a few hundred bytes at once, where the
// large one answers when it can. Nothing of it is relied on: the large storage has it a moment
// later, so that what cannot be written, read or removed is passed over.

/** What of the browser's small storage is used. */
export type SmallStorage = Pick<Storage, 'getItem' | 'setItem' | 'removeItem'>;

export function browserStorage(): SmallStorage | null {
  try {
    return typeof localStorage === 'undefined' ? null : localStorage;
  } catch {
    return null;
  }
}

/** One kind of thing in it, each under a key of its own. */
export class Small {
  private readonly storage: SmallStorage | null;
  private readonly kind: string;

  constructor(storage: SmallStorage | null, kind: string) {
    this.storage = storage;
    this.kind = kind;
  }

  write(key: string, value: object): void {
    try {
      this.storage?.setItem(this.keyOf(key), JSON.stringify(value));
    } catch { /* See above. */ }
  }

  /** What nobody has checked; null where there is nothing. */
  read(key: string): unknown {
    try {
      return JSON.parse(this.storage?.getItem(this.keyOf(key)) ?? 'null') as unknown;
    } catch {
      return null;
    }
  }

  drop(key: string): void {
    try {
      this.storage?.removeItem(this.keyOf(key));
    } catch { /* See above. */ }
  }

  private keyOf(key: string): string {
    return `loopyard-${this.kind}-${key}`;
  }
}
