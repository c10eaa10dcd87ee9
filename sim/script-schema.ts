// Hand scripts: what a pair of hands does, with conditions on what can be seen and read and on
// nothing else. The form of the file and its faults; script.ts plays it.
import * as z from 'zod';
import { CommandSchema } from './command.ts';
import type { Command } from './command.ts';
import { InputFaults, schemaFaults } from './fault.ts';
import type { Fault } from './fault.ts';
import { PHASES } from './phases.ts';
import { Id, ConditionSchema, seconds, type Condition } from './script-conditions.ts';
import { controlFaults } from './check/command.ts';
import { conditionFaults } from './check/condition.ts';
import type { Scenario } from './scenario.ts';

const Commands = z.union([CommandSchema, z.array(CommandSchema).min(1).max(20)]);
/** For the reader of the script; changes nothing. */
const why = z.string().max(300).optional();

const DoStep = z.strictObject({ do: Commands, why });
const WaitStep = z.strictObject({ wait_s: seconds, why });
const UntilStep = z.strictObject({
  until: ConditionSchema,
  /** The condition must hold this long without a break. */
  for_s: seconds.default(0),
  max_s: seconds,
  /** What to do when `max_s` has gone by. */
  else: z.enum(['fail', 'go_on']).default('fail'),
  why,
});

/** Writes down, on these lines of the sheet, what their instruments show now. */
const WriteStep = z.strictObject({ write: z.union([Id, z.array(Id).min(1).max(20)]), why });

/**
 * Fills in the job sheet as one who can work it out from drawing and plates, on any seed; or the
 * air that is left, from the two levels that stand on the sheet of readings.
 */
const SheetStep = z.strictObject({ sheet: z.enum(['worked_out', 'air_left']), why });

/** Says that a phase of the day begins here; changes nothing. */
const PhaseStep = z.strictObject({ phase: z.enum(PHASES) });

export type { Condition } from './script-conditions.ts';
/** A step that is done without others. */
export type PlainStep = Exclude<Step, { steps: Step[] }>;

export type Step =
  | z.infer<typeof DoStep>
  | z.infer<typeof WaitStep>
  | z.infer<typeof UntilStep>
  | z.infer<typeof WriteStep>
  | z.infer<typeof PhaseStep>
  | z.infer<typeof SheetStep>
  | { repeat: number; steps: Step[]; why?: string | undefined }
  | { if: Condition; steps: Step[]; why?: string | undefined };

export const StepSchema: z.ZodType<Step> = z.lazy(() =>
  z.union([
    DoStep,
    WaitStep,
    UntilStep,
    WriteStep,
    PhaseStep,
    SheetStep,
    z.strictObject({
      repeat: z.int().min(1).max(100),
      steps: z.array(StepSchema).min(1).max(50),
      why,
    }),
    /** Done where the condition holds when it is come to, left out where not. */
    z.strictObject({
      if: ConditionSchema,
      steps: z.array(StepSchema).min(1).max(50),
      why,
    }),
  ]),
);

/**
 * A reflex that goes on beside the steps. It acts once when its condition becomes true, and
 * again only after the condition has been false, or after `again` where that is given.
 */
export const Reflex = z.strictObject({
  when: ConditionSchema,
  do: Commands,
  again: ConditionSchema.optional(),
  why,
});
export type Reflex = z.infer<typeof Reflex>;

/** What the script is there to show. */
const Expects = z.strictObject({
  passed: z.boolean(),
  total_at_least: z.number().min(0).max(100).optional(),
  /** Reasons against, deductions and critical errors that must be among those found. */
  reasons: z.array(Id).default([]),
  rules: z.array(Id).default([]),
  critical: z.array(Id).default([]),
});

export const ScriptSchema = z.strictObject({
  format: z.literal(1),
  level: Id,
  seed: z.int().min(0).max(4294967295),
  why,
  expects: Expects.optional(),
  keep: z.array(Reflex).max(20).default([]),
  steps: z.array(StepSchema).min(1).max(600),
});
export type Script = z.infer<typeof ScriptSchema>;

/** Every fault of `json` as a hand script; with a scenario also of what it names there. */
export function scriptFaults(json: unknown, scenario?: Scenario): Fault[] {
  const parsed = ScriptSchema.safeParse(json);
  if (!parsed.success) return schemaFaults(parsed.error.issues, json);
  const script = parsed.data;
  const faults = phaseFaults(script.steps);
  if (scenario === undefined) return faults;
  if (script.level !== scenario.id) {
    const message = `this script is for "${script.level}"; the scenario is "${scenario.id}"`;
    faults.push({ path: 'level', message });
  }
  script.keep.forEach((reflex, at) => {
    faults.push(...conditionFaults(reflex.when, `keep[${at}].when`, scenario));
    if (reflex.again !== undefined) {
      faults.push(...conditionFaults(reflex.again, `keep[${at}].again`, scenario));
    }
    faults.push(...commandFaults(reflex.do, `keep[${at}].do`, scenario));
  });
  faults.push(...stepFaults(script.steps, 'steps', scenario));
  return faults;
}

/** @throws InputFaults with every fault and its path. */
export function parseScript(json: unknown, scenario?: Scenario): Script {
  const faults = scriptFaults(json, scenario);
  if (faults.length > 0) throw new InputFaults(faults);
  return ScriptSchema.parse(json);
}

/** A phase begins once, and not inside what is repeated or may be left out. */
function phaseFaults(steps: readonly Step[]): Fault[] {
  const seen = new Set<string>();
  return steps.flatMap((step, at) => {
    if ('steps' in step) return insideFaults(step.steps, `steps[${at}].steps`);
    if (!('phase' in step)) return [];
    const again = seen.has(step.phase);
    seen.add(step.phase);
    return again ? [{ path: `steps[${at}].phase`, message: 'has begun already' }] : [];
  });
}

function insideFaults(steps: readonly Step[], path: string): Fault[] {
  return steps.flatMap((step, at) => {
    if ('steps' in step) return insideFaults(step.steps, `${path}[${at}].steps`);
    const message = 'a phase cannot begin inside another step';
    return 'phase' in step ? [{ path: `${path}[${at}].phase`, message }] : [];
  });
}

function stepFaults(steps: readonly Step[], path: string, scenario: Scenario): Fault[] {
  return steps.flatMap((step, at) => {
    const here = `${path}[${at}]`;
    if ('do' in step) return commandFaults(step.do, `${here}.do`, scenario);
    if ('sheet' in step && scenario.job?.sheet === undefined) {
      return [{ path: `${here}.sheet`, message: 'this job has no job sheet' }];
    }
    if ('until' in step) return conditionFaults(step.until, `${here}.until`, scenario);
    if ('steps' in step) {
      const own = 'if' in step ? conditionFaults(step.if, `${here}.if`, scenario) : [];
      return [...own, ...stepFaults(step.steps, `${here}.steps`, scenario)];
    }
    if ('write' in step) return lineFaults(step.write, `${here}.write`, scenario);
    return [];
  });
}

function lineFaults(what: string | readonly string[], path: string, scenario: Scenario): Fault[] {
  const ids = typeof what === 'string' ? [what] : what;
  return ids.flatMap((id) => {
    const line = scenario.record.find((one) => one.id === id);
    if (line === undefined) return [{ path, message: `the sheet has no line "${id}"` }];
    return line.reading === undefined ? [{ path, message: `no instrument shows "${id}"` }] : [];
  });
}

function commandFaults(
  what: Command | readonly Command[],
  path: string,
  scenario: Scenario,
): Fault[] {
  if (!isList(what)) return controlFaults(what, path, scenario);
  return what.flatMap((command, at) => controlFaults(command, `${path}[${at}]`, scenario));
}

export function isList(what: Command | readonly Command[]): what is readonly Command[] {
  return Array.isArray(what);
}

export function scriptJsonSchema(): unknown {
  return z.toJSONSchema(ScriptSchema, { io: 'input' });
}
