// The parts that a scenario is made of: nodes and links, each with the unit in its keys. Leaves out
// instruments (scenario-instruments.ts), the whole and its checks (scenario.ts), and what the
// engine makes of a part that is more than one (network/expand.ts).
import * as z from 'zod';
import { Id, whole, within } from './scenario-basics.ts';
import { Motor } from './scenario-power.ts';

export { Id, whole, within } from './scenario-basics.ts';

/** Wide and long enough for a town's mains as well, and their flows. */
export const FLOW_L_S = 2000;
const [BORE_MM, LENGTH_M] = [3000, 20000];
/** A node id, or `tank.port`. */
const Endpoint = z
  .string()
  .regex(/^[a-z][a-z0-9_]{0,39}(\.[a-z][a-z0-9_]{0,39})?$/, 'node or tank.port');

/** C when the run starts, where heat is followed; unsaid, the scenario's own. */
const StartC = within(-40, 95).optional();

const Junction = z.strictObject({
  id: Id,
  kind: z.literal('junction'),
  elevation_m: within(-200, 100),
  /**
   * Room for fluid in the fitting; a control volume needs at least half a litre. Where it is not
   * said, half a litre or a quarter of a metre of the widest pipe that ends here.
   */
  volume_L: within(0.5, 100).optional(),
  /** Share of that room which holds gas at the start. */
  start_gas_fraction: within(0, 1).default(0),
  /** Gauge pressure of what stands here when the run starts: test air, a filled loop. */
  start_pressure_kPa: within(-90, 4000).optional(),
  /** Unsaid, that of the pipes that end here. */
  start_antifreeze_fraction: within(0, 1).optional(),
  start_C: StartC,
  /** Highest gauge pressure the weakest part here is rated for. */
  rating_kPa: within(1, 4000).optional(),
  /** Where three links meet as a tee: its losses depend on how the flow divides. */
  tee: z
    .strictObject({
      run: z.tuple([Id, Id]),
      branch: Id,
      angle_deg: z.union([z.literal(90), z.literal(45)]).default(90),
    })
    .optional(),
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
  start_antifreeze_fraction: within(0, 1).default(0),
  start_C: StartC,
  ports: z.array(Port).min(1).max(8),
  /** 1: what arrives leaves at once but for fine bubbles; 2: coarse bubbles rise too. */
  bubble_sizes: z.union([z.literal(1), z.literal(2)]).default(1),
  /** How long foam stands until half of it has fallen in; no foam where it is not said. */
  foam_half_life_s: within(1, 36000).optional(),
});

/** A source or sink at a pressure of its own that never runs out: mains, a header tank. */
const Reservoir = z.strictObject({
  id: Id,
  kind: z.literal('reservoir'),
  elevation_m: within(-200, 100),
  pressure_kPa: within(-90, 4000),
  antifreeze_fraction: within(0, 1).default(0),
});

/** An open end in air: liquid that arrives is gone to the named place, air may be drawn in. */
const Open = z.strictObject({
  id: Id,
  kind: z.literal('open'),
  elevation_m: within(-200, 100),
  goes_to: z.enum(['waste', 'ground', 'pail']),
});

export const NodeSpec = z.discriminatedUnion('kind', [Junction, Tank, Reservoir, Open]);

const along = within(0, LENGTH_M);
const Stretch = z.strictObject({ from_m: along, to_m: along });
const ProfilePoint = z.strictObject({ at_m: along, elevation_m: within(-200, 100) });

const conduit = {
  id: Id,
  from: Endpoint,
  to: Endpoint,
  bore_mm: within(5, BORE_MM),
  length_m: within(0.2, LENGTH_M),
  roughness_mm: within(0, 1).default(0.0015),
  loss_k: within(0, 1000).default(0),
  /** Elevations between the ends; the ends stand at their nodes. */
  profile: z.array(ProfilePoint).max(400).default([]),
  /** Stretches that hold gas at the start. */
  gas: z.array(Stretch).max(100).default([]),
  /** Gauge pressure of its gas and liquid when the run starts. */
  start_pressure_kPa: within(-90, 4000).default(0),
  start_antifreeze_fraction: within(0, 1).default(0),
  start_C: StartC,
  /** True where the wall can be looked through. */
  clear: z.boolean().default(false),
};

const Pipe = z.strictObject({
  ...conduit,
  kind: z.literal('pipe'),
  wall_mm: within(0.3, 60),
  /** `pe`: polyethylene, whose modulus goes by temperature and which creeps under pressure. */
  material: z.enum(['elastic', 'pe']).default('elastic'),
  /**
   * Room that walls of `pe` have given by creep before the run starts, one number for each element
   * of theirs from the fastest (sim/network/creep.ts); unsaid, they are at rest.
   */
  start_crept_mL: z.array(within(-1e6, 1e6)).max(12).optional(),
  /** Of a wall that is only elastic. */
  modulus_MPa: within(50, 250000).default(660),
  poisson: within(0, 0.5).default(0.45),
});

const Hose = z.strictObject({
  ...conduit,
  kind: z.literal('hose'),
  /** Relative growth of the bore's volume with pressure. */
  compliance_per_MPa: within(0.0001, 1).default(0.02),
});

/** What every part without length has. */
const fitting = { id: Id, from: Endpoint, to: Endpoint, bore_mm: within(5, 300) };

const Valve = z.strictObject({
  ...fitting,
  kind: z.literal('valve'),
  loss_k_open: within(0.01, 1000).default(0.1),
  start_deg: whole(0, 90),
  /** How fast a hand turns it. */
  rate_deg_s: within(1, 360).default(60),
});

/**
 * A ball with a T-shaped passage between three ends. Handle: 0 all joined, 90 `from` shut,
 * 180 `branch` shut, 270 `to` shut; in between the passages overlap as a ball's do.
 */
const ThreeWay = z.strictObject({
  ...fitting,
  kind: z.literal('three_way'),
  branch: Endpoint,
  loss_k_open: within(0.01, 1000).default(0.4),
  start_deg: whole(0, 270),
  rate_deg_s: within(1, 360).default(45),
});

/** Passes from -> to only: shuts when the flow turns, opens at a small difference. */
const CheckValve = z.strictObject({
  ...fitting,
  kind: z.literal('check_valve'),
  loss_k: within(0.01, 1000).default(2.5),
  opens_at_kPa: within(0.05, 100).default(1),
});

/** A housing with an element; what has settled on it blocks a share of its openings. */
const Filter = z.strictObject({
  ...fitting,
  kind: z.literal('filter'),
  loss_k: within(0.01, 10000),
  start_blocked: within(0, 0.99).default(0),
});

/** A heat exchanger of which only its table of loss by flow is known. */
const Coil = z.strictObject({
  ...fitting,
  kind: z.literal('coil'),
  table: z
    .array(z.strictObject({ flow_L_s: within(0.001, 100), loss_kPa: within(0.001, 2000) }))
    .min(1)
    .max(20),
});

/**
 * Two halves that hands join or part. Apart, each side that is not capped is an open end in
 * air: what runs out goes to the named place, and air may go in.
 */
const Coupling = z.strictObject({
  ...fitting,
  kind: z.literal('coupling'),
  loss_k: within(0.01, 1000).default(0.3),
  start: z.enum(['made', 'apart']),
  from_apart: z.enum(['open', 'capped']).default('open'),
  to_apart: z.enum(['open', 'capped']).default('open'),
  goes_to: z.enum(['waste', 'ground', 'pail']).default('ground'),
  /** How long hands take to join or part it. */
  make_s: within(0.1, 120).default(8),
});

const CurvePoint = z.strictObject({ flow_L_s: within(0, FLOW_L_S), head_m: within(0, 200) });

const Pump = z.strictObject({
  ...fitting,
  kind: z.literal('pump'),
  curve: z.array(CurvePoint).min(2).max(40),
  best_flow_L_s: within(0.05, FLOW_L_S),
  efficiency_max: within(0.05, 0.95).default(0.45),
  npsh_required_m: within(0.2, 10).default(2),
  start_on: z.boolean().default(false),
  spin_up_s: within(0.05, 10).default(0.6),
  /** True of one that may run while nobody is there: the plant's own. */
  unattended: z.boolean().optional(),
  /** Only where the scenario has `power`. */
  motor: Motor.optional(),
});

/** A flow imposed from outside, as in an experiment on a bench. */
const FixedFlow = z.strictObject({
  id: Id,
  kind: z.literal('fixed_flow'),
  from: Endpoint,
  to: Endpoint,
  bore_mm: within(5, BORE_MM),
  flow_L_s: within(-FLOW_L_S, FLOW_L_S),
});

/**
 * Two check valves and a piston: each stroke gives its volume, until what stands behind it is more
 * than an arm can push against. Where its source is empty it gives air.
 */
const HandPump = z.strictObject({
  ...fitting,
  kind: z.literal('hand_pump'),
  stroke_mL: within(1, 1000),
  stroke_s: within(0.3, 10),
  max_kPa: within(20, 5000),
  loss_k: within(0, 1000).default(10),
});

export const LinkSpec = z.discriminatedUnion('kind', [
  Pipe,
  Hose,
  Valve,
  ThreeWay,
  CheckValve,
  Filter,
  Coil,
  Coupling,
  Pump,
  FixedFlow,
  HandPump,
]);

export type NodeSpec = z.infer<typeof NodeSpec>;
export type LinkSpec = z.infer<typeof LinkSpec>;
export type JunctionSpec = z.infer<typeof Junction>;
export type TankSpec = z.infer<typeof Tank>;
export type OpenSpec = z.infer<typeof Open>;
export type PumpSpec = z.infer<typeof Pump>;
export type PipeSpec = z.infer<typeof Pipe>;
export type HoseSpec = z.infer<typeof Hose>;
export type ThreeWaySpec = z.infer<typeof ThreeWay>;
export type CouplingSpec = z.infer<typeof Coupling>;
export type ConduitSpec = PipeSpec | HoseSpec;
