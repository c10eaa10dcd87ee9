// Hand scripts: what a pair of hands does, with conditions on what can be seen and read and on
// nothing else. The form of the file and its faults; script.ts plays it.
import * as z from 'zod';
import { CommandSchema } from './command.ts';
import type { Command } from './command.ts';
import { InputFaults, schemaFaults } from './fault.ts';
import type { Fault } from './fault.ts';
import { NOTES, SIGHTS } from './lens.ts';
import { PHASES } from './phases.ts';
import { controlFaults } from './check/command.ts';
import type { Scenario } from './scenario.ts';

const ID = /^[a-z][a-z0-9_]{0,39}$/;
const Id = z.string().regex(ID, 'must be an id: a-z first, then a-z, 0-9 or _');
const Seen = z.enum([...SIGHTS, ...NOTES]);
const seconds = z.number().min(0).max(86400);

/** A reading of the panel; every key that is given must hold. */
const ReadingIs = z.strictObject({
  reading: Id,
  is: z.union([Seen, z.array(Seen).min(1)]).optional(),
  above_mm: z.number().optional(),
  below_mm: z.number().optional(),
  above_kPa: z.number().optional(),
  below_kPa: z.number().optional(),
  above_L_min: z.number().optional(),
  below_L_min: z.number().optional(),
  above_C: z.number().optional(),
  below_C: z.number().optional(),
  above_L: z.number().optional(),
  below_L: z.number().optional(),
  above_A: z.number().optional(),
  below_A: z.number().optional(),
  above_V: z.number().optional(),
  below_V: z.number().optional(),
  above_density: z.number().optional(),
  below_density: z.number().optional(),
  above_index: z.number().optional(),
  below_index: z.number().optional(),
});
const HandsFree = z.strictObject({ hands: z.literal('free') });
const HelperFree = z.strictObject({ helper: z.literal('free') });
const ValveAt = z.strictObject({ valve: Id, at_deg: z.int().min(0).max(270) });
const CouplingIs = z.strictObject({ coupling: Id, made: z.boolean() });
/** Strokes of the last command to a hand pump that are done. */
const StrokesDone = z.strictObject({ hand_pump: Id, strokes_at_least: z.int().min(0).max(500) });
const DeviceAt = z.strictObject({ device: Id, at: z.int().min(0).max(1000) });
const PumpIs = z.strictObject({ pump: Id, on: z.boolean() });
/** How thick a tank is with bubbles, 0..1, as eyes judge it. */
const TankHas = z.strictObject({ tank: Id, bubbles_below: z.number().min(0).max(1) });
const After = z.strictObject({ after_s: seconds });

export type Condition =
  | z.infer<typeof ReadingIs>
  | z.infer<typeof HandsFree>
  | z.infer<typeof HelperFree>
  | z.infer<typeof DeviceAt>
  | z.infer<typeof StrokesDone>
  | z.infer<typeof ValveAt>
  | z.infer<typeof PumpIs>
  | z.infer<typeof CouplingIs>
  | z.infer<typeof TankHas>
  | z.infer<typeof After>
  | { all: Condition[] }
  | { any: Condition[] }
  | { not: Condition };

const ConditionSchema: z.ZodType<Condition> = z.lazy(() =>
  z.union([
    ReadingIs,
    HandsFree,
    HelperFree,
    DeviceAt,
    StrokesDone,
    ValveAt,
    PumpIs,
    CouplingIs,
    TankHas,
    After,
    z.strictObject({ all: z.array(ConditionSchema).min(1).max(20) }),
    z.strictObject({ any: z.array(ConditionSchema).min(1).max(20) }),
    z.strictObject({ not: ConditionSchema }),
  ]),
);

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

/** Says that a phase of the day begins here; changes nothing. */
const PhaseStep = z.strictObject({ phase: z.enum(PHASES) });

export type Step =
  | z.infer<typeof DoStep>
  | z.infer<typeof WaitStep>
  | z.infer<typeof UntilStep>
  | z.infer<typeof PhaseStep>
  | { repeat: number; steps: Step[]; why?: string | undefined };

const StepSchema: z.ZodType<Step> = z.lazy(() =>
  z.union([
    DoStep,
    WaitStep,
    UntilStep,
    PhaseStep,
    z.strictObject({
      repeat: z.int().min(1).max(100),
      steps: z.array(StepSchema).min(1).max(50),
      why,
    }),
  ]),
);

/**
 * A reflex that goes on beside the steps. It acts once when its condition becomes true, and
 * again only after the condition has been false, or after `again` where that is given.
 */
const Reflex = z.strictObject({
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

/** A phase begins once, and not inside what is repeated. */
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
    const message = 'a phase cannot begin inside what is repeated';
    return 'phase' in step ? [{ path: `${path}[${at}].phase`, message }] : [];
  });
}

function stepFaults(steps: readonly Step[], path: string, scenario: Scenario): Fault[] {
  return steps.flatMap((step, at) => {
    const here = `${path}[${at}]`;
    if ('do' in step) return commandFaults(step.do, `${here}.do`, scenario);
    if ('until' in step) return conditionFaults(step.until, `${here}.until`, scenario);
    if ('steps' in step) return stepFaults(step.steps, `${here}.steps`, scenario);
    return [];
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

/** Which kind of instrument each key of a condition belongs to. */
const KEYS = {
  above_mm: ['level'],
  below_mm: ['level'],
  above_kPa: ['pressure', 'difference'],
  below_kPa: ['pressure', 'difference'],
  above_L_min: ['flow'],
  below_L_min: ['flow'],
  above_C: ['temperature', 'refractometer', 'dip_thermometer'],
  below_C: ['temperature', 'refractometer', 'dip_thermometer'],
  above_L: ['meter'],
  below_L: ['meter'],
  above_A: ['current'],
  below_A: ['current'],
  above_V: ['voltage'],
  below_V: ['voltage'],
  above_density: ['hydrometer'],
  below_density: ['hydrometer'],
  above_index: ['refractometer'],
  below_index: ['refractometer'],
  is: ['sight', 'note'],
} as const;

function conditionFaults(condition: Condition, path: string, scenario: Scenario): Fault[] {
  if ('all' in condition) return listFaults(condition.all, `${path}.all`, scenario);
  if ('any' in condition) return listFaults(condition.any, `${path}.any`, scenario);
  if ('not' in condition) return conditionFaults(condition.not, `${path}.not`, scenario);
  const part = (key: string, id: string, kind: string): Fault[] => {
    const parts = kind === 'tank' ? scenario.nodes : scenario.links;
    if (parts.some((p) => p.id === id && kindIs(p.kind, kind))) return [];
    return [{ path: `${path}.${key}`, message: `there is no ${kind} "${id}"` }];
  };
  if ('valve' in condition) return part('valve', condition.valve, 'valve');
  if ('hand_pump' in condition) return part('hand_pump', condition.hand_pump, 'hand_pump');
  if ('coupling' in condition) return part('coupling', condition.coupling, 'coupling');
  if ('pump' in condition) return part('pump', condition.pump, 'pump');
  if ('tank' in condition) return part('tank', condition.tank, 'tank');
  if ('device' in condition) {
    if (scenario.devices.some(({ id }) => id === condition.device)) return [];
    return [{ path: `${path}.device`, message: `there is no device "${condition.device}"` }];
  }
  if (!('reading' in condition)) return [];
  const instrument = scenario.instruments.find((i) => i.id === condition.reading);
  if (instrument === undefined) {
    return [{ path: `${path}.reading`, message: `there is no reading "${condition.reading}"` }];
  }
  const keys = (Object.keys(KEYS) as (keyof typeof KEYS)[]).filter((k) => k in condition);
  if (keys.length === 0) return [{ path, message: 'says nothing about the reading' }];
  return keys.flatMap((key) => {
    const kinds: readonly string[] = KEYS[key];
    if (kinds.includes(instrument.kind)) return [];
    const message = `does not suit "${instrument.id}", which is a ${instrument.kind}`;
    return [{ path: `${path}.${key}`, message }];
  });
}

/** A three-way valve is a valve to a pair of hands. */
function kindIs(kind: string, wanted: string): boolean {
  return kind === wanted || (kind === 'three_way' && wanted === 'valve');
}

function listFaults(list: readonly Condition[], path: string, scenario: Scenario): Fault[] {
  return list.flatMap((c, at) => conditionFaults(c, `${path}[${at}]`, scenario));
}

export function scriptJsonSchema(): unknown {
  return z.toJSONSchema(ScriptSchema, { io: 'input' });
}
