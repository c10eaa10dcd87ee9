// Runs a record again, for the charts and to go back to a moment. Pure: a worker drives it, or the
// page itself where there are none, and a test. The run proves itself by the record's hashes.
import {
  advance, isAway, isOver, saveState, snapshot, startRun, tickSeconds,
  type Reading, type Run, type RunRecord, type Scenario,
} from '../../sim/index.ts';
import { followedOf, seenOf, type Followed, type Row } from './rows.ts';

/** Rows of a chart: more than a laptop's screen can tell apart are of no use. */
const ROWS = 480;
/** Work between two states that are kept for going back, s; and the least before a moment. */
const KEEP_S = 10;
const LEAD_S = 5;
/** What counts as run away between two rows, m3: a cup, no drip. */
const LOSS_MIN = 0.2e-3;

export interface Asked {
  readonly scenario: Scenario;
  readonly record: RunRecord;
  /** Ticks to go back to. */
  readonly wanted: readonly number[];
  /** Ticks in which somebody was there, for the distance of rows. */
  readonly work: number;
}

/** Where a run stood: its bytes, and how much of its lists belonged to it. */
export interface Stand {
  readonly tick: number;
  readonly state: ArrayBuffer;
  readonly facts: number;
  readonly commands: number;
  readonly checks: number;
}

/** One moment: what was shown and what was true, and a stand a little before it. */
export interface Captured {
  readonly tick: number;
  readonly before: Stand;
  readonly readings: readonly Reading[];
  readonly row: Row;
}

/** What only the whole run shows. */
export interface Rerun {
  readonly rows: readonly Row[];
  /** Seconds for which each of the loop's pipes had the rule velocity or more. */
  readonly fast_s: readonly number[];
  /** When the loop's air fell to what is allowed for good; null where it never did. */
  readonly purged: Captured | null;
  /** When most ran away between two rows; null where next to nothing did. */
  readonly loss: Captured | null;
  /** False where this run has other hashes than the record. */
  readonly same: boolean;
}

export class Runner {
  private readonly run: Run;
  private readonly asked: Asked;
  private readonly followed: Followed;
  private readonly every: number;
  private readonly keep: number;
  private readonly lead: number;
  private readonly rows: Row[] = [];
  private readonly fast: number[];
  private readonly wanted: number[];
  private next = 0;
  /** Ticks in which somebody was there; and at the row before. */
  private worked = 0;
  private workedThen = 0;
  private stands: Stand[];
  private purged: Captured | null = null;
  private loss: Captured | null = null;
  private most = LOSS_MIN;

  constructor(asked: Asked) {
    this.asked = asked;
    this.run = startRun(asked.scenario, asked.record.seed);
    this.followed = followedOf(asked.scenario);
    const tick_s = tickSeconds(asked.scenario);
    this.every = Math.max(1, Math.ceil(asked.work / ROWS));
    this.keep = Math.max(1, Math.round(KEEP_S / tick_s));
    this.lead = Math.round(LEAD_S / tick_s);
    this.wanted = [...new Set(asked.wanted)].sort((a, b) => a - b);
    this.fast = this.followed.loop.map(() => 0);
    this.stands = [this.stand()];
    this.look();
  }

  private get tick(): number { return this.run.world.state.counter[0] ?? 0; }
  get over(): boolean { return isOver(this.run.world) || this.tick >= this.asked.record.end_tick; }
  get share(): number { return Math.min(1, this.tick / Math.max(1, this.asked.record.end_tick)); }

  /** One tick, or a step of a night; the moments that were asked for and have come. */
  step(): readonly Captured[] {
    const { run } = this;
    const away = isAway(run.world.state);
    const { tick } = this;
    const commands = [];
    const { commands: all } = this.asked.record;
    for (; this.next < all.length; this.next += 1) {
      const [at, command] = all[this.next]!;
      if (at > tick) break;
      commands.push(command);
    }
    advance(run, commands);
    const gone = away !== isAway(run.world.state);
    if (!away) this.worked += this.tick - tick;
    if (gone || this.over || (!away && this.worked % this.every === 0)) this.look();
    if (!away && this.worked % this.keep === 0) this.stands = [this.stands.at(-1)!, this.stand()];
    return this.take();
  }

  result(): Rerun {
    const { rows, fast: fast_s, purged, loss } = this;
    const checks = this.asked.record.checks.slice(0, this.run.checks.length);
    const same = JSON.stringify(checks) === JSON.stringify(this.run.checks);
    return { rows, fast_s, purged, loss, same };
  }

  private take(): readonly Captured[] {
    const taken: Captured[] = [];
    while (this.wanted[0] !== undefined && (this.tick > this.wanted[0] || this.over)) {
      taken.push(this.capture(this.wanted.shift()!));
    }
    return taken;
  }

  private capture(tick: number): Captured {
    const { readings } = snapshot(this.run.world).panel;
    const { row } = seenOf(this.run.world, this.followed);
    return { tick, before: this.standBefore(tick), readings, row };
  }

  private standBefore(tick: number): Stand {
    const [older, newer] = [this.stands[0]!, this.stands.at(-1)!];
    return newer.tick <= tick - this.lead ? newer : older;
  }

  private stand(): Stand {
    const { world, facts, commands, checks } = this.run;
    return {
      tick: this.tick, state: saveState(world), facts: facts.length, commands: commands.length,
      checks: checks.length,
    };
  }

  private look(): void {
    const { job } = this.asked.scenario;
    const { row, speeds } = seenOf(this.run.world, this.followed);
    const last = this.rows.at(-1);
    const span_s = (this.worked - this.workedThen) * tickSeconds(this.asked.scenario);
    this.workedThen = this.worked;
    this.rows.push(row);
    if (last === undefined || job === undefined) return;
    speeds.forEach((speed, k) => {
      if (speed >= job.rule_velocity_m_s) this.fast[k] = (this.fast[k] ?? 0) + span_s;
    });
    const allowed = job.air_allowed_L / 1000;
    if (row.air > allowed) this.purged = null;
    else if (last.air > allowed) this.purged = this.capture(row.tick);
    const lost = row.spilled + row.wasted - last.spilled - last.wasted;
    if (lost > this.most) {
      this.most = lost;
      this.loss = this.capture(row.tick);
    }
  }
}
