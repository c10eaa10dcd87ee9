// Instruments between two places, or at one of several kinds of place: their names lead somewhere.
import { fault, namedPart, numberOf, textOf } from './raw.ts';
import type { Draft, Item } from './raw.ts';

/** Gauges of a difference, and thermometers. */
export function checkMore(draft: Draft, instrument: Item): void {
  if (instrument.kind === 'difference') return checkDifference(draft, instrument);
  const { raw, path } = instrument;
  const node = textOf(raw.node);
  if (raw.node === undefined && raw.link === undefined) {
    fault(draft, path, 'stands nowhere: name its node, or its link');
  }
  if (raw.node !== undefined && raw.link !== undefined) {
    fault(draft, `${path}.link`, 'must not be said beside its node');
  }
  if (node !== null) {
    const kind = draft.nodeById.get(node)?.kind;
    if (kind === undefined) fault(draft, `${path}.node`, `there is no node "${node}"`);
    else if (kind === 'open') fault(draft, `${path}.node`, `"${node}" stands open in the air`);
  }
  namedPart(draft, raw.link, `${path}.link`, { list: 'link', kinds: null });
  const from = raw.from_C === undefined ? -20 : numberOf(raw.from_C);
  const to = raw.to_C === undefined ? 60 : numberOf(raw.to_C);
  if (from === null || to === null || from < to) return;
  fault(draft, `${path}.${raw.to_C === undefined ? 'from_C' : 'to_C'}`, 'the scale must rise');
}

function checkDifference(draft: Draft, { raw, path }: Item): void {
  for (const key of ['high', 'low'] as const) {
    namedPart(draft, raw[key], `${path}.${key}`, { list: 'node', kinds: ['junction'] });
  }
  const high = textOf(raw.high);
  if (high !== null && high === raw.low) {
    fault(draft, `${path}.low`, `is the same place as the other, "${high}"`);
  }
}
