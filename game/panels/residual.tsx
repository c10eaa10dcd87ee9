// The line of the sheet that no instrument shows: the air that is left, worked out from two levels.
// A number, or that it cannot be told; what stands there stays, with its time.
import { useSignal } from '@preact/signals';
import { RESIDUAL, residualOf } from '../../sim/index.ts';
import { t, upper } from '../i18n/index.ts';
import { answerText, unitWordOf, writtenAnswers } from '../jobsheet.ts';
import type { Play } from '../play.ts';
import { readTyped } from '../sheet.ts';
import { faultText, Paper } from './paper.tsx';

interface Props { readonly play: Play }

function OnPaper({ play }: Props) {
  const { told, waiting } = play.session;
  const all = writtenAnswers(RESIDUAL, told, waiting, play.seen.value.tick);
  const texts = all.map(({ value, tick }) => ({ text: answerText(RESIDUAL, value), tick }));
  return <Paper play={play} all={texts} />;
}

/** Nothing of a job without that line. */
export function ResidualRow({ play }: Props) {
  const typed = useSignal('');
  const fault = useSignal<string | null>(null);
  const line = residualOf(play.level.scenario);
  if (line === null) return null;
  const name = play.lex.say('sheet_line.residual');
  const unit = unitWordOf('residual');
  const [open, shut] = [play.lex.part(line.open), play.lex.part(line.shut)];
  const say = (value_milli: number | null) => {
    fault.value = null;
    typed.value = '';
    play.act({ kind: 'answer', line: RESIDUAL, value_milli });
  };
  const write = (event: Event) => {
    event.preventDefault();
    const read = readTyped(typed.value, unit);
    if (read.fault === null) {
      say(read.value_milli);
      return;
    }
    fault.value = faultText(read.fault, typed.value.trim(), unit);
    document.getElementById('line-residual')?.focus();
  };
  return (
    <li class="line">
      <label class="control-name" for="line-residual">{upper(name)}</label>
      <span class="line-from" id="line-residual-from">{t('residual.from', { open, shut })}</span>
      <form class="line-form" noValidate onSubmit={write}>
        <span class="line-field">
          <input
            id="line-residual" type="text" inputMode="decimal" autoComplete="off" maxLength={24}
            value={typed.value} aria-invalid={fault.value !== null}
            aria-describedby={fault.value === null ? 'line-residual-from' : 'line-residual-fault'}
            onInput={(event) => { typed.value = event.currentTarget.value; }}
          />
          <span class="unit">{unit}</span>
        </span>
        <button type="submit" aria-label={t('sheet.write_label', { part: name })}>
          {t('sheet.write')}
        </button>
        <button type="button" onClick={() => say(null)}>{t('residual.untold')}</button>
      </form>
      {fault.value !== null && (
        <p class="line-fault" id="line-residual-fault" role="alert">{fault.value}</p>
      )}
      <OnPaper play={play} />
    </li>
  );
}
