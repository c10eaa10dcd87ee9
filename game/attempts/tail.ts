// What was done since the last save that has landed. The large storage answers when it can; this
// small one takes a few hundred bytes at once. A run is the same bits whenever it is run, so the
// commands of the last moments are enough to go through them again.
import { parseRecord } from '../../sim/index.ts';
import type { Recent } from '../session.ts';
import type { Entry, Kept } from './entry.ts';
import { Small, type SmallStorage } from './small.ts';

export interface Tail extends Recent {
  readonly format: 1;
  /** The page that wrote it. */
  readonly owner: string;
}

/** More ticks than this are no moment: the storage has failed long since, and said so. */
const TICKS_MAX = 20_000;

export class Tails {
  private readonly small: Small;

  constructor(storage: SmallStorage | null) {
    this.small = new Small(storage, 'tail');
  }

  write(id: string, tail: Tail): void {
    this.small.write(id, tail);
  }

  drop(id: string): void {
    this.small.drop(id);
  }

  /** What was written by the page that owned the attempt last; null for anything else. */
  read({ id, owner }: Pick<Entry, 'id' | 'owner'>): Tail | null {
    const tail = this.small.read(id) as Partial<Tail> | null;
    const own = tail?.format === 1 && owner !== null && tail.owner === owner;
    const lists = [tail?.commands, tail?.pending, tail?.looks].every((one) => Array.isArray(one));
    const ticks = [tail?.from, tail?.tick].every((one) => Number.isInteger(one));
    return own && lists && ticks ? (tail as Tail) : null;
  }
}

/** True where the tail goes on from what was saved; its commands are checked like a file's. */
export function follows(tail: Tail, { saved }: Kept): boolean {
  const { record } = saved;
  const { from, tick, commands, pending } = tail;
  if (from > record.end_tick || tick < record.end_tick) return false;
  if (tick - record.end_tick > TICKS_MAX) return false;
  try {
    const waiting = pending.map((command) => [tick, command]);
    parseRecord({ ...record, end_tick: tick, commands: [...commands, ...waiting], checks: [] });
    return true;
  } catch {
    return false;
  }
}
