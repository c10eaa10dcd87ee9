// Where the best marks of each job are kept. Every fault of the storage is answered with nothing,
// never with an exception: marks are also in the attempts.
import { Database, MARKS, within } from '../attempts/database.ts';
import { betterOf, readBest, type Best } from './best.ts';

/** No job has this id. */
const LEARNT = 'controls learnt';

export class Store {
  private readonly database = new Database();
  private last: Promise<void> = Promise.resolve();

  /** The best marks so far; null where there are none that can be read. */
  async best(job: string): Promise<Best | null> {
    try {
      return readBest(await (await this.database.open()).get(MARKS, job));
    } catch {
      return null;
    }
  }

  /** Keeps these marks if they are better than those kept before. */
  keepBest(job: string, marks: Best): Promise<void> {
    return this.put(job, (before) => betterOf(readBest(before), marks));
  }

  /** Whether the controls were gone through once. */
  async learnt(): Promise<boolean> {
    try {
      return (await (await this.database.open()).get(MARKS, LEARNT)) === true;
    } catch {
      return false;
    }
  }

  keepLearnt(): Promise<void> {
    return this.put(LEARNT, () => true);
  }

  /** One after the other, so that an older one never lands on a newer one. */
  private put(key: string, next: (before: unknown) => unknown): Promise<void> {
    this.last = this.last.then(async () => {
      try {
        await within(await this.database.open(), [MARKS], async (stores) => {
          const kept = stores.objectStore(MARKS);
          await kept.put(next(await kept.get(key)), key);
        });
      } catch { /* The attempt itself says what the storage cannot do. */ }
    });
    return this.last;
  }
}
