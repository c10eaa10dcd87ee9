// One attempt as the page sees it: the session, the clock and the signals that the panels read.
// Panels call the methods here and nothing else; the drawing is told every frame.
import { signal, type Signal } from '@preact/signals';
import type { Command, Fact, Note, Score, Snapshot, Xray } from '../sim/index.ts';
import type { Level } from '../levels/index.ts';
import { byHelper, cautionOf } from './asked.ts';
import { brake, captionOf, heardOf, noteOf, type Caption } from './captions.ts';
import { lexicon, type Lexicon } from './i18n/index.ts';
import { Loop, type Speed, type Wall } from './loop.ts';
import { attemptFile, type AttemptFile } from './records/attempt.ts';
import { bestOf } from './records/best.ts';
import type { Kept, Store, StoreTrouble } from './records/store.ts';
import { controlOf, Session, type Mode } from './session.ts';
import { linesOf, type Line } from './sheet.ts';

export type View = 'front' | 'yard' | 'debrief';

/** The drawing, as far as an attempt needs it. */
export interface Yard {
  draw: (now: Snapshot, xray: Xray | null, wall_s: number, speed: number) => void;
  setHot: (id: string | null) => void;
  resize: () => void;
  destroy: () => void;
}

/** What was found of an earlier visit, to be said once. */
export type Greeting =
  | { readonly kind: 'resumed'; readonly time_s: number; readonly speed: Speed }
  | { readonly kind: 'old'; readonly kept: Kept }
  | { readonly kind: 'damaged' };

export interface PlayOptions {
  readonly level: Level;
  readonly mode: Mode;
  readonly seed: number;
  readonly store: Store;
  readonly wall: Wall;
  /** The device's date, for the file only. */
  readonly date: () => Date;
}

/** Words of the panels change this often at most; the drawing changes every frame. */
const PANEL_MS = 200;
const SAVE_MS = 1000;
/** A note that changes faster than this is one change. */
const NOTE_MS = 1200;
const LOG_MAX = 60;

export class Play {
  readonly level: Level;
  readonly lex: Lexicon;
  readonly view: Signal<View> = signal('front');
  readonly seen: Signal<Snapshot>;
  readonly speed: Signal<Speed> = signal(0);
  readonly reached: Signal<number | null> = signal(null);
  readonly looking = signal(false);
  /** True while what is asked is for a helper's hands. */
  readonly telling = signal(false);
  /** What was asked while the clock stands: control -> command. */
  readonly waiting: Signal<ReadonlyMap<string, Command>> = signal(new Map());
  readonly captions: Signal<readonly Caption[]> = signal([]);
  readonly trouble: Signal<StoreTrouble | null> = signal(null);
  readonly greeting: Signal<Greeting | null> = signal(null);
  readonly braked: Signal<'slow' | 'freeze' | null> = signal(null);
  readonly score: Signal<Score | null> = signal(null);
  session: Session;
  yard: Yard | null = null;
  /** The lines of the job's sheet; none where nothing is written down. */
  readonly lines: readonly Line[];
  private readonly options: PlayOptions;
  private readonly loop: Loop;
  private began: string;
  private panelAt = 0;
  private savedAt = 0;
  private note: Note | null = null;
  private noteAt = 0;
  private readonly cautioned = new Set<string>();
  private due = false;
  private starting = false;

  constructor(options: PlayOptions) {
    this.options = options;
    this.level = options.level;
    this.lines = linesOf(options.level.scenario);
    this.lex = lexicon(options.level.words);
    this.session = Session.start(options.level, options.mode, options.seed);
    this.began = options.date().toISOString();
    this.seen = signal(this.session.snapshot());
    this.note = noteOf(this.seen.value);
    const hooks = {
      tick: () => this.tick(),
      away: () => this.session.away,
      frame: (wall_s: number) => this.frame(wall_s),
      reached: (speed: number | null) => { this.reached.value = speed; },
    };
    this.loop = new Loop(this.session.tick_s, hooks, options.wall);
  }

  /** Goes on with what was kept: frozen in the yard, or at its debrief. */
  takeUp(session: Session, speed: Speed, began: string): void {
    this.session = session;
    this.began = began;
    this.note = noteOf(session.snapshot());
    this.captions.value = session.facts.flatMap((fact) => this.lineOf(fact) ?? []).slice(-LOG_MAX);
    this.publish();
    if (session.over) this.finish();
    else {
      const { time_s } = this.seen.value;
      this.greeting.value = { kind: 'resumed', time_s, speed: speed === 0 ? 1 : speed };
      this.view.value = 'yard';
      this.loop.start();
    }
  }

  /** To the yard with the clock running. */
  enter(): void {
    if (this.greeting.value?.kind !== 'resumed') this.greeting.value = null;
    this.view.value = 'yard';
    this.loop.start();
    this.starting = true;
    if (this.yard !== null) this.ready();
  }

  /** The drawing stands, or cannot be had: the clock of a fresh attempt begins to run. */
  ready(): void {
    if (this.starting) this.setSpeed(1);
    this.starting = false;
  }

  /** From the beginning, on the same seed. */
  again(): void {
    this.session = Session.start(this.level, this.options.mode, this.session.seed);
    this.began = this.options.date().toISOString();
    this.captions.value = [];
    this.score.value = null;
    this.looking.value = false;
    this.telling.value = false;
    this.note = noteOf(this.session.snapshot());
    this.loop.setSpeed(0);
    this.greeting.value = null;
    this.publish();
    this.enter();
  }

  /** From now on, what is asked is for the helper; or for one's own hands again. */
  tell(on: boolean): void {
    this.telling.value = on && this.seen.value.scene.helper !== null;
  }

  act(asked: Command): void {
    if (this.session.over) return;
    const command = this.telling.value ? byHelper(asked) : asked;
    this.session.act(command);
    this.cautionFor(command);
    this.due = true;
    this.publish();
  }

  setSpeed(speed: Speed): void {
    this.loop.setSpeed(speed);
    this.speed.value = speed;
    this.braked.value = null;
    if (speed !== 0 && this.greeting.value?.kind === 'resumed') this.greeting.value = null;
    this.due = true;
  }

  look(on: boolean): void {
    this.session.look(on);
    this.looking.value = this.session.looking;
  }

  /** "I'm done": judged at the next tick, which is done here even when the clock is frozen. */
  handOver(): void {
    this.session.act({ kind: 'done' });
    this.tick();
  }

  /** The page is hidden or shown again. */
  setShown(shown: boolean): void {
    if (!shown) {
      this.loop.stop();
      if (this.view.value === 'yard') this.save();
    } else if (this.view.value === 'yard') this.loop.start();
  }

  file(): AttemptFile {
    const { session, began } = this;
    const parts = { record: session.record(), facts: session.facts, marks: session.score(), began };
    return attemptFile(parts, this.options.date());
  }

  say(caption: Caption): void {
    this.captions.value = [...this.captions.value, caption].slice(-LOG_MAX);
  }

  private get critical(): readonly string[] {
    return this.level.scenario.job?.critical ?? [];
  }

  private lineOf(fact: Fact): Caption | null {
    return captionOf(fact, this.lex, this.critical, this.lines);
  }

  private tick(): boolean {
    const facts = this.session.advance();
    for (const fact of facts) {
      const line = this.lineOf(fact);
      if (line !== null) this.say(line);
      this.brakeFor(fact);
    }
    if (facts.length > 0 || this.waiting.value.size > 0) this.due = true;
    if (!this.session.over) return this.loop.speed !== 0;
    this.finish();
    return false;
  }

  private brakeFor(fact: Fact): void {
    const wanted = brake(fact, this.critical);
    const to = wanted === 'freeze' ? 0 : 1;
    if (wanted === 'none' || this.loop.speed <= to) return;
    this.setSpeed(to);
    this.braked.value = wanted;
  }

  private cautionFor(command: Command): void {
    const key = cautionOf(command);
    if (key === null || this.cautioned.has(key) || !this.lex.has(key)) return;
    this.cautioned.add(key);
    const { tick } = this.seen.value;
    this.say({ key, tone: 'caution', text: this.lex.say(key), tick });
  }

  private frame(wall_s: number): void {
    const now = this.options.wall.now();
    const snapshot = this.session.snapshot();
    this.yard?.draw(snapshot, this.session.xray(), wall_s, this.loop.speed);
    if (this.due || now - this.panelAt >= PANEL_MS) this.publish(snapshot);
    const running = this.loop.speed !== 0 && !this.session.over;
    if (this.due || (running && now - this.savedAt >= SAVE_MS)) this.save();
    this.due = false;
  }

  /** Hands the panels a new look at the rig. */
  private publish(snapshot: Snapshot = this.session.snapshot()): void {
    const now = this.options.wall.now();
    this.panelAt = now;
    if (snapshot.tick !== this.seen.value.tick || this.due) this.seen.value = snapshot;
    const waiting = this.session.waiting.flatMap((command) => {
      const id = controlOf(command);
      return id === null ? [] : [[id, command] as const];
    });
    if (waiting.length > 0 || this.waiting.value.size > 0) this.waiting.value = new Map(waiting);
    const note = noteOf(snapshot);
    if (note === null || note === this.note || now - this.noteAt < NOTE_MS) return;
    this.note = note;
    this.noteAt = now;
    this.say(heardOf(note, snapshot.tick));
  }

  private save(): void {
    this.savedAt = this.options.wall.now();
    const kept: Kept = {
      format: 1, mode: this.session.mode, saved: this.session.save(), speed: this.loop.speed,
      began: this.began,
    };
    const { store } = this.options;
    void store.keep(this.level.id, kept).then(() => { this.trouble.value = store.trouble; });
  }

  private finish(): void {
    this.loop.setSpeed(0);
    this.loop.stop();
    this.speed.value = 0;
    this.braked.value = null;
    this.greeting.value = null;
    this.publish();
    const score = this.session.score();
    this.score.value = score;
    this.view.value = 'debrief';
    this.save();
    if (score === null) return;
    const best = bestOf(score, this.session.record(), this.session.facts);
    void this.options.store.keepBest(this.level.id, best);
  }
}
