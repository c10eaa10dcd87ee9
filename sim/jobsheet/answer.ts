// Answers to the job sheet: taken as facts until the first hand is asked to a control, refused from
// then on; to the derived line (derived.ts) at any time. What they are worth is a matter of marks
// (judge.ts, residual.ts).
import type { Command } from '../command.ts';
import type { Fact, RefusedReason } from '../fact.ts';
import { residualOf } from '../derived.ts';
import type { Plan } from '../network/plan.ts';
import { RESIDUAL, UNIT_SI } from '../scenario-sheet.ts';
import type { State } from '../state.ts';

/** From here on the sheet is closed. */
export function begin({ begun }: State): void {
  begun.fill(1);
}

export function answerLine(
  { plan, state }: { readonly plan: Plan; readonly state: State },
  command: Extract<Command, { kind: 'answer' }>,
  facts: Fact[],
): void {
  const tick = state.counter[0]!;
  if (command.line === RESIDUAL && residualOf(plan.scenario) !== null) {
    answerResidual(command, tick, facts);
    return;
  }
  const line = plan.scenario.job?.sheet?.lines.find(({ id }) => id === command.line);
  const refuse = (reason: RefusedReason): void => {
    facts.push({ tick, kind: 'refused', command, reason });
  };
  if (line === undefined) return refuse('unknown_control');
  if (state.begun[0] === 1) return refuse('begun');
  facts.push({ tick, kind: 'command', command });
  const milli = command.value_milli;
  const value = milli === null ? null : (milli * UNIT_SI[line.kind]) / 1000;
  facts.push({ tick, kind: 'answered', line: line.id, value });
}

function answerResidual(
  command: Extract<Command, { kind: 'answer' }>,
  tick: number,
  facts: Fact[],
): void {
  facts.push({ tick, kind: 'command', command });
  const milli = command.value_milli;
  const value = milli === null ? null : (milli * UNIT_SI[RESIDUAL]) / 1000;
  facts.push({ tick, kind: 'answered', line: RESIDUAL, value });
}
