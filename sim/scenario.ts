// The scenario: everything a job is made of, as data with the unit in every key.
// One schema gives the type, the check and the published JSON Schema. It leaves out the
// drawing (a layer of its own) and the words (kept by key beside the level).
import * as z from 'zod';
import { InputFaults, schemaFaults } from './fault.ts';
import type { Fault } from './fault.ts';
import { crossFaults } from './scenario-check.ts';
import { endFaults } from './check/ranges.ts';
import { CELL_M, TICK_S } from './constants.ts';
import { canonicalJson, hashText } from './base/hash.ts';
import { ANTIFREEZES } from './laws/antifreeze.ts';
import { DeviceSpec } from './scenario-devices.ts';
import { Debris } from './scenario-debris.ts';
import { Defect } from './scenario-defects.ts';
import { Heat } from './scenario-heat.ts';
import { Instrument } from './scenario-instruments.ts';
import { Job } from './scenario-job.ts';
import { Power } from './scenario-power.ts';
import { Ranges } from './scenario-ranges.ts';
import { Id, LinkSpec, NodeSpec, whole, within } from './scenario-parts.ts';

export { InputFaults, pathText } from './fault.ts';
export type { Fault } from './fault.ts';
export type * from './scenario-parts.ts';
export type { HandOverState, JobSpec } from './scenario-job.ts';
export { outcomesOf } from './scenario-goals.ts';
export type { MilestoneKind, MilestoneSpec, OutcomeSpec } from './scenario-goals.ts';
export type { LineKind, SheetKind, SheetLine } from './scenario-sheet.ts';
export type { DeviceKind, DeviceSpec } from './scenario-devices.ts';
export type { InstrumentSpec } from './scenario-instruments.ts';
export type { DefectKind, DefectSpec } from './scenario-defects.ts';
export type { RangeSpec } from './scenario-ranges.ts';

/** A line of the sheet; one without a `reading` is for what nothing in the rig shows. */
const RecordEntry = z.strictObject({
  id: Id,
  reading: Id.optional(),
  /** How far a note may be off besides one division, thousandths of its unit. */
  tolerance_milli: whole(0, 1000000).default(0),
});

/** Stirred air; `holds` are tanks, open ends and couplings in it: surfaces, and what is spilled. */
const Room = z.strictObject({
  volume_m3: within(1, 100000),
  leak_air_changes_per_h: within(0, 100).default(0.3),
  holds: z.array(Id).min(1).max(50),
});

export const ScenarioSchema = z.strictObject({
  $schema: z.string().optional(),
  format: z.literal(1),
  id: Id,
  solver: z
    .strictObject({
      tick_s: within(0.001, 0.2).default(TICK_S),
      cell_m: within(0.02, 5).default(CELL_M),
    })
    .default({ tick_s: TICK_S, cell_m: CELL_M }),
  temperature_C: within(-20, 60),
  antifreeze: z.enum(['none', ...ANTIFREEZES]).default('none'),
  /** False where the losses of tees are left out, as many sheets do. */
  tee_losses: z.boolean().default(false),
  /** True where gas warms as it is squeezed, and stands stiffer against what is fast. */
  gas_heats: z.boolean().default(false),
  /** One pair of hands; with `helper` a second one, that needs to be told first. */
  hands: z
    .strictObject({
      reach_s: within(0, 30).default(0.8),
      helper: z.strictObject({ tell_s: within(0, 60).default(3) }).optional(),
    })
    .default({ reach_s: 0.8 }),
  /**
   * True where a valve that shuts faster than a wave comes back is told, with how high the
   * pressure jumps beside it, and held against what is rated there.
   */
  surges: z.boolean().optional(),
  /** True where water that runs down under a standing pocket is carried by the wall. */
  running_layers: z.boolean().optional(),
  ends_after_s: whole(1, 604800),
  /** Air in solution, and what goes between it and bubbles; without it none is followed. */
  dissolved_air: z
    .strictObject({
      /** At the start, over what water of that temperature holds under one atmosphere. */
      start_share: within(0, 20).default(1),
      /** Diameter of the bubbles in pipes and fittings. */
      bubble_mm: within(0.1, 10).default(1),
    })
    .optional(),
  /** What is around the pipes; without it all stays at `temperature_C`. */
  heat: Heat.optional(),
  /** Sand and shavings in the pipes, and what catches them; without it nobody follows any. */
  debris: Debris.optional(),
  /** Where pumps with a motor get their power; without it they turn when they are told to. */
  power: Power.optional(),
  nodes: z.array(NodeSpec).min(2).max(2000),
  links: z.array(LinkSpec).min(1).max(4000),
  /** What hands work that carries no fluid. */
  devices: z.array(DeviceSpec).max(100).default([]),
  instruments: z.array(Instrument).max(200).default([]),
  /** What is wrong with the plant, or goes wrong; a seed may leave some of it out. */
  defects: z.array(Defect).max(100).optional(),
  /** The sheet on which readings are written down. */
  record: z.array(RecordEntry).max(40).default([]),
  /** A closed room in which alcohol goes into the air. */
  room: Room.optional(),
  job: Job.optional(),
  /** What differs from form to form of the job, by the seed; a world is made of one form. */
  ranges: Ranges.optional(),
});

export type Scenario = z.infer<typeof ScenarioSchema>;

/**
 * Every fault of `json` as a scenario: shape first, then references and geometry; where there is
 * none, those of the forms at the ends of its ranges.
 */
export function scenarioFaults(json: unknown): Fault[] {
  const faults = writtenFaults(json);
  return faults.length > 0 ? faults : endFaults(json, ScenarioSchema.parse(json), formFaults);
}

/** A form is drawn behind the schema: so it may neither rest on a default nor leave one out. */
function formFaults(ofFile: unknown, ofParsed: unknown): Fault[] {
  const faults = writtenFaults(ofFile);
  if (faults.length > 0) return faults;
  if (canonicalJson(ScenarioSchema.parse(ofFile)) === canonicalJson(ofParsed)) return [];
  return [{ path: '(whole)', message: 'rests on a default: say the key where it is drawn' }];
}

function writtenFaults(json: unknown): Fault[] {
  const parsed = ScenarioSchema.safeParse(json);
  const faults = parsed.success ? [] : schemaFaults(parsed.error.issues, json);
  faults.push(...crossFaults(json));
  return faults;
}

/** @throws InputFaults with every fault and its path. */
export function parseScenario(json: unknown): Scenario {
  return orFaults(json, scenarioFaults(json));
}

/** One of our own, the ends of whose ranges a test has looked at: that takes many times as long. */
export function parseOwnScenario(json: unknown): Scenario {
  return orFaults(json, writtenFaults(json));
}

function orFaults(json: unknown, faults: readonly Fault[]): Scenario {
  if (faults.length > 0) throw new InputFaults(faults);
  return ScenarioSchema.parse(json);
}

/** The scenario's hash: equal for equal content, whatever the order of keys. */
export function scenarioHash(scenario: Scenario): string {
  const { $schema: _ignored, ...content } = scenario;
  return hashText(canonicalJson(content));
}

export function scenarioJsonSchema(): unknown {
  return z.toJSONSchema(ScenarioSchema, { io: 'input' });
}
