// The only clock. Turns the wall's time into ticks at the speed asked for, stops while the page is
// hidden, spends no more than its budget on a frame, and says so when it cannot keep up.

export const SPEEDS = [0, 0.25, 1, 5, 20, 60] as const;
/** Times real time; 0 is frozen. */
export type Speed = (typeof SPEEDS)[number];

export function isSpeed(value: unknown): value is Speed {
  return SPEEDS.some((one) => one === value);
}

/** Wall time for ticks within one frame, ms; what is left of the frame belongs to the drawing. */
const BUDGET_MS = 8;
/** Where the drawing alone takes longer than a frame, ticks get this share of it, up to a limit. */
const BUDGET_SHARE = 0.4;
const BUDGET_MAX_MS = 60;
/** Longest wall time one frame stands for, s: a page that was stuck does not leap ahead. */
const FRAME_MAX_S = 0.25;
/** Over this long, in s, the speed reached is measured; twice in a row before it counts. */
const WINDOW_S = 1.5;
const WINDOWS = 2;
/** A frame longer than this, in s, was something else: loading, a moved window. */
const STALL_S = 0.4;
/** Shares of the speed asked for below which it counts as missed, above which as kept again. */
const MISSED = 0.9;
const KEPT = 0.96;

export interface Wall {
  readonly now: () => number;
  readonly request: (frame: () => void) => number;
  readonly cancel: (id: number) => void;
}

export interface LoopHooks {
  /** One tick; false stops this frame's ticks, for instance when the run is over. */
  readonly tick: () => boolean;
  /** True while nobody is there: ticks are done as fast as can be, and owed to nobody. */
  readonly away?: () => boolean;
  /** After the ticks of a frame; wall seconds since the frame before. */
  readonly frame: (wall_s: number) => void;
  /** The speed reached while it is less than the one asked for, else null. */
  readonly reached: (speed: number | null) => void;
}

export class Loop {
  private readonly tick_s: number;
  private readonly hooks: LoopHooks;
  private readonly wall: Wall;
  private asked: Speed = 0;
  private owed = 0;
  private last = 0;
  private frame: number | null = null;
  private windowWall = 0;
  private windowSim = 0;
  private missing = false;
  private short = 0;

  constructor(tick_s: number, hooks: LoopHooks, wall: Wall) {
    this.tick_s = tick_s;
    this.hooks = hooks;
    this.wall = wall;
  }

  get speed(): Speed { return this.asked; }

  setSpeed(speed: Speed): void {
    if (speed === this.asked) return;
    this.asked = speed;
    this.owed = 0;
    this.clearWindow();
    if (this.missing) this.hooks.reached(null);
    this.missing = false;
    this.short = 0;
  }

  /** Begins or goes on; the time in between is not caught up. */
  start(): void {
    if (this.frame !== null) return;
    this.last = this.wall.now();
    this.clearWindow();
    this.frame = this.wall.request(this.turn);
  }

  stop(): void {
    if (this.frame !== null) this.wall.cancel(this.frame);
    this.frame = null;
  }

  private readonly turn = (): void => {
    this.frame = this.wall.request(this.turn);
    const began = this.wall.now();
    const passed_s = Math.max(0, (began - this.last) / 1000);
    const wall_s = Math.min(FRAME_MAX_S, passed_s);
    this.last = began;
    const share_ms = Math.min(BUDGET_MAX_MS, BUDGET_SHARE * wall_s * 1000);
    const done = this.spend(wall_s, began + Math.max(BUDGET_MS, share_ms));
    this.measure(passed_s, done);
    this.hooks.frame(wall_s);
  };

  /** Ticks done in this frame. */
  private spend(wall_s: number, until: number): number {
    if (this.asked === 0) return 0;
    this.owed += wall_s * this.asked;
    let done = 0;
    // Half a rounding error of slack, so that 0.1 s owed is one tick.
    while (this.away || this.owed >= this.tick_s - 1e-9) {
      this.owed = this.away ? 0 : this.owed - this.tick_s;
      done += 1;
      if (!this.hooks.tick()) break;
      if (this.wall.now() >= until) break;
    }
    // What could not be done is let go: the clock slows down instead of lagging behind the hands.
    if (this.owed > this.tick_s) this.owed = Math.min(this.owed, this.tick_s);
    return done;
  }

  private measure(wall_s: number, done: number): void {
    if (this.asked === 0 || wall_s > STALL_S || this.away) return;
    this.windowWall += wall_s;
    this.windowSim += done * this.tick_s;
    if (this.windowWall < WINDOW_S) return;
    const reached = this.windowSim / this.windowWall;
    const share = reached / this.asked;
    this.clearWindow();
    this.short = share < (this.missing ? KEPT : MISSED) ? this.short + 1 : 0;
    const missing = this.short >= WINDOWS;
    if (missing || this.missing) this.hooks.reached(missing ? reached : null);
    this.missing = missing;
  }

  private get away(): boolean { return this.hooks.away?.() === true; }

  private clearWindow(): void {
    this.windowWall = 0;
    this.windowSim = 0;
  }
}
