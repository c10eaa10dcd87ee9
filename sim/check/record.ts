// The sheet of readings: each line has an id of its own and looks at an instrument with a number.
import { fault, itemsOf, textOf } from './raw.ts';
import type { Draft } from './raw.ts';

/** Kinds whose readings are numbers that can be written down (notes.ts). */
const NUMBERS: readonly string[] = [
  'pressure',
  'flow',
  'level',
  'difference',
  'temperature',
  'meter',
  'current',
  'voltage',
];

export function checkRecord(draft: Draft): void {
  for (const { raw, path } of itemsOf(draft.raw.record, 'record')) {
    const id = textOf(raw.reading);
    if (id === null) continue;
    const found = draft.instruments.find((one) => one.id === id);
    if (found === undefined) fault(draft, `${path}.reading`, `there is no instrument "${id}"`);
    else if (found.kind !== null && !NUMBERS.includes(found.kind)) {
      fault(draft, `${path}.reading`, `"${id}" is a ${found.kind}: it shows no number`);
    }
  }
}
