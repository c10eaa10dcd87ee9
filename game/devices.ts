// Devices as the page offers them: what carries no fluid, with the words for its positions.
import type { Command, DeviceKind, Snapshot } from '../sim/index.ts';
import { isWord, t, upper, type Lexicon } from './i18n/index.ts';

export interface DeviceControl {
  readonly kind: 'device';
  readonly id: string;
  readonly device: DeviceKind;
  readonly position: number;
  readonly wanted: number;
  readonly last: number;
  readonly busy: boolean;
}

/** In the order of the scenario, with what was asked while the clock stood. */
export function devicesOf(
  { scene }: Snapshot,
  waiting: ReadonlyMap<string, Command>,
): DeviceControl[] {
  const busy = new Set([scene.hands.busy, scene.helper?.busy ?? null]);
  return scene.devices.map(({ id, kind, position, wanted, last }) => {
    const asked = waiting.get(id);
    return {
      kind: 'device', id, device: kind, position, last, busy: busy.has(id),
      wanted: asked?.kind === 'set' ? asked.position : wanted,
    };
  });
}

/** "arms open", or the level's own words for this position of this device. */
export function devicePosition(device: DeviceControl, position: number, lex: Lexicon): string {
  const own = `position.${device.id}.${position}`;
  if (lex.has(own)) return lex.say(own);
  const key = `device.${device.device}.${position}`;
  return isWord(key) ? t(key) : String(position);
}

/** Name and state: "Padlock, on". */
export function deviceLabel(device: DeviceControl, lex: Lexicon): string {
  const part = upper(lex.part(device.id));
  const state = devicePosition(device, device.position, lex);
  if (device.position === device.wanted) return t('controls.valve', { part, state });
  const target = devicePosition(device, device.wanted, lex);
  const key = device.busy ? 'controls.making' : 'controls.will_make';
  return t(key, { part, state, target });
}

export function deviceCommand(device: DeviceControl, position: number): Command {
  return { kind: 'set', device: device.id, position };
}
