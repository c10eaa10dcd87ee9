// What is wrong with a plant, as data: each defect at a part, from a time or a condition on the
// truth, with a share, a ramp and a chance. Each changes something that is computed, never a
// reading by script. Leaves what they do to defects.ts, and references to check/defects.ts.
import * as z from 'zod';
import { Id, whole, within } from './scenario-parts.ts';

/** Seconds that a run, and a defect, may wait. */
const seconds = within(0, 1e7);

/** What must be true; every limit that is given must hold, and one at least must be given. */
const When = z.union([
  z.strictObject({
    pressure: Id,
    above_kPa: within(-100, 10000).optional(),
    below_kPa: within(-100, 10000).optional(),
  }),
  z.strictObject({
    flow: Id,
    above_L_min: within(-10000, 10000).optional(),
    below_L_min: within(-10000, 10000).optional(),
  }),
  z.strictObject({
    level: Id,
    above_mm: within(0, 3000).optional(),
    below_mm: within(0, 3000).optional(),
  }),
  z.strictObject({
    valve: Id,
    above_deg: within(0, 270).optional(),
    below_deg: within(0, 270).optional(),
  }),
  z.strictObject({ pump: Id, on: z.boolean() }),
]);

/** `after_s`: of the run for `from`, of the defect's own time for `until`. */
const Moment = z
  .union([z.strictObject({ after_s: seconds }), z.strictObject({ when: When })])
  .meta({ id: 'moment' });

/** What every defect has: its name, its part, and how likely it is there at all, by the seed. */
const own = { id: Id, at: Id, chance: within(0, 1).default(1) };

/** What every defect has that may come and go while the world runs. */
const timed = {
  ...own,
  from: Moment.default({ after_s: 0 }),
  until: Moment.optional(),
  /** How bad it gets, of the worst of its kind. */
  share: within(0, 1).default(1),
  /** How long it takes to get so bad, from nothing; and to mend. */
  ramp_s: seconds.default(0),
};

const Blocked = z.strictObject({
  ...timed,
  kind: z.literal('blocked'),
  /** Of a pipe or hose, where it is kinked; unsaid, in the middle. `share` of the area is shut. */
  at_m: within(0, 5000).optional(),
});
const StuckValve = z.strictObject({
  ...timed,
  kind: z.literal('stuck_valve'),
  /** Where the handle stops; unsaid, it does not move at all. */
  stop_deg: whole(0, 270).optional(),
  /** The side of the stop on which it still turns. */
  turns: z.enum(['below', 'above']).default('below'),
});
/** The handle turns on its stem: `share` of a turn does not reach the ball. */
const HandleSlips = z.strictObject({ ...timed, kind: z.literal('handle_slips') });

const GaugeOffset = z.strictObject({
  ...timed,
  kind: z.literal('gauge_offset'),
  /** Of the range. */
  by_share: within(-1, 1),
});
const GaugeSticks = z.strictObject({
  ...timed,
  kind: z.literal('gauge_sticks'),
  /** How far the truth must move before the needle jumps, of the range; or somebody taps. */
  band_share: within(0.001, 1),
});
const GaugeDead = z.strictObject({
  ...timed,
  kind: z.literal('gauge_dead'),
  /** Where the needle lies, of the range; unsaid, where it stood. */
  at_share: within(0, 1).optional(),
});
const GaugeSlow = z.strictObject({
  ...timed,
  kind: z.literal('gauge_slow'),
  /** Lag that a clogged snubber adds. */
  lag_s: within(0.1, 3600),
});
const MeterScale = z.strictObject({
  ...timed,
  kind: z.literal('meter_scale'),
  /** What it shows of what is there. */
  factor: within(0, 4),
});

/** `share` of the openings that are still free gets blocked. */
const CloggedFilter = z.strictObject({ ...timed, kind: z.literal('clogged_filter') });
const WornImpeller = z.strictObject({ ...timed, kind: z.literal('worn_impeller') });

const hole = {
  /** Of the hole when it is there to its full share. */
  bore_mm: within(0.2, 30),
  /** True where anybody can see it drip. */
  visible: z.boolean().default(false),
};
const SuctionAirLeak = z.strictObject({ ...timed, ...hole, kind: z.literal('suction_air_leak') });
const Leak = z.strictObject({
  ...timed,
  ...hole,
  kind: z.literal('leak'),
  /** Gauge pressure below which it is tight. */
  opens_at_kPa: within(0, 4000).optional(),
  /** Area that 100 kPa of gauge pressure adds, of the hole's. */
  grows_per_100kPa: within(0, 100).default(0),
  goes_to: z.enum(['waste', 'ground', 'pail']).default('ground'),
});

/** `share` of the supply's gauge pressure is missing. */
const WeakSupply = z.strictObject({ ...timed, kind: z.literal('weak_supply') });
/** A well pump with a vessel and a pressure switch, between the supply's own pressure and `low`. */
const CyclingSupply = z.strictObject({
  ...timed,
  kind: z.literal('cycling_supply'),
  low_kPa: within(0, 4000),
  /** What the vessel gives from the one pressure to the other. */
  drawdown_L: within(0.1, 1000),
  pump_L_min: within(0, 10000),
});

/** The ends of two links changed over when the plant was built. */
const SwappedHeader = z.strictObject({
  ...own,
  kind: z.literal('swapped_header'),
  with: Id,
  ends: z.enum(['from', 'to']).default('to'),
});
/** Air under a lid beside the `from` end of a link, which only a fast flow through it takes out. */
const TrappedAir = z.strictObject({
  ...own,
  kind: z.literal('trapped_air'),
  air_L: within(0.01, 20),
  clears_L_min: within(0.1, 10000),
});
/** What a tank or reservoir really holds; its own keys say what it is taken for. */
const WrongDrum = z.strictObject({
  ...own,
  kind: z.literal('wrong_drum'),
  antifreeze_fraction: within(0, 1),
});
/** What a pipe or hose really holds at the start. */
const UnknownFluid = z.strictObject({
  ...own,
  kind: z.literal('unknown_fluid'),
  antifreeze_fraction: within(0, 1),
});

export const Defect = z.discriminatedUnion('kind', [
  Blocked,
  StuckValve,
  HandleSlips,
  GaugeOffset,
  GaugeSticks,
  GaugeDead,
  GaugeSlow,
  MeterScale,
  CloggedFilter,
  WornImpeller,
  SuctionAirLeak,
  Leak,
  WeakSupply,
  CyclingSupply,
  SwappedHeader,
  TrappedAir,
  WrongDrum,
  UnknownFluid,
]);

export type DefectSpec = z.infer<typeof Defect>;
export type DefectKind = DefectSpec['kind'];
export type MomentSpec = z.infer<typeof Moment>;
export type WhenSpec = z.infer<typeof When>;
export type HoleSpec = Extract<DefectSpec, { kind: 'leak' | 'suction_air_leak' }>;
export type PocketSpec = Extract<DefectSpec, { kind: 'trapped_air' }>;
export type CyclingSpec = Extract<DefectSpec, { kind: 'cycling_supply' }>;
/** Those that may come and go while a world runs. */
export type TimedSpec = Extract<DefectSpec, { share: number }>;
