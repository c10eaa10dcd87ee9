// The only user of the engine's run functions: commands in, snapshots and facts out. What may be
// looked at depends on the mode; the inside of the pipes leaves here only where it is allowed.
import type { Level } from '../levels/index.ts';
import {
  advance, isAway, isOver, recordOf, resumeRun, saveRun, score, snapshot, startRun, tickSeconds,
  xray,
  type Command, type Fact, type Run, type RunRecord, type SavedRun, type Score, type Snapshot,
  type Xray,
} from '../sim/index.ts';

/** `learn`: x-ray at will. `practise`: each look is noted. `assess`: none. */
export const MODES = ['learn', 'practise', 'assess'] as const;
export type Mode = (typeof MODES)[number];

/** A run and what was asked of the hands since its last tick. */
export interface SavedSession extends SavedRun {
  readonly pending: readonly Command[];
}

/** The control a command is for; null for a line of the sheet and the end of the job. */
export function controlOf(command: Command): string | null {
  switch (command.kind) {
    case 'valve': return command.valve;
    case 'switch': return command.pump;
    case 'mark': return command.tank;
    case 'coupling': return command.coupling;
    case 'set': return command.device;
    case 'stroke': return command.pump;
    case 'flow': return command.link;
    case 'tap': return command.gauge;
    case 'note':
    case 'leave':
    case 'done': return null;
  }
}

/** What of a command the next one like it replaces: its control, or the line it writes on. */
function slotOf(command: Command): string {
  if (command.kind === 'note') return `note ${command.entry}`;
  return controlOf(command) ?? command.kind;
}

export class Session {
  readonly level: Level;
  readonly mode: Mode;
  readonly tick_s: number;
  private readonly run: Run;
  private pending: Command[];
  private lens = false;
  private marks: Score | null = null;

  private constructor(level: Level, mode: Mode, run: Run, pending: readonly Command[]) {
    this.level = level;
    this.mode = mode;
    this.tick_s = tickSeconds(level.scenario);
    this.run = run;
    this.pending = [...pending];
  }

  static start(level: Level, mode: Mode, seed: number): Session {
    return new Session(level, mode, startRun(level.scenario, seed), []);
  }

  /** @throws AssertionError when it was saved by another engine or on another scenario. */
  static resume(level: Level, mode: Mode, saved: SavedSession): Session {
    return new Session(level, mode, resumeRun(level.scenario, saved), saved.pending);
  }

  get seed(): number { return this.run.seed; }
  get over(): boolean { return isOver(this.run.world); }
  /** True while nobody is there: then the clock need not keep to the wall's. */
  get away(): boolean { return isAway(this.run.world.state); }
  get facts(): readonly Fact[] { return this.run.facts; }
  /** What waits for the next tick, as long as the clock is frozen. */
  get waiting(): readonly Command[] { return this.pending; }

  /** Taken with the next tick. A later command for the same control replaces an earlier one. */
  act(command: Command): void {
    if (this.over) return;
    const slot = slotOf(command);
    this.pending = this.pending.filter((other) => slotOf(other) !== slot);
    this.pending.push(command);
  }

  /** One tick. */
  advance(): readonly Fact[] {
    const commands = this.pending;
    if (commands.length > 0) this.pending = [];
    return advance(this.run, commands);
  }

  snapshot(): Snapshot {
    return snapshot(this.run.world);
  }

  get mayLook(): boolean { return this.mode === 'learn'; }
  get looking(): boolean { return this.lens; }

  look(on: boolean): void {
    this.lens = on && this.mayLook;
  }

  xray(): Xray | null {
    return this.lens && this.mayLook ? xray(this.run.world) : null;
  }

  save(): SavedSession {
    return { ...saveRun(this.run), pending: [...this.pending] };
  }

  record(): RunRecord {
    return recordOf(this.run);
  }

  /** Marks of what was handed over; null as long as the job goes on. */
  score(): Score | null {
    if (!this.over) return null;
    this.marks ??= score(this.level.scenario, this.level.rules, this.run.facts);
    return this.marks;
  }
}
