// Phases of a job that is a whole day, and its drills: the same job cut down to one of them. A
// drill is a merge patch on the job's scenario [RFC7396]; what comes of it is an ordinary scenario.
// Leaves how a patch is worked out to test/tools/phases.ts.
import type { JsonObject } from './base/json.ts';
import { isObject } from './base/json.ts';

/** In the order of a day; a job may leave some out. */
export const PHASES = [
  'arrive',
  'set_up',
  'leak_test',
  'flush',
  'flow_test',
  'prime',
  'purge',
  'unit',
  'prove',
  'dose',
  'verify',
  'pressure',
  'run',
  'disconnect',
  'winterise',
  'record',
  'second_visit',
] as const;
export type Phase = (typeof PHASES)[number];

/** Lists that are patched member by member, each by its `id`; any other list is replaced. */
export const BY_ID = ['nodes', 'links', 'devices', 'instruments'] as const;

/** What `levels/NN-name/phases.json` holds: for each phase that can be drilled, its patch. */
export type Phases = Readonly<Partial<Record<Phase, { readonly scenario: JsonObject }>>>;

/** Id of a drill's scenario. */
export const drillId = (id: string, phase: Phase): string => `${id}_${phase}`;

/** The patches of a file. Takes what is there: the scenario that comes of it is checked whole. */
export function phasesOf(json: unknown): Phases {
  const found: Partial<Record<Phase, { scenario: JsonObject }>> = {};
  if (!isObject(json)) return found;
  for (const phase of PHASES) {
    const entry = json[phase];
    if (isObject(entry) && isObject(entry.scenario)) found[phase] = { scenario: entry.scenario };
  }
  return found;
}

/** The scenario of a drill, as JSON that is still to be checked; `json` stays as it is. */
export function drillOf(json: unknown, phase: Phase, patch: JsonObject): unknown {
  if (!isObject(json)) return json;
  const merged = mergePatch(json, patch);
  for (const key of BY_ID) {
    const own = json[key];
    const changes = patch[key];
    if (Array.isArray(own) && Array.isArray(changes)) merged[key] = mergeById(own, changes);
  }
  const { job } = merged;
  // The sheet was filled in before the day.
  if (isObject(job)) merged.job = mergePatch(job, { sheet: null });
  delete merged.ranges; // It starts where the solution stood on the job as it is written.
  return { ...merged, id: drillId(String(json.id), phase) };
}

/** [RFC7396, section 2]. */
export function mergePatch(target: JsonObject, patch: JsonObject): Record<string, unknown> {
  const merged: Record<string, unknown> = { ...target };
  for (const [key, value] of Object.entries(patch)) {
    const own = merged[key];
    if (value === null) delete merged[key];
    else if (isObject(value)) merged[key] = mergePatch(isObject(own) ? own : {}, value);
    else merged[key] = value;
  }
  return merged;
}

/** Members that the patch names are patched, the others stay; one that is not there is added. */
function mergeById(own: readonly unknown[], changes: readonly unknown[]): unknown[] {
  const merged = [...own];
  for (const change of changes) {
    if (!isObject(change)) continue;
    const at = merged.findIndex((one) => isObject(one) && one.id === change.id);
    const before = merged[at];
    if (isObject(before)) merged[at] = mergePatch(before, change);
    else merged.push(mergePatch({}, change));
  }
  return merged;
}

/**
 * A whole day's script cut down to one phase: the steps from its marker to the next one, and "I'm
 * done". Reflexes stay; what it writes on `lines` that the drill's sheet does not have is left out.
 * Null where the script has no such marker. As JSON, still to be checked.
 */
export function drillScript(
  json: unknown,
  phase: Phase,
  lines: readonly string[],
): JsonObject | null {
  if (!isObject(json) || !Array.isArray(json.steps)) return null;
  const steps: readonly unknown[] = json.steps;
  const isMark = (step: unknown): boolean => isObject(step) && 'phase' in step;
  const from = steps.findIndex((step) => isObject(step) && step.phase === phase);
  if (from < 0) return null;
  const next = steps.findIndex((step, at) => at > from && isMark(step));
  const own = steps
    .slice(from, next < 0 ? steps.length : next)
    .filter((step) => !isDone(step))
    .flatMap((step) => written(step, lines));
  const { expects: _of_the_whole, ...head } = json;
  const level = drillId(String(json.level), phase);
  return { ...head, level, steps: [...own, { do: { kind: 'done' } }] };
}

/** A step without the notes that have no line; nothing where nothing else is in it. */
function written(step: unknown, lines: readonly string[]): unknown[] {
  if (!isObject(step)) return [step];
  if (Array.isArray(step.steps)) {
    const own = step.steps.flatMap((one) => written(one, lines));
    return own.length === 0 ? [] : [{ ...step, steps: own }];
  }
  if ('sheet' in step) return []; // It was filled in before the day.
  if ('write' in step) {
    const wanted = Array.isArray(step.write) ? (step.write as unknown[]) : [step.write];
    const kept = wanted.filter((line) => lines.includes(String(line)));
    return kept.length === 0 ? [] : [{ ...step, write: kept }];
  }
  const stays = (command: unknown): boolean =>
    !isObject(command) || command.kind !== 'note' || lines.includes(String(command.entry));
  if (!Array.isArray(step.do)) return stays(step.do) ? [step] : [];
  const left = step.do.filter(stays);
  return left.length === 0 ? [] : [{ ...step, do: left }];
}

function isDone(step: unknown): boolean {
  return isObject(step) && isObject(step.do) && step.do.kind === 'done';
}
