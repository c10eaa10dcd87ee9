// Devices: what each belongs to is there and of the right kind, and nothing bears two of a kind.
import { fault, itemsOf, namedPart, objectOf, textOf } from './raw.ts';
import type { Draft, Item } from './raw.ts';

/** What a device of each kind belongs to. */
const OWNERS: Readonly<Record<string, readonly string[]>> = {
  lock: ['pump'],
  latch: ['coupling'],
  guard: ['coupling', 'valve', 'hose'],
  housing: ['filter', 'coil', 'check_valve'],
};

/** What goes into a housing is told among the elements of debris. */
function checkElements(draft: Draft, { raw, path }: Item): void {
  if (!Array.isArray(raw.elements)) return;
  const debris = objectOf(draft.raw.debris);
  const known = itemsOf(debris?.elements, 'debris.elements').map(({ id }) => id);
  raw.elements.forEach((entry: unknown, at) => {
    const id = textOf(entry);
    if (id === null || known.includes(id)) return;
    fault(draft, `${path}.elements[${at}]`, `debris has no element "${id}"`);
  });
}

/** What opens a unit, or stands inside, are valves and couplings that are there, named once. */
function checkWorked(draft: Draft, { raw, path }: Item, key: 'service' | 'inside'): void {
  const list: unknown = raw[key];
  if (!Array.isArray(list)) return;
  list.forEach((entry: unknown, at) => {
    const id = textOf(entry);
    if (id === null) return;
    const here = `${path}.${key}[${at}]`;
    namedPart(draft, id, here, { list: 'link', kinds: WORKED });
    if ((list as unknown[]).indexOf(id) < at) {
      fault(draft, here, `"${id}" is in the list already`);
    }
  });
}

const WORKED: readonly string[] = ['valve', 'three_way', 'coupling'];

export function checkDevices(draft: Draft): void {
  const ids = new Set(draft.devices.map((d) => d.id));
  const taken = new Set<string>();
  for (const device of draft.devices) {
    const kinds = OWNERS[device.kind ?? ''];
    const of = textOf(device.raw.of);
    if (kinds !== undefined && of !== null) {
      const path = `${device.path}.of`;
      namedPart(draft, of, path, { list: 'link', kinds });
      const key = `${device.kind ?? ''} ${of}`;
      if (taken.has(key)) fault(draft, path, `"${of}" has a ${device.kind ?? ''} already`);
      taken.add(key);
    }
    checkWorked(draft, device, 'service');
    checkWorked(draft, device, 'inside');
    if (device.kind === 'housing') checkElements(draft, device);
    const needs = device.raw.needs;
    if (!Array.isArray(needs)) continue;
    needs.forEach((entry: unknown, at) => {
      const id = textOf(entry);
      if (id === null || (ids.has(id) && id !== device.id)) return;
      fault(draft, `${device.path}.needs[${at}]`, `there is no other device "${id}"`);
    });
  }
}
