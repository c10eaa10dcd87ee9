// The scenario: everything a job is made of, as data with the unit in every key.
// One schema gives the type, the check and the published JSON Schema. It leaves out the
// drawing (a layer of its own) and the words (kept by key beside the level).
import * as z from 'zod';
import { InputFaults, schemaFaults } from './fault.ts';
import type { Fault } from './fault.ts';
import { crossFaults } from './scenario-check.ts';
import { canonicalJson, hashText } from './base/hash.ts';
import { ANTIFREEZES } from './laws/antifreeze.ts';

export { InputFaults, pathText } from './fault.ts';
export type { Fault } from './fault.ts';

const Id = z.string().regex(/^[a-z][a-z0-9_]{0,39}$/, 'an id: a-z first, then a-z, 0-9 or _');
/** A node id, or `tank.port`. */
const Endpoint = z
  .string()
  .regex(/^[a-z][a-z0-9_]{0,39}(\.[a-z][a-z0-9_]{0,39})?$/, 'node or tank.port');
const within = (lo: number, hi: number) => z.number().min(lo).max(hi);
const whole = (lo: number, hi: number) => z.int().min(lo).max(hi);

const Junction = z.strictObject({
  id: Id,
  kind: z.literal('junction'),
  elevation_m: within(-200, 100),
  /** Room for fluid in the fitting; a control volume needs at least half a litre. */
  volume_L: within(0.5, 100).default(0.5),
  /** Share of that room which holds gas at the start. */
  start_gas_fraction: within(0, 1).default(0),
  /** Highest gauge pressure the weakest part here is rated for. */
  rating_kPa: within(1, 4000).optional(),
});

const Port = z.strictObject({
  id: Id,
  /** Height of the opening's centre above the tank floor. */
  height_mm: within(0, 3000),
  bore_mm: within(5, 300),
});

const Tank = z.strictObject({
  id: Id,
  kind: z.literal('tank'),
  floor_m: within(-200, 100),
  area_m2: within(0.005, 20),
  height_mm: within(50, 3000),
  start_level_mm: within(0, 3000),
  start_antifreeze_fraction: within(0, 0.6).default(0),
  ports: z.array(Port).min(1).max(8),
});

/** A source or sink at a pressure of its own that never runs out: mains, a header tank. */
const Reservoir = z.strictObject({
  id: Id,
  kind: z.literal('reservoir'),
  elevation_m: within(-200, 100),
  pressure_kPa: within(-90, 4000),
  antifreeze_fraction: within(0, 0.6).default(0),
});

/** An open end in air: liquid that arrives is gone to the named place, air may be drawn in. */
const Open = z.strictObject({
  id: Id,
  kind: z.literal('open'),
  elevation_m: within(-200, 100),
  goes_to: z.enum(['waste', 'ground', 'pail']),
});

const NodeSpec = z.discriminatedUnion('kind', [Junction, Tank, Reservoir, Open]);

const Stretch = z.strictObject({ from_m: within(0, 5000), to_m: within(0, 5000) });
const ProfilePoint = z.strictObject({ at_m: within(0, 5000), elevation_m: within(-200, 100) });

const conduit = {
  id: Id,
  from: Endpoint,
  to: Endpoint,
  bore_mm: within(5, 500),
  length_m: within(0.2, 5000),
  roughness_mm: within(0, 1).default(0.0015),
  loss_k: within(0, 1000).default(0),
  /** Elevations between the ends; the ends stand at their nodes. */
  profile: z.array(ProfilePoint).max(400).default([]),
  /** Stretches that hold gas at the start. */
  gas: z.array(Stretch).max(100).default([]),
  start_antifreeze_fraction: within(0, 0.6).default(0),
  /** True where the wall can be looked through. */
  clear: z.boolean().default(false),
};

const Pipe = z.strictObject({
  ...conduit,
  kind: z.literal('pipe'),
  wall_mm: within(0.3, 60),
  modulus_MPa: within(50, 250000).default(660),
  poisson: within(0, 0.5).default(0.45),
});

const Hose = z.strictObject({
  ...conduit,
  kind: z.literal('hose'),
  /** Relative growth of the bore's volume with pressure. */
  compliance_per_MPa: within(0.0001, 1).default(0.02),
});

const Valve = z.strictObject({
  id: Id,
  kind: z.literal('valve'),
  from: Endpoint,
  to: Endpoint,
  bore_mm: within(5, 300),
  loss_k_open: within(0.01, 1000).default(0.1),
  start_deg: whole(0, 90),
  /** How fast a hand turns it. */
  rate_deg_s: within(1, 360).default(60),
});

const CurvePoint = z.strictObject({ flow_L_s: within(0, 100), head_m: within(0, 200) });

const Pump = z.strictObject({
  id: Id,
  kind: z.literal('pump'),
  from: Endpoint,
  to: Endpoint,
  bore_mm: within(5, 300),
  curve: z.array(CurvePoint).min(2).max(40),
  best_flow_L_s: within(0.05, 100),
  efficiency_max: within(0.05, 0.95).default(0.45),
  npsh_required_m: within(0.2, 10).default(2),
  start_on: z.boolean().default(false),
  spin_up_s: within(0.05, 10).default(0.6),
});

/** A flow imposed from outside, as in an experiment on a bench. */
const FixedFlow = z.strictObject({
  id: Id,
  kind: z.literal('fixed_flow'),
  from: Endpoint,
  to: Endpoint,
  bore_mm: within(5, 500),
  flow_L_s: within(-100, 100),
});

const LinkSpec = z.discriminatedUnion('kind', [Pipe, Hose, Valve, Pump, FixedFlow]);

const Gauge = z.strictObject({
  id: Id,
  kind: z.literal('pressure'),
  node: Id,
  range_kPa: within(10, 10000),
  resolution_kPa: within(0.01, 1000),
  lag_s: within(0.05, 30),
});
const FlowMeter = z.strictObject({
  id: Id,
  kind: z.literal('flow'),
  link: Id,
  range_L_min: within(0.1, 10000),
  resolution_L_min: within(0.01, 100),
  lag_s: within(0.05, 30),
});
const SightTube = z.strictObject({
  id: Id,
  kind: z.literal('level'),
  tank: Id,
  resolution_mm: within(0.1, 100),
});
/** A clear section that a technician looks through: says how much gas is in the last metre. */
const SightGlass = z.strictObject({ id: Id, kind: z.literal('sight'), link: Id });
const PumpNote = z.strictObject({ id: Id, kind: z.literal('note'), pump: Id });
const Instrument = z.discriminatedUnion('kind', [
  Gauge,
  FlowMeter,
  SightTube,
  SightGlass,
  PumpNote,
]);

/** What the job asks, in numbers; words are kept by key beside the level. */
const Job = z.strictObject({
  /** The part that must be free of air at hand-over. */
  loop_links: z.array(Id).min(1),
  rule_velocity_m_s: within(0.05, 5),
  /** Air (L at 1 atm) in the loop: knots of (air, share of the marks), falling throughout. */
  air_knots: z.array(z.strictObject({ air_L: within(0, 100000), share: within(0, 1) })).min(2),
  /** Most air with which the loop counts as purged. */
  air_allowed_L: within(0.001, 1000),
  loss_free_L: within(0, 100000),
  loss_cap_L: within(0.001, 100000),
  time_full_s: within(1, 86400),
  time_zero_s: within(1, 172800),
  hand_over: z.array(z.strictObject({ control: Id, state: z.enum(['shut', 'open', 'off', 'on']) })),
  critical: z.array(Id).max(7),
});

export const ScenarioSchema = z.strictObject({
  $schema: z.string().optional(),
  format: z.literal(1),
  id: Id,
  solver: z
    .strictObject({ tick_s: within(0.001, 0.2).default(0.05), cell_m: within(0.02, 5).default(1) })
    .default({ tick_s: 0.05, cell_m: 1 }),
  temperature_C: within(-20, 60),
  antifreeze: z.enum(['none', ...ANTIFREEZES]).default('none'),
  hands: z.strictObject({ reach_s: within(0, 30).default(0.8) }).default({ reach_s: 0.8 }),
  ends_after_s: whole(1, 172800),
  nodes: z.array(NodeSpec).min(2).max(2000),
  links: z.array(LinkSpec).min(1).max(4000),
  instruments: z.array(Instrument).max(200).default([]),
  job: Job.optional(),
});

export type Scenario = z.infer<typeof ScenarioSchema>;
export type NodeSpec = z.infer<typeof NodeSpec>;
export type LinkSpec = z.infer<typeof LinkSpec>;
export type TankSpec = z.infer<typeof Tank>;
export type PumpSpec = z.infer<typeof Pump>;
export type ConduitSpec = z.infer<typeof Pipe> | z.infer<typeof Hose>;
export type InstrumentSpec = z.infer<typeof Instrument>;
export type JobSpec = z.infer<typeof Job>;

/** Every fault of `json` as a scenario: shape first, then references and geometry. */
export function scenarioFaults(json: unknown): Fault[] {
  const parsed = ScenarioSchema.safeParse(json);
  const faults = parsed.success ? [] : schemaFaults(parsed.error.issues, json);
  faults.push(...crossFaults(json));
  return faults;
}

/** @throws InputFaults with every fault and its path. */
export function parseScenario(json: unknown): Scenario {
  const faults = scenarioFaults(json);
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
