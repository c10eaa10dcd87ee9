// Where the best marks of each job are kept. Every fault of the storage is answered with nothing,
// never with an exception: marks are also in the attempts.
import { Database, MARKS, within } from '../attempts/database.ts';
import { betterOf, readBest, type Best } from './best.ts';

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
    this.last = this.last.then(async () => {
      try {
        await within(await this.database.open(), [MARKS], async (stores) => {
          const kept = stores.objectStore(MARKS);
          await kept.put(betterOf(readBest(await kept.get(job)), marks), job);
        });
      } catch { /* The attempt itself says what the storage cannot do. */ }
    });
    return this.last;
  }
}
