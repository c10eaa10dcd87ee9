// Files are run again in workers, so that the page stays awake: one for each core, four at most.
// Where workers cannot be had the page does it itself, one file at a time.
import type { Kept } from '../attempts/entry.ts';
import type { Report } from './report.ts';

export interface Asked {
  readonly ask: number;
  readonly file: string;
  readonly text: string;
  readonly wants: 'report' | 'kept';
}

export interface Answer {
  readonly ask: number;
  readonly report: Report;
  readonly kept: Kept | null;
}

const WORKERS_MAX = 4;

type Waiting = Asked & { readonly done: (answer: Answer) => void };

export function workersFor(cores: number | undefined): number {
  return Math.max(1, Math.min(WORKERS_MAX, cores ?? 1));
}

async function here({ ask, file, text, wants }: Asked): Promise<Answer> {
  const [{ verify }, { keptOf }] = await Promise.all([import('./verify.ts'), import('./kept.ts')]);
  const checked = verify(file, text);
  return { ask, report: checked.report, kept: wants === 'kept' ? keptOf(checked) : null };
}

export class Pool {
  private readonly most: number;
  private readonly make: () => Worker;
  private readonly all: Worker[] = [];
  private readonly idle: Worker[] = [];
  private readonly queue: Waiting[] = [];
  private asks = 0;
  private broken = false;

  constructor(make: () => Worker, cores: number | undefined = navigator.hardwareConcurrency) {
    this.make = make;
    this.most = workersFor(cores);
  }

  check(file: string, text: string, wants: Asked['wants'] = 'report'): Promise<Answer> {
    this.asks += 1;
    const ask = this.asks;
    return new Promise((done) => {
      this.queue.push({ ask, file, text, wants, done });
      this.next();
    });
  }

  /** Ends the workers; what is waiting then is never answered. */
  close(): void {
    for (const worker of this.all.splice(0)) worker.terminate();
    this.idle.length = 0;
  }

  private next(): void {
    if (this.queue.length === 0) return;
    if (this.broken) {
      const waiting = this.queue.shift();
      if (waiting !== undefined) void here(waiting).then(waiting.done).finally(() => this.next());
      return;
    }
    const worker = this.idle.pop() ?? this.fresh();
    if (worker === null) {
      if (this.broken) this.next();
      return;
    }
    const waiting = this.queue.shift();
    if (waiting !== undefined) this.give(worker, waiting);
  }

  private give(worker: Worker, waiting: Waiting): void {
    const { done, ...asked } = waiting;
    worker.onmessage = ({ data }: MessageEvent<Answer>) => {
      this.idle.push(worker);
      done(data);
      this.next();
    };
    worker.onerror = () => {
      this.broken = true;
      this.queue.unshift(waiting);
      this.next();
    };
    worker.postMessage(asked);
    this.next();
  }

  private fresh(): Worker | null {
    if (this.all.length >= this.most) return null;
    try {
      const worker = this.make();
      this.all.push(worker);
      return worker;
    } catch {
      this.broken = true;
      return null;
    }
  }
}

/** The worker's file is found by the builder in this very form. */
export function checkingPool(): Pool {
  return new Pool(() => new Worker(new URL('./worker.ts', import.meta.url), { type: 'module' }));
}
