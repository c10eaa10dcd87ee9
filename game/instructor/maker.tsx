// Makes an assignment: what is asked for, and the three ways to send it.
import { useSignal, type Signal } from '@preact/signals';
import { LEVELS } from '../../levels/index.ts';
import { ENGINE, PHASES, scenarioHash, type Phase } from '../../sim/index.ts';
import { levelOf, phasesOf } from '../assign/levels.ts';
import {
  ATTEMPTS_MAX, drawId, NAME_MAX, SEED_MAX, TICKET_MODES, ticketLink, type Ticket,
} from '../assign/ticket.ts';
import { formNumber } from '../forms.ts';
import { lexicon, t, type WordKey } from '../i18n/index.ts';
import { FileSign } from '../icons/icons.tsx';
import { download } from '../records/attempt.ts';
import { Qr } from './qr.tsx';

/** As the form holds it: what was typed. */
export interface Draft {
  readonly name: string;
  readonly job: string;
  readonly phase: string;
  readonly mode: string;
  readonly seed: 'own' | 'same' | 'fixed';
  readonly seed_number: string;
  readonly attempts: string;
}

const EMPTY: Draft = {
  name: '', job: LEVELS[0]?.id ?? '', phase: '', mode: 'assess', seed: 'own', seed_number: '1',
  attempts: '',
};

const wholeOf = (typed: string, least: number, most: number): number | null => {
  const value = /^\d{1,10}$/.test(typed.trim()) ? Number(typed) : NaN;
  return value >= least && value <= most ? value : null;
};

/** The ticket of a draft, or the key of what is wrong with it. */
export function ticketOf(draft: Draft, id: string): Ticket | WordKey {
  const phase: Phase | null = PHASES.find((one) => one === draft.phase) ?? null;
  const mode = TICKET_MODES.find((one) => one === draft.mode) ?? 'assess';
  const level = levelOf(draft.job, phase);
  if (draft.name.trim() === '' || level === null) return 'instructor.make_name_needed';
  const seed = draft.seed === 'fixed' ? wholeOf(draft.seed_number, 0, SEED_MAX) : null;
  if (draft.seed === 'fixed' && seed === null) return 'instructor.make_seed_wrong';
  const any = draft.attempts.trim() === '';
  const attempts = any ? null : wholeOf(draft.attempts, 1, ATTEMPTS_MAX);
  if (!any && attempts === null) return 'instructor.make_attempts_wrong';
  return {
    format: 1, kind: 'assignment', id, name: draft.name.trim(), job: draft.job, phase, mode, seed,
    ...(draft.seed === 'same' ? { again: 'same' } : {}),
    attempts, scenario_hash: scenarioHash(level.scenario), engine: ENGINE,
  };
}

interface FieldProps {
  readonly draft: Signal<Draft>;
  readonly wrong: Signal<WordKey | null>;
}

/** The field that each fault is in. */
const FIELD_OF: Readonly<Partial<Record<WordKey, keyof Draft>>> = {
  'instructor.make_name_needed': 'name',
  'instructor.make_seed_wrong': 'seed_number',
  'instructor.make_attempts_wrong': 'attempts',
};

function Choice({ draft, field, name, options }: Pick<FieldProps, 'draft'> & {
  readonly field: 'job' | 'phase' | 'mode' | 'seed';
  readonly name: string;
  readonly options: readonly (readonly [value: string, text: string])[];
}) {
  return (
    <div class="field">
      <label for={`make-${field}`}>{name}</label>
      <select
        id={`make-${field}`} value={draft.value[field]}
        onChange={(event) => {
          const { value } = event.currentTarget;
          const rest = field === 'job' ? { phase: '' } : {};
          draft.value = { ...draft.value, ...rest, [field]: value };
        }}
      >
        {options.map(([value, text]) => <option key={value} value={value}>{text}</option>)}
      </select>
    </div>
  );
}

function Text({ draft, wrong, field, name, hint, most }: FieldProps & {
  readonly field: 'name' | 'seed_number' | 'attempts';
  readonly name: string;
  readonly hint?: string;
  readonly most: number;
}) {
  const id = `make-${field}`;
  return (
    <div class="field">
      <label for={id}>{name}</label>
      <input
        id={id} type="text" maxLength={most} value={draft.value[field]} autoComplete="off"
        inputMode={field === 'name' ? 'text' : 'numeric'}
        aria-invalid={wrong.value !== null && FIELD_OF[wrong.value] === field}
        {...(hint === undefined ? {} : { 'aria-describedby': `${id}-hint` })}
        onInput={(event) => {
          draft.value = { ...draft.value, [field]: event.currentTarget.value };
          wrong.value = null;
        }}
      />
      {hint !== undefined && <p class="hint" id={`${id}-hint`}>{hint}</p>}
    </div>
  );
}

function Fields({ draft, wrong }: FieldProps) {
  const words = (job: string) => lexicon(levelOf(job)?.words ?? {});
  const { job, seed } = draft.value;
  const phases = phasesOf(job).map((phase) => [phase, words(job).say(`phase.${phase}`)] as const);
  return (
    <>
      <Text
        draft={draft} wrong={wrong} field="name" name={t('instructor.make_name')} most={NAME_MAX}
      />
      <Choice
        draft={draft} field="job" name={t('instructor.make_job')}
        options={LEVELS.map(({ id }) => [id, words(id).say('title')])}
      />
      {phases.length > 0 && (
        <Choice
          draft={draft} field="phase" name={t('instructor.make_phase')}
          options={[['', t('assign.whole')], ...phases]}
        />
      )}
      <Choice
        draft={draft} field="mode" name={t('instructor.make_mode')}
        options={TICKET_MODES.map((mode) => [mode, t(`mode.${mode}`)])}
      />
      <Choice
        draft={draft} field="seed" name={t('instructor.make_seed')}
        options={[
          ['own', t('instructor.make_seed_own')], ['same', t('instructor.make_seed_same')],
          ['fixed', t('instructor.make_seed_fixed')],
        ]}
      />
      {seed === 'fixed' && (
        <Text
          draft={draft} wrong={wrong} field="seed_number" name={t('instructor.make_seed_number')}
          most={10}
        />
      )}
      <Text
        draft={draft} wrong={wrong} field="attempts" name={t('instructor.make_attempts')} most={2}
        hint={t('instructor.make_attempts_hint')}
      />
    </>
  );
}

/** What was asked for, in one line: to see at a glance before it is sent. */
function askedText({ job, phase, mode, seed, again, attempts }: Ticket): string {
  const lex = lexicon(levelOf(job)?.words ?? {});
  const drawn = t(again === 'same' ? 'instructor.make_seed_same' : 'instructor.make_seed_own');
  return [
    lex.say('title'), phase === null ? t('assign.whole') : lex.say(`phase.${phase}`),
    t(`mode.${mode}`),
    t('instructor.made_form', { form: seed === null ? drawn : formNumber(seed) }),
    attempts === null ? t('instructor.made_any') : t('instructor.made_attempts', { n: attempts }),
  ].join(' · ');
}

/** The page that opens assignments, from the address of this one. */
const traineePage = (): string => new URL('./', location.href).href;

function Made({ ticket, again }: { readonly ticket: Ticket; readonly again: () => void }) {
  const copied = useSignal<boolean | null>(null);
  const link = ticketLink(traineePage(), ticket);
  const copy = async () => {
    try {
      await navigator.clipboard.writeText(link);
      copied.value = true;
    } catch {
      copied.value = false;
    }
  };
  return (
    <div class="made">
      <h3>{t('instructor.made', { name: ticket.name })}</h3>
      <p>{askedText(ticket)}</p>
      <div class="made-ways">
        <div>
          <div class="field">
            <label for="made-link">{t('instructor.made_link')}</label>
            <input
              id="made-link" type="text" readOnly value={link}
              onFocus={(event) => event.currentTarget.select()}
            />
          </div>
          <div class="actions">
            <button type="button" class="primary" onClick={() => void copy()}>
              {t('instructor.made_copy')}
            </button>
            <button
              type="button"
              onClick={() => download(`loopyard-assignment-${ticket.id}.json`, ticket)}
            >
              <FileSign /> {t('instructor.made_file')}
            </button>
            <button type="button" onClick={again}>{t('instructor.make_again')}</button>
          </div>
          <p role="status" class="said-here">
            {copied.value === true && t('instructor.made_copied')}
            {copied.value === false && t('instructor.made_not_copied')}
          </p>
          <p class="hint">{t('instructor.made_here')}</p>
        </div>
        <Qr text={link} name={t('instructor.made_code')} />
      </div>
    </div>
  );
}

export function Maker() {
  const draft = useSignal<Draft>(EMPTY);
  const wrong = useSignal<WordKey | null>(null);
  const made = useSignal<Ticket | null>(null);
  const make = (event: SubmitEvent) => {
    event.preventDefault();
    const found = ticketOf(draft.value, drawId());
    wrong.value = typeof found === 'string' ? found : null;
    if (typeof found !== 'string') made.value = found;
    else document.getElementById(`make-${FIELD_OF[found] ?? 'name'}`)?.focus();
  };
  return (
    <section class="slip plain-slip" aria-labelledby="make">
      <h2 id="make">{t('instructor.make')}</h2>
      {made.value === null ? (
        <form class="fields many" onSubmit={make} noValidate>
          <Fields draft={draft} wrong={wrong} />
          <p role="alert" class="wrong-line">{wrong.value !== null && t(wrong.value)}</p>
          <div class="actions"><button class="primary">{t('instructor.make_go')}</button></div>
        </form>
      ) : <Made ticket={made.value} again={() => { made.value = null; }} />}
    </section>
  );
}
