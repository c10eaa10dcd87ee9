// The moments that matter: numbered on a line of the work's time, and told one by one with the way
// back to each.
import type { Score } from '../../sim/index.ts';
import { clock } from '../i18n/format.ts';
import { t, upper } from '../i18n/index.ts';
import { CheckSign, CrossSign, StopSign } from '../icons/icons.tsx';
import type { Play } from '../play.ts';
import type { Axis } from '../review/axis.ts';
import type { Moment } from '../review/moments.ts';
import { reviewOf } from '../review/review.ts';
import { criticalMessage, deductionText, pointsText, stepsText } from '../verdict.ts';
import { LookButton } from './look.tsx';

interface Props { readonly play: Play; readonly score: Score }

/** What happened, in a sentence. */
function momentText(moment: Moment, { play, score }: Props): string {
  const ground = { lex: play.lex, score, scenario: play.level.scenario };
  switch (moment.kind) {
    case 'critical': return criticalMessage(score.critical[moment.nth]!, ground);
    case 'deduction':
      return deductionText(score.deductions[moment.nth]!, ground, play.level.rules.sources).message;
    case 'hand_over': {
      const points = pointsText(moment.points);
      const missing = score.milestones.filter(({ fails, tick }) => fails && tick === null);
      if (missing.length === 0) return t('moments.hand_over', { points });
      return t('moments.hand_over_without', { points, steps: stepsText(missing, play.lex) });
    }
    case 'loss': return t('moments.loss');
    case 'handed_over': return t('moments.handed_over');
    case 'primed':
      return upper(play.lex.say('event.primed', { part: play.lex.part(moment.at) }));
    case 'purged': return t('moments.purged');
    case 'milestone':
      return t('moments.milestone', { milestone: play.lex.say(`milestone.${moment.id}`) });
  }
}

function MomentSign({ moment }: { readonly moment: Moment }) {
  if (moment.good) return <CheckSign />;
  return moment.kind === 'critical' ? <StopSign /> : <CrossSign />;
}

/** Nearer than this two numbers on the line would lie over one another, %. */
const APART = 9;

interface LineProps {
  readonly axis: Axis;
  readonly moments: readonly Moment[];
  readonly tick_s: number;
}

function Line({ axis, moments, tick_s }: LineProps) {
  const share = (tick: number) => (100 * axis.at(tick)) / Math.max(1e-9, axis.end_s);
  const lefts = moments.map(({ tick }) => share(tick));
  const rows: number[] = []; // One too near the one before stands above it.
  lefts.forEach((left, k) => {
    const near = k > 0 && left - lefts[k - 1]! < APART;
    rows.push(near ? rows[k - 1]! + 1 : 0);
  });
  return (
    <div class="moment-line" aria-hidden="true" style={{ '--rows': Math.max(0, ...rows) }}>
      {axis.nights.map(({ from, to }) => (
        <span
          key={from} class="moment-night" data-late={share(from) > 75}
          style={{ left: `${share(from)}%` }}
        >
          <span>{t('moments.night', { hours: Math.round(((to - from) * tick_s) / 3600) })}</span>
        </span>
      ))}
      {moments.map((moment, k) => (
        <span
          key={k} class="moment-dot" data-good={moment.good}
          style={{ left: `${lefts[k]}%`, '--row': rows[k] }}
        >
          {k + 1}
        </span>
      ))}
    </div>
  );
}

/** How far the new run is, or what came of it. */
function Running({ play, score }: Props) {
  const { share, rerun, failed } = reviewOf(play.session, score);
  const n = Math.floor(20 * share.value) * 5; // In steps: a voice that counts each would never end.
  const text = failed.value ? t('moments.failed')
    : rerun.value === null ? t('moments.wait', { n })
      : t(rerun.value.same ? 'moments.ready' : 'moments.differs');
  return <p class="hint" role="status">{text}</p>;
}

export function Moments({ play, score }: Props) {
  const review = reviewOf(play.session, score);
  const moments = review.moments.value;
  const { tick_s } = play.session;
  return (
    <section class="moments" aria-labelledby="moments-name">
      <h2 id="moments-name">{t('moments.name')}</h2>
      <Line axis={review.axis} moments={moments} tick_s={tick_s} />
      {review.axis.nights.length > 0 && <p class="hint">{t('moments.axis')}</p>}
      {moments.length === 0 && <p>{t('moments.none')}</p>}
      <ol>
        {moments.map((moment, k) => {
          const title = momentText(moment, { play, score });
          return (
            <li key={`${moment.kind} ${moment.tick}`} class="slip moment" data-good={moment.good}>
              <span class="moment-nth" aria-hidden="true">{k + 1}</span>
              <div>
                <p class="moment-head">
                  <MomentSign moment={moment} />
                  <span>{t(moment.good ? 'moments.good' : 'moments.bad')}</span>
                  <time>{clock(moment.tick * tick_s)}</time>
                </p>
                <p class="message">{title}</p>
              </div>
              <LookButton
                play={play} score={score} tick={moment.tick} title={title} asker={`moment-${k}`}
              />
            </li>
          );
        })}
      </ol>
      <Running play={play} score={score} />
    </section>
  );
}
