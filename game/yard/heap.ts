// A heap of numbers by their key, least first: the open list of the router.
export class Heap {
  private readonly keys: number[] = [];
  private readonly items: number[] = [];

  get size(): number {
    return this.items.length;
  }

  clear(): void {
    this.keys.length = 0;
    this.items.length = 0;
  }

  push(key: number, item: number): void {
    const { keys, items } = this;
    let i = items.length;
    keys.push(key);
    items.push(item);
    while (i > 0) {
      const up = (i - 1) >> 1;
      if (keys[up]! <= key) break;
      keys[i] = keys[up]!;
      items[i] = items[up]!;
      i = up;
    }
    keys[i] = key;
    items[i] = item;
  }

  pop(): number {
    const { keys, items } = this;
    const top = items[0]!;
    const key = keys.pop()!;
    const item = items.pop()!;
    if (items.length > 0) this.sink(key, item);
    return top;
  }

  /** Puts the last one where the first was, and down to where it belongs. */
  private sink(key: number, item: number): void {
    const { keys, items } = this;
    const n = items.length;
    let i = 0;
    for (;;) {
      const l = 2 * i + 1;
      if (l >= n) break;
      const c = l + 1 < n && keys[l + 1]! < keys[l]! ? l + 1 : l;
      if (key <= keys[c]!) break;
      keys[i] = keys[c]!;
      items[i] = items[c]!;
      i = c;
    }
    keys[i] = key;
    items[i] = item;
  }
}
