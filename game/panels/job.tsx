// The job slip: what is found, what to ask oneself, what it takes to pass and what fails the job.
// It asks; it lists no steps. The figures come from the scenario, as from a drawing and a plate.
import { figuresOf } from '../figures.ts';
import { formNumber } from '../forms.ts';
import { t } from '../i18n/index.ts';
import { summaryOf } from '../jobs.ts';
import type { Play } from '../play.ts';
import { phasesAmong } from '../verdict.ts';
import { Lines, OnSite, Rows } from './brief.tsx';
import { DrillText, Essential } from './drill.tsx';
import { Slip } from './slip.tsx';

interface TextProps {
  readonly play: Play;
  /** The heading above it, so that headings stay in order. */
  readonly under: 'h1' | 'h2';
}

/** Of a whole job, or of one phase of a day. */
export function JobText({ play, under }: TextProps) {
  const { level, lex } = play;
  const H = under === 'h1' ? 'h2' : 'h3';
  if (level.phase !== null) return <DrillText level={level} lex={lex} H={H} />;
  return <WholeText play={play} H={H} />;
}

function WholeText({ play, H }: { readonly play: Play; readonly H: 'h2' | 'h3' }) {
  const { lex, level } = play;
  const phases = phasesAmong(level.scenario.job?.milestones ?? []);
  return (
    <div class="job-text">
      <div class="job-brief">
        <H class="part-name">{t('job.brief')}</H>
        {lex.list('brief.').map((key) => <p key={key}>{lex.say(key)}</p>)}
        {phases.length > 0 && (
          <>
            <H class="part-name">{t('job.day')}</H>
            <ul class="day">
              {phases.map((phase) => <li key={phase}>{lex.say(`phase.${phase}`)}</li>)}
            </ul>
          </>
        )}
        <H class="part-name">{t('job.figures')}</H>
        <Rows rows={[
          ...figuresOf(level.scenario, lex),
          ...play.session.hasForms
            ? [[t('form.row'), formNumber(play.session.seed)] as const] : [],
        ]} />
      </div>
      <div class="job-questions">
        <H class="part-name">{t('job.questions')}</H>
        <ol>{lex.list('question.').map((key) => <li key={key}>{lex.say(key)}</li>)}</ol>
      </div>
      <div class="job-pass">
        <H class="part-name">{t('job.pass')}</H>
        <Lines lex={lex} prefix="pass." skip={['pass.critical']}>
          <Essential level={level} lex={lex} />
        </Lines>
        {lex.has('pass.critical') && <p class="critical-line">{lex.say('pass.critical')}</p>}
      </div>
      <OnSite lex={lex} H={H} />
    </div>
  );
}

/** The slip beside or below the drawing. */
export function JobSlip({ play }: { readonly play: Play }) {
  return (
    <Slip id="job" name={t('job.sheet')}>
      <p class="summary">{summaryOf(play.level, play.lex)}</p>
      <JobText play={play} under="h2" />
    </Slip>
  );
}
