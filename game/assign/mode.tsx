// How a job is to be done, chosen before it: an assignment chooses for itself.
import { useSignal } from '@preact/signals';
import { t } from '../i18n/index.ts';
import type { Play } from '../play.ts';
import { MODES, type Mode } from '../session.ts';

export function ModeChoice({ play }: { readonly play: Play }) {
  const chosen = useSignal<Mode>(play.session.mode);
  if (play.place.keeper.assigned !== null) return null;
  const choose = (mode: Mode) => {
    chosen.value = mode;
    play.choose(mode);
  };
  return (
    <fieldset class="modes">
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
