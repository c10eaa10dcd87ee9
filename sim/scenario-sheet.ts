// The job sheet: numbers that a job asks for before work, line by line. What each should be the
// engine works out from the plant (sim/jobsheet/); a line carries no number of its own.
import * as z from 'zod';
import { Id, whole, within } from './scenario-basics.ts';

/** Where controls stand: degrees of a valve, 0 or 1 of a pump or a coupling. */
const Settings = z.record(Id, whole(0, 270));

const common = {
  id: Id,
  /** How far an answer may be off, instead of what the rules say for its kind. */
  tolerance_percent: within(0.1, 100).optional(),
};

/** Flow that gives the rule velocity in all loop pipes of the bore of this one. */
const Flow = z.strictObject({ ...common, kind: z.literal('flow'), link: Id });
/** Least flow through the pump that gives it in every one of these sections at once. */
const Total = z.strictObject({
  ...common,
  kind: z.literal('total'),
  /** Loop links that count; unsaid, all. Headers of one size are too wide at their far ends. */
  sections: z.array(Id).min(1).max(200).optional(),
});
/** What the pump has to lift at that flow. */
const Head = z.strictObject({ ...common, kind: z.literal('head') });
/** In how many banks, one after the other; 1: at once; 0: not with this rig. */
const Banks = z.strictObject({ ...common, kind: z.literal('banks') });
/** Room of the job's loop links. */
const Volume = z.strictObject({ ...common, kind: z.literal('volume') });
/** Time in which what passes `link` fills the loop. */
const MakeUp = z.strictObject({ ...common, kind: z.literal('make_up'), link: Id });
/** Of what the tank `from` holds, for the freeze point that the job's outcome asks for. */
const Antifreeze = z.strictObject({ ...common, kind: z.literal('antifreeze'), from: Id });
/** By how much the tank falls when `valve` is shut against the pump and so much air is left. */
const Drop = z.strictObject({
  ...common,
  kind: z.literal('drop'),
  tank: Id,
  valve: Id,
  /** At 1 atm; unsaid, the most that the job allows. */
  air_L: within(0.01, 1000).optional(),
});
/** At the node of the leak test's milestone: what is asked for, and what the weakest part bears. */
const Test = z.strictObject({ ...common, kind: z.literal('test') });
/** On the first day, so that the outcome's pressure stands when hands come back. */
const Leave = z.strictObject({
  ...common,
  kind: z.literal('leave'),
  /** What gives way besides the loop's pipes: a vessel. */
  links: z.array(Id).max(10).default([]),
});

export const SheetLine = z.discriminatedUnion('kind', [
  Flow,
  Total,
  Head,
  Banks,
  Volume,
  MakeUp,
  Antifreeze,
  Drop,
  Test,
  Leave,
]);
export type SheetLine = z.infer<typeof SheetLine>;
export type SheetKind = SheetLine['kind'];
/** Id and kind of the derived line (derived.ts), answered as those of the job sheet are. */
export const RESIDUAL = 'residual';
export type LineKind = SheetKind | typeof RESIDUAL;
export const SHEET_KINDS = [
  'flow',
  'total',
  'head',
  'banks',
  'volume',
  'make_up',
  'antifreeze',
  'drop',
  'test',
  'leave',
] as const satisfies readonly SheetKind[];

/** Most of an answer either way, in thousandths of its unit. */
export const ANSWER_MOST = 1e9;

/** SI in one of the unit that a line is answered in: L/s, m, banks, L, min, mm, kPa. */
export const UNIT_SI: Readonly<Record<LineKind, number>> = {
  residual: 1e-3,
  flow: 1e-3,
  total: 1e-3,
  head: 1,
  banks: 1,
  volume: 1e-3,
  make_up: 60,
  antifreeze: 1e-3,
  drop: 1e-3,
  test: 1e3,
  leave: 1e3,
};

/** What its number is written in. */
export const SHEET_UNITS: Readonly<Record<LineKind, string>> = {
  residual: 'L',
  flow: 'L/s',
  total: 'L/s',
  head: 'm',
  banks: 'banks',
  volume: 'L',
  make_up: 'min',
  antifreeze: 'L',
  drop: 'mm',
  test: 'kPa',
  leave: 'kPa',
};

export const Sheet = z.strictObject({
  /** How controls stand, besides their start, while the whole loop is purged at once. */
  purge: Settings,
  /** Valves of each part that can be purged alone, in the order in which they would be. */
  banks: z.array(z.array(Id).min(1).max(10)).max(40).default([]),
  /** How controls stand, besides their start, while water is made up. */
  make_up: Settings.optional(),
  lines: z.array(SheetLine).min(1).max(20),
});
export type SheetSpec = z.infer<typeof Sheet>;
