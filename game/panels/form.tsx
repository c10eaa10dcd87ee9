// Which form of the job is shown on its first page, and the way to another: an assignment chooses
// for itself.
import { formName, otherForm } from '../forms.ts';
import { t, upper } from '../i18n/index.ts';
import { keepTyped } from '../jobsheet-draft.ts';
import type { Play } from '../play.ts';
import { AS_WRITTEN } from '../../sim/index.ts';

export function FormChoice({ play }: { readonly play: Play }) {
  const form = play.form.value;
  if (!play.session.hasForms || play.place.keeper.assigned !== null) return null;
  const take = (seed: number) => () => {
    play.choose(play.session.mode, seed);
    keepTyped(play);
  };
  return (
    <section class="form-choice" aria-label={t('form.name')}>
      <p role="status"><strong>{upper(formName(form))}</strong></p>
      <p class="hint">{t('form.hint')}</p>
      <div class="actions">
        <button type="button" onClick={take(otherForm(form))}>{t('form.other')}</button>
        {form !== AS_WRITTEN && (
          <button type="button" onClick={take(AS_WRITTEN)}>{t('form.back')}</button>
        )}
      </div>
    </section>
  );
}
