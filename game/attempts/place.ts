// Keeps one's place: what is saved of a session, when, and what stands in the way of it.
import { signal, type Signal } from '@preact/signals';
import type { Speed } from '../loop.ts';
import { attemptFile, type AttemptFile } from '../records/attempt.ts';
import type { Rating } from '../review/rating.ts';
import type { Session } from '../session.ts';
import { AwayLog } from './away.ts';
import { draftKey, type Draft, type Typed } from './draft.ts';
import type { Branch, Kept } from './entry.ts';
import type { Keeper, KeepTrouble } from './keeper.ts';

/** While the clock runs, ms between two saves: with the time of a save itself, below a second. */
const SAVE_MS = 500;

export interface PlaceOptions {
  readonly keeper: Keeper;
  readonly date: () => Date;
  /** ms of the wall. */
  readonly now: () => number;
  /** What was being typed when the page was last closed, of this attempt or another. */
  readonly draft?: Draft | null;
  /** Another tab goes on with it. */
  readonly lost: () => void;
}

export class Place {
  readonly trouble: Signal<KeepTrouble | null> = signal(null);
  readonly keeper: Keeper;
  private readonly options: PlaceOptions;
  private readonly away = new AwayLog();
  private began: string;
  /** When it was handed over: the same however often it is saved afterwards. */
  private ended: string | null = null;
  /** One's own rating, null where it was passed over; undefined as long as it was not asked for. */
  private rating: Rating | null | undefined = undefined;
  private from: Branch | null = null;
  private savedAt = 0;
  /** Tick of the last save that the storage has answered. */
  private landed = 0;
  /** True once a save of this attempt has landed: from then on what is typed is typed in it. */
  private stands = false;
  private draft: Draft | null;

  constructor(options: PlaceOptions) {
    this.options = options;
    this.keeper = options.keeper;
    this.draft = options.draft ?? null;
    this.began = options.date().toISOString();
    this.keeper.onTaken = () => {
      this.trouble.value = 'taken';
      options.lost();
    };
  }

  get lost(): boolean { return this.trouble.value === 'taken'; }
  /** True when the last save is so long ago that another one is due. */
  get stale(): boolean { return this.options.now() - this.savedAt >= SAVE_MS; }

  /** The attempt that this one goes on with from its middle, if it does. */
  get branch(): Branch | null { return this.from; }
  get rated(): Rating | null { return this.rating ?? null; }

  rate(rating: Rating | null): void {
    this.rating = rating;
  }

  /** A new attempt begins, or one that goes on from the middle of another. */
  fresh(from: Branch | null = null): void {
    this.began = this.options.date().toISOString();
    this.ended = null;
    this.rating = undefined;
    this.from = from;
    this.landed = 0;
    this.stands = false;
    this.away.restore([]);
  }

  /** One that was kept is taken up; the clock of an assessment stood since then. */
  restore({ mode, saved, began, at = began, away = [], rating, branch }: Kept): void {
    this.rating = rating;
    this.from = branch ?? null;
    const over = saved.facts.some(({ kind }) => kind === 'done');
    this.began = began;
    this.ended = over ? at : null;
    this.landed = saved.record.end_tick;
    this.stands = true;
    this.away.restore(away);
    if (mode === 'assess' && !over) this.away.leaves(Date.parse(at));
  }

  /** The page goes out of sight while the clock runs. */
  leaves(session: Session): void {
    if (session.mode === 'assess') this.away.leaves(this.options.date().getTime());
  }

  returns(session: Session): void {
    this.away.returns(session.snapshot().tick, this.options.date().getTime());
  }

  save(session: Session, speed: Speed): void {
    this.savedAt = this.options.now();
    if (this.lost) return;
    const marks = session.score();
    const kept = this.kept(session, speed);
    const { id } = this.keeper;
    const { end_tick } = kept.saved.record;
    this.keeper.jot(session.tail(this.landed));
    void this.keeper.keep(kept, marks).then((saved) => {
      if (saved === 'kept' && id === this.keeper.id) {
        this.landed = end_tick;
        this.stands = true;
        const { draft } = this; // From now on of this attempt, not of the next one's first page.
        const own = draft?.seed === session.seed;
        if (draft?.attempt === null) this.keepTyped(session, own ? draft.typed : {});
      }
      if (!this.lost) this.trouble.value = saved === 'kept' ? null : saved;
    });
    // The best marks are of whole attempts: a branch had the first part of its job given.
    const whole = this.from === null;
    if (marks !== null && whole) void this.keeper.keepBest(session.level.id, marks, kept);
  }

  /** What was typed on the sheet of this attempt in this form, if anything was kept of it. */
  typedIn({ seed }: Session): Typed | null {
    const { draft } = this;
    return draft?.seed === seed && draft.attempt === this.typedAs ? draft.typed : null;
  }

  /** With the mode and the form that are chosen. */
  keepTyped({ mode, seed, level }: Session, typed: Typed): void {
    const count = (this.draft?.count ?? 0) + 1;
    this.draft = { format: 1, count, attempt: this.typedAs, mode, seed, typed };
    this.keeper.keepDraft(draftKey(level.id, this.keeper.assigned), this.draft);
  }

  private get typedAs(): string | null { return this.stands ? this.keeper.id : null; }

  file(session: Session, who: string | null): AttemptFile {
    const { id, assigned } = this.keeper;
    return attemptFile({
      kept: this.kept(session, 0), marks: session.score(), id, assigned, who,
    });
  }

  private kept(session: Session, speed: Speed): Kept {
    const at = this.ended ?? this.options.date().toISOString();
    if (session.over) this.ended = at;
    return {
      format: 1, mode: session.mode, saved: session.save(), speed, began: this.began, at,
      away: [...this.away.list], ...(this.rating === undefined ? {} : { rating: this.rating }),
      ...(this.from === null ? {} : { branch: this.from }),
    };
  }
}
