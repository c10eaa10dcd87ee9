// Devices as the page offers them: what carries no fluid, with the words for its positions.
import type { Command, DeviceKind, DeviceSpec, Scenario, Snapshot } from '../sim/index.ts';
import { added, countedOf, inHands, type Counted } from './counted.ts';
import { isWord, t, upper, type Lexicon } from './i18n/index.ts';
import type { Play } from './play.ts';
import type { ActSign, Drawing } from './yard/types.ts';

export interface DeviceControl {
  readonly kind: 'device';
  readonly id: string;
  readonly device: DeviceKind;
  readonly position: number;
  readonly wanted: number;
  readonly last: number;
  readonly busy: boolean;
  /** What is worn, and where a cup can be filled: its first place is position 1. */
  readonly what: Extract<DeviceSpec, { kind: 'wear' }>['what'] | null;
  readonly places: readonly string[];
  /** Trips with a pail; null of what goes by positions. */
  readonly trips: Counted | null;
}

/** In the order of the scenario, with what was asked while the clock stood. */
export function devicesOf(
  { devices }: Pick<Scenario, 'devices'>,
  now: Snapshot,
  waiting: ReadonlyMap<string, Command>,
): DeviceControl[] {
  return now.scene.devices.map(({ id, kind, position, wanted, last }) => {
    const spec = devices.find((one) => one.id === id);
    const command = waiting.get(id);
    const asked = command?.kind === 'set' ? command.position : undefined;
    const seen = { id, done: position, wanted };
    return {
      kind: 'device', id, device: kind, position, last, busy: inHands(now, id).at,
      wanted: asked ?? wanted,
      what: spec?.kind === 'wear' ? spec.what : null,
      places: spec?.kind === 'cup' ? spec.places : [],
      trips: kind === 'carry' ? countedOf(now, seen, asked) : null,
    };
  });
}

/** What an act is a picture of, where the level's drawing says so. */
export function actOf({ level }: Pick<Play, 'level'>, id: string): ActSign | null {
  return (level.drawing as Drawing | null)?.acts?.[id] ?? null;
}

export function tripsWord(n: number): string {
  return n === 1 ? t('device.trip') : t('device.trips', { n });
}

/** "arms open", or the level's own words for this position of this device. */
export function devicePosition(
  device: Pick<DeviceControl, 'id' | 'device' | 'places'>,
  position: number,
  lex: Lexicon,
): string {
  const own = `position.${device.id}.${position}`;
  if (lex.has(own)) return lex.say(own);
  if (device.device === 'carry') return tripsWord(position);
  if (device.device === 'housing' && position > 0) return t('device.element', { n: position });
  if (device.device === 'cup' && position > 0) {
    const place = device.places[position - 1];
    if (place === undefined) return t('device.filled');
    return t('device.sample', { place: lex.part(place) });
  }
  const key = `device.${device.device}.${position}`;
  return isWord(key) ? t(key) : String(position);
}

/** What it is now: its position, or how far the trips with a pail are. */
export function deviceState(device: DeviceControl, lex: Lexicon): string {
  const { trips } = device;
  if (trips === null) return devicePosition(device, device.position, lex);
  if (trips.left > 0) return t('device.trips_of', { done: trips.done, n: trips.wanted });
  if (trips.done === 0) return t('device.no_trip');
  return t('device.trips_done', { trips: tripsWord(trips.done) });
}

/** Name and state: "Padlock, on". */
export function deviceLabel(device: DeviceControl, lex: Lexicon): string {
  const part = upper(lex.part(device.id));
  const state = deviceState(device, lex);
  if (device.trips !== null) return t('controls.valve', { part, state });
  if (device.position === device.wanted) return t('controls.valve', { part, state });
  const target = devicePosition(device, device.wanted, lex);
  const key = device.busy ? 'controls.making' : 'controls.will_make';
  return t(key, { part, state, target });
}

export function deviceCommand(device: DeviceControl, position: number): Command {
  return { kind: 'set', device: device.id, position };
}

/** What a tap asks for when the slip is open already: the next position, or one trip more. */
export function deviceAgain(device: DeviceControl): Command {
  if (device.trips !== null) return tripCommand(device, 1);
  return deviceCommand(device, (device.wanted + 1) % (device.last + 1));
}

/** More trips, added to those that are under way. */
export function tripCommand(device: DeviceControl, more: number): Command {
  const { trips, last } = device;
  return deviceCommand(device, trips === null ? more : added(trips, more, last));
}
