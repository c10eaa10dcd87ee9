// In an assessment the clock cannot be frozen; where it stood all the same, because the page was
// hidden, closed or loaded again, that is noted: it is not punished, but an instructor sees it.
import type { Away } from './entry.ts';

/** Shorter is a glance at something else, s. */
const SHORT_S = 3;

export class AwayLog {
  readonly list: Away[] = [];
  private since: number | null = null;

  /** The page goes out of sight at `ms` of the device's clock, or did so when it was last kept. */
  leaves(ms: number): void {
    this.since ??= ms;
  }

  returns(tick: number, ms: number): void {
    const wall_s = this.since === null ? 0 : Math.round((ms - this.since) / 1000);
    this.since = null;
    if (wall_s >= SHORT_S) this.list.push([tick, wall_s]);
  }

  restore(list: readonly Away[]): void {
    this.list.splice(0, this.list.length, ...list);
  }
}
