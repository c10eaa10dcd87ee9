// The shared rules of marking: weights, least shares, deductions and where each comes from.
// The limits that physics sets are the engine's; what a job allows is the scenario's.
import * as z from 'zod';
import { HAZARDS } from './fact.ts';
import { SHEET_KINDS } from './scenario-sheet.ts';
import { InputFaults, schemaFaults } from './fault.ts';
import type { Fault } from './fault.ts';

export const DIMENSIONS = ['outcome', 'safety', 'record', 'losses', 'time'] as const;
export type Dimension = (typeof DIMENSIONS)[number];

/** What a value and its limit in a deduction are, so that a page can write them; all SI. */
export const QUANTITIES = [
  'volume',
  'time',
  'pressure',
  'angle',
  'ratio',
  'state',
  'length',
  'temperature',
  'celsius',
  'mass',
  'energy',
  'flow',
  'velocity',
  'bore',
  'level',
  'count',
  'none',
] as const;
export type Quantity = (typeof QUANTITIES)[number];

/** What hazards can have in common. */
const FAMILIES = [
  'pump',
  'tank',
  'pressure',
  'supply',
  'worn',
  'hot',
  'entry',
  'lock',
  'record',
  'coil',
  'power',
  'fire',
] as const;

const points = z.number().min(0).max(100);
const share = z.number().min(0).max(1);
const Source = z.string().regex(/^[a-z][a-z0-9_]{0,39}$/, 'must be a key of "sources"');

const DimensionRule = z.strictObject({
  max: z.number().min(1).max(100),
  /** Share of `max` without which nobody passes; 0 where there is none. */
  minimum_share: share,
});

const HazardRule = z.strictObject({
  dimension: z.enum(['safety', 'record', 'losses']),
  /** Hazards of one family at one place that overlap in time have one cause. */
  family: z.enum(FAMILIES),
  /** Taken when the state was reached but did not last long enough to trip. */
  warning_points: points,
  tripped_points: points,
  quantity: z.enum(QUANTITIES),
  source: Source,
});

/** One thing before another: full if broken, half if put right within the time, else nothing. */
const OrderRule = z.strictObject({
  id: z.enum(['suction_before_pump']),
  points,
  open_at_least_deg: z.int().min(1).max(90),
  corrected_within_s: z.number().min(0).max(600),
  source: Source,
});

export const RulesSchema = z.strictObject({
  format: z.literal(1),
  /** Until it has been validated with people, a score is a practice score. */
  standard: z.literal('provisional'),
  pass_total: z.number().min(1).max(100),
  dimensions: z.strictObject({
    outcome: DimensionRule,
    safety: DimensionRule,
    record: DimensionRule,
    losses: DimensionRule,
    time: DimensionRule,
  }),
  /** Time earns nothing unless these reach their least share: no reward for fast and wrong. */
  time_counts_after: z.array(z.enum(DIMENSIONS)).max(5),
  outcome: z.strictObject({
    /** Of what is asked for with an allowance: no marks from so many times that on. */
    zero_at: z.number().min(1.1).max(100),
    air_source: Source,
    freeze_source: Source,
    pressure_source: Source,
    debris_source: Source,
    flow_source: Source,
  }),
  /** A milestone's own points are the job's. */
  milestones: z.strictObject({
    /** Share of all their points without which nobody passes. */
    minimum_share: share,
    /** Share of its points that a milestone loses which came before what must be first. */
    out_of_order_share: share,
    source: Source,
    order_source: Source,
  }),
  /** The job sheet: its points are shared out evenly over its lines. */
  sheet: z.strictObject({
    /** Where a job tests more of the record; where it does not, the sheet has all of it. */
    points,
    /** No marks for a line from so many times what it may be off. */
    zero_at: z.number().min(1.1).max(100),
    source: Source,
    /** The air that is left at the proof, where a job has that line (derived.ts). */
    residual: z.strictObject({
      points,
      tolerance_percent: z.number().min(0).max(100),
      /** Levels are read to a division, and no better than so. */
      read_mm: z.number().min(0).max(100),
      source: Source,
    }),
    lines: z.record(
      z.enum(SHEET_KINDS),
      z.strictObject({ tolerance_percent: z.number().min(0).max(100), source: Source }),
    ),
  }),
  losses: z.strictObject({
    spilled_weight: z.number().min(0).max(10),
    wasted_weight: z.number().min(0).max(10),
    source: Source,
  }),
  time: z.strictObject({ source: Source }),
  hazards: z.record(z.enum(HAZARDS), HazardRule),
  /** s. Hazards of one family at one place closer than this have one cause. */
  same_cause_gap_s: z.number().min(0).max(600),
  hand_over: z.strictObject({
    valve_points: points,
    pump_points: points,
    device_points: points,
    tolerance_deg: z.number().min(0).max(20),
    source: Source,
  }),
  order: z.array(OrderRule).max(20),
  sources: z.record(Source, z.string().min(3).max(1000)),
});

export type Rules = z.infer<typeof RulesSchema>;
export type HazardRule = z.infer<typeof HazardRule>;
export type OrderRule = z.infer<typeof OrderRule>;

const OUTCOME_SOURCES = [
  'air_source',
  'freeze_source',
  'pressure_source',
  'debris_source',
  'flow_source',
] as const;

/** Every fault of `json` as rules: shape, weights that do not make 100, unknown sources. */
export function rulesFaults(json: unknown): Fault[] {
  const parsed = RulesSchema.safeParse(json);
  if (!parsed.success) return schemaFaults(parsed.error.issues, json);
  const rules = parsed.data;
  const faults: Fault[] = [];
  const sum = DIMENSIONS.reduce((total, name) => total + rules.dimensions[name].max, 0);
  if (sum !== 100) {
    faults.push({ path: 'dimensions', message: `the weights make ${sum}, they must make 100` });
  }
  for (const [path, source] of sourcesUsed(rules)) {
    if (Object.hasOwn(rules.sources, source)) continue;
    faults.push({ path, message: `there is no source "${source}"` });
  }
  for (const kind of HAZARDS) {
    const rule = rules.hazards[kind];
    if (rule.warning_points <= rule.tripped_points) continue;
    const path = `hazards.${kind}.warning_points`;
    faults.push({ path, message: 'must not be more than tripped_points' });
  }
  return faults;
}

/** @throws InputFaults with every fault and its path. */
export function parseRules(json: unknown): Rules {
  const faults = rulesFaults(json);
  if (faults.length > 0) throw new InputFaults(faults);
  return RulesSchema.parse(json);
}

function sourcesUsed(rules: Rules): ReadonlyArray<readonly [string, string]> {
  return [
    ...OUTCOME_SOURCES.map((key) => [`outcome.${key}`, rules.outcome[key]] as const),
    ['milestones.source', rules.milestones.source],
    ['milestones.order_source', rules.milestones.order_source],
    ['sheet.source', rules.sheet.source],
    ['sheet.residual.source', rules.sheet.residual.source],
    ...SHEET_KINDS.map((k) => [`sheet.lines.${k}.source`, rules.sheet.lines[k].source] as const),
    ['losses.source', rules.losses.source],
    ['time.source', rules.time.source],
    ['hand_over.source', rules.hand_over.source],
    ...HAZARDS.map((kind) => [`hazards.${kind}.source`, rules.hazards[kind].source] as const),
    ...rules.order.map((rule, at) => [`order[${at}].source`, rule.source] as const),
  ];
}

export function rulesJsonSchema(): unknown {
  return z.toJSONSchema(RulesSchema, { io: 'input' });
}
