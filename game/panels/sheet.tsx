// The sheet: what is written down while the job goes on. What stands on it stays, with its time;
// what cannot be read as a number is said beside its field and left there to be put right.
import { useSignal } from '@preact/signals';
import { clock } from '../i18n/format.ts';
import { t, upper } from '../i18n/index.ts';
import type { Play } from '../play.ts';
import {
  readTyped, unitWord, writtenOn, writtenText, type Line, type TypedFault,
} from '../sheet.ts';
import { ResidualRow } from './residual.tsx';
import { Slip } from './slip.tsx';

interface Props { readonly play: Play; readonly line: Line }

export function faultText(fault: TypedFault, typed: string, unit: string): string {
  switch (fault) {
    case 'empty': return t('sheet.empty');
    case 'no_number':
      return unit === '' ? t('sheet.no_number') : t('sheet.no_number_in', { unit });
    case 'too_fine': return t('sheet.too_fine');
    case 'too_large': return t('sheet.too_large');
    case 'which': {
      const [large, small] = [typed.replace(',', ''), typed.replace(',', '.')];
      return t('sheet.which', { large, small });
    }
  }
}

/** All that stands on a line: what was written before is struck out, as on paper. */
function OnPaper({ play, line }: Props) {
  const { facts, waiting, tick_s } = play.session;
  const all = writtenOn(line, facts, waiting, play.seen.value.tick);
  if (all.length === 0) return null;
  return (
    <ol class="written">
      {all.map(({ value_milli, tick }, at) => {
        const value = writtenText(line, value_milli);
        return (
          <li key={at}>
            {at < all.length - 1 ? <s>{value}</s> : <strong>{value}</strong>}
            {' '}
            <time>{t('sheet.at', { time: clock(tick * tick_s) })}</time>
          </li>
        );
      })}
    </ol>
  );
}

function Row({ play, line }: Props) {
  const typed = useSignal('');
  const fault = useSignal<string | null>(null);
  const part = play.lex.part(line.id);
  const unit = unitWord(line);
  const [field, note] = [`line-${line.id}`, `line-${line.id}-fault`];
  const write = (event: Event) => {
    event.preventDefault();
    const read = readTyped(typed.value, unit);
    fault.value = read.fault === null ? null : faultText(read.fault, typed.value.trim(), unit);
    if (read.fault !== null) {
      document.getElementById(field)?.focus();
      return;
    }
    play.act({ kind: 'note', entry: line.id, value_milli: read.value_milli });
    typed.value = '';
  };
  const from = line.reading === null
    ? t('sheet.from_none')
    : t('sheet.from', { instrument: play.lex.say(`reading.${line.reading}`) });
  return (
    <li class="line">
      <label class="control-name" for={field}>{upper(part)}</label>
      <span class="line-from" id={`${field}-from`}>{from}</span>
      <form class="line-form" noValidate onSubmit={write}>
        <span class="line-field">
          <input
            id={field} type="text" inputMode={line.signed ? 'text' : 'decimal'} autoComplete="off"
            maxLength={24} value={typed.value} aria-invalid={fault.value !== null}
            aria-describedby={fault.value === null ? `${field}-from` : note}
            onInput={(event) => { typed.value = event.currentTarget.value; }}
          />
          {unit !== '' && <span class="unit">{unit}</span>}
        </span>
        <button type="submit" aria-label={t('sheet.write_label', { part })}>
          {t('sheet.write')}
        </button>
      </form>
      {fault.value !== null && (
        <p class="line-fault" id={note} role="alert">{fault.value}</p>
      )}
      <OnPaper play={play} line={line} />
    </li>
  );
}

/** Nothing where a job has none. */
export function Sheet({ play }: { readonly play: Play }) {
  if (play.lines.length === 0) return null;
  return (
    <Slip id="record" name={t('sheet.name')} folds={false}>
      <p class="hint">{t('sheet.hint')}</p>
      <ul>
        {play.lines.map((line) => <Row key={line.id} play={play} line={line} />)}
        <ResidualRow play={play} />
      </ul>
    </Slip>
  );
}
