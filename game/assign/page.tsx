// What an assignment asks for: shown when its link or file is opened, before anything is begun.
import { useSignal } from '@preact/signals';
import { ENGINE, scenarioHash } from '../../sim/index.ts';
import type { Entry } from '../attempts/entry.ts';
import { number } from '../i18n/format.ts';
import { lexicon, t } from '../i18n/index.ts';
import { formName } from '../forms.ts';
import { Brand } from '../panels/brand.tsx';
import { Rows } from '../panels/brief.tsx';
import { levelOf } from './levels.ts';
import { LABEL_MAX, type Ticket } from './ticket.ts';

interface Props {
  readonly ticket: Ticket;
  /** As it was typed at an earlier visit. */
  readonly label: string;
  readonly begun: number;
  readonly newest: Entry | null;
  readonly go: (label: string) => void;
}

function attemptsText({ attempts }: Ticket, begun: number): string {
  if (attempts === null) return t('assign.attempts_any');
  return t('assign.attempts_of', { n: attempts, begun });
}

function rowsOf(ticket: Ticket, begun: number): readonly (readonly [string, string])[] {
  const level = levelOf(ticket.job);
  const lex = lexicon(level?.words ?? {});
  const phase = ticket.phase === null ? t('assign.whole') : lex.say(`phase.${ticket.phase}`);
  const drawn = t(ticket.again === 'same' ? 'assign.seed_same' : 'assign.seed_own');
  const seed = ticket.seed === null ? drawn
    : t('assign.seed_fixed', { form: formName(ticket.seed) });
  return [
    [t('assign.job'), level === null ? ticket.job : lex.say('title')],
    [t('assign.what'), phase],
    [t('assign.mode'), t(`mode.${ticket.mode}`)],
    [t('assign.attempts'), attemptsText(ticket, begun)],
    [t('assign.seed'), seed],
  ];
}

/** The way on: to a first attempt, back to one that waits, or to the debrief of the last. */
function goWord(newest: Entry | null) {
  if (newest === null) return t('assign.begin');
  return t(newest.finished ? 'assign.see' : 'assign.go_on');
}

function LabelForm({ ticket, label, begun, newest, go }: Props) {
  const typed = useSignal(label);
  const missing = useSignal(false);
  const used = newest === null && begun >= (ticket.attempts ?? Infinity);
  if (used) return <p class="wrong-line">{t('assign.used')}</p>;
  const submit = (event: SubmitEvent) => {
    event.preventDefault();
    missing.value = typed.value.trim() === '';
    if (!missing.value) go(typed.value.trim());
  };
  return (
    <form class="fields" onSubmit={submit} noValidate>
      <label for="label">{t('assign.label')}</label>
      <input
        id="label" type="text" autoComplete="name" maxLength={LABEL_MAX} value={typed.value}
        readOnly={begun > 0} required aria-describedby="label-hint" aria-invalid={missing.value}
        onInput={(event) => { typed.value = event.currentTarget.value; }}
      />
      <p class="hint" id="label-hint">{t('assign.label_hint')}</p>
      <p role="alert" class="wrong-line">{missing.value && t('assign.label_needed')}</p>
      <div class="actions">
        <button class="primary">{goWord(newest)}</button>
      </div>
    </form>
  );
}

export function AssignmentPage(props: Props) {
  const { ticket, begun } = props;
  const level = levelOf(ticket.job, ticket.phase);
  const newer = level !== null
    && (ticket.engine !== ENGINE || ticket.scenario_hash !== scenarioHash(level.scenario));
  return (
    <main class="front">
      <Brand />
      <article class="slip plain-slip">
        <p class="eyebrow">{t('assign.eyebrow')}</p>
        <h1>{ticket.name}</h1>
        <Rows rows={rowsOf(ticket, begun)} />
        <p>{t(`mode.${ticket.mode}_says`)}</p>
        {newer && <p class="wrong-line">{t('assign.newer')}</p>}
        {level === null
          ? <p class="wrong-line">{t('assign.no_job', { job: ticket.job })}</p>
          : <LabelForm {...props} />}
      </article>
      <p class="hint">{t('app.aid')}</p>
    </main>
  );
}

export function nthText(nth: number, attempts: number | null): string {
  if (attempts === null) return t('assign.nth', { n: number(nth) });
  return t('assign.nth_of', { n: number(nth), count: number(attempts) });
}
