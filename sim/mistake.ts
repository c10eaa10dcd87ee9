// Makes a hand script of a mistake: the script that it is of, with its one edit. Looks at JSON and
// finds places by what stands there, so that a script may change around them.
import { isObject, type JsonObject } from './base/json.ts';
import { InputFaults, schemaFaults, type Fault } from './fault.ts';
import { MistakeSchema, type Edit, type Mistake, type Place } from './script-mistake.ts';
import { mergePatch } from './phases.ts';

/** @throws InputFaults with every fault of the mistake itself. */
export function parseMistake(json: unknown): Mistake {
  const parsed = MistakeSchema.safeParse(json);
  if (!parsed.success) throw new InputFaults(schemaFaults(parsed.error.issues, json));
  return parsed.data;
}

/** True of a file that says which script it is of. */
export const isMistake = (json: unknown): json is JsonObject => isObject(json) && 'of' in json;

/**
 * The script that comes of a mistake, as JSON that is still to be checked.
 * @param base the script it is of, as JSON
 * @throws InputFaults where the edit does not find what it names
 */
export function mistakeScript(mistake: Mistake, base: unknown): JsonObject {
  const draft = draftOf(base);
  const { edit } = mistake;
  const spots = placesOf(edit).map(([key, place]) => spotOf(draft, place, `edit.${key}`));
  const faults = spots.flatMap((spot) => ('message' in spot ? [spot] : []));
  if (faults.length > 0) throw new InputFaults(faults);
  const found = new Map(placesOf(edit).map(([key], at) => [key, spots[at] as Spot]));
  apply(edit, found);
  const { expects: _of_the_whole, why: _of_the_solution, ...head } = draft.json;
  return { ...head, why: mistake.why, keep: draft.keep, steps: pruned(draft.steps) };
}

type Json = Record<string, unknown>;

/** A copy in which every step's commands are a list, so that all edits are edits of lists. */
interface Draft {
  readonly json: JsonObject;
  readonly keep: unknown[];
  readonly steps: unknown[];
}

function draftOf(base: unknown): Draft {
  const json = JSON.parse(JSON.stringify(base)) as unknown;
  if (!isObject(json) || !Array.isArray(json.steps)) {
    throw new InputFaults([{ path: 'of', message: 'is no script with steps' }]);
  }
  for (const [step] of stepsIn(json.steps)) {
    if (isObject(step) && isObject(step.do)) (step as Json).do = [step.do];
  }
  return { json, keep: Array.isArray(json.keep) ? json.keep : [], steps: json.steps };
}

/** An entry of a list. */
interface Spot {
  readonly list: unknown[];
  readonly at: number;
  readonly sort: 'step' | 'command' | 'reflex';
}

type Entry = readonly [step: unknown, list: unknown[], at: number, phase: string | null];

/** Every step in its order, those of repeats as well. */
function stepsIn(steps: unknown[], phase: string | null = null): Entry[] {
  let now = phase;
  return steps.flatMap((step, at): Entry[] => {
    if (!isObject(step)) return [];
    if (typeof step.phase === 'string') now = step.phase;
    const inner = Array.isArray(step.steps) ? stepsIn(step.steps, now) : [];
    return [[step, steps, at, now], ...inner];
  });
}

const KEYS = ['leave_out', 'replace', 'change', 'move', 'through', 'before', 'after'] as const;

function placesOf(edit: Edit): ReadonlyArray<readonly [string, Place]> {
  const all = edit as Readonly<Partial<Record<string, unknown>>>;
  return KEYS.flatMap((key) => (all[key] === undefined ? [] : [[key, all[key] as Place] as const]));
}

function spotOf(draft: Draft, place: Place, path: string): Spot | Fault {
  const all = spotsOf(draft, place);
  const { nth } = place;
  if (all.length === 0) return { path, message: 'is not found in the script' };
  if (nth === undefined && all.length > 1) {
    return { path, message: `is found ${all.length} times: say which with "nth"` };
  }
  return all[(nth ?? 1) - 1] ?? { path: `${path}.nth`, message: `there are ${all.length}` };
}

function spotsOf({ keep, steps }: Draft, place: Place): Spot[] {
  if ('reflex' in place) return among(keep, place.reflex, 'reflex');
  return stepsIn(steps).flatMap(([step, list, at, phase]): Spot[] => {
    if (place.phase !== undefined && place.phase !== phase) return [];
    if ('step' in place) return fits(step, place.step) ? [{ list, at, sort: 'step' }] : [];
    const commands = isObject(step) ? step.do : null;
    return Array.isArray(commands) ? among(commands, place.command, 'command') : [];
  });
}

function among(list: unknown[], known: JsonObject, sort: Spot['sort']): Spot[] {
  return list.flatMap((one, at) => (fits(one, known) ? [{ list, at, sort }] : []));
}

/** True where `found` has all that `known` has; of a list one entry must fit an object. */
export function fits(found: unknown, known: unknown): boolean {
  if (isObject(known)) {
    if (Array.isArray(found)) return found.some((one) => fits(one, known));
    return isObject(found) && Object.entries(known).every(([key, v]) => fits(found[key], v));
  }
  if (Array.isArray(known)) {
    if (!Array.isArray(found) || found.length !== known.length) return false;
    return known.every((one, k) => fits(found[k], one));
  }
  return found === known;
}

function apply(edit: Edit, spots: ReadonlyMap<string, Spot>): void {
  const spot = (key: string): Spot => spots.get(key)!;
  if ('leave_out' in edit) {
    taken(spot('leave_out'), spots.get('through'));
  } else if ('replace' in edit) {
    const first = spot('replace');
    taken(first, spots.get('through'));
    first.list.splice(first.at, 0, ...edit.put);
  } else if ('change' in edit) {
    const { list, at } = spot('change');
    const entry = list[at] as JsonObject;
    list[at] = mergePatch(entry, edit.to);
  } else if ('move' in edit) {
    moved(edit, spots);
  } else {
    put(edit.put, spots);
  }
}

/** Takes a stretch out of its list. */
function taken(first: Spot, last: Spot = first): unknown[] {
  if (last.list !== first.list || last.at < first.at) {
    const message = 'must stand in the same list, behind the first';
    throw new InputFaults([{ path: 'edit.through', message }]);
  }
  return first.list.splice(first.at, last.at - first.at + 1);
}

function put(what: readonly unknown[], spots: ReadonlyMap<string, Spot>): void {
  const after = spots.get('after');
  const { list, at } = after ?? spots.get('before')!;
  list.splice(after === undefined ? at : at + 1, 0, ...what);
}

function moved({ wait_s }: Extract<Edit, { move: Place }>, spots: ReadonlyMap<string, Spot>): void {
  const from = spots.get('move')!;
  const to = spots.get('after') ?? spots.get('before')!;
  const target = to.list[to.at];
  const what = taken(from, spots.get('through'));
  // It stands elsewhere now, if what was taken stood before it in the same list.
  const at = to.list.indexOf(target);
  if (at < 0 || (to.sort !== from.sort && to.sort !== 'step')) {
    const message = at < 0 ? 'is moved itself' : 'is of another sort than what is moved';
    const path = spots.has('after') ? 'edit.after' : 'edit.before';
    throw new InputFaults([{ path, message }]);
  }
  const own = from.sort === 'command' && to.sort === 'step' ? [{ do: what }] : what;
  const steps = wait_s === undefined ? own : [{ wait_s }, ...own];
  to.list.splice(spots.has('after') ? at + 1 : at, 0, ...steps);
}

/** Without the steps in which nothing is left to do. */
function pruned(steps: readonly unknown[]): unknown[] {
  return steps.flatMap((step): unknown[] => {
    if (!isObject(step)) return [step];
    if (Array.isArray(step.do) && step.do.length === 0) return [];
    if (!Array.isArray(step.steps)) return [step];
    const inner = pruned(step.steps);
    return inner.length === 0 ? [] : [{ ...step, steps: inner }];
  });
}
