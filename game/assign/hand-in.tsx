// What a job shows of its assignment: a line before it, and the way to hand it in after it.
import { useSignal } from '@preact/signals';
import { t } from '../i18n/index.ts';
import { FileSign } from '../icons/icons.tsx';
import type { Play } from '../play.ts';
import { download } from '../records/attempt.ts';
import { nthText } from './page.tsx';
import { LABEL_MAX } from './ticket.ts';

interface Props { readonly play: Play }

export function AssignedLine({ play }: Props) {
  const { assigned } = play.place.keeper;
  const { mode } = play.session;
  if (assigned === null) return null;
  const { ticket, nth } = assigned;
  return (
    <div class="notice">
      <p>
        <strong>{t('assign.line', { name: ticket.name, mode: t(`mode.${mode}`) })}</strong>
        {' '}{nthText(nth, ticket.attempts)}{' '}{t(`mode.${mode}_says`)}
      </p>
    </div>
  );
}

/** "loopyard-hand-in-week-3-ann-b.json". */
export function handInName(assignment: string, label: string): string {
  const plain = (text: string): string =>
    text.normalize('NFKD').replace(/\p{M}/gu, '').toLowerCase()
      .replace(/[^a-z0-9]+/g, '-').replace(/^-|-$/g, '');
  const parts = ['loopyard', 'hand-in', plain(assignment), plain(label)];
  return `${parts.filter((part) => part !== '').join('-')}.json`;
}

export function HandIn({ play }: Props) {
  const { assigned } = play.place.keeper;
  const label = useSignal(assigned?.label ?? '');
  const missing = useSignal(false);
  if (assigned === null) return null;
  const drawn = assigned.ticket.seed === null;
  const save = (event: SubmitEvent) => {
    event.preventDefault();
    const who = label.value.trim();
    missing.value = who === '';
    if (who !== '') download(handInName(assigned.ticket.name, who), play.file(who));
  };
  return (
    <section class="slip hand-in" aria-labelledby="hand-in">
      <h2 id="hand-in">{t('assign.hand_in')}</h2>
      <p>{t('assign.hand_in_hint')}</p>
      <form class="fields" onSubmit={save} noValidate>
        {drawn ? <p>{t('assign.hand_in_fixed', { label: assigned.label })}</p> : (
          <>
            <label for="hand-in-label">{t('assign.label')}</label>
            <input
              id="hand-in-label" type="text" autoComplete="name" maxLength={LABEL_MAX}
              value={label.value} required aria-invalid={missing.value}
              onInput={(event) => { label.value = event.currentTarget.value; }}
            />
          </>
        )}
        <p role="alert" class="wrong-line">{missing.value && t('assign.label_needed')}</p>
        <div class="actions">
          <button class="primary"><FileSign /> {t('assign.hand_in_save')}</button>
        </div>
      </form>
    </section>
  );
}
