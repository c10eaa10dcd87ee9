// Buttons of what hands do so many times over: one, a few, many; and enough.
import { t } from '../i18n/index.ts';

interface Props {
  /** Of whom: "Hand pump". */
  readonly part: string;
  readonly counts: readonly number[];
  readonly word: (n: number) => string;
  readonly add: (n: number) => void;
  readonly stop: () => void;
  /** Still to come; there is nothing to stop below two. */
  readonly left: number;
}

export function CountedButtons({ part, counts, word, add, stop, left }: Props) {
  return (
    <div class="counted-buttons">
      {counts.map((n) => (
        <button
          key={n} type="button" class="count"
          aria-label={t('controls.set_position', { part, state: word(n) })} onClick={() => add(n)}
        >
          {word(n)}
        </button>
      ))}
      <button
        type="button" class="count" aria-label={t('controls.enough_label', { part })}
        disabled={left < 2} onClick={stop}
      >
        {t('controls.enough')}
      </button>
    </div>
  );
}
