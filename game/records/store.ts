// Where the best marks of each job are kept. Every fault of the storage is answered with nothing,
// never with an exception: marks are also in the attempts.
import { Database, MARKS } from '../attempts/database.ts';
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
        const writing = (await this.database.open()).transaction(MARKS, 'readwrite');
        const old = readBest(await writing.store.get(job));
        await Promise.all([writing.store.put(betterOf(old, marks), job), writing.done]);
      } catch { /* The attempt itself says what the storage cannot do. */ }
    });
    return this.last;
  }
}
