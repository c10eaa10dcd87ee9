// The sheet: what is written down while the job goes on. What stands on it stays, with its time;
// what cannot be read as a number is said beside its field and left there to be put right.
import { useSignal } from '@preact/signals';
import { t, upper } from '../i18n/index.ts';
import type { Play } from '../play.ts';
import { readTyped, unitWord, writtenOn, writtenText, type Line } from '../sheet.ts';
import { faultText, Paper } from './paper.tsx';
import { ResidualRow } from './residual.tsx';
import { Slip } from './slip.tsx';

interface Props { readonly play: Play; readonly line: Line }

/** All that stands on a line. */
function OnPaper({ play, line }: Props) {
  const { facts, waiting } = play.session;
  const all = writtenOn(line, facts, waiting, play.seen.value.tick);
  const texts = all.map(({ value_milli, tick }) => {
    return { text: writtenText(line, value_milli), tick };
  });
  return <Paper play={play} all={texts} />;
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
