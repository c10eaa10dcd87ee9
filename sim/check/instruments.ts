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
  checkScale(draft, instrument, ['from_C', 'to_C'], [-20, 60]);
}

/** The keys of a scale's two ends, and where they lie where the scenario says nothing. */
export function checkScale(
  draft: Draft,
  { raw, path }: Item,
  [low, high]: readonly [string, string],
  [lo, hi]: readonly [number, number],
): void {
  const from = raw[low] === undefined ? lo : numberOf(raw[low]);
  const to = raw[high] === undefined ? hi : numberOf(raw[high]);
  if (from === null || to === null || from < to) return;
  fault(draft, `${path}.${raw[high] === undefined ? low : high}`, 'the scale must rise');
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
