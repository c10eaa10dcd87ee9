// The buttons of a handle: shut, quarter, half, open, and five degrees either way. The same ones
// stand in the handle slip beside the drawing and in the controls list.
import {
  degreesWord, HALF_DEG, QUARTER_DEG, STEP_DEG, stepped, toggled, type ValveControl,
} from '../controls.ts';
import { t, upper } from '../i18n/index.ts';
import { CrossSign, HandleSign } from '../icons/icons.tsx';
import type { Play } from '../play.ts';

interface Props { readonly play: Play; readonly valve: ValveControl }

export function HandleButtons({ play, valve }: Props) {
  const part = upper(play.lex.part(valve.id));
  const set = (target_deg: number) => () => {
    play.act({ kind: 'valve', valve: valve.id, target_deg });
  };
  const places = [
    { deg: 0, text: t('controls.shut'), label: t('controls.set_shut', { part }) },
    { deg: QUARTER_DEG, text: t('controls.quarter'), label: t('controls.set_quarter', { part }) },
    { deg: HALF_DEG, text: t('controls.half'), label: t('controls.set_half', { part }) },
    { deg: 90, text: t('controls.open'), label: t('controls.set_open', { part }) },
  ];
  return (
    <div class="handle-buttons">
      {places.map(({ deg, text, label }) => (
        <button
          key={deg} type="button" class="place" aria-label={label}
          aria-pressed={valve.target === deg} onClick={set(deg)}
        >
          <HandleSign deg={deg} size={26} />
          <span>{text}</span>
        </button>
      ))}
      <button
        type="button" class="nudge" aria-label={t('controls.set_less', { part })}
        disabled={valve.target <= 0} onClick={set(stepped(valve, -STEP_DEG))}
      >
        {'−5°'}
      </button>
      <button
        type="button" class="nudge" aria-label={t('controls.set_more', { part })}
        disabled={valve.target >= 90} onClick={set(stepped(valve, STEP_DEG))}
      >
        {'+5°'}
      </button>
    </div>
  );
}

/** Where the handle is, and where it is going. */
export function HandleState({ valve }: { readonly valve: ValveControl }) {
  const at = Math.round(valve.deg);
  return (
    <span class="handle-state">
      {degreesWord(valve.deg)}
      {at !== valve.target && <span class="to"> → {degreesWord(valve.target)}</span>}
    </span>
  );
}

interface SlipProps extends Props {
  readonly place: { readonly left: number; readonly top: number };
  readonly close: () => void;
}

export function HandleSlip({ play, valve, place, close }: SlipProps) {
  const part = play.lex.part(valve.id);
  return (
    <div
      class="slip handle-slip" role="group" aria-label={t('controls.handle', { part })}
      style={{ left: `${place.left}px`, top: `${place.top}px` }}
    >
      <div class="handle-head">
        <strong>{part}</strong>
        <HandleState valve={valve} />
        <button type="button" class="close" aria-label={t('controls.close')} onClick={close}>
          <CrossSign />
        </button>
      </div>
      <HandleButtons play={play} valve={valve} />
      <p class="hint">{t('controls.twice', { state: degreesWord(toggled(valve)) })}</p>
    </div>
  );
}
