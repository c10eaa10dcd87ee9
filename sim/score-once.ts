// One cause costs once, across the dimensions: a milestone that was missed and the hazard or the
// state at hand-over that came of the same omission, or a flow that is not there because what
// drives it was left off. The dearer stands and includes the other.
import { isOfHandOver } from './deductions.ts';
import type { Deduction } from './marks.ts';
import { guardsOf, hangTogether } from './same-cause.ts';
import type { HandOverState, MilestoneSpec, Scenario } from './scenario.ts';

type Missed = Extract<MilestoneSpec, { kind: 'stood' }>;

/** The deductions of one cause, brought together; in the order they came in. */
export function onceEach(scenario: Scenario, wanted: readonly Deduction[]): Deduction[] {
  const left = [...wanted];
  for (const one of wanted) {
    const at = left.indexOf(one);
    if (at < 0) continue;
    const other = left.find((found) => found !== one && isOfOne(scenario, one, found));
    if (other === undefined) continue;
    // Of two that cost as much, what happened stands, and not what was missed.
    const [stands, goes] = one.points > other.points ? [one, other] : [other, one];
    left[left.indexOf(stands)] = { ...stands, includes: including(stands, goes) };
    left.splice(left.indexOf(goes), 1);
  }
  return left;
}

function including(stands: Deduction, goes: Deduction): readonly string[] {
  const more = [goes.milestone ?? goes.rule, ...goes.includes];
  return [...stands.includes, ...more.filter((id) => !stands.includes.includes(id))];
}

/** True where `one` was left undone or is not there, and `found` is what came of that. */
function isOfOne(scenario: Scenario, one: Deduction, found: Deduction): boolean {
  if (one.rule === 'outcome_flow') return isRunning(scenario, found);
  if (one.rule !== 'missed_stood') return false;
  const milestone = (scenario.job?.milestones ?? []).find(({ id }) => id === one.milestone);
  if (milestone?.kind !== 'stood' || found.at === null) return false;
  return isLeft(milestone, found) || isOfGuard(scenario, milestone, found);
}

/** What a plant runs by. */
const RUNS: readonly HandOverState[] = ['on', 'open', 'made', 'from_shut', 'to_shut', 'all_joined'];

/** True of something left off or shut that was to be left so that the plant runs. */
function isRunning({ job }: Scenario, { at, rule }: Deduction): boolean {
  const asked = (job?.hand_over ?? []).find(({ control }) => control === at);
  return asked !== undefined && RUNS.includes(asked.state) && isOfHandOver(rule);
}

/** The same control, asked for in the same position on the way and at hand-over. */
function isLeft({ control, at }: Missed, found: Deduction): boolean {
  return isOfHandOver(found.rule) && found.at === control && found.limit === at;
}

function isOfGuard(scenario: Scenario, { control }: Missed, found: Deduction): boolean {
  if (found.rule === 'cracked') return hangTogether(scenario, control, found.at!);
  return guardsOf(scenario).some(
    ({ device, hazard, at }) => device === control && hazard === found.rule && at === found.at,
  );
}
