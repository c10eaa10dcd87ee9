// The controls as a list: the same actions as on the drawing, always there, for small screens,
// keyboards, screen readers, and for those who like a list better. And what the hands are at.
import { controlLabel, controlsOf, isHandled, needlesOf, type Control } from '../controls.ts';
import { list } from '../i18n/format.ts';
import type { HandsSeen } from '../../sim/index.ts';
import { t, upper } from '../i18n/index.ts';
import { HandSign, TapSign } from '../icons/icons.tsx';
import { HomeRow } from './home.tsx';
import type { Play } from '../play.ts';
import { durationText } from '../verdict.ts';
import { HandleButtons, HandleState } from './handle.tsx';
import { Slip } from './slip.tsx';

interface RowProps { readonly play: Play; readonly control: Control }

function Row({ play, control }: RowProps) {
  const name = upper(play.lex.part(control.id));
  if (isHandled(control)) {
    return (
      <li class="control">
        <span class="control-name">{name}</span>
        <HandleState play={play} control={control} />
        <HandleButtons play={play} control={control} />
      </li>
    );
  }
  if (control.kind === 'pump') {
    const { id, wanted, on } = control;
    const press = () => play.act({ kind: 'switch', pump: id, on: !wanted });
    return (
      <li class="control">
        <span class="control-name">{name}</span>
        <span class="handle-state">{t(on ? 'controls.running' : 'controls.standing')}</span>
        <button
          type="button" class="switch" role="switch" aria-checked={wanted} aria-label={name}
          onClick={press}
        >
          <span class="knob" />
          <span>{t(wanted ? 'controls.switch_off' : 'controls.switch_on')}</span>
        </button>
      </li>
    );
  }
  return (
    <li class="control">
      <span class="control-name">{name}</span>
      <button
        type="button" aria-label={controlLabel(control, play.lex)}
        onClick={() => play.act({ kind: 'mark', tank: control.id })}
      >
        {t('controls.marker')}
      </button>
    </li>
  );
}

/** Knocking on a glass: the same as a tap on a dial of the drawing. */
function Needles({ play }: { readonly play: Play }) {
  const all = needlesOf(play.level.scenario);
  if (all.length === 0) return null;
  return (
    <li class="control">
      <span class="control-name">{t('controls.needles')}</span>
      <span class="hint">{t('controls.needles_hint')}</span>
      <div class="choice-buttons">
        {all.map((gauge) => {
          const instrument = play.lex.say(`reading.${gauge}`);
          return (
            <button
              key={gauge} type="button" class="choice"
              aria-label={t('controls.tap', { instrument })}
              onClick={() => play.act({ kind: 'tap', gauge })}
            >
              <TapSign />
              <span>{upper(instrument)}</span>
            </button>
          );
        })}
      </div>
    </li>
  );
}

export function Controls({ play }: { readonly play: Play }) {
  const all = controlsOf(play.level.scenario, play.seen.value, play.waiting.value);
  return (
    <Slip id="controls" name={t('controls.name')} folds={false}>
      <p class="hint">{t('controls.hint')}</p>
      <ul>
        {all.map((control) => <Row key={control.id} play={play} control={control} />)}
        <Needles play={play} />
        <HomeRow play={play} />
      </ul>
    </Slip>
  );
}

interface PairProps { readonly play: Play; readonly pair: HandsSeen }

/** A second pair of hands: what it is at, and whether it is to do what is asked next. */
function Helper({ play, pair }: PairProps) {
  const { busy, waiting } = pair;
  const told = play.telling.value;
  const then = list(waiting.map(play.lex.part));
  const at = busy === null ? t('hands.free') : t('hands.at', { part: play.lex.part(busy) });
  return (
    <span class="helper">
      <button
        type="button" class="tell" aria-pressed={told} title={t('hands.tell_hint')}
        onClick={() => play.tell(!told)}
      >
        {t(told ? 'hands.telling' : 'hands.tell')}
      </button>
      <span class="helper-at">
        {t('hands.helper')}: {at}
        {waiting.length > 0 && `; ${t('hands.then', { list: then })}`}
      </span>
    </span>
  );
}

export function Hands({ play }: { readonly play: Play }) {
  const { hands, helper, back_in_s } = play.seen.value.scene;
  const { busy, waiting } = hands;
  const frozen = [...play.waiting.value.keys()].map(play.lex.part);
  const then = list(waiting.map(play.lex.part));
  const at = busy === null ? t('hands.free') : t('hands.at', { part: play.lex.part(busy) });
  const full = busy !== null || waiting.length > 0 || frozen.length > 0;
  return (
    <section
      class="hands" aria-label={t('hands.name')} data-busy={busy !== null} data-full={full}
    >
      <span class="hands-name"><HandSign /> <span>{t('hands.name')}</span></span>
      <span class="hands-at">
        {back_in_s === null ? at : t('hands.away', { time: durationText(back_in_s) })}
      </span>
      <span class="hands-then" title={then === '' ? undefined : then}>
        {waiting.length > 0 && t('hands.then', { list: then })}
        {frozen.length > 0 && t('hands.frozen', { list: list(frozen) })}
      </span>
      {helper !== null && <Helper play={play} pair={helper} />}
    </section>
  );
}
