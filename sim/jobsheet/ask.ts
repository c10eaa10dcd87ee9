// What every line of a job sheet is asked with: the rig, the job and the trainee's own numbers; and
// when a number of one's own is a ground to go on from.
import { assert } from '../base/assert.ts';
import type { Quantity } from '../rules.ts';
import type { ConduitSpec, JobSpec, Scenario, SheetKind, SheetLine } from '../scenario.ts';
import { isConduit, roomOf, type Rig } from './rig.ts';

/** Answers in SI by line; null says that it cannot be told. */
export type Answers = ReadonlyMap<string, number | null>;
export const NO_ANSWERS: Answers = new Map();

/** A number that an explanation names, SI. */
export interface Given {
  readonly name: string;
  readonly value: number;
  readonly quantity: Quantity;
}

export interface Expected {
  /** SI; and what is as right as it, before any tolerance. */
  readonly value: number;
  readonly from: number;
  readonly to: number;
  /** True where no instrument here could tell. */
  readonly cannot_tell: boolean;
  readonly given: readonly Given[];
}

export interface Ask {
  readonly rig: Rig;
  readonly job: JobSpec;
  readonly scenario: Scenario;
  readonly own: Answers;
}

/** An own number that is off by more than this factor is no ground to go on from. */
const OWN_FACTOR = 20;
export type LineOf<K extends SheetKind> = Extract<SheetLine, { kind: K }>;

export const given = (name: string, value: number, quantity: Quantity): Given => ({
  name,
  value,
  quantity,
});

export function exactly(value: number, numbers: readonly Given[]): Expected {
  return { value, from: value, to: value, cannot_tell: false, given: numbers };
}

/** The trainee's own number of a line, or what is true where it is none to go on from. */
export function ownOr(
  { own }: Pick<Ask, 'own'>,
  line: SheetLine | undefined,
  truth: number,
): number {
  const answer = line === undefined ? undefined : own.get(line.id);
  if (answer === undefined || answer === null || !(answer > 0)) return truth;
  const off = answer / truth;
  return off > OWN_FACTOR || off < 1 / OWN_FACTOR ? truth : answer;
}

export function lineOf(rig: Rig, kind: SheetKind): SheetLine | undefined {
  return rig.sheet.lines.find((line) => line.kind === kind);
}

export const roomOfLoop = ({ loop }: Rig): number =>
  loop.reduce((sum, link) => sum + roomOf(link), 0);

export function conduit(rig: Rig, id: string): ConduitSpec {
  const link = rig.scenario.links.find((one) => one.id === id);
  assert(link !== undefined && isConduit(link), `${id} is no pipe or hose`);
  return link;
}
