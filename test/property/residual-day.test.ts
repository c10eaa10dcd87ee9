// The derived line on a whole day: what a trainee works out from the two levels that stand on the
// sheet and from the job sheet's own numbers is judged right, with air left and without. Bounds:
// 40 % by one level with book stretch, or what the level cannot show; below that, "cannot tell".
import { describe, expect, it } from 'vitest';
import { P_ATM } from '../../sim/base/units.ts';
import { residualOf } from '../../sim/derived.ts';
import { truthOf } from '../../sim/jobsheet/judge.ts';
import { residualMark } from '../../sim/jobsheet/residual.ts';
import { isObject, type JsonObject } from '../../sim/base/json.ts';
import type { Edit } from '../../sim/script-mistake.ts';
import { runScript } from '../../sim/script.ts';
import { parseScript } from '../../sim/script-schema.ts';
import { editedBy } from '../support/orderings.ts';
import { RULES, scenarioOf, scriptJson } from '../tools/golden.ts';

const DAY = '05-curlew-rise';
const scenario = scenarioOf(DAY);
const line = residualOf(scenario)!;

/** The solution up to the second level, with one edit or none. */
function upToProof(edit?: Edit) {
  const whole = scriptJson(DAY, 'solution') as JsonObject;
  const script = edit === undefined ? whole : editedBy(edit, whole);
  const steps = script.steps as readonly unknown[];
  const last = steps.findIndex((step) => isObject(step) && step.write === line.shut);
  const cut = parseScript({ ...script, steps: steps.slice(0, last + 1) }, scenario);
  const { run, outcome } = runScript(scenario, cut);
  expect(outcome.end).toBe('finished');
  return run.facts;
}

/** By Boyle's law from the fall that is not stretch, with the numbers of the job sheet. */
function workedOut(facts: ReturnType<typeof upToProof>): number {
  const level = (entry: string): number => {
    const note = facts.find((fact) => fact.kind === 'noted' && fact.entry === entry);
    return note?.kind === 'noted' ? note.value : NaN;
  };
  const drop = scenario.job!.sheet!.lines.find(({ kind }) => kind === 'drop')!;
  const given = new Map(truthOf(scenario, drop).given.map(({ name, value }) => [name, value]));
  const tank = scenario.nodes.find(({ id }) => id === line.tank)!;
  const area = tank.kind === 'tank' ? tank.area_m2 : NaN;
  const fall = level(line.open) - level(line.shut) - given.get('stretch')!;
  const [open, shut] = [P_ATM + given.get('open')!, P_ATM + given.get('shut')!];
  return (fall * area) / (P_ATM * (1 / open - 1 / shut));
}

const judged = (facts: ReturnType<typeof upToProof>, value: number | null) =>
  residualMark(scenario, RULES, [
    ...facts,
    { tick: 1e6, kind: 'answered', line: 'residual', value },
  ])!;

describe('the air that is left, on a whole day', () => {
  it('cannot be told after a good purge, and the sheet takes that', { timeout: 300_000 }, () => {
    const facts = upToProof();
    const found = judged(facts, null);
    expect(found.truth).toBeLessThan(0.0002);
    expect(found).toMatchObject({ state: 'right', cannot_tell: true });
  });

  it('is worked out to what is judged right where nobody purged', { timeout: 300_000 }, () => {
    const facts = upToProof({
      leave_out: { step: { until: { reading: 'fill_meter' } }, phase: 'flush' },
      through: { step: { until: { reading: 'return_sight' } }, phase: 'purge', nth: 2 },
    });
    const air = workedOut(facts);
    const found = judged(facts, air);
    expect(found.truth).toBeGreaterThan(0.005);
    expect(found, `${air} of ${found.truth}`).toMatchObject({ state: 'right', cannot_tell: false });
    expect(judged(facts, null).state).toBe('could_tell');
    expect(judged(facts, found.truth).state).toBe('right');
    expect(judged(facts, 0).state).not.toBe('right');
    expect(judged(facts, 4 * found.truth).state).toBe('wrong');
  });
});
