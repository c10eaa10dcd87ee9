// A line of the sheet: its name, what it is read from, a field for a number, and what stands on it.
// What cannot be read as a number is said beside the field and left there to be put right.
import type { ComponentChildren } from 'preact';
import { useSignal } from '@preact/signals';
import { t, upper } from '../i18n/index.ts';
import { readTyped } from '../sheet.ts';
import { faultText } from './paper.tsx';

interface LineRowProps {
  readonly id: string;
  readonly name: string;
  readonly from: string;
  /** Empty where the name of the line says what is meant. */
  readonly unit: string;
  /** True where a keypad needs a minus. */
  readonly signed: boolean;
  readonly write: (value_milli: number) => void;
  /** Where one may say so: that it cannot be told. */
  readonly untold?: () => void;
  /** What stands on the line already. */
  readonly children: ComponentChildren;
}

export function LineRow(props: LineRowProps) {
  const { id, name, from, unit, signed, untold, children } = props;
  const typed = useSignal('');
  const fault = useSignal<string | null>(null);
  const [field, read, note] = [`line-${id}`, `line-${id}-from`, `line-${id}-fault`];
  const done = () => {
    fault.value = null;
    typed.value = '';
  };
  const write = (event: Event) => {
    event.preventDefault();
    const number = readTyped(typed.value, unit);
    if (number.fault === null) {
      props.write(number.value_milli);
      done();
      return;
    }
    fault.value = faultText(number.fault, typed.value.trim(), unit);
    document.getElementById(field)?.focus();
  };
  const cannotTell = untold && (() => {
    untold();
    done();
  });
  return (
    <li class="line">
      <label class="control-name" for={field}>{upper(name)}</label>
      <span class="line-from" id={read}>{from}</span>
      <form class="line-form" noValidate onSubmit={write}>
        <span class="line-field">
          <input
            id={field} type="text" inputMode={signed ? 'text' : 'decimal'} autoComplete="off"
            maxLength={24} value={typed.value} aria-invalid={fault.value !== null}
            aria-describedby={fault.value === null ? read : note}
            onInput={(event) => { typed.value = event.currentTarget.value; }}
          />
          {unit !== '' && <span class="unit">{unit}</span>}
        </span>
        <button type="submit" aria-label={t('sheet.write_label', { part: name })}>
          {t('sheet.write')}
        </button>
        {cannotTell && (
          <button type="button" onClick={cannotTell}>{t('residual.untold')}</button>
        )}
      </form>
      {fault.value !== null && (
        <p class="line-fault" id={note} role="alert">{fault.value}</p>
      )}
      {children}
    </li>
  );
}
