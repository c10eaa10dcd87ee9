// A heap of numbers by their key, least first: the open list of the router.
export class Heap {
  private readonly keys: number[] = [];
  private readonly items: number[] = [];

  get size(): number {
    return this.items.length;
  }

  push(key: number, item: number): void {
    const { keys, items } = this;
    let i = items.length;
    keys.push(key);
    items.push(item);
    while (i > 0) {
      const up = (i - 1) >> 1;
      if (keys[up]! <= keys[i]!) break;
      this.swap(i, up);
      i = up;
    }
  }

  pop(): number {
    const { keys, items } = this;
    const top = items[0]!;
    const key = keys.pop()!;
    const item = items.pop()!;
    if (items.length > 0) {
      keys[0] = key;
      items[0] = item;
      this.sink();
    }
    return top;
  }

  private sink(): void {
    const { keys, items } = this;
    let i = 0;
    for (;;) {
      const l = 2 * i + 1;
      if (l >= items.length) return;
      const c = l + 1 < items.length && keys[l + 1]! < keys[l]! ? l + 1 : l;
      if (keys[i]! <= keys[c]!) return;
      this.swap(i, c);
      i = c;
    }
  }

  private swap(i: number, j: number): void {
    const { keys, items } = this;
    [keys[i], keys[j]] = [keys[j]!, keys[i]!];
    [items[i], items[j]] = [items[j]!, items[i]!];
  }
}
