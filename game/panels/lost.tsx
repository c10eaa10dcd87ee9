// Where the points went: of each deduction when, what could be seen, what was true, how to earn it,
// whose rule it is; and the way back to that moment.
import type { Deduction, Score } from '../../sim/index.ts';
import { figure, list, UNITS } from '../i18n/format.ts';
import { t, upper, type Lexicon } from '../i18n/index.ts';
import { StopSign } from '../icons/icons.tsx';
import type { Play } from '../play.ts';
import { decimalsOf, readingText, spoken, withUnit } from '../readings.ts';
import type { ShownPoints } from '../review/points.ts';
import type { Captured } from '../review/rerun.ts';
import { reviewOf } from '../review/review.ts';
import { followedOf } from '../review/rows.ts';
import { deductionText, isOfSheet, quantityText } from '../verdict.ts';
import { LookButton } from './look.tsx';
import { useToldOnPaper } from './on-paper.ts';

interface Props {
  readonly play: Play;
  readonly score: Score;
  readonly shown: ShownPoints;
}

/** With more than these, only the few that cost most are told at length at once. */
const EASY = 8;
const MOST = 3;

function isTold({ lost }: ShownPoints, nth: number): boolean {
  if (lost.length <= EASY) return true;
  return lost.filter((points) => points > (lost[nth] ?? 0)).length < MOST;
}

interface OneProps extends Props { readonly nth: number }

/** What was true then, in a sentence. */
function truthText({ row }: Captured, play: Play, lex: Lexicon): string {
  const { pumps, loop, places } = followedOf(play.level.scenario);
  const speed = (value: number) => withUnit(value, UNITS.m_s);
  const volume = (value: number) => quantityText(value, 'volume');
  return t('lost.truth', {
    list: upper(list([
      t('lost.air', { value: volume(row.air) }),
      ...pumps.map((id, k) =>
        t('lost.flow', { value: quantityText(row.flows[k] ?? 0, 'flow'), part: lex.part(id) })),
      ...(loop.length > 1
        ? [t('lost.speeds', { slow: speed(row.slowest), fast: speed(row.fastest) })] : []),
      ...places.map(({ gauge }, k) => t('lost.pressure', {
        value: withUnit(row.pressures[k] ?? 0, UNITS.kPa), part: lex.part(gauge),
      })),
      t('lost.spilled', { value: volume(row.spilled) }),
      t('lost.wasted', { value: volume(row.wasted) }),
    ])),
  });
}

function shownThen({ readings }: Captured, play: Play): string {
  const { scenario } = play.level;
  const texts = readings
    .map((reading) => readingText(reading, play.lex, decimalsOf(scenario, reading.id)))
    .filter(({ value }) => value !== t('readings.none'))
    .map(spoken);
  return upper(list(texts.map((text) => text.replace(/,(?= )/, ':'))));
}

/**
 * What was shown and what was true at its moment, as soon as the new run has come to it. Of all
 * that lie at one moment, as at the hand-over, the first says it.
 */
function Then({ play, score, nth, tick }: OneProps & { readonly tick: number }) {
  const captured = reviewOf(play.session, score).captured.value.get(tick);
  const said = score.deductions.slice(0, nth).some((one) => momentOf(one) === tick);
  if (captured === undefined || said) return null;
  return (
    <>
      <div><dt>{t('lost.shown')}</dt><dd>{shownThen(captured, play)}</dd></div>
      <div><dt>{t('lost.was_true')}</dt><dd>{truthText(captured, play, play.lex)}</dd></div>
    </>
  );
}

/** Its moment, if it has one: time is lost all along, and a sheet before there was any. */
const momentOf = (found: Deduction): number | null =>
  (found.dimension === 'time' || isOfSheet(found) ? null : found.tick);

/** Points as they are shown, and as they are read out. */
function Minus({ found, tenths }: { readonly found: Deduction; readonly tenths: number }) {
  const points = pointsLost(found, tenths);
  if (found.points <= 0 || tenths <= 0) return <span class="minus">{points}</span>;
  return (
    <span class="minus">
      <span aria-hidden="true">{points}</span>
      <span class="unseen">{t('debrief.points_lost', { points: figure(tenths, 1) })}</span>
    </span>
  );
}

/** "−5", or that it took less than a tenth, or that there was nothing left to take. */
function pointsLost({ points }: Deduction, shown: number): string {
  if (points <= 0) return t('debrief.nothing_left');
  const of = (tenths: number) => t('debrief.minus', { points: figure(tenths, 1) });
  return shown > 0 ? of(shown) : t('lost.under', { points: of(0.1) });
}

function One(props: OneProps) {
  const { play, score, shown, nth } = props;
  const found = score.deductions[nth]!;
  const text = deductionText(found, { lex: play.lex, scenario: play.level.scenario },
    play.level.rules.sources);
  const tick = momentOf(found);
  const fails = score.milestones.some((one) => one.fails && one.id === found.milestone);
  const part = found.at === null ? '' : play.lex.part(found.at);
  const told = text.message.toLocaleLowerCase().includes(part.toLocaleLowerCase());
  return (
    <li class="slip deduction">
      <div class="deduction-top">
        <div>
          <p class="deduction-head">
            <Minus found={found} tenths={shown.lost[nth] ?? 0} />
            <span class="when">{text.when}</span>
            <span class="what">{play.lex.say(`dimension.${found.dimension}`)}</span>
            {!told && <span class="where">{part}</span>}
          </p>
          <p class="message">{text.message}</p>
        </div>
        {tick !== null && (
          <LookButton
            play={play} score={score} tick={tick} title={text.message} asker={`lost-${nth}`}
          />
        )}
      </div>
      {fails && <p class="fails"><StopSign /> {t('debrief.fails')}</p>}
      {text.includes !== '' && <p class="hint">{text.includes}</p>}
      <details open={isTold(shown, nth)}>
        <summary>{t('lost.why')}</summary>
        <dl>
          <div><dt>{t('debrief.seen')}</dt><dd>{text.seen}</dd></div>
          <div><dt>{t('debrief.how')}</dt><dd>{text.how}</dd></div>
          {tick !== null && <Then {...props} tick={tick} />}
          <div class="rule"><dt>{t('debrief.rule')}</dt><dd>{text.source}</dd></div>
        </dl>
      </details>
    </li>
  );
}

export function Lost(props: Props) {
  const { score } = props;
  const all = useToldOnPaper();
  return (
    <section ref={all} class="lost" aria-labelledby="lost-name">
      <h2 id="lost-name">{t('debrief.lost')}</h2>
      {score.deductions.length === 0 && <p>{t('debrief.none_lost')}</p>}
      <ol>
        {score.deductions.map((_, nth) => <One key={nth} {...props} nth={nth} />)}
      </ol>
    </section>
  );
}
