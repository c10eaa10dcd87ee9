// The debrief: passed or not, the marks, and for each point lost when, why, what could be
// seen then, how to earn it, and whose rule it is. It prints as it stands.
import type { DimensionMark, Score } from '../../sim/index.ts';
import { HandIn } from '../assign/hand-in.tsx';
import { list } from '../i18n/format.ts';
import { lexicon, t } from '../i18n/index.ts';
import {
  AgainSign, CheckSign, CrossSign, FileSign, OnwardSign, PrintSign, StopSign, WarnSign,
} from '../icons/icons.tsx';
import { jobAddress, nextJob } from '../jobs.ts';
import type { Play } from '../play.ts';
import { download, fileName } from '../records/attempt.ts';
import {
  beyondTexts, criticalText, deductionText, doneTexts, lostText, measuresText, pointsText,
} from '../verdict.ts';
import type { DoneText } from '../verdict.ts';
import { Brand } from './brand.tsx';
import { SheetMarks } from './jobsheet-marks.tsx';
import { Notices } from './notices.tsx';

interface Props { readonly play: Play; readonly score: Score }

function Mark({ play, mark }: { readonly play: Play; readonly mark: DimensionMark }) {
  const share = mark.max > 0 ? mark.points / mark.max : 0;
  const least = mark.max > 0 ? mark.minimum / mark.max : 0;
  return (
    <tr data-met={mark.met}>
      <th scope="row">{play.lex.say(`dimension.${mark.dimension}`)}</th>
      <td class="mark-points">
        <strong>{pointsText(mark.points)}</strong> {t('debrief.of')} {pointsText(mark.max)}
      </td>
      <td class="mark-bar">
        <span class="gauge" aria-hidden="true">
          <span class="gauge-fill" style={{ width: `${100 * share}%` }} />
          {least > 0 && <span class="gauge-least" style={{ left: `${100 * least}%` }} />}
        </span>
      </td>
      <td class="mark-least">
        {mark.minimum > 0
          ? t('debrief.least_of', { points: pointsText(mark.minimum) })
          : t('debrief.least_none')}
        {mark.minimum > 0 && (
          <span class="met">
            {mark.met ? <CheckSign /> : <CrossSign />}
            {mark.met ? t('debrief.met') : t('debrief.not_met')}
          </span>
        )}
      </td>
    </tr>
  );
}

function Marks({ play, score }: Props) {
  return (
    <section aria-labelledby="marks-name">
      <h2 id="marks-name">{t('debrief.marks')}</h2>
      <table class="marks">
        <thead>
          <tr>
            <th scope="col">{t('debrief.dimension')}</th>
            <th scope="col" colSpan={2}>{t('debrief.points')}</th>
            <th scope="col">{t('debrief.least')}</th>
          </tr>
        </thead>
        <tbody>
          {score.dimensions.map((mark) => <Mark key={mark.dimension} play={play} mark={mark} />)}
        </tbody>
      </table>
      {score.untested.length > 0 && (
        <p class="hint">
          {t('debrief.untested', {
            list: list(score.untested.map((name) => play.lex.say(`dimension.${name}`))),
          })}
        </p>
      )}
    </section>
  );
}

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
            {rows.map(({ id, name, when, state }) => (
              <li key={id} data-state={state}>
                <StateSign state={state} />
                <span class="what">{name}</span>
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

function Lost({ play, score }: Props) {
  const ground = { lex: play.lex, score, scenario: play.level.scenario };
  const { sources } = play.level.rules;
  return (
    <section class="lost" aria-labelledby="lost-name">
      <h2 id="lost-name">{t('debrief.lost')}</h2>
      {score.deductions.length === 0 && <p>{t('debrief.none_lost')}</p>}
      <ol>
        {score.deductions.map((found, at) => {
          const text = deductionText(found, ground, sources);
          return (
            <li key={at} class="slip deduction">
              <p class="deduction-head">
                <span class="minus" aria-label={t('debrief.points_lost', { points: text.points })}>
                  {found.points > 0
                    ? t('debrief.minus', { points: lostText(found.points) })
                    : t('debrief.nothing_left')}
                </span>
                <span class="when">{text.when}</span>
                <span class="what">{play.lex.say(`dimension.${found.dimension}`)}</span>
              </p>
              <p class="message">{text.message}</p>
              {text.includes !== '' && <p class="hint">{text.includes}</p>}
              <dl>
                <div><dt>{t('debrief.seen')}</dt><dd>{text.seen}</dd></div>
                <div><dt>{t('debrief.how')}</dt><dd>{text.how}</dd></div>
                <div class="rule"><dt>{t('debrief.rule')}</dt><dd>{text.source}</dd></div>
              </dl>
            </li>
          );
        })}
      </ol>
    </section>
  );
}

function Why({ play, score }: Props) {
  if (score.passed) return null;
  const ground = { lex: play.lex, score, scenario: play.level.scenario };
  return (
    <section class="why" aria-labelledby="why-name">
      <h2 id="why-name">{t('debrief.why')}</h2>
      <ul>
        {score.reasons.map((reason) => (
          <li key={reason}>{play.lex.say(`reason.${reason}`)}</li>
        ))}
      </ul>
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
    <section aria-labelledby="true-name">
      <h2 id="true-name">{t('debrief.true')}</h2>
      <dl class="figures">
        {measuresText(done.measures, play.lex).map(([name, value]) => (
          <div key={name}><dt>{name}</dt><dd>{value}</dd></div>
        ))}
      </dl>
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
  const next = score.passed ? nextJob(play.level.id) : null;
  return (
    <div class="actions">
      {next !== null && (
        <a class="button primary" href={jobAddress(next.id, location.search)}>
          <OnwardSign /> {t('jobs.next', { job: lexicon(next.words).say('title') })}
        </a>
      )}
      {play.place.keeper.mayBegin && (
        <button type="button" class={next === null ? 'primary' : ''} onClick={() => play.again()}>
          <AgainSign /> {t('debrief.again')}
        </button>
      )}
      <button type="button" onClick={save}><FileSign /> {t('debrief.file')}</button>
      <button type="button" onClick={() => window.print()}>
        <PrintSign /> {t('debrief.print')}
      </button>
    </div>
  );
}

export function Debrief({ play, score }: Props) {
  return (
    <main class="debrief">
      <Brand />
      <Notices play={play} />
      <header class="slip verdict" data-passed={score.passed}>
        <p class="eyebrow">{t('debrief.of_job', { job: play.title })}</p>
        <h1>{score.passed ? t('debrief.passed') : t('debrief.not_passed')}</h1>
        <p class="total">
          <strong>{t('debrief.total', { points: pointsText(score.total) })}</strong>
          <span>{t('debrief.needed', { points: score.pass_total })}</span>
        </p>
        <p class="hint">{play.lex.say(`standard.${score.standard}`)}</p>
        <Actions play={play} score={score} />
      </header>
      <HandIn play={play} />
      <div class="debrief-top">
        <Why play={play} score={score} />
        <Measured play={play} />
      </div>
      <Marks play={play} score={score} />
      <SheetMarks play={play} score={score} />
      <Done play={play} score={score} />
      <Lost play={play} score={score} />
      <Beyond play={play} />
      <p class="hint">{t('debrief.file_hint')}</p>
    </main>
  );
}
