// The kit: what carries no fluid and yet belongs to the job, each with its positions as buttons.
import { stopped, TRIPS } from '../counted.ts';
import {
  actOf, deviceCommand, deviceLabel, devicePosition, devicesOf, deviceState, tripCommand, tripsWord,
} from '../devices.ts';
import type { DeviceControl } from '../devices.ts';
import { t, upper } from '../i18n/index.ts';
import { DeviceSign } from '../icons/devices.tsx';
import type { Play } from '../play.ts';
import { CountedButtons } from './counted.tsx';
import { Slip } from './slip.tsx';

interface Props { readonly play: Play; readonly device: DeviceControl }

function positionsOf({ last }: DeviceControl): readonly number[] {
  return Array.from({ length: last + 1 }, (_, k) => k);
}

export function DeviceButtons({ play, device }: Props) {
  const part = upper(play.lex.part(device.id));
  const { trips } = device;
  if (trips !== null) {
    return (
      <CountedButtons
        part={part} counts={TRIPS} word={tripsWord} left={trips.left}
        add={(n) => play.act(tripCommand(device, n))}
        stop={() => play.act(deviceCommand(device, stopped(trips)))}
      />
    );
  }
  return (
    <div class="choice-buttons">
      {positionsOf(device).map((position) => {
        const state = devicePosition(device, position, play.lex);
        return (
          <button
            key={position} type="button" class="choice"
            aria-label={t('controls.set_position', { part, state })}
            aria-pressed={device.wanted === position}
            onClick={() => play.act(deviceCommand(device, position))}
          >
            <DeviceSign
              kind={device.device} what={device.what} act={actOf(play, device.id)}
              position={position}
            />
            <span>{state}</span>
          </button>
        );
      })}
    </div>
  );
}

function Row({ play, device }: Props) {
  const { position, wanted } = device;
  return (
    <li class="control" aria-label={deviceLabel(device, play.lex)}>
      <span class="control-name">{upper(play.lex.part(device.id))}</span>
      <span class="handle-state">
        {deviceState(device, play.lex)}
        {device.trips === null && position !== wanted && (
          <span class="to"> → {devicePosition(device, wanted, play.lex)}</span>
        )}
      </span>
      <DeviceButtons play={play} device={device} />
    </li>
  );
}

/** Nothing where a job has none. */
export function Kit({ play }: { readonly play: Play }) {
  const all = devicesOf(play.level.scenario, play.seen.value, play.waiting.value);
  if (all.length === 0) return null;
  return (
    <Slip id="kit" name={t('kit.name')} folds={false}>
      <p class="hint">{t('kit.hint')}</p>
      <ul>{all.map((device) => <Row key={device.id} play={play} device={device} />)}</ul>
    </Slip>
  );
}
