// The debrief: passed or not, the marks, and for each point lost when, why, what could be
// seen then, how to earn it, and whose rule it is. It prints as it stands.
import type { Score } from '../../sim/index.ts';
import { HandIn } from '../assign/hand-in.tsx';
import { clock } from '../i18n/format.ts';
import { formName, otherForm } from '../forms.ts';
import { lexicon, t } from '../i18n/index.ts';
import {
  AgainSign, CheckSign, CrossSign, FileSign, OnwardSign, PrintSign, StopSign, WarnSign,
} from '../icons/icons.tsx';
import { jobAddress, nextJob } from '../jobs.ts';
import type { Play } from '../play.ts';
import { download, fileName } from '../records/attempt.ts';
import { shownPoints } from '../review/points.ts';
import {
  beyondTexts, criticalText, doneTexts, measuresText, pointsText, reasonTexts,
} from '../verdict.ts';
import type { DoneText } from '../verdict.ts';
import { Brand } from './brand.tsx';
import { Rows } from './brief.tsx';
import { Charts } from './charts.tsx';
import { ResidualMark, SheetMarks } from './jobsheet-marks.tsx';
import { Lost } from './lost.tsx';
import { Marks } from './marks.tsx';
import { Moments } from './moments.tsx';
import { Notices } from './notices.tsx';

interface Props { readonly play: Play; readonly score: Score }

function StateSign({ state }: { readonly state: DoneText['state'] }) {
  if (state === 'done') return <CheckSign />;
  return state === 'early' ? <WarnSign /> : <CrossSign />;
}

/** What had to happen on the way: by phase, each with its moment. */
function Done({ play, score }: Props) {
  if (score.milestones.length === 0) return null;
  const ground = { lex: play.lex, scenario: play.level.scenario };
  return (
    <section class="done-list" aria-labelledby="done-name">
      <h2 id="done-name">{t('debrief.done')}</h2>
      {doneTexts(score.milestones, ground).map(({ phase, rows }) => (
        <div key={phase} class="phase">
          <h3>{phase}</h3>
          <ul>
            {rows.map(({ id, name, when, state, fails }) => (
              <li key={id} data-state={state}>
                <StateSign state={state} />
                <span class="what">
                  {name}
                  {fails && <span class="hint block">{t('debrief.fails')}</span>}
                </span>
                <span class="when">
                  {when}
                  {state === 'early' && <>, {t('debrief.early')}</>}
                </span>
              </li>
            ))}
          </ul>
        </div>
      ))}
    </section>
  );
}

function Why({ play, score }: Props) {
  if (score.passed) return null;
  const ground = { lex: play.lex, score, scenario: play.level.scenario };
  return (
    <section class="why" aria-labelledby="why-name">
      <h2 id="why-name">{t('debrief.why')}</h2>
      <ul>{reasonTexts(score, play.lex).map((reason) => <li key={reason}>{reason}</li>)}</ul>
      {score.critical.length > 0 && (
        <>
          <h3><StopSign /> {t('debrief.critical')}</h3>
          <ul class="critical-list">
            {score.critical.map((found) => <li key={found.tick}>{criticalText(found, ground)}</li>)}
          </ul>
        </>
      )}
    </section>
  );
}

function Measured({ play }: { readonly play: Play }) {
  const done = play.session.facts.find((fact) => fact.kind === 'done');
  if (done?.kind !== 'done') return null;
  return (
    <section class="measured" aria-labelledby="true-name">
      <h2 id="true-name">{t('debrief.true')}</h2>
      <Rows rows={measuresText(done.measures, play.lex)} />
    </section>
  );
}

/** Remarks, not marks: where the simulation itself was at its limits. */
function Beyond({ play }: { readonly play: Play }) {
  const { scenario } = play.level;
  const remarks = beyondTexts(play.session.facts, { lex: play.lex, scenario });
  if (remarks.length === 0) return null;
  return (
    <section class="beyond" aria-labelledby="beyond-name">
      <h2 id="beyond-name">{t('debrief.beyond')}</h2>
      <ul>{remarks.map((remark) => <li key={remark}>{remark}</li>)}</ul>
      <p class="hint">{t('debrief.beyond_hint')}</p>
    </section>
  );
}

function Actions({ play, score }: Props) {
  const save = () => download(fileName(play.level.id, new Date()), play.file());
  const { assigned } = play.place.keeper; // What is to be handed in goes before another try.
  const next = score.passed ? nextJob(play.level.id) : null;
  return (
    <div class="actions">
      {next !== null && (
        <a class="button primary" href={jobAddress(next.id, location.search)}>
          <OnwardSign /> {t('jobs.next', { job: lexicon(next.words).say('title') })}
        </a>
      )}
      {play.place.keeper.mayBegin && (
        <button
          type="button" class={next === null && assigned === null ? 'primary' : ''}
          onClick={() => play.again()}
        >
          <AgainSign /> {t('debrief.again')}
        </button>
      )}
      {play.session.hasForms && assigned === null && (
        <button type="button" onClick={() => play.again(otherForm(play.session.seed))}>
          <AgainSign /> {t('debrief.again_other')}
        </button>
      )}
      <button type="button" onClick={save}><FileSign /> {t('debrief.file')}</button>
      <button type="button" onClick={() => window.print()}>
        <PrintSign /> {t('debrief.print')}
      </button>
    </div>
  );
}

/** Of one that goes on from the middle of another. */
function Branched({ play }: { readonly play: Play }) {
  const { branch } = play.place;
  if (branch === null) return null;
  const time = clock(branch.tick * play.session.tick_s);
  return <p class="hint">{t('look.branched', { time })}</p>;
}

export function Debrief({ play, score }: Props) {
  const shown = shownPoints(score);
  return (
    <main class="debrief">
      <Brand />
      <Notices play={play} />
      <header class="slip verdict" data-passed={score.passed}>
        <p class="eyebrow">
          {t('debrief.of_job', { job: play.title })}
          {play.session.hasForms && <>, {formName(play.session.seed)}</>}
        </p>
        <div class="verdict-both">
          <div>
            <h1>{score.passed ? t('debrief.passed') : t('debrief.not_passed')}</h1>
            <p class="total">
              <strong>{t('debrief.total', { points: pointsText(shown.total) })}</strong>
              <span>{t('debrief.needed', { points: score.pass_total })}</span>
            </p>
            <p class="hint">{play.lex.say(`standard.${score.standard}`)}</p>
            <Branched play={play} />
          </div>
          <Why play={play} score={score} />
        </div>
        <Actions play={play} score={score} />
      </header>
      <HandIn play={play} />
      <Measured play={play} />
      <Marks play={play} score={score} shown={shown} />
      <Moments play={play} score={score} />
      <Lost play={play} score={score} shown={shown} />
      <SheetMarks play={play} score={score} />
      <ResidualMark play={play} score={score} />
      <Charts play={play} score={score} />
      <Done play={play} score={score} />
      <Beyond play={play} />
      <p class="hint">{t('debrief.file_hint')}</p>
    </main>
  );
}
