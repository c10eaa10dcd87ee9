// Said instead of a job that another tab works on.
import type { Level } from '../../levels/index.ts';
import { lexicon, t } from '../i18n/index.ts';
import { titleOf } from '../jobs.ts';
import { Brand } from '../panels/brand.tsx';

interface Props { readonly level: Level; readonly takeOver: () => void }

export function Elsewhere({ level, takeOver }: Props) {
  return (
    <main class="front">
      <Brand />
      <section class="slip plain-slip" aria-labelledby="elsewhere">
        <p class="eyebrow">{titleOf(level, lexicon(level.words))}</p>
        <h1 id="elsewhere">{t('attempts.elsewhere')}</h1>
        <p>{t('attempts.elsewhere_text')}</p>
        <div class="actions">
          <button type="button" class="primary" onClick={takeOver}>
            {t('attempts.take_over')}
          </button>
        </div>
      </section>
    </main>
  );
}
