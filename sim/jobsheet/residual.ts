// Marks of the derived line: the air that was left at the proof, by two readings of the level and
// what pipes and hoses give by the book, against the air that was there. A fold over facts.
import { clamp, max, min } from '../base/math.ts';
import { P_ATM } from '../base/units.ts';
import { residualOf, type Residual } from '../derived.ts';
import type { Fact } from '../fact.ts';
import type { Rules } from '../rules.ts';
import { RESIDUAL } from '../scenario-sheet.ts';
import type { Scenario } from '../scenario.ts';
import { areaOfTank, divisionOf, proofPressures } from './amounts.ts';
import { given, type Given } from './ask.ts';
import { airGives } from './give.ts';
import { rigOf, type LineState, type SheetMark } from './judge.ts';
import { steadyWith } from './rig.ts';

/** What is the same in every run of a scenario. */
interface Proof {
  readonly area: number;
  readonly open: number;
  readonly closed: number;
  /** m: what a level can be read to. */
  readonly read: number;
}

const known = new WeakMap<Scenario, Proof>();

function proofOf(scenario: Scenario, { tank, valve }: Residual, least: number): Proof {
  const before = known.get(scenario);
  if (before !== undefined) return before;
  const rig = rigOf(scenario);
  const shut = steadyWith(rig, { ...rig.sheet.purge, [valve]: 0 });
  const read = max(least, divisionOf(scenario, tank));
  const proof = { area: areaOfTank(scenario, tank), ...proofPressures(rig, shut), read };
  known.set(scenario, proof);
  return proof;
}

/** Null of a job without that line, and where its proof was never read. */
export function residualMark(
  scenario: Scenario,
  rules: Rules,
  facts: readonly Fact[],
): SheetMark | null {
  const line = residualOf(scenario);
  const there = facts.filter((fact): fact is There => fact.kind === 'loop_air').at(-1);
  if (line === null || there === undefined) return null;
  const truth = there.value;
  const rule = rules.sheet.residual;
  const proof = proofOf(scenario, line, rule.read_mm / 1000);
  const { moved, from, to, slack } = bandOf(there, proof, rule.tolerance_percent / 100);
  const fact = lastOf(facts);
  const answer = fact?.value ?? null;
  const cannot_tell = moved < proof.read;
  const untold = cannot_tell ? 0 : Infinity;
  const off = answer === null ? untold : 1 + max(from - answer, answer - to) / slack;
  const lost = clamp((off - 1) / (rules.sheet.zero_at - 1), 0, 1);
  return {
    ...{ id: RESIDUAL, kind: 'residual', bore: null, quantity: 'volume' },
    state: stateOf(fact !== undefined, answer, lost),
    ...{ answer, tick: fact?.tick ?? null, value: truth, truth, follows: false, cannot_tell },
    ...{ from, to, given: givenOf(proof, there, moved) },
    // An empty line costs nothing: that the proof was done and read is asked for already.
    ...{ points: fact === undefined ? 0 : rule.points * lost, max: rule.points },
    source: rule.source,
  };
}

type There = Fact & { kind: 'loop_air' };
type Answered = Fact & { kind: 'answered' };

const lastOf = (facts: readonly Fact[]): Answered | undefined =>
  facts
    .filter((fact): fact is Answered => fact.kind === 'answered' && fact.line === RESIDUAL)
    .at(-1);

/**
 * What is right: the air that is there, and what the levels show of it where it stands deeper than
 * the gauges and so gives way less; each by so much, or by what the level cannot show.
 */
function bandOf({ value, pressure }: There, proof: Proof, share: number) {
  const { area, open, closed, read } = proof;
  // m of level for each m3, at the pressures of the gauges and at those of the air itself.
  const each = airGives(1, open, closed) / area;
  const own = airGives(1, max(pressure - (closed - open), LEAST), max(pressure, LEAST)) / area;
  const shown = (value * own) / each;
  const [low, high] = [min(value, shown), max(value, shown)];
  const least = read / each;
  const slack = max(share * high, least);
  const from = max(0, low - max(share * low, least));
  return { moved: own * value, from, to: high + slack, slack };
}

/** Pa abs: no proof is done below. */
const LEAST = 0.5 * P_ATM;

function stateOf(written: boolean, answer: number | null, lost: number): LineState {
  if (!written) return 'unanswered';
  if (lost === 0) return 'right';
  if (answer === null) return 'could_tell';
  return lost < 1 ? 'near' : 'wrong';
}

function givenOf(proof: Proof, there: There, moved: number): readonly Given[] {
  const { open, closed, read } = proof;
  return [
    given('air', moved, 'level'),
    given('division', read, 'level'),
    given('open', open - P_ATM, 'pressure'),
    given('shut', closed - P_ATM, 'pressure'),
    given('held', there.pressure - P_ATM, 'pressure'),
  ];
}
