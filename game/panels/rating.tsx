// One's own view of the work, asked before the marks are shown; and beside the marks what it was
// worth, as plain sentences.
import { useSignal } from '@preact/signals';
import type { Dimension, Score } from '../../sim/index.ts';
import { list } from '../i18n/format.ts';
import { t } from '../i18n/index.ts';
import type { Play } from '../play.ts';
import { calibrations, STEPS, type Rating, type Step } from '../review/rating.ts';
import { reviewOf } from '../review/review.ts';
import { Brand } from './brand.tsx';
import { Notices } from './notices.tsx';

const WORDS = {
  1: 'rating.step_1', 2: 'rating.step_2', 3: 'rating.step_3', 4: 'rating.step_4',
  5: 'rating.step_5',
} as const;

interface RowProps {
  readonly dimension: string;
  readonly step: Step | null;
  readonly choose: (step: Step | null) => void;
}

function Row({ dimension, step, choose }: RowProps) {
  return (
    <div class="rating-row" role="group" aria-label={dimension}>
      <strong>{dimension}</strong>
      <div class="rating-steps">
        {STEPS.map((n) => (
          <button
            key={n} type="button" aria-pressed={step === n}
            aria-label={t('rating.step_label', { dimension, n, word: t(WORDS[n]) })}
            onClick={() => choose(step === n ? null : n)}
          >
            {n}
          </button>
        ))}
      </div>
      <span class="hint">{step === null ? '' : t(WORDS[step])}</span>
    </div>
  );
}

export function RatingPage({ play, score }: { readonly play: Play; readonly score: Score }) {
  const steps = useSignal<Readonly<Partial<Record<Dimension, Step>>>>({});
  const sign = useSignal<boolean | null>(null);
  reviewOf(play.session, score); // It runs while one thinks.
  const choose = (dimension: Dimension, step: Step | null) => {
    const { [dimension]: _before, ...others } = steps.value;
    steps.value = step === null ? others : { ...others, [dimension]: step };
  };
  const said = Object.keys(steps.value).length > 0 || sign.value !== null;
  const go = () => play.rate(said ? { steps: steps.value, sign: sign.value } : null);
  const answer = (value: boolean, text: string) => (
    <button
      type="button" aria-pressed={sign.value === value}
      onClick={() => { sign.value = sign.value === value ? null : value; }}
    >
      {text}
    </button>
  );
  return (
    <main class="debrief rating">
      <Brand />
      <Notices play={play} />
      <section class="slip" aria-labelledby="rating-name">
        <p class="eyebrow">{t('rating.of', { job: play.title })}</p>
        <h1 id="rating-name">{t('rating.name')}</h1>
        <p>{t('rating.ask')}</p>
        <p class="hint">{t('rating.ends')}</p>
        {score.dimensions.map(({ dimension }) => (
          <Row
            key={dimension} dimension={play.lex.say(`dimension.${dimension}`)}
            step={steps.value[dimension] ?? null} choose={(step) => choose(dimension, step)}
          />
        ))}
        <div class="rating-row rating-sign" role="group" aria-label={t('rating.sign')}>
          <strong>{t('rating.sign')}</strong>
          <div class="rating-steps">
            {answer(true, t('rating.yes'))}
            {answer(false, t('rating.no'))}
          </div>
        </div>
        <div class="actions">
          <button type="button" class="primary" disabled={!said} onClick={go}>
            {t('rating.go')}
          </button>
          <button type="button" onClick={() => play.rate(null)}>{t('rating.skip')}</button>
        </div>
      </section>
    </main>
  );
}

/** How far one's own view was from the marks. */
export function calibrationTexts(
  rating: Rating,
  score: Score,
  name: (dimension: Dimension) => string,
): readonly string[] {
  const { higher, lower, same } = calibrations(rating, score);
  const line = (key: 'rating.higher' | 'rating.lower' | 'rating.same', of: readonly Dimension[]) =>
    (of.length === 0 ? [] : [t(key, { list: list(of.map(name)) })]);
  const { sign } = rating;
  const signed = score.passed ? 'rating.signed_passed' : 'rating.signed_failed';
  const unsigned = score.passed ? 'rating.unsigned_passed' : 'rating.unsigned_failed';
  return [
    ...(sign === null ? [] : [t(sign ? signed : unsigned)]),
    ...line('rating.higher', higher), ...line('rating.lower', lower), ...line('rating.same', same),
  ];
}
