// The verb `sheet`: the lines of a job's sheet with what each should say, and marks of answers.
import { abs, round } from '../base/math.ts';
import { sheetMarks, truthOf, type SheetMark } from '../jobsheet/judge.ts';
import type { Fact } from '../fact.ts';
import { AS_WRITTEN, formOf } from '../form.ts';
import { parseScenario, scenarioHash, type Scenario, type SheetLine } from '../scenario.ts';
import { ANSWER_MOST, SHEET_UNITS, UNIT_SI } from '../scenario-sheet.ts';
import { NoSteadyFlow } from '../steady-net.ts';
import { ENGINE } from '../version.ts';
import { rulesFor } from '../weights.ts';
import { InputFaults, type Fault } from '../fault.ts';
import { digits, type Answer } from './answer.ts';
import { read, refuse, seedOf, together, type Options } from './files.ts';
import { rulesOf } from './run.ts';

type Own = ReadonlyMap<string, number | null>;

/** Answers in the units of their lines, by id. @throws InputFaults with every fault. */
function answersIn(json: unknown, lines: readonly SheetLine[]): Own {
  if (typeof json !== 'object' || json === null || Array.isArray(json)) {
    return refuse('answers', 'must be an object: {"line": number or null, ...}');
  }
  const faults: Fault[] = [];
  const own = new Map<string, number | null>();
  for (const [id, value] of Object.entries(json) as [string, unknown][]) {
    const line = lines.find((one) => one.id === id);
    if (line === undefined) faults.push({ path: id, message: 'the job sheet has no such line' });
    else if (value === null) own.set(id, null);
    else if (typeof value !== 'number' || !(abs(value) <= ANSWER_MOST / 1000)) {
      faults.push({ path: id, message: 'must be a number, or null for "cannot tell"' });
    } else own.set(id, (round(1000 * value) / 1000) * UNIT_SI[line.kind]);
  }
  if (faults.length > 0) throw new InputFaults(faults);
  return own;
}

function asFacts(own: Own): Fact[] {
  return [...own].map(([line, value]) => ({ tick: 0, kind: 'answered', line, value }));
}

/** SI in the line's unit. */
const inUnit = (value: number, { kind }: Pick<SheetMark, 'kind'>): number =>
  digits(value / UNIT_SI[kind]);

function toldLine(scenario: Scenario, line: SheetLine): object {
  const found = truthOf(scenario, line);
  return {
    id: line.id,
    kind: line.kind,
    unit: SHEET_UNITS[line.kind],
    expected: inUnit(found.value, line),
    from: inUnit(found.from, line),
    to: inUnit(found.to, line),
    cannot_tell: found.cannot_tell,
    by: Object.fromEntries(found.given.map(({ name, value }) => [name, digits(value)])),
  };
}

function toldMark(mark: SheetMark): object {
  const { id, kind, state, answer, follows, points, max } = mark;
  return {
    ...{ id, kind, state, answer: answer === null ? null : inUnit(answer, mark) },
    ...{ follows_from_own: follows, expected: inUnit(mark.value, mark) },
    ...{ right_from: inUnit(mark.from, mark), right_to: inUnit(mark.to, mark) },
    ...{ points_lost: digits(points), points_most: digits(max) },
  };
}

export function sheetVerb(file: string, options: Options): Answer {
  const base = read(file, parseScenario);
  const lines = base.job?.sheet?.lines ?? [];
  if (lines.length === 0) refuse('job.sheet', `"${base.id}" has no job sheet`);
  const [seed, rules, own] = together(
    () => seedOf(options.seed) ?? AS_WRITTEN,
    () => rulesOf(file, options),
    () =>
      options.answers === undefined
        ? null
        : read(options.answers, (json) => answersIn(json, lines)),
  );
  const scenario = formOf(base, seed);
  const head = {
    ...{ engine: ENGINE, scenario: base.id, scenario_hash: scenarioHash(base) },
    seed,
  };
  try {
    const told = lines.map((line) => toldLine(scenario, line));
    if (own === null) return { code: 0, json: { ...head, lines: told } };
    const marks = sheetMarks(scenario, rulesFor(scenario, rules), asFacts(own));
    const right = marks.every(({ points }) => points === 0);
    return { code: right ? 0 : 1, json: { ...head, lines: told, marks: marks.map(toldMark) } };
  } catch (error) {
    if (!(error instanceof NoSteadyFlow)) throw error;
    return { code: 1, json: { ...head, no_steady_flow: error.message } };
  }
}
