// What may differ between forms: each place is there and holds what can be drawn for it, and at
// either end of every range the form is a whole scenario of its own.
import { abs, round } from '../base/math.ts';
import { countOf, formed, valueOf } from '../form-made.ts';
import { keysOf, valuesAt } from '../form-path.ts';
import { RANGED } from '../scenario-ranges.ts';
import type { RangeSpec } from '../scenario-ranges.ts';
import type { Fault } from '../fault.ts';
import { fault, itemsOf, numberOf, textOf } from './raw.ts';
import type { Draft, Item } from './raw.ts';

export function checkRanges(draft: Draft): void {
  const seen = new Map<string, string>();
  for (const range of itemsOf(draft.raw.ranges, 'ranges')) {
    const first = range.id === null ? undefined : seen.get(range.id);
    if (first !== undefined) fault(draft, `${range.path}.id`, `is taken already by ${first}`);
    if (range.id !== null) seen.set(range.id, first ?? range.path);
    if ('choices' in range.raw) checkChoices(draft, range);
    else checkSpan(draft, range);
  }
}

function checkSpan(draft: Draft, { raw, path }: Item): void {
  const limits = { least: numberOf(raw.min), most: numberOf(raw.max) };
  checkSteps(draft, { ...limits, step: numberOf(raw.step), path });
  itemsOf(raw.touches, `${path}.touches`).forEach((touch, at) => {
    const found = placeOf(draft, touch);
    if (found === null) return;
    const written = at === 0 ? found : found.filter((value) => value !== undefined);
    if (written.length === 0 || written.some((value) => numberOf(value) === null)) {
      fault(draft, `${touch.path}.at`, 'is not written there as a number');
    } else if (at === 0) checkFirst(draft, touch, { ...limits, found });
    else if (touch.raw.scaled === true && touch.raw.factor !== undefined) {
      fault(draft, `${touch.path}.factor`, 'goes with no scaled');
    }
  });
}

interface Limits {
  readonly least: number | null;
  readonly most: number | null;
}

function checkSteps(
  draft: Draft,
  { least, most, step, path }: Limits & { readonly step: number | null; readonly path: string },
): void {
  if (least === null || most === null) return;
  if (least >= most) return fault(draft, `${path}.max`, `must be more than min, which is ${least}`);
  if (step === null || step <= 0) return; // The schema says so.
  const steps = (most - least) / step;
  if (abs(steps - round(steps)) <= 1e-6) return;
  fault(draft, `${path}.step`, `must lead from ${least} to ${most} in whole steps`);
}

/** The first place takes what is drawn, so it is one number, and the range is around it. */
function checkFirst(
  draft: Draft,
  { raw, path }: Item,
  { found, least, most }: Limits & { readonly found: readonly unknown[] },
): void {
  const value = numberOf(found[0]) ?? 0;
  if (found.length > 1) fault(draft, `${path}.at`, 'the first place must be one number');
  else if (least !== null && most !== null && (value < least || value > most)) {
    fault(draft, `${path}.at`, `is written as ${value}, which is not from ${least} to ${most}`);
  }
  for (const key of ['factor', 'scaled']) {
    if (raw[key] !== undefined)
      fault(draft, `${path}.${key}`, 'the first place leads: it has none');
  }
}

function checkChoices(draft: Draft, { raw, path }: Item): void {
  for (const choice of itemsOf(raw.choices, `${path}.choices`)) {
    for (const put of itemsOf(choice.raw.puts, `${choice.path}.puts`)) {
      placeOf(draft, put);
      if (put.raw.value === undefined) fault(draft, `${put.path}.value`, 'is missing');
    }
  }
}

/** What stands at the place, or null where it cannot be ranged over or is not there. */
function placeOf(draft: Draft, { raw, path }: Item): readonly unknown[] | null {
  const text = textOf(raw.at);
  if (text === null) return null;
  const keys = keysOf(text);
  const ranged: readonly string[] = RANGED;
  if (!ranged.includes(keys[0]!)) {
    fault(draft, `${path}.at`, `"${keys[0]!}" is the same in every form`);
    return null;
  }
  const last = keys[keys.length - 1]!;
  if (last === 'id' || last === 'kind') {
    fault(draft, `${path}.at`, `"${last}" is the same in every form`);
    return null;
  }
  const found = valuesAt(draft.raw, keys);
  if (found.length > 0) return found;
  fault(draft, `${path}.at`, `leads nowhere: ${missingIn(draft, keys)}`);
  return null;
}

/** How far a path leads, as text. */
function missingIn(draft: Draft, keys: readonly string[]): string {
  const length = keys.findIndex((_, at) => valuesAt(draft.raw, keys.slice(0, at + 1)).length === 0);
  const [before, key] = [keys.slice(0, length).join('.'), keys[length] ?? ''];
  return `there is no "${key}" in ${before === '' ? 'a scenario' : before}`;
}

/** A form as it comes of the file, and as it comes of what the schema made of the file. */
export type FormFaults = (ofFile: unknown, ofParsed: unknown) => readonly Fault[];

/**
 * Faults of the forms at the ends of a sound scenario's ranges: each range alone at either end, or
 * with each of its choices; then all at their first value, and all at their last.
 * @param json the file, and `parsed` what the schema makes of it
 */
export function endFaults(
  json: unknown,
  parsed: { readonly ranges?: readonly RangeSpec[] | undefined },
  faultsOf: FormFaults,
): Fault[] {
  const { ranges, ...own } = parsed;
  if (ranges === undefined) return [];
  const { ranges: _listed, ...written } = json as Record<string, unknown>;
  const at = (picks: readonly (number | null)[]): readonly Fault[] =>
    faultsOf(formed(written, ranges, picks), formed(own, ranges, picks));
  const faults = ranges.flatMap((range, k) =>
    endsOf(range).flatMap((pick) => {
      const found = at(ranges.map((_, other) => (other === k ? pick : null)));
      return asFaults(found, { path: `ranges[${k}]`, when: whenText(range, pick) });
    }),
  );
  if (faults.length > 0) return faults;
  const [first, last] = [ranges.map(() => 0), ranges.map((range) => countOf(range) - 1)];
  return [
    ...asFaults(at(first), { path: 'ranges', when: 'each at its first' }),
    ...asFaults(at(last), { path: 'ranges', when: 'each at its last' }),
  ];
}

function endsOf(range: RangeSpec): readonly number[] {
  return 'choices' in range ? range.choices.map((_, at) => at) : [0, countOf(range) - 1];
}

function whenText(range: RangeSpec, pick: number): string {
  if ('choices' in range) return `with "${range.choices[pick]!.id}"`;
  return `at ${valueOf(range, pick)}`;
}

function asFaults(
  found: readonly Fault[],
  { path, when }: { readonly path: string; readonly when: string },
): readonly Fault[] {
  return found.map(({ path: at, message }) => ({ path, message: `${when}: ${at} ${message}` }));
}
