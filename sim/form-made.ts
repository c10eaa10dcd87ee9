// Makes a form of what was drawn for it: moves numbers along their ranges, puts what was chosen.
// Works on JSON of any scenario, so that a check can make the forms at the ends as well.
import { assert } from './base/assert.ts';
import { isObject } from './base/json.ts';
import { round } from './base/math.ts';
import { changedAt, keysOf, valuesAt } from './form-path.ts';
import type { RangeSpec, SpanSpec, TouchSpec } from './scenario-ranges.ts';

/** Numbers are rounded to so many parts of their unit, so that no step leaves a tail of digits. */
const PARTS = 1e6;

/** How many values a range can take. */
export function countOf(range: RangeSpec): number {
  return 'choices' in range
    ? range.choices.length
    : 1 + round((range.max - range.min) / range.step);
}

/** What these picks make of `written`; null leaves a range as it is written. */
export function formed(
  written: unknown,
  ranges: readonly RangeSpec[],
  picks: readonly (number | null)[],
): unknown {
  const made = ranges.reduce<unknown>((json, range, at) => {
    const pick = picks[at] ?? null;
    if (pick === null) return json;
    if ('choices' in range) return chosen(json, range.choices[pick]!.puts);
    return moved(json, range, { from: writtenOf(written, range), to: valueOf(range, pick) });
  }, written);
  return pointed(made);
}

/** What has to be found is looked for where this form has it. */
function pointed(json: unknown): unknown {
  return changedAt(json, keysOf('job.milestones.*'), (one) => {
    if (!isObject(one) || typeof one.found !== 'string') return one;
    const [link] = valuesAt(json, ['defects', one.found, 'at']);
    return link === undefined || link === one.link ? one : { ...one, link };
  });
}

function chosen(json: unknown, puts: readonly { at: string; value?: unknown }[]): unknown {
  const put = (value: unknown): unknown => (value === null ? undefined : value);
  return puts.reduce(
    (sofar, { at, value }) => changedAt(sofar, keysOf(at), () => put(value)),
    json,
  );
}

/** What a span's first place takes at this step. */
export const valueOf = (span: SpanSpec, step: number): number =>
  rounded(span.min + step * span.step);

/** What is written at a span's first place. @throws AssertionError where that is not one number. */
function writtenOf(json: unknown, { id, touches }: SpanSpec): number {
  const found = valuesAt(json, keysOf(touches[0]!.at));
  const [value] = found;
  assert(found.length === 1 && typeof value === 'number', `range ${id} is not at one number`);
  return value;
}

interface Move {
  readonly from: number;
  readonly to: number;
}

/**
 * Each place is moved from where it stands now, so that two ranges can touch the same one; once by
 * each range, so that a group may be named with the first place in it.
 */
function moved(json: unknown, { touches }: SpanSpec, move: Move): unknown {
  const done = new Set<string>();
  return touches.reduce(
    (sofar, touch) =>
      changedAt(sofar, keysOf(touch.at), (value, place) => {
        if (typeof value !== 'number' || done.has(place)) return value;
        done.add(place);
        return rounded(movedBy(value, touch, move));
      }),
    json,
  );
}

function movedBy(value: number, { factor = 1, scaled }: TouchSpec, { from, to }: Move): number {
  return scaled === true ? (value * to) / from : value + factor * (to - from);
}

function rounded(value: number): number {
  return round(value * PARTS) / PARTS + 0; // No zero with a minus.
}
