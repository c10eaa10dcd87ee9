// The marks: dimension by dimension, one's own view beside them, and how far the two are apart.
import type { DimensionMark, Score } from '../../sim/index.ts';
import { list } from '../i18n/format.ts';
import { t } from '../i18n/index.ts';
import { CheckSign, CrossSign } from '../icons/icons.tsx';
import type { Play } from '../play.ts';
import type { ShownPoints } from '../review/points.ts';
import { pointsText } from '../verdict.ts';
import { calibrationTexts } from './rating.tsx';

interface MarkProps {
  readonly play: Play;
  readonly mark: DimensionMark;
  readonly shown: ShownPoints['dimensions'][number];
}

function Mark({ play, mark, shown }: MarkProps) {
  const share = mark.max > 0 ? mark.points / mark.max : 0;
  const least = mark.max > 0 ? mark.minimum / mark.max : 0;
  const { rated } = play.place;
  const step = rated?.steps[mark.dimension];
  return (
    <tr data-met={mark.met}>
      <th scope="row">{play.lex.say(`dimension.${mark.dimension}`)}</th>
      <td class="mark-points">
        <strong>{pointsText(shown.points)}</strong> {t('debrief.of')} {pointsText(shown.max)}
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
      {rated !== null && (
        <td class="mark-own">
          <span class="own-name">{t('rating.beside')}: </span>
          {step === undefined ? t('rating.none') : t('rating.step_of', { n: step })}
        </td>
      )}
    </tr>
  );
}

export interface MarksProps {
  readonly play: Play;
  readonly score: Score;
  readonly shown: ShownPoints;
}

export function Marks({ play, score, shown }: MarksProps) {
  const { rated } = play.place;
  const name = (dimension: string) => play.lex.say(`dimension.${dimension}`);
  return (
    <section aria-labelledby="marks-name">
      <h2 id="marks-name">{t('debrief.marks')}</h2>
      <table class="marks">
        <thead>
          <tr>
            <th scope="col">{t('debrief.dimension')}</th>
            <th scope="col" colSpan={2}>{t('debrief.points')}</th>
            <th scope="col">{t('debrief.least')}</th>
            {rated !== null && <th scope="col">{t('rating.beside')}</th>}
          </tr>
        </thead>
        <tbody>
          {score.dimensions.map((mark, k) => (
            <Mark key={mark.dimension} play={play} mark={mark} shown={shown.dimensions[k]!} />
          ))}
        </tbody>
      </table>
      {rated !== null && (
        <ul class="calibration">
          {calibrationTexts(rated, score, name).map((line) => <li key={line}>{line}</li>)}
        </ul>
      )}
      {score.untested.length > 0 && (
        <p class="hint">{t('debrief.untested', { list: list(score.untested.map(name)) })}</p>
      )}
    </section>
  );
}
