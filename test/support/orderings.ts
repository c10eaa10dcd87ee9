// Orders in which a solution can be done as well, drawn from its partial order: what may stand in
// any order within a step, and what may be done anywhere in a stretch of the day.
import { isObject, type JsonObject } from '../../sim/base/json.ts';
import { fits, mistakeScript, parseMistake } from '../../sim/mistake.ts';
import type { Cost, Edit, Place } from '../../sim/script-mistake.ts';
import { parseScript, type Step } from '../../sim/script-schema.ts';
import { runScript } from '../../sim/script.ts';
import { score } from '../../sim/score.ts';
import type { Score } from '../../sim/marks.ts';
import { type Chance, mixed } from '../tools/chance.ts';
import { RULES, scenarioOf, scriptJson } from '../tools/golden.ts';

/** A command that may be given at any step from one place to another, both of them left out. */
export interface Window {
  /** Its first occurrence, by some of its keys. */
  readonly command: JsonObject;
  readonly after: Place;
  readonly before: Place;
}

/** An edit that breaks one constraint, and what that costs. */
export interface Break {
  readonly what: string;
  readonly edit: Edit;
  readonly costs: readonly Cost[];
}

export interface PartialOrder {
  readonly windows: readonly Window[];
  readonly breaks: readonly Break[];
}

/**
 * What of one step may change places: neighbours of one sort. Everything else keeps its own. A
 * pump's switch, strokes, notes, plugs and covers have an order of their own, and so have valves
 * while a pump turns: what is shut first says what stands behind it.
 */
function sortOf(command: JsonObject, { loose, running }: Mixing): string | null {
  const still = running.size === 0;
  if (command.kind === 'valve' && still) return command.target_deg === 0 ? 'shut' : 'open';
  if (command.kind === 'coupling') return command.made === true ? 'make' : 'part';
  if (command.kind === 'set' && loose.includes(String(command.device))) return 'set';
  return null;
}

/** Kinds of devices that do not rest on one another. */
const LOOSE = ['wear', 'act', 'lock', 'flame', 'fan', 'latch'];

interface Mixing {
  readonly loose: readonly string[];
  /** Pumps that are on at this command. */
  readonly running: Set<string>;
  readonly random: Chance;
}

function mixedRuns(commands: readonly unknown[], mixing: Mixing): JsonObject[] {
  const runs: { sort: string | null; list: JsonObject[] }[] = [];
  for (const command of commands) {
    if (!isObject(command)) continue;
    const pump = command.kind === 'switch' ? String(command.pump) : '';
    if (command.on === true) mixing.running.add(pump);
    if (command.on === false) mixing.running.delete(pump);
    const sort = sortOf(command, mixing);
    const last = runs.at(-1);
    if (last !== undefined && sort !== null && last.sort === sort) last.list.push(command);
    else runs.push({ sort, list: [command] });
  }
  return runs.flatMap(({ list }) => mixed(mixing.random, list));
}

function mixedSteps(steps: readonly unknown[], mixing: Mixing): unknown[] {
  return steps.map((step) => {
    if (!isObject(step)) return step;
    if (Array.isArray(step.write)) return { ...step, write: mixed(mixing.random, step.write) };
    return Array.isArray(step.do) ? { ...step, do: mixedRuns(step.do, mixing) } : step;
  });
}

/** One edit on a script; the form of mistakes does it. */
export function editedBy(edit: Edit, script: JsonObject): JsonObject {
  const expects = { passed: true, deductions: [], reasons: [], critical: [] };
  const head = { format: 1, of: 'solution', why: 'An order of chance.' };
  return mistakeScript(parseMistake({ ...head, edit, expects }), script);
}

/** The script of `folder` in an order of chance. */
function ordered(folder: string, { windows }: PartialOrder, random: Chance): JsonObject {
  let script = scriptJson(folder, 'solution') as JsonObject;
  for (const { command, after, before } of mixed(random, windows)) {
    const steps = script.steps as readonly unknown[];
    const from = indexOf(script, after);
    const to = indexOf(script, before);
    // Behind the step of this index, which is none that something waits for.
    const at = from + random.below(to - from);
    const moved = { move: { command: { ...command }, nth: 1 }, after: placeOf(steps, at) };
    script = editedBy(moved, script);
    // Done before the next step, as a person would: nobody leaves with something in hand.
    const now = { step: { do: { ...command } }, nth: 1 };
    script = editedBy({ put: [FREE], after: now }, script);
  }
  const loose = scenarioOf(folder)
    .devices.filter(({ kind }) => LOOSE.includes(kind))
    .map(({ id }) => id);
  const mixing = { loose, running: new Set<string>(), random };
  return { ...script, steps: mixedSteps(script.steps as unknown[], mixing) };
}

/** Where a place stands among the steps: found by a mark that is put before it. */
function indexOf(script: JsonObject, place: Place): number {
  const marked = editedBy({ put: [MARK], before: place }, script);
  return (marked.steps as readonly unknown[]).findIndex((step) => isObject(step) && isMark(step));
}

const FREE: Step = { until: { hands: 'free' }, for_s: 0, max_s: 300, else: 'fail' };
const MARK = { wait_s: 0, why: 'a mark' };
const isMark = (step: JsonObject): boolean => step.why === MARK.why;

/** A step by its number: the first that fits it, and which of those. */
function placeOf(steps: readonly unknown[], at: number): Place {
  const known = steps[at] as JsonObject;
  const same = steps.slice(0, at).filter((step) => fits(step, known));
  return { step: { ...known }, nth: same.length + 1 };
}

/** An order of chance, done; with a constraint broken where one is named. */
export function drawn(folder: string, partial: PartialOrder, random: Chance, broken?: Break): Done {
  const script = ordered(folder, partial, random);
  return doneBy(folder, broken === undefined ? script : editedBy(broken.edit, script));
}

export interface Done {
  readonly end: string;
  readonly step: string | null;
  readonly marks: Score;
}

function doneBy(folder: string, json: JsonObject): Done {
  const scenario = scenarioOf(folder);
  const { run, outcome } = runScript(scenario, parseScript(json, scenario));
  return { ...outcome, marks: score(run.scenario, RULES, run.facts) };
}
