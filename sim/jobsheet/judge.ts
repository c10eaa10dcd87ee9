// Marks of the job sheet: each line against what follows from the trainee's own lines before it, so
// that a wrong number costs once, and a right one by two errors is found. A fold over facts.
import { clamp, max } from '../base/math.ts';
import type { Fact } from '../fact.ts';
import type { Quantity, Rules } from '../rules.ts';
import type { LineKind, Scenario, SheetKind, SheetLine } from '../scenario.ts';
import { testsRecord } from '../weights.ts';
import { expectedOf, RESTS_ON, type Answers, type Expected, type Given } from './expected.ts';
import { conduit, NO_ANSWERS } from './ask.ts';
import { makeRig, type Rig } from './rig.ts';

/**
 * `cancelled`: right by the plant, wrong by one's own numbers. `could_tell`: "cannot tell" where it
 * can be told. `near`: outside the tolerance, but not by much.
 */
export const LINE_STATES = [
  'right',
  'near',
  'wrong',
  'cancelled',
  'could_tell',
  'unanswered',
] as const;
export type LineState = (typeof LINE_STATES)[number];

export interface SheetMark {
  readonly id: string;
  readonly kind: LineKind;
  /** m: of the pipes that a line of flow asks for. */
  readonly bore: number | null;
  readonly quantity: Quantity;
  readonly state: LineState;
  /** SI; null for "cannot tell" or no answer. When it was given. */
  readonly answer: number | null;
  readonly tick: number | null;
  /** What follows from the lines before it, and what is taken as right, SI. */
  readonly value: number;
  readonly from: number;
  readonly to: number;
  readonly cannot_tell: boolean;
  /** What is right by the plant; another than `value` where a line before it is wrong. */
  readonly truth: number;
  readonly follows: boolean;
  /** Numbers for the explanation. */
  readonly given: readonly Given[];
  /** Taken off, and the most. */
  readonly points: number;
  readonly max: number;
  readonly source: string;
}

const QUANTITY: Readonly<Record<SheetKind, Quantity>> = {
  flow: 'flow',
  total: 'flow',
  head: 'length',
  banks: 'count',
  volume: 'volume',
  make_up: 'time',
  antifreeze: 'volume',
  drop: 'level',
  test: 'pressure',
  leave: 'pressure',
};

interface Known {
  readonly rig: Rig;
  readonly truths: Map<string, Expected>;
}

/** What is worked out once for a scenario: it is always the same. */
const all = new WeakMap<Scenario, Known>();

function knownOf(scenario: Scenario): Known {
  const known = all.get(scenario) ?? { rig: makeRig(scenario), truths: new Map() };
  all.set(scenario, known);
  return known;
}

export const rigOf = (scenario: Scenario): Rig => knownOf(scenario).rig;

/** What a line should say by the plant alone. */
export function truthOf(scenario: Scenario, line: SheetLine): Expected {
  const { rig, truths } = knownOf(scenario);
  const truth = truths.get(line.id) ?? expectedOf(rig, scenario, line, NO_ANSWERS);
  truths.set(line.id, truth);
  return truth;
}

type Answered = Fact & { kind: 'answered' };

/** The last answer to each line. */
export function answersOf(facts: readonly Fact[]): ReadonlyMap<string, Answered> {
  return new Map(
    facts
      .filter((fact): fact is Answered => fact.kind === 'answered')
      .map((fact) => [fact.line, fact]),
  );
}

/** Points that the sheet is worth: all of the record's where a job tests nothing else of it. */
function sheetHas(scenario: Scenario, rules: Rules): number {
  return testsRecord(scenario) ? rules.sheet.points : rules.dimensions.record.max;
}

/** Every line in the sheet's order; none of a job without a sheet. */
export function sheetMarks(
  scenario: Scenario,
  rules: Rules,
  facts: readonly Fact[],
): readonly SheetMark[] {
  const lines = scenario.job?.sheet?.lines ?? [];
  if (lines.length === 0) return [];
  const rig = rigOf(scenario);
  const found = answersOf(facts);
  const own = new Map([...found].map(([id, { value }]) => [id, value] as const));
  const most = sheetHas(scenario, rules) / lines.length;
  return lines.map((line) =>
    markLine({ rig, scenario, rules, own, most }, line, found.get(line.id)),
  );
}

interface Marking {
  readonly rig: Rig;
  readonly scenario: Scenario;
  readonly rules: Rules;
  readonly own: Answers;
  readonly most: number;
}

function markLine(of: Marking, line: SheetLine, fact: Answered | undefined): SheetMark {
  const { rig, scenario, rules, own, most } = of;
  const rule = rules.sheet.lines[line.kind];
  const share = (line.tolerance_percent ?? rule.tolerance_percent) / 100;
  const truly = truthOf(scenario, line);
  const rests = rig.sheet.lines.some(
    ({ kind, id }) => RESTS_ON[line.kind].includes(kind) && own.has(id),
  );
  const found = rests ? expectedOf(rig, scenario, line, own) : truly;
  const band = bandOf(found, share);
  const answer = fact?.value ?? null;
  const lost = fact === undefined ? 1 : lostBy(offBy(answer, found, band), rules);
  const byPlant = fact !== undefined && offBy(answer, truly, bandOf(truly, share)) <= 1;
  return {
    id: line.id,
    kind: line.kind,
    bore: line.kind === 'flow' ? conduit(rig, line.link).bore_mm / 1000 : null,
    quantity: QUANTITY[line.kind],
    state: stateOf({ fact, lost, byPlant }),
    answer,
    tick: fact?.tick ?? null,
    value: found.value,
    ...{ from: band.from, to: band.to, cannot_tell: found.cannot_tell, truth: truly.value },
    follows: found.value < bandOf(truly, share).from || found.value > bandOf(truly, share).to,
    given: found.given,
    ...{ points: most * lost, max: most, source: rule.source },
  };
}

export interface Band {
  readonly from: number;
  readonly to: number;
  /** What one may be off, SI. */
  readonly slack: number;
}

function bandOf({ value, from, to }: Expected, share: number): Band {
  const slack = share * max(value, 0);
  return { from: from - slack, to: to + slack, slack };
}

/** How far off an answer is in what it may be off: 1 at the edge of what is right. */
export function offBy(
  answer: number | null,
  { cannot_tell }: Pick<Expected, 'cannot_tell'>,
  band: Band,
): number {
  if (answer === null) return cannot_tell ? 0 : Infinity;
  const beyond = max(0, max(band.from - answer, answer - band.to) - 1e-12);
  if (beyond === 0) return 0;
  return band.slack > 0 ? 1 + beyond / band.slack : Infinity;
}

/** Share of a line's points that is lost by being so far off. */
export const lostBy = (off: number, rules: Rules): number =>
  clamp((off - 1) / (rules.sheet.zero_at - 1), 0, 1);

export function stateOf(of: {
  readonly fact: Answered | undefined;
  readonly lost: number;
  readonly byPlant: boolean;
}): LineState {
  if (of.fact === undefined) return 'unanswered';
  if (of.lost === 0) return 'right';
  if (of.fact.value === null) return 'could_tell';
  if (of.byPlant) return 'cancelled';
  return of.lost < 1 ? 'near' : 'wrong';
}
