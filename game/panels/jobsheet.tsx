// The job sheet to be filled in: one form with all its lines, on the job's own page and in the yard
// until work begins. What cannot be read is told all at once and stays as it was typed.
import { useComputed, useSignal } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import { t } from '../i18n/index.ts';
import {
  answersOf, draftOf, isOpen, keepTyped, writeSheet, type SheetDraft,
} from '../jobsheet-draft.ts';
import { answerText, fieldsOf, type Field } from '../jobsheet.ts';
import type { Play } from '../play.ts';
import { Rows } from './brief.tsx';
import { Given } from './jobsheet-given.tsx';
import { faultText } from './paper.tsx';
import { Slip, unfold } from './slip.tsx';

interface Props { readonly play: Play }

const fieldId = (id: string) => `jobsheet-${id}`;

function Faults({ draft }: { readonly draft: SheetDraft }) {
  const faults = draft.faults.value;
  if (faults.size === 0) return null;
  const wrong = draft.entries.filter(({ field }) => faults.has(field.id));
  return (
    <div class="jobsheet-faults" role="alert">
      <p>{t('jobsheet.faults', { n: faults.size })}</p>
      <ul>
        {wrong.map(({ field }) => (
          <li key={field.id}><a href={`#${fieldId(field.id)}`}>{field.name}</a></li>
        ))}
      </ul>
    </div>
  );
}

function Row({ draft, field }: { readonly draft: SheetDraft; readonly field: Field }) {
  const entry = draft.entries.find((one) => one.field.id === field.id);
  if (entry === undefined) return null;
  const { typed, untold } = entry;
  const id = fieldId(field.id);
  const fault = draft.faults.value.get(field.id);
  const hints = [`${id}-hint`, ...(fault === undefined ? [] : [`${id}-fault`])];
  return (
    <li class="line">
      <label class="control-name" for={id}>{field.name}</label>
      <span class="line-field">
        <input
          id={id} type="text" inputMode="decimal" autoComplete="off" maxLength={24}
          value={typed.value} disabled={untold.value} aria-invalid={fault !== undefined}
          aria-describedby={hints.join(' ')}
          onInput={(event) => { typed.value = event.currentTarget.value; }}
        />
        <span class="unit">{field.unit}</span>
      </span>
      <span class="line-from" id={`${id}-hint`}>{t(`jobsheet_hint.${field.kind}`)}</span>
      {field.kind === 'drop' && (
        <label class="jobsheet-untold">
          <input
            type="checkbox" checked={untold.value}
            onChange={(event) => { untold.value = event.currentTarget.checked; }}
          />
          {t('jobsheet.say_cannot_tell')}
        </label>
      )}
      {fault !== undefined && (
        <p class="line-fault" id={`${id}-fault`}>
          {faultText(fault, typed.value.trim(), field.unit)}
        </p>
      )}
    </li>
  );
}

function Form({ play }: Props) {
  const draft = draftOf(play);
  const form = useRef<HTMLFormElement>(null);
  const written = useSignal(false);
  const write = (event: Event) => {
    event.preventDefault();
    written.value = writeSheet(play);
    if (!written.value) focusFault(form.current);
  };
  return (
    <form
      ref={form} class="jobsheet-form" noValidate onSubmit={write}
      onInput={() => {
        written.value = false;
        keepTyped(play);
      }}
    >
      <p class="hint">{t('jobsheet.says')}</p>
      <Faults draft={draft} />
      <Given scenario={play.level.scenario} lex={play.lex} />
      <ul>
        {draft.entries.map(({ field }) => <Row key={field.id} draft={draft} field={field} />)}
      </ul>
      <div class="jobsheet-end">
        <button type="submit">{t('jobsheet.write')}</button>
        <span role="status">
          {written.value
            ? t('jobsheet.written', { n: draft.filled, of: draft.entries.length })
            : t('jobsheet.filled', { n: draft.filled, of: draft.entries.length })}
        </span>
      </div>
    </form>
  );
}

/** After what is told of it has been drawn. */
function focusFault(form: HTMLFormElement | null): void {
  setTimeout(() => form?.querySelector<HTMLElement>('[aria-invalid="true"]')?.focus());
}

/** What was written: one's own numbers, whatever they should be. */
function Written({ play }: Props) {
  const answers = answersOf(play);
  return (
    <>
      <p class="hint">{t('jobsheet.closed')}</p>
      <Rows rows={fieldsOf(play.level.scenario, play.lex).map(({ id, kind, name }) => {
        const value = answers.get(id);
        return [name, value === undefined ? t('jobsheet.empty') : answerText(kind, value)];
      })} />
    </>
  );
}

const hasSheet = ({ level }: Play): boolean => level.scenario.job?.sheet !== undefined;

/** On the job's own page; nothing of a job without one. */
export function JobSheetPart({ play }: Props) {
  if (!hasSheet(play)) return null;
  return (
    <section class="jobsheet" id="jobsheet" aria-labelledby="jobsheet-name">
      <h2 class="part-name" id="jobsheet-name">{t('jobsheet.name')}</h2>
      <Form play={play} />
    </section>
  );
}

/** In the yard, as long as lines are empty and can still be filled in. */
export function JobSheetNotice({ play }: Props) {
  const of = play.level.scenario.job?.sheet?.lines.length ?? 0;
  const empty = useComputed(() => {
    void play.seen.value; // Something may have been written, or begun.
    return of > 0 && isOpen(play) ? of - answersOf(play).size : 0;
  });
  if (empty.value === 0) return null;
  return (
    <div class="notice" role="status">
      <p>{t('jobsheet.still_empty', { n: empty.value, of })}</p>
      <a class="button" href="#jobsheet" onClick={() => unfold('jobsheet')}>
        {t('jobsheet.fill_in')}
      </a>
    </div>
  );
}

/** In the yard: to be filled in until a hand is on a control, to be looked at from then on. */
export function JobSheetSlip({ play }: Props) {
  const open = useComputed(() => {
    void play.seen.value; // Something may have begun.
    return hasSheet(play) && isOpen(play);
  });
  const { session } = play;
  useEffect(() => { // A new attempt at the same form begins with the sheet as it was.
    if (!hasSheet(play) || writeSheet(play)) return;
    draftOf(play).faults.value = new Map(); // Nobody asked yet.
  }, [play, session]);
  if (!hasSheet(play)) return null;
  return (
    <Slip id="jobsheet" name={t('jobsheet.name')} folds>
      {open.value ? <Form play={play} /> : <Written play={play} />}
    </Slip>
  );
}

/** Goes on to work with all that is filled in; stays where any of it cannot be read. */
export function goToWork(play: Play): void {
  if (hasSheet(play) && !writeSheet(play)) {
    focusFault(document.querySelector<HTMLFormElement>('.jobsheet-form'));
    return;
  }
  play.enter();
}
