// Marks of the derived line: the air that was left at the proof, by two readings of the level and
// what pipes and hoses give by the book, against the air that was there. A fold over facts.
import { max, min } from '../base/math.ts';
import { P_ATM } from '../base/units.ts';
import { residualOf, type Residual } from '../derived.ts';
import type { Fact } from '../fact.ts';
import type { Rules } from '../rules.ts';
import { RESIDUAL } from '../scenario-sheet.ts';
import type { Scenario } from '../scenario.ts';
import { areaOfTank, divisionOf, LEVEL_READ, proofPressures } from './amounts.ts';
import { given, type Given } from './ask.ts';
import { airGives } from './give.ts';
import { answersOf, lostBy, offBy, rigOf, stateOf, truthOf } from './judge.ts';
import type { Band, SheetMark } from './judge.ts';
import { steadyWith } from './rig.ts';

/** What is the same in every run of a scenario. */
interface Proof {
  readonly area: number;
  readonly open: number;
  readonly closed: number;
  readonly division: number;
}

const known = new WeakMap<Scenario, Proof>();

function proofOf(scenario: Scenario, { tank, valve }: Residual): Proof {
  const before = known.get(scenario);
  if (before !== undefined) return before;
  const rig = rigOf(scenario);
  const shut = steadyWith(rig, { ...rig.sheet.purge, [valve]: 0 });
  const [area, division] = [areaOfTank(scenario, tank), divisionOf(scenario, tank)];
  const proof = { area, ...proofPressures(rig, shut), division };
  known.set(scenario, proof);
  return proof;
}

/** What one who works the line out goes by: drawing and plates, and what a level can be read to. */
export interface ProofBook {
  /** m that the level falls for what pipes, hoses and water give. */
  readonly stretch: number;
  /** m that it falls for each m3 of air at 1 atm. */
  readonly each: number;
  /** m below which nobody can tell. */
  readonly read: number;
}

/** Null of a job without that line. */
export function proofBook(scenario: Scenario): ProofBook | null {
  const line = residualOf(scenario);
  const drop = scenario.job?.sheet?.lines.find(({ kind }) => kind === 'drop');
  if (line === null || drop === undefined) return null;
  const { area, open, closed, division } = proofOf(scenario, line);
  const stretch = truthOf(scenario, drop).given.find(({ name }) => name === 'stretch');
  return {
    stretch: stretch?.value ?? 0,
    each: airGives(1, open, closed) / area,
    read: max(LEVEL_READ, division),
  };
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
  const proof = proofOf(scenario, line);
  const read = max(rule.read_mm / 1000, proof.division);
  const { moved, ...band } = bandOf(there, { ...proof, read }, rule.tolerance_percent / 100);
  const fact = answersOf(facts).get(RESIDUAL);
  const answer = fact?.value ?? null;
  const cannot_tell = moved < read;
  const lost = fact === undefined ? 1 : lostBy(offBy(answer, { cannot_tell }, band), rules);
  return {
    ...{ id: RESIDUAL, kind: 'residual', bore: null, quantity: 'volume' },
    state: stateOf({ fact, lost, byPlant: false }),
    ...{ answer, tick: fact?.tick ?? null, value: truth, truth, follows: false, cannot_tell },
    ...{ from: band.from, to: band.to, given: givenOf({ ...proof, read }, there, moved) },
    ...{ points: rule.points * lost, max: rule.points },
    source: rule.source,
  };
}

type There = Fact & { kind: 'loop_air' };
/** With what a level can be read to, m. */
type Read = Proof & { readonly read: number };

/**
 * What is right: the air that is there, and what the levels show of it where it stands deeper than
 * the gauges and so gives way less; each by so much, or by what the level cannot show.
 */
function bandOf(
  { value, pressure }: There,
  proof: Read,
  share: number,
): Band & { readonly moved: number } {
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

function givenOf(proof: Read, there: There, moved: number): readonly Given[] {
  const { open, closed, read } = proof;
  return [
    given('air', moved, 'level'),
    given('division', read, 'level'),
    given('open', open - P_ATM, 'pressure'),
    given('shut', closed - P_ATM, 'pressure'),
    given('held', there.pressure - P_ATM, 'pressure'),
  ];
}
