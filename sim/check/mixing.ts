// Cups, pails, instruments that look at samples, rooms: what they name is there, of the right
// kind, and of some use.
import { isAlcohol } from '../laws/alcohol.ts';
import { checkScale } from './instruments.ts';
import { fault, namedPart, objectOf, textOf } from './raw.ts';
import type { Draft, Item } from './raw.ts';

const AT_CUPS = ['hydrometer', 'refractometer', 'dip_thermometer'];

export function checkMixing(draft: Draft): void {
  for (const device of draft.devices) {
    if (device.kind === 'cup') checkCup(draft, device);
    if (device.kind === 'carry') checkCarry(draft, device);
  }
  for (const one of draft.instruments) {
    if (AT_CUPS.includes(one.kind ?? '')) checkInstrument(draft, one);
  }
  checkRoom(draft);
}

function listOf(value: unknown): readonly unknown[] {
  return Array.isArray(value) ? value : [];
}

function checkTwins(draft: Draft, list: readonly unknown[], path: string): void {
  list.forEach((value, at) => {
    if (typeof value !== 'string' || list.indexOf(value) === at) return;
    fault(draft, `${path}[${at}]`, `"${value}" stands here already`);
  });
}

function checkCup(draft: Draft, { raw, path }: Item): void {
  const places = listOf(raw.places);
  const wanted = { list: 'node', kinds: ['junction', 'tank'] } as const;
  places.forEach((place, at) => namedPart(draft, place, `${path}.places[${at}]`, wanted));
  checkTwins(draft, places, `${path}.places`);
}

function checkCarry(draft: Draft, { raw, path }: Item): void {
  for (const key of ['from', 'to'] as const) {
    namedPart(draft, raw[key], `${path}.${key}`, { list: 'node', kinds: ['tank'] });
  }
  const from = textOf(raw.from);
  if (from !== null && from === raw.to) {
    fault(draft, `${path}.to`, `comes from "${from}" itself`);
  }
}

function checkInstrument(draft: Draft, instrument: Item): void {
  const { raw, path, kind } = instrument;
  namedPart(draft, raw.cup, `${path}.cup`, { list: 'device', kinds: ['cup'] });
  if (kind === 'hydrometer') checkScale(draft, instrument, ['from', 'to'], [0.9, 1.1]);
  else if (kind !== 'refractometer') {
    checkScale(draft, instrument, ['from_C', 'to_C'], [-20, 60]);
  }
}

function checkRoom(draft: Draft): void {
  const room = objectOf(draft.raw.room);
  if (room === null) return;
  const holds = listOf(room.holds);
  holds.forEach((value, at) => {
    const id = textOf(value);
    if (id !== null && draft.linkById.get(id)?.kind === 'coupling') return;
    namedPart(draft, value, `room.holds[${at}]`, { list: 'node', kinds: ['tank', 'open'] });
  });
  checkTwins(draft, holds, 'room.holds');
  const fluid = draft.raw.antifreeze ?? 'none';
  if (typeof fluid !== 'string' || isAlcohol(fluid)) return;
  fault(draft, 'room', `nothing goes into its air: the antifreeze is ${fluid}`);
}
