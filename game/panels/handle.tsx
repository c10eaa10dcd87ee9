// The buttons of a handle: shut, quarter, half, open, and five degrees either way; the positions of
// a three-way valve; join and part of a coupling; strokes of a hand pump. The same ones stand in
// the slip beside the drawing and in the controls list.
import type { ComponentChildren } from 'preact';
import {
  degreesWord, HALF_DEG, halvesWord, nextPosition, POSITIONS, positionWord, QUARTER_DEG, STEP_DEG,
  stateWord, stepped, strokesText, toggled, type CouplingControl, type Handled,
  type HandPumpControl, type ThreeWayControl, type ValveControl,
} from '../controls.ts';
import { added, stopped, strokeCommand, STROKES, STROKES_MOST } from '../counted.ts';
import { t, upper } from '../i18n/index.ts';
import { CrossSign, HandleSign, HalvesSign, ThreeWaySign } from '../icons/icons.tsx';
import { devicesOf, deviceState, type DeviceControl } from '../devices.ts';
import type { Play } from '../play.ts';
import { CountedButtons } from './counted.tsx';
import { DeviceButtons } from './kit.tsx';

interface Props<C> { readonly play: Play; readonly control: C }

function ValveButtons({ play, control: valve }: Props<ValveControl>) {
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

function ThreeWayButtons({ play, control }: Props<ThreeWayControl>) {
  const part = upper(play.lex.part(control.id));
  return (
    <div class="choice-buttons">
      {POSITIONS.map((deg) => {
        const state = positionWord(control, deg, play.lex);
        return (
          <button
            key={deg} type="button" class="choice"
            aria-label={t('controls.set_position', { part, state })}
            aria-pressed={control.target === deg}
            onClick={() => play.act({ kind: 'valve', valve: control.id, target_deg: deg })}
          >
            <ThreeWaySign deg={deg} size={26} />
            <span>{state}</span>
          </button>
        );
      })}
    </div>
  );
}

function CouplingButtons({ play, control }: Props<CouplingControl>) {
  const part = upper(play.lex.part(control.id));
  const set = (made: boolean) => () => {
    play.act({ kind: 'coupling', coupling: control.id, made });
  };
  return (
    <div class="choice-buttons">
      <button
        type="button" class="choice" aria-label={t('controls.set_made', { part })}
        aria-pressed={control.wanted} onClick={set(true)}
      >
        <HalvesSign made size={26} />
        <span>{t('controls.join')}</span>
      </button>
      <button
        type="button" class="choice" aria-label={t('controls.set_apart', { part })}
        aria-pressed={!control.wanted} onClick={set(false)}
      >
        <HalvesSign made={false} size={26} />
        <span>{t('controls.part')}</span>
      </button>
    </div>
  );
}

function StrokeButtons({ play, control }: Props<HandPumpControl>) {
  const { id, left } = control;
  return (
    <CountedButtons
      part={upper(play.lex.part(id))} counts={STROKES} word={strokesText} left={left}
      add={(n) => play.act(strokeCommand(id, added(control, n, STROKES_MOST)))}
      stop={() => play.act(strokeCommand(id, stopped(control)))}
    />
  );
}

export function HandleButtons({ play, control }: Props<Handled>) {
  if (control.kind === 'valve') return <ValveButtons play={play} control={control} />;
  if (control.kind === 'coupling') return <CouplingButtons play={play} control={control} />;
  if (control.kind === 'hand_pump') return <StrokeButtons play={play} control={control} />;
  return <ThreeWayButtons play={play} control={control} />;
}

/** What it is to become, where that is not what it is. */
function wantedWord(control: Handled, play: Play): string | null {
  if (control.kind === 'coupling') {
    return control.made === control.wanted ? null : halvesWord(control.wanted);
  }
  if (control.kind === 'hand_pump') return null; // Its state says how many there are to be.
  if (Math.round(control.deg) === control.target) return null;
  return control.kind === 'valve'
    ? degreesWord(control.target)
    : positionWord(control, control.target, play.lex);
}

/** Where the handle is, and where it is going. */
export function HandleState({ play, control }: Props<Handled>) {
  const wanted = wantedWord(control, play);
  return (
    <span class="handle-state">
      {stateWord(control, play.lex)}
      {wanted !== null && <span class="to"> → {wanted}</span>}
    </span>
  );
}

/** What a second tap on the drawing does. */
function againText(control: Handled, play: Play): string {
  switch (control.kind) {
    case 'valve':
      return t('controls.twice', { state: degreesWord(toggled(control)) });
    case 'coupling':
      return t('controls.coupling_again', { state: halvesWord(!control.wanted) });
    case 'hand_pump':
      return t('controls.stroke_again');
    case 'three_way': {
      const state = positionWord(control, nextPosition(control, 1), play.lex);
      return t('controls.twice', { state });
    }
  }
}

/** The part that a device belongs to: arms to their coupling. */
function ofPart(play: Play, id: string): string | null {
  const spec = play.level.scenario.devices.find((one) => one.id === id);
  return spec !== undefined && 'of' in spec ? spec.of : null;
}

interface Placed {
  readonly place: { readonly left: number; readonly top: number };
  readonly close: () => void;
}

interface FrameProps extends Placed {
  readonly part: string;
  readonly state: ComponentChildren;
  readonly children: ComponentChildren;
}

/** A slip beside what it handles: its name, how it stands, and the way out. */
function Frame({ part, state, place, close, children }: FrameProps) {
  return (
    <div
      class="slip handle-slip" role="group" aria-label={t('controls.handle', { part })}
      style={{ left: `${place.left}px`, top: `${place.top}px` }}
    >
      <div class="handle-head">
        <strong>{part}</strong>
        {state}
        <button type="button" class="close" aria-label={t('controls.close')} onClick={close}>
          <CrossSign />
        </button>
      </div>
      {children}
    </div>
  );
}

export function HandleSlip({ play, control, ...placed }: Props<Handled> & Placed) {
  const devices = devicesOf(play.level.scenario, play.seen.value, play.waiting.value);
  const own = devices.filter(({ id }) => ofPart(play, id) === control.id);
  const state = <HandleState play={play} control={control} />;
  return (
    <Frame {...placed} part={play.lex.part(control.id)} state={state}>
      <HandleButtons play={play} control={control} />
      {own.map((device) => <DeviceButtons key={device.id} play={play} device={device} />)}
      <p class="hint">{againText(control, play)}</p>
    </Frame>
  );
}

interface DeviceSlipProps extends Placed {
  readonly play: Play;
  readonly device: DeviceControl;
}

/** The same for a piece of the kit. */
export function DeviceSlip({ play, device, ...placed }: DeviceSlipProps) {
  const state = <span class="handle-state">{deviceState(device, play.lex)}</span>;
  return (
    <Frame {...placed} part={play.lex.part(device.id)} state={state}>
      <DeviceButtons play={play} device={device} />
    </Frame>
  );
}
