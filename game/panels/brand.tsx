// The mark of the project as the way back to the list of jobs. What was done so far is kept.
import { t } from '../i18n/index.ts';
import { LoopMark } from '../icons/icons.tsx';
import { listAddress } from '../jobs.ts';

/** Above the slips of a job: the name and where it leads. */
export function Brand() {
  return (
    <p class="brand">
      <a href={listAddress(location.search)}>
        <LoopMark /> {t('app.name')}
        <span class="brand-where">{t('jobs.all')}</span>
      </a>
    </p>
  );
}

/** In the yard's head: the mark alone. */
export function BrandMark() {
  return (
    <a class="brand-mark" href={listAddress(location.search)} aria-label={t('jobs.all')}>
      <LoopMark size={26} />
    </a>
  );
}
