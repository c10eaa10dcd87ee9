// What is being typed on the job sheet. It stays, whatever is shown of it, and is kept through a
// reload; nothing is written down that cannot be read, and nothing that can is lost on the way to
// work.
import { signal, type Signal } from '@preact/signals';
import type { Command } from '../sim/index.ts';
import { answersIn, fieldsOf, typedText, type Field } from './jobsheet.ts';
import type { Typed } from './attempts/draft.ts';
import type { Play } from './play.ts';
import type { Session } from './session.ts';
import { readTyped, type TypedFault } from './sheet.ts';

export type Answer = Extract<Command, { kind: 'answer' }>;

interface Entry {
  readonly field: Field;
  readonly typed: Signal<string>;
  /** True where one says that it cannot be told. */
  readonly untold: Signal<boolean>;
}

export class SheetDraft {
  readonly entries: readonly Entry[];
  readonly faults: Signal<ReadonlyMap<string, TypedFault>> = signal(new Map());

  /** What was typed goes before what was answered. */
  constructor(
    fields: readonly Field[],
    answers: ReadonlyMap<string, number | null>,
    typed: Typed = {},
  ) {
    this.entries = fields.map((field) => {
      const value = answers.get(field.id);
      const said = value === undefined || value === null ? '' : typedText(field.kind, value);
      const text = typed[field.id] ?? said;
      const untold = field.id in typed ? typed[field.id] === null : value === null;
      return { field, typed: signal(text), untold: signal(untold) };
    });
  }

  /** As it is kept while it is being typed. */
  get typed(): Typed {
    return Object.fromEntries(this.entries.map(({ field, typed, untold }) =>
      [field.id, untold.value ? null : typed.value]));
  }

  /** What is filled in, as commands; null where any cannot be read, and what is wrong with it. */
  read(): readonly Answer[] | null {
    const faults = new Map<string, TypedFault>();
    const answers = this.entries.flatMap(({ field, typed, untold }): Answer[] => {
      const { id: line, unit } = field;
      if (untold.value) return [{ kind: 'answer', line, value_milli: null }];
      if (typed.value.trim() === '') return [];
      const { value_milli, fault } = readTyped(typed.value, unit);
      if (fault === null) return [{ kind: 'answer', line, value_milli }];
      faults.set(line, fault);
      return [];
    });
    this.faults.value = faults;
    return faults.size === 0 ? answers : null;
  }

  get filled(): number {
    return this.entries.filter(({ typed, untold }) => untold.value || typed.value.trim() !== '')
      .length;
  }
}

const drafts = new WeakMap<Play, { readonly seed: number; readonly draft: SheetDraft }>();

/** Of another form of the job, another sheet; of a new attempt at the same one, the same. */
export function draftOf(play: Play): SheetDraft {
  const { seed } = play.session;
  const known = drafts.get(play);
  if (known?.seed === seed) return known.draft;
  const typed = isOpen(play) ? play.place.typedIn(play.session) : null;
  const fields = fieldsOf(play.level.scenario, play.lex);
  const draft = new SheetDraft(fields, answersOf(play), typed ?? {});
  drafts.set(play, { seed, draft });
  return draft;
}

/** So that a page which is closed or killed comes back to what was typed and chosen. */
export function keepTyped(play: Play): void {
  play.place.keepTyped(play.session, draftOf(play).typed);
}

type Answers = ReadonlyMap<string, number | null>;

const NONE: Answers = new Map();
/** What stands on sheets that are closed: it stays, however often a panel asks. */
const closed = new WeakMap<Session, Answers>();

/** What stands on the sheet, SI. */
export function answersOf({ level, session }: Play): Answers {
  if (level.scenario.job?.sheet === undefined) return NONE;
  const known = closed.get(session);
  if (known !== undefined) return known;
  const answers = answersIn(level.scenario, session.told, session.waiting);
  if (isClosed(session)) closed.set(session, answers);
  return answers;
}

/** True until a hand is asked to a control: then the sheet is closed. */
export function isOpen({ session }: Play): boolean {
  return !isClosed(session) && !session.waiting.some(begins);
}

function isClosed(session: Session): boolean {
  if (session.over || closed.has(session)) return true;
  return session.told.some((fact) => fact.kind === 'command' && begins(fact.command));
}

const begins = ({ kind }: Command): boolean => !['answer', 'note', 'done'].includes(kind);

/** Writes down what is new on the sheet. False, with its faults told, where any cannot be read. */
export function writeSheet(play: Play): boolean {
  if (!isOpen(play)) return true;
  const answers = draftOf(play).read();
  if (answers === null) return false;
  const before = answersOf(play);
  for (const answer of answers) {
    const kind = draftOf(play).entries.find(({ field }) => field.id === answer.line)?.field.kind;
    const stands = before.get(answer.line);
    const milli = answer.value_milli;
    const same = milli === null || kind === undefined || stands === undefined || stands === null
      ? stands === milli
      : typedText(kind, stands) === String(milli / 1000);
    if (!same) play.act(answer);
  }
  return true;
}
