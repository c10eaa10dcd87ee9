// What is said of an attempt: a line for each fact that has words, for each change of the pump's
// note and for each caution, the newest of them kept.
import { signal, type Signal } from '@preact/signals';
import type { Command, Snapshot } from '../sim/index.ts';
import type { Level } from '../levels/index.ts';
import { Cautions } from './asked.ts';
import { captionOf, type Caption } from './captions.ts';
import { Ear } from './ear.ts';
import { t, type Lexicon } from './i18n/index.ts';
import { changesOf, shownBy } from './night.ts';
import type { Session, Told } from './session.ts';
import type { Line } from './sheet.ts';

const LOG_MAX = 60;

export class Said {
  readonly captions: Signal<readonly Caption[]> = signal([]);
  private readonly level: Level;
  private readonly lex: Lexicon;
  private readonly lines: readonly Line[];
  private readonly ear = new Ear();
  private readonly cautions = new Cautions();
  /** What the instruments showed when one left. */
  private before: ReturnType<typeof shownBy> | null = null;
  /** How many lines were said since then. */
  private meanwhile = 0;

  constructor(level: Level, lex: Lexicon, lines: readonly Line[]) {
    this.level = level;
    this.lex = lex;
    this.lines = lines;
  }

  /** What fails the job, as far as one is told so at once: in an assessment the end tells. */
  critical({ mode }: Session): readonly string[] {
    return mode === 'assess' ? [] : this.level.scenario.job?.critical ?? [];
  }

  say(caption: Caption): void {
    this.captions.value = [...this.captions.value, caption].slice(-LOG_MAX);
  }

  /** True where there were words for it. */
  tell(fact: Told, session: Session): boolean {
    const line = this.lineOf(fact, session);
    this.meanwhile += line === null ? 0 : 1;
    if (line !== null) this.say(fact.kind === 'back' ? this.report(line, session) : line);
    if (fact.kind === 'left') {
      this.before = this.shown(session);
      this.meanwhile = 0;
    }
    return line !== null;
  }

  /** The lines of a session that is taken up, and what sounds there already. */
  recall(session: Session): void {
    const lines = session.told.flatMap((fact) => this.lineOf(fact, session) ?? []);
    this.captions.value = lines.slice(-LOG_MAX);
    this.before = null;
    this.ear.knows(session.snapshot());
  }

  hear(snapshot: Snapshot, now: number): void {
    const heard = this.ear.hears(snapshot, now);
    if (heard !== null) this.say(heard);
  }

  /** The caution that a control asks for, once. */
  caution(command: Command, tick: number): void {
    const key = this.cautions.next(command, this.lex);
    if (key !== null) this.say({ key, tone: 'caution', text: this.lex.say(key), tick });
  }

  private shown(session: Session) {
    return shownBy(session.snapshot(), session.level.scenario, this.lex);
  }

  /** Back after hours: what is found otherwise; nothing of it where the page was closed since. */
  private report(line: Caption, session: Session): Caption {
    if (this.before === null) return line;
    const rows = changesOf(this.before, this.shown(session));
    const text = t(rows.length === 0 ? 'said.back_same' : 'said.back_changed');
    const n = this.meanwhile - 1; // But for this line itself.
    const more = n > 0 ? [t('said.meanwhile', { n, log: t('log.name') })] : [];
    this.before = null;
    return { ...line, tone: 'report', text, rows: [...rows, ...more] };
  }

  private lineOf(fact: Told, session: Session): Caption | null {
    return captionOf(fact, this.lex, this.critical(session), this.lines);
  }
}
