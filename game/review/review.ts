// One debrief's work behind the marks: the record is run again, in a worker where there is one, and
// what comes of it is handed on as it comes. Begins when it is first asked for, ends with its end.
import { computed, signal, type ReadonlySignal, type Signal } from '@preact/signals';
import type { Score } from '../../sim/index.ts';
import type { Session } from '../session.ts';
import { axisOf, type Axis } from './axis.ts';
import { drive, type Told } from './drive.ts';
import { momentsOf, wantedOf, type Moment } from './moments.ts';
import type { Asked, Captured, Rerun } from './rerun.ts';

/** ms of work between two frames where the page itself runs the record again. */
const SLICE_MS = 8;

export class Review {
  readonly session: Session;
  readonly score: Score;
  readonly axis: Axis;
  readonly share: Signal<number> = signal(0);
  readonly captured: Signal<ReadonlyMap<number, Captured>> = signal(new Map());
  readonly rerun: Signal<Rerun | null> = signal(null);
  readonly failed = signal(false);
  readonly moments: ReadonlySignal<readonly Moment[]>;
  private worker: Worker | null = null;
  private ended = false;

  constructor(session: Session, score: Score) {
    this.session = session;
    this.score = score;
    const { facts, level: { scenario } } = session;
    const record = session.record();
    const told = { score, facts, scenario };
    this.axis = axisOf(facts, record.end_tick, session.tick_s);
    this.moments = computed(() => {
      const { purged, loss } = this.rerun.value ?? { purged: null, loss: null };
      return momentsOf(told, { purged: purged?.tick ?? null, loss: loss?.tick ?? null });
    });
    const work = Math.round(this.axis.end_s / session.tick_s);
    this.begin({ scenario, record, wanted: wantedOf(told), work });
  }

  /** Nothing more comes of it. */
  end(): void {
    this.ended = true;
    this.worker?.terminate();
    this.worker = null;
  }

  private begin(asked: Asked): void {
    try {
      // The worker's file is found by the builder in this very form.
      const worker = new Worker(new URL('./worker.ts', import.meta.url), { type: 'module' });
      worker.onmessage = ({ data }: MessageEvent<Told>) => this.take(data);
      worker.onerror = () => {
        worker.terminate();
        if (this.ended) return;
        if (this.share.value === 0) this.here(asked);
        else this.failed.value = true;
      };
      worker.postMessage(asked);
      this.worker = worker;
    } catch {
      this.here(asked);
    }
  }

  /** Without a worker: a little between every two frames. */
  private here(asked: Asked): void {
    const step = drive(asked, (told) => this.take(told));
    const next = (): void => {
      if (!this.ended && step(SLICE_MS)) setTimeout(next);
    };
    setTimeout(next);
  }

  private take(told: Told): void {
    if (this.ended) return;
    if (told.kind === 'on') {
      this.share.value = told.share;
      this.keep(told.captured);
      return;
    }
    const { purged, loss } = told.rerun;
    this.keep([purged, loss].flatMap((one) => one ?? []));
    this.rerun.value = told.rerun;
    this.end();
  }

  private keep(captured: readonly Captured[]): void {
    if (captured.length === 0) return;
    const fresh = captured.map((one) => [one.tick, one] as const);
    this.captured.value = new Map([...this.captured.value, ...fresh]);
  }
}

let current: Review | null = null;

/** The review of a session that is over: the same one however often it is asked for. */
export function reviewOf(session: Session, score: Score): Review {
  if (current?.session === session) return current;
  current?.end();
  current = new Review(session, score);
  return current;
}

/** The debrief was left for good. */
export function endReview(): void {
  current?.end();
  current = null;
}
