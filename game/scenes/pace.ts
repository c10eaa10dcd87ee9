// When the drawing is drawn anew: at every frame while something moves, hardly while nothing does,
// and no more often than a machine without a graphics card can bear.

/** A frozen yard goes on this long, s: needles come to rest. */
const SETTLE_S = 1.5;
/** Drawn this often all the same, s, should the browser have let the picture go. */
const RESTING_S = 1;

/** What a picture depends on, beyond the needles' own swing. */
export interface Moment {
  readonly tick: number;
  readonly speed: number;
  readonly lens: boolean;
  readonly hot: string | null;
}

export class Pace {
  private readonly least_s: number;
  private drawn: Moment | null = null;
  private since_s = 0;
  private still_s = 0;

  /** `least_s`: wall seconds from one picture to the next, at least. */
  constructor(least_s: number) {
    this.least_s = least_s;
  }

  /** Something else has changed, such as the size: the next frame is drawn. */
  wake(): void {
    this.drawn = null;
  }

  /** Seconds since the last picture where one is due now, else null. */
  due(now: Moment, wall_s: number): number | null {
    this.since_s += wall_s;
    const last = this.drawn;
    const same = last !== null && now.tick === last.tick && now.speed === last.speed
      && now.lens === last.lens && now.hot === last.hot;
    this.still_s = same && now.speed === 0 ? this.still_s + wall_s : 0;
    const wait_s = this.still_s > SETTLE_S ? RESTING_S : this.least_s;
    if (last !== null && this.since_s < wait_s) return null;
    const passed_s = this.since_s;
    this.since_s = 0;
    this.drawn = now;
    return passed_s;
  }
}
