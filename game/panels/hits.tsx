// What is touched, focused and read aloud over the drawing: one button for each control that hands
// can be put to and each needle that can be tapped, a spot for every other instrument. They stand
// in percent of the drawing.
import {
  againCommand, controlLabel, keyCommand, needlesOf, stateWord, type Handled, type PumpControl,
} from '../controls.ts';
import {
  actOf, deviceAgain, deviceLabel, deviceState, type DeviceControl,
} from '../devices.ts';
import { t, upper } from '../i18n/index.ts';
import { DeviceSign } from '../icons/devices.tsx';
import { HELD_KINDS, HeldSign } from '../icons/held.tsx';
import { HandSign } from '../icons/icons.tsx';
import type { Play } from '../play.ts';
import { decimalsOf, readingText, spoken } from '../readings.ts';
import type { Placed, YardLayout } from '../yard/layout.ts';

function boxOf(placed: Placed, layout: YardLayout) {
  const share = (part: number, whole: number) => `${(100 * part) / whole}%`;
  return {
    left: share(placed.x, layout.width),
    top: share(placed.y, layout.height),
    width: share(placed.w, layout.width),
    height: share(placed.h, layout.height),
  };
}

interface HitProps { readonly play: Play; readonly placed: Placed; readonly layout: YardLayout }

/** What any control does to the drawing: an accent ring while it is focused or under the mouse. */
function hot(play: Play, id: string) {
  const on = () => play.yard?.setHot(id);
  const off = () => play.yard?.setHot(null);
  return { onMouseEnter: on, onMouseLeave: off, onFocus: on, onBlur: off };
}

interface HandledHitProps extends HitProps {
  readonly control: Handled;
  readonly open: boolean;
  readonly setOpen: (id: string | null) => void;
}

/** Valve, coupling or hand pump: the first tap lays its slip beside it, the second one acts. */
export function HandledHit({ play, placed, layout, control, open, setOpen }: HandledHitProps) {
  const press = () => (open ? play.act(againCommand(control)) : setOpen(control.id));
  const key = (event: KeyboardEvent) => {
    if (event.key === 'Escape' && open) {
      setOpen(null);
      event.preventDefault();
      return;
    }
    const chord = event.altKey || event.ctrlKey || event.metaKey;
    const command = chord ? null : keyCommand(control, event.key);
    if (command === null) return;
    event.preventDefault();
    play.act(command);
  };
  return (
    <button
      type="button" class="hit" style={boxOf(placed, layout)} data-open={open}
      aria-expanded={open} aria-label={controlLabel(control, play.lex)}
      onClick={press} onKeyDown={key} {...hot(play, control.id)}
    >
      <span class="tag">{stateWord(control, play.lex)}</span>
    </button>
  );
}

export function PumpHit({ play, placed, layout, pump }: HitProps & { readonly pump: PumpControl }) {
  const press = () => play.act({ kind: 'switch', pump: pump.id, on: !pump.wanted });
  return (
    <button
      type="button" class="hit" role="switch" aria-checked={pump.wanted}
      style={boxOf(placed, layout)} aria-label={upper(play.lex.part(pump.id))} onClick={press}
      {...hot(play, pump.id)}
    >
      <span class="tag">{t(pump.on ? 'controls.switch_off' : 'controls.switch_on')}</span>
    </button>
  );
}

export function TankHit({ play, placed, layout }: HitProps) {
  const press = () => play.act({ kind: 'mark', tank: placed.id });
  const label = controlLabel({ kind: 'tank', id: placed.id }, play.lex);
  return (
    <button
      type="button" class="hit" style={boxOf(placed, layout)} aria-label={label} onClick={press}
      {...hot(play, placed.id)}
    >
      <span class="tag">{t('controls.marker')}</span>
    </button>
  );
}

interface DeviceHitProps extends HitProps {
  readonly device: DeviceControl;
  readonly open: boolean;
  readonly setOpen: (id: string | null) => void;
}

interface FaceProps extends Pick<HitProps, 'play'> {
  readonly device: DeviceControl;
  /** True where hands still have something to do with it. */
  readonly asked: boolean;
}

/** A piece of the kit as it looks: its sign says how it stands. */
function DeviceFace({ play, device, asked }: FaceProps) {
  const { id, position, what } = device;
  return (
    <>
      <DeviceSign kind={device.device} what={what} act={actOf(play, id)} position={position} />
      {asked && <HandSign />}
      <span class="tag">
        {`${upper(play.lex.part(id))}: ${deviceState(device, play.lex)}`}
      </span>
    </>
  );
}

const isAsked = ({ busy, wanted, position }: DeviceControl): boolean =>
  busy || wanted !== position;

/** A piece of the kit. Tapped as a valve is. */
export function DeviceHit({ play, placed, layout, device, open, setOpen }: DeviceHitProps) {
  const { id } = device;
  const press = () => (open ? play.act(deviceAgain(device)) : setOpen(id));
  const key = (event: KeyboardEvent) => {
    if (event.key !== 'Escape' || !open) return;
    setOpen(null);
    event.preventDefault();
  };
  const asked = isAsked(device);
  return (
    <button
      type="button" class="hit kit-hit" style={boxOf(placed, layout)} data-open={open}
      data-asked={asked} aria-expanded={open} aria-label={deviceLabel(device, play.lex)}
      onClick={press} onKeyDown={key} {...hot(play, id)}
    >
      <DeviceFace play={play} device={device} asked={asked} />
    </button>
  );
}

/** The same while one looks again: its sign says how it stood, and nothing can be asked of it. */
export function DeviceSpot({ play, placed, layout, device }: HitProps & {
  readonly device: DeviceControl;
}) {
  const asked = isAsked(device);
  return (
    <span
      class="dial kit-hit" role="img" style={boxOf(placed, layout)} data-asked={asked}
      aria-label={deviceLabel(device, play.lex)}
    >
      <DeviceFace play={play} device={device} asked={asked} />
    </span>
  );
}

/** What is held into a cup: a sign on the board, its reading under the mouse. */
export function HeldSpot({ play, placed, layout }: HitProps) {
  const reading = play.seen.value.panel.readings.find((one) => one.id === placed.id);
  const spec = play.level.scenario.instruments.find((one) => one.id === placed.id);
  const kind = HELD_KINDS.find((one) => one === spec?.kind);
  if (reading === undefined || kind === undefined) return null;
  const text = readingText(reading, play.lex, decimalsOf(play.level.scenario, placed.id));
  return (
    <span
      class="dial held" role="img" style={boxOf(placed, layout)} aria-label={spoken(text)}
    >
      <HeldSign kind={kind} />
      <span class="tag">{`${text.name}: ${text.value} ${text.unit}`}</span>
    </span>
  );
}

/** A drawn instrument, its reading shown under the mouse; one with a needle can be tapped. */
export function DialSpot({ play, placed, layout }: HitProps) {
  const reading = play.seen.value.panel.readings.find((one) => one.id === placed.id);
  if (reading === undefined) return null;
  const text = readingText(reading, play.lex, decimalsOf(play.level.scenario, placed.id));
  if (needlesOf(play.level.scenario).includes(placed.id)) {
    const label = t('controls.tap', { instrument: spoken(text) });
    return (
      <button
        type="button" class="hit dial" style={boxOf(placed, layout)} aria-label={label}
        onClick={() => play.act({ kind: 'tap', gauge: placed.id })} {...hot(play, placed.id)}
      >
        <span class="tag">{`${text.value} ${text.unit}`}</span>
      </button>
    );
  }
  return (
    <span class="dial" role="img" style={boxOf(placed, layout)} aria-label={spoken(text)}>
      <span class="tag">{`${text.value} ${text.unit}`}</span>
    </span>
  );
}
