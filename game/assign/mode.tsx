// How a job is to be done, chosen before it: an assignment chooses for itself.
import type { Signal } from '@preact/signals';
import { t } from '../i18n/index.ts';
import { keepTyped } from '../jobsheet-draft.ts';
import type { Play } from '../play.ts';
import { MODES, type Mode } from '../session.ts';

interface Props {
  readonly play: Play;
  readonly chosen: Signal<Mode>;
}

/** What is chosen, beside the way to the yard; the choice itself stands below the brief. */
export function ModeNow({ play, chosen }: Props) {
  if (play.place.keeper.assigned !== null) return null; // Its line above says how.
  return (
    <a class="mode-now" href="#modes">{t('mode.now', { mode: t(`mode.${chosen.value}`) })}</a>
  );
}

export function ModeChoice({ play, chosen }: Props) {
  if (play.place.keeper.assigned !== null) return null;
  const choose = (mode: Mode) => {
    chosen.value = mode;
    play.choose(mode);
    keepTyped(play);
  };
  return (
    <fieldset class="modes" id="modes">
      <legend>{t('mode.choose')}</legend>
      {MODES.map((mode) => (
        <label key={mode}>
          <input
            type="radio" name="mode" value={mode} checked={chosen.value === mode}
            onChange={() => choose(mode)}
          />
          <span>
            <strong>{t(`mode.${mode}`)}</strong>
            <span class="hint block">{t(`mode.${mode}_says`)}</span>
          </span>
        </label>
      ))}
    </fieldset>
  );
}
