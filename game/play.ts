// One attempt as the page sees it: the session, the clock and the signals that the panels read.
// Panels call the methods here and nothing else; the drawing is told every frame.
import { signal, type Signal } from '@preact/signals';
import type { Command, Score, Snapshot } from '../sim/index.ts';
import type { Level } from '../levels/index.ts';
import { byHelper } from './asked.ts';
import { brake, type Caption } from './captions.ts';
import { lexicon, type Lexicon } from './i18n/index.ts';
import { titleOf } from './jobs.ts';
import type { Lesson } from './lesson.ts';
import { Loop, type Speed } from './loop.ts';
import type { Kept } from './attempts/entry.ts';
import { Place } from './attempts/place.ts';
import { handsBusy, speedsOf, Watch } from './pace.ts';
import type { Back, Greeting, PlayOptions, View, Yard } from './play-parts.ts';
import type { AttemptFile } from './records/attempt.ts';
import type { Rating } from './review/rating.ts';
import { Said } from './said.ts';
import { Session, type Mode } from './session.ts';
import { linesOf, type Line } from './sheet.ts';

export type { Greeting, PlayOptions, View, Yard } from './play-parts.ts';
/** Words of the panels change this often at most; the drawing changes every frame. */
const PANEL_MS = 200;

export class Play {
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
  readonly place: Place;
  readonly greeting: Signal<Greeting | null> = signal(null);
  readonly braked: Signal<'slow' | 'freeze' | null> = signal(null);
  readonly score: Signal<Score | null> = signal(null);
  /** True from the hand-over until one's own rating was given or passed over. */
  readonly rating = signal(false);
  /** The yard at an earlier moment, while one looks at it again. */
  readonly back: Signal<Back<Play> | null> = signal(null);
  readonly form: Signal<number>; // Seed of what is shown: with another the plant is drawn anew.
  session: Session;
  yard: Yard | null = null;
  /** The lines of the job's sheet; none where nothing is written down. */
  readonly lines: readonly Line[];
  readonly lesson: Lesson | null;
  readonly options: PlayOptions;
  private readonly loop: Loop;
  private panelAt = 0;
  private readonly said: Said;
  private readonly watch = new Watch();
  private due = false;
  private starting = false;

  constructor(options: PlayOptions) {
    this.options = options;
    this.lesson = options.lesson ?? null;
    this.lines = linesOf(options.level.scenario);
    this.lex = lexicon(options.level.words);
    this.said = new Said(options.level, this.lex, this.lines);
    this.session = options.again ?? Session.start(options.level, options.mode, options.seed);
    this.form = signal(this.session.seed);
    const { keeper, wall, date, draft = null } = options;
    this.place = new Place({ keeper, date, now: wall.now, draft, lost: () => this.stand() });
    this.seen = signal(this.session.snapshot());
    this.said.recall(this.session);
    const hooks = {
      tick: () => this.tick(),
      away: () => this.session.away,
      frame: (wall_s: number) => this.frame(wall_s),
      reached: (speed: number | null) => { this.reached.value = speed; },
    };
    this.loop = new Loop(this.session.tick_s, hooks, options.wall);
  }

  /** Goes on with what was kept: with the clock standing in the yard, or at its debrief. */
  takeUp(session: Session, kept: Kept): void {
    this.session = session;
    this.place.restore(kept);
    this.said.recall(session);
    this.publish();
    if (session.over) return this.judge();
    this.place.keeper.begin();
    const { time_s } = this.seen.value;
    this.greeting.value = { kind: 'resumed', time_s, speed: kept.speed === 0 ? 1 : kept.speed };
    this.view.value = 'yard';
    this.loop.start();
  }

  /** Before it is begun: how it is to be done, and in which form. */
  choose(mode: Mode, seed: number = this.session.seed): void {
    if (this.view.value !== 'front') return;
    this.session = Session.start(this.options.level, mode, seed);
    this.publish();
  }

  /** To the yard with the clock running. */
  enter(): void {
    if (this.greeting.value?.kind !== 'resumed') this.greeting.value = null;
    this.view.value = 'yard';
    if (!this.session.repeats) this.place.keeper.begin();
    this.loop.start();
    this.starting = true;
    if (this.yard !== null) this.ready();
  }

  /** The drawing stands, or cannot be had: the clock of a fresh attempt begins to run. */
  ready(): void {
    if (this.starting) this.setSpeed(1);
    this.starting = false;
  }

  /** Speeds that the mode leaves. */
  get speeds(): readonly Speed[] { return speedsOf(this.session.mode); }

  /** A new attempt, in the same form unless another is wanted or an assignment asks for one. */
  again(wanted: number = this.session.seed): void {
    const { keeper } = this.place;
    if (!keeper.mayBegin) return;
    const seed = keeper.again(wanted);
    this.place.fresh();
    this.begin(Session.start(this.options.level, this.session.mode, seed));
  }

  /** On from where `from` stands, as a branch of this attempt; never in an assessment. */
  branch(from: Session): void {
    if (this.session.mode === 'assess') return;
    const of = { of: this.place.keeper.id, tick: from.snapshot().tick };
    this.place.keeper.branch();
    this.place.fresh(of);
    this.begin(this.session.from(from));
  }

  private begin(session: Session): void {
    this.session = session;
    this.said.recall(session);
    this.back.value = null;
    this.score.value = null;
    this.looking.value = this.telling.value = false;
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
    if (this.session.over || this.place.lost) return;
    const command = this.telling.value ? byHelper(asked) : asked;
    this.session.act(command);
    this.slow();
    this.lesson?.heed({ kind: 'act', command, helped: this.telling.value });
    this.said.caution(command, this.seen.value.tick);
    this.due = true;
    this.publish();
  }

  setSpeed(speed: Speed): void {
    if (!this.speeds.includes(speed) || this.place.lost) return;
    this.place.returns(this.session);
    this.loop.setSpeed(speed);
    this.speed.value = speed;
    this.braked.value = null;
    this.lesson?.heed({ kind: 'speed', speed });
    if (speed !== 0 && this.greeting.value?.kind === 'resumed') this.greeting.value = null;
    this.due = true;
  }

  look(on: boolean): void {
    this.session.look(on);
    this.looking.value = this.session.looking;
    this.lesson?.heed({ kind: 'look', on: this.looking.value });
  }

  /** Away until so many hours are over; a frozen clock goes on, as nobody is there to look. */
  goHome(hours: number): void {
    this.act({ kind: 'leave', hours });
    if (this.loop.speed === 0) this.setSpeed(1);
  }

  /** "I'm done": judged at the next tick, done here even when the clock is frozen. */
  handOver(): void {
    if (this.place.lost) return;
    this.session.act({ kind: 'done' });
    this.tick();
  }

  /** The page is hidden or shown again. */
  setShown(shown: boolean): void {
    if (this.view.value !== 'yard' || this.place.lost) return;
    if (shown) this.loop.start();
    else this.loop.stop();
    if (this.loop.speed !== 0) this.place[shown ? 'returns' : 'leaves'](this.session);
    if (!shown) this.save();
  }

  file(who: string | null = null): AttemptFile {
    return this.place.file(this.session, who);
  }

  get level(): Level { return this.session.level; }
  get captions(): Signal<readonly Caption[]> { return this.said.captions; }
  get title(): string { return titleOf(this.level, this.lex); }

  /** It is over, or another tab goes on with it. */
  private stand(): void {
    this.loop.setSpeed(0);
    this.loop.stop();
    this.speed.value = 0;
  }

  /** An assessment comes back to real time. */
  private slow(): void {
    if (this.session.mode === 'assess') this.comeDown('slow');
  }
  private tick(): boolean {
    const facts = this.session.advance();
    for (const fact of facts) {
      const told = this.said.tell(fact, this.session);
      this.comeDown(brake(fact, this.said.critical(this.session)));
      if (told) this.slow();
      this.lesson?.heed({ kind: 'fact', fact });
    }
    if (facts.length > 0 || this.waiting.value.size > 0) this.due = true;
    if (!this.session.over) return this.loop.speed !== 0;
    this.finish();
    return false;
  }

  /** Not while nobody is there: what came about is told to whoever comes back. */
  private comeDown(wanted: 'slow' | 'freeze' | 'none'): void {
    if (this.session.away) return;
    const to = wanted === 'freeze' ? 0 : 1;
    if (wanted === 'none' || this.loop.speed <= to) return;
    this.setSpeed(to);
    this.braked.value = wanted;
  }

  private frame(wall_s: number): void {
    const now = this.options.wall.now();
    const snapshot = this.session.snapshot();
    this.yard?.draw(snapshot, this.session.xray(), wall_s, this.loop.speed);
    if (this.watch.news(snapshot) || handsBusy(snapshot)) this.slow();
    if (this.due || now - this.panelAt >= PANEL_MS) this.publish(snapshot);
    if (this.due || (this.loop.speed !== 0 && !this.session.over && this.place.stale)) this.save();
    this.due = false;
  }

  /** Hands the panels a new look at the rig. */
  private publish(snapshot: Snapshot = this.session.snapshot()): void {
    const now = this.options.wall.now();
    this.panelAt = now;
    const news = snapshot.tick !== this.seen.value.tick || this.form.value !== this.session.seed;
    if (news || this.due) this.seen.value = snapshot;
    this.form.value = this.session.seed;
    const waiting = this.session.waitingAt;
    if (waiting.size > 0 || this.waiting.value.size > 0) this.waiting.value = waiting;
    this.said.hear(snapshot, now);
  }

  /** Of a lesson nothing is kept but that it was gone through. */
  private save(): void {
    if (this.lesson !== null || this.session.repeats) return;
    this.place.save(this.session, this.loop.speed);
  }

  /** One's own rating, or null where it is passed over; then come the marks. */
  rate(rating: Rating | null): void {
    this.place.rate(rating);
    this.rating.value = false;
    this.save();
    this.place.keeper.leave(); // Nothing is written to it any more.
  }

  private finish(): void {
    if (this.session.repeats) return this.stand();
    this.rating.value = true;
    this.judge();
    this.save();
  }

  private judge(): void {
    this.stand();
    this.braked.value = null;
    this.greeting.value = null;
    this.publish();
    this.score.value = this.session.score();
    this.view.value = 'debrief';
    this.lesson?.heed({ kind: 'done' });
    if (this.lesson?.all === true) this.options.learnt?.();
  }
}
