// Going home for the night, where a job has a second visit: the clock runs on at once, and hands
// are there again when the hours are over.
import { t } from '../i18n/index.ts';
import type { Play } from '../play.ts';
import { homeHours } from '../night.ts';

interface Props { readonly play: Play; readonly then?: () => void }

/** One button for each length of a night; nothing where the job is done in one visit. */
export function HomeButtons({ play, then }: Props) {
  const all = homeHours(play.level.scenario);
  return (
    <>
      {all.map((hours) => (
        <button
          key={hours} type="button" class="home"
          onClick={() => {
            then?.();
            play.goHome(hours);
          }}
        >
          {t('home.button', { hours })}
        </button>
      ))}
    </>
  );
}

/** The same as a row of the controls list. */
export function HomeRow({ play }: { readonly play: Play }) {
  if (homeHours(play.level.scenario).length === 0) return null;
  return (
    <li class="control home-row">
      <span class="control-name">{t('home.name')}</span>
      <span class="hint">{t('home.hint')}</span>
      <div class="choice-buttons"><HomeButtons play={play} /></div>
    </li>
  );
}
