// The way back to a moment, and the bar over the yard while one is there.
import { useEffect, useRef } from 'preact/hooks';
import type { Score } from '../../sim/index.ts';
import { clock } from '../i18n/format.ts';
import { t } from '../i18n/index.ts';
import { AgainSign, EyeSign, OnwardSign } from '../icons/icons.tsx';
import type { Play } from '../play.ts';
import { lookAgain, lookAway, tryFromHere } from '../review/back.ts';
import { reviewOf } from '../review/review.ts';

export interface LookProps {
  readonly play: Play;
  readonly score: Score;
  readonly tick: number;
  readonly title: string;
  /** Id of the button. */
  readonly asker: string;
}

export function LookButton({ play, score, tick, title, asker }: LookProps) {
  const review = reviewOf(play.session, score);
  const captured = review.captured.value.get(tick);
  const time = clock(tick * play.session.tick_s);
  if (review.failed.value) return null;
  const go = () => {
    if (captured !== undefined) lookAgain(play, { captured, title, asker });
  };
  return (
    <button
      id={asker} type="button" class="look" disabled={captured === undefined} onClick={go}
      aria-label={t('moments.look_label', { time, what: title })}
    >
      <EyeSign /> {t('moments.look')}
    </button>
  );
}

/** Over the yard: what one sees is over, and where to go from here. */
export function LookBar({ play }: { readonly play: Play }) {
  const out = useRef<HTMLButtonElement>(null);
  useEffect(() => out.current?.focus({ preventScroll: true }), []);
  const back = play.back.value;
  const score = play.score.value;
  if (back === null || score === null) return null;
  const { tick, title, asker } = back;
  const time = clock(tick * play.session.tick_s);
  const after = back.play.seen.value.tick > tick;
  const again = () => {
    const captured = reviewOf(play.session, score).captured.value.get(tick);
    if (captured !== undefined) lookAgain(play, { captured, title, asker });
  };
  return (
    <section class="notice look-bar" aria-label={t('look.name')}>
      <p>
        <strong>{title}</strong>{' '}
        {t(after ? 'look.after' : 'look.line', { time })}
        {play.session.mode !== 'assess' && <span class="hint"> {t('look.try_hint')}</span>}
      </p>
      <button ref={out} type="button" class="primary" onClick={() => lookAway(play)}>
        {t('look.back')}
      </button>
      <button type="button" onClick={again}><AgainSign /> {t('look.again')}</button>
      {play.session.mode !== 'assess' && (
        <button type="button" onClick={() => tryFromHere(play)}>
          <OnwardSign /> {t('look.try')}
        </button>
      )}
    </section>
  );
}
