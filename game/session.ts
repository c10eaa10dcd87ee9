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

/** A run, what was asked of the hands since its last tick, and when one looked inside. */
export interface SavedSession extends SavedRun {
  readonly pending: readonly Command[];
  /** Ticks at which the lens was taken up while each look is noted. */
  readonly looks?: readonly number[];
}

/** What was done from a tick on, up to where the run stood. */
export interface Recent {
  readonly from: number;
  readonly tick: number;
  readonly commands: RunRecord['commands'];
  readonly pending: readonly Command[];
  readonly looks: readonly number[];
}

type Bare<F> = F extends { readonly kind: 'hazard' } ? Omit<F, 'value' | 'limit'>
  : F extends { readonly kind: 'done' } ? Omit<F, 'measures'> : F;
/** A fact as one is told of it while the job goes on: what is seen or heard, without the truth. */
export type Told = Bare<Fact>;

/**
 * What an assessment tells of a fact; null for what no technician would know. A kind that is not
 * named here is withheld, so that a new one does not leak.
 */
export function toldOf(fact: Fact): Told | null {
  switch (fact.kind) {
    case 'hazard': {
      const { value: _value, limit: _limit, ...seen } = fact;
      return seen;
    }
    case 'done': {
      const { measures: _measures, ...seen } = fact;
      return seen;
    }
    case 'command':
    case 'refused':
    case 'moved':
    case 'noted':
    case 'answered':
    case 'held':
    case 'left':
    case 'back':
    case 'event': return fact;
    default: return null;
  }
}

function toldAll(facts: readonly Fact[]): readonly Told[] {
  return facts.length === 0 ? facts : facts.flatMap((fact) => toldOf(fact) ?? []);
}

/** The control a command is for; null for a line of a sheet and the end of the job. */
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
    case 'answer':
    case 'leave':
    case 'done': return null;
  }
}

/** What of a command the next one like it replaces: its control, or the line it writes on. */
function slotOf(command: Command): string {
  if (command.kind === 'note') return `note ${command.entry}`;
  if (command.kind === 'answer') return `answer ${command.line}`;
  return controlOf(command) ?? command.kind;
}

export class Session {
  /** With the form of the job that the seed gives: what is drawn, handled and marked. */
  readonly level: Level;
  /** The same as it is written, with its ranges. */
  readonly written: Level;
  readonly mode: Mode;
  readonly tick_s: number;
  private readonly run: Run;
  private pending: Command[];
  private lens = false;
  private readonly looked: number[] = [];
  private marks: Score | null = null;
  /** What is done again, of a session that is only looked at; null of one that is played. */
  private again: [number, Command][] | null = null;

  private constructor(level: Level, mode: Mode, run: Run) {
    const { scenario } = run;
    this.written = level;
    this.level = scenario === level.scenario ? level : { ...level, scenario };
    this.mode = mode;
    this.tick_s = tickSeconds(level.scenario);
    this.run = run;
    this.pending = [];
  }

  /** @param level with the job as it is written, its ranges too */
  static start(level: Level, mode: Mode, seed: number): Session {
    return new Session(level, mode, startRun(level.scenario, seed));
  }

  /** @throws AssertionError when it was saved by another engine or on another scenario. */
  static resume(level: Level, mode: Mode, saved: SavedSession): Session {
    const session = new Session(level, mode, resumeRun(level.scenario, saved));
    session.pending = [...saved.pending];
    session.looked.push(...(saved.looks ?? []));
    return session;
  }

  /** To look at what was done from there on: it is done again, and nothing else. */
  static again(level: Level, saved: SavedSession, later: RunRecord['commands']): Session {
    const session = Session.resume(level, 'learn', saved);
    session.again = later.map(([tick, command]) => [tick, command]);
    return session;
  }

  /** One of the same mode that goes on from where `other` stands. */
  from(other: Session): Session {
    const saved = other.save();
    const looks = this.looked.filter((tick) => tick <= saved.record.end_tick);
    return Session.resume(this.written, this.mode, { ...saved, pending: [], looks });
  }

  /** True of one that is only looked at. */
  get repeats(): boolean { return this.again !== null; }
  get seed(): number { return this.run.seed; }
  /** True where another seed gives another form of the job. */
  get hasForms(): boolean { return this.run.base.ranges !== undefined; }
  get over(): boolean { return isOver(this.run.world); }
  /** True while nobody is there: then the clock need not keep to the wall's. */
  get away(): boolean { return isAway(this.run.world.state); }
  /** Everything that happened; in an assessment only when it is over. */
  get facts(): readonly Fact[] { return this.hides ? [] : this.run.facts; }
  /** What happened as far as one is told of it. */
  get told(): readonly Told[] { return this.hides ? toldAll(this.run.facts) : this.run.facts; }
  /** Ticks at which one looked inside, where that is noted. */
  get looks(): readonly number[] { return this.looked; }
  /** What waits for the next tick, as long as the clock is frozen. */
  get waiting(): readonly Command[] { return this.pending; }
  /** The same by the control it is for. */
  get waitingAt(): ReadonlyMap<string, Command> {
    return new Map(this.pending.flatMap((command) => {
      const id = controlOf(command);
      return id === null ? [] : [[id, command] as const];
    }));
  }

  /** Taken with the next tick. A later command for the same control replaces an earlier one. */
  act(command: Command): void {
    if (this.over || this.repeats) return;
    const slot = slotOf(command);
    this.pending = this.pending.filter((other) => slotOf(other) !== slot);
    this.pending.push(command);
  }

  /** One tick. */
  advance(): readonly Told[] {
    const commands = this.again === null ? this.pending : this.repeated(this.again);
    if (commands.length > 0) this.pending = [];
    const facts = advance(this.run, commands);
    return this.mode === 'assess' ? toldAll(facts) : facts;
  }

  private repeated(again: [number, Command][]): Command[] {
    const tick = this.run.world.state.counter[0] ?? 0;
    let count = 0;
    while (count < again.length && again[count]![0] <= tick) count += 1;
    return again.splice(0, count).map(([, command]) => command);
  }

  snapshot(): Snapshot {
    return snapshot(this.run.world);
  }

  get mayLook(): boolean { return this.mode !== 'assess'; }
  get looking(): boolean { return this.lens; }

  look(on: boolean): void {
    const was = this.lens;
    this.lens = on && this.mayLook;
    if (this.mode === 'practise' && this.lens && !was) this.looked.push(this.snapshot().tick);
  }

  xray(): Xray | null {
    return this.lens && this.mayLook ? xray(this.run.world) : null;
  }

  /** For the storage of the device alone: it holds the state as bytes and every fact. */
  save(): SavedSession {
    return { ...saveRun(this.run), pending: [...this.pending], looks: [...this.looked] };
  }

  /** What was commanded since `from`, and where the run stands: for the storage, as `save`. */
  tail(from: number): Recent {
    const { commands } = this.run;
    let first = commands.length;
    while (first > 0 && (commands[first - 1]?.[0] ?? 0) >= from) first -= 1;
    const { tick } = this.snapshot();
    const looks = [...this.looked];
    return { from, tick, commands: commands.slice(first), pending: [...this.pending], looks };
  }

  /** Goes again through what was done after the state was saved. */
  catchUp({ tick: until, commands, pending, looks }: Recent): void {
    while (!this.over) {
      const { tick } = this.snapshot();
      if (tick >= until) break;
      advance(this.run, commands.flatMap(([at, command]) => (at === tick ? [command] : [])));
    }
    this.pending = this.over ? [] : [...pending];
    this.looked.splice(0, this.looked.length, ...looks);
  }

  record(): RunRecord {
    return recordOf(this.run);
  }

  private get hides(): boolean { return this.mode === 'assess' && !this.over; }

  /** Marks of what was handed over; null as long as the job goes on. */
  score(): Score | null {
    if (!this.over) return null;
    this.marks ??= score(this.level.scenario, this.level.rules, this.run.facts);
    return this.marks;
  }
}
