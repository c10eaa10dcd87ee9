// Stored files: the record of a run, the attempt that wraps it, and the facts inside. Checks
// shape and order; with a scenario also that the record belongs to it. Whether a record is
// true is not judged here: only replaying it can say so.
import * as z from 'zod';
import { CommandSchema } from './command.ts';
import { controlFaults } from './check/command.ts';
import { BEYOND, EVENTS, HAZARDS, HELD, REFUSED } from './fact.ts';
import { InputFaults, schemaFaults } from './fault.ts';
import type { Fault } from './fault.ts';
import type { RunRecord } from './run.ts';
import { BranchSchema, RatingSchema, Tick } from './record-own.ts';
import { scenarioHash } from './scenario.ts';
import type { Scenario } from './scenario.ts';
import { ENGINE } from './version.ts';

const ID = /^[a-z][a-z0-9_]{0,39}$/;
const Id = z.string().regex(ID, 'must be an id: a-z first, then a-z, 0-9 or _');
const Hash = z.string().regex(/^[0-9a-f]{16}$/, 'must be a hash: 16 digits of 0-9 and a-f');

export const RecordSchema = z.strictObject({
  format: z.literal(1),
  /** Version of the physics that made it. */
  engine: z.string().min(1).max(40),
  scenario: Id,
  scenario_hash: Hash,
  seed: z.int().min(0).max(4294967295),
  end_tick: Tick,
  commands: z.array(z.tuple([Tick, CommandSchema])).max(100_000),
  checks: z.array(z.tuple([Tick, Hash])).max(100_000),
});
export type StoredRecord = z.infer<typeof RecordSchema>;

const finite = z.number();
const MeasuresSchema = z.strictObject({
  loop_air_m3: finite.min(0),
  other_air_m3: finite.min(0),
  loop_volume_m3: finite.min(0),
  spilled_m3: finite.min(0),
  wasted_m3: finite.min(0),
  time_s: finite.min(0),
  freeze: z
    .strictObject({ mean_C: finite, weakest_C: finite, strongest_C: finite })
    .optional(),
  pressures: z.record(z.string(), finite).optional(),
  flows: z.record(z.string(), finite).optional(),
  debris_kg: finite.min(0).optional(),
  controls: z.record(z.string(), finite),
});

export const FactSchema = z.discriminatedUnion('kind', [
  z.strictObject({ tick: Tick, kind: z.literal('command'), command: CommandSchema }),
  z.strictObject({
    tick: Tick,
    kind: z.literal('refused'),
    command: CommandSchema,
    reason: z.enum(REFUSED),
  }),
  z.strictObject({ tick: Tick, kind: z.literal('moved'), control: Id, value: finite }),
  z.strictObject({
    tick: Tick,
    kind: z.literal('noted'),
    entry: Id,
    value: finite,
    shown: finite.nullable(),
  }),
  z.strictObject({
    tick: Tick,
    kind: z.literal('loop_air'),
    value: finite.min(0),
    pressure: finite.min(0),
  }),
  z.strictObject({ tick: Tick, kind: z.literal('answered'), line: Id, value: finite.nullable() }),
  z.strictObject({ tick: Tick, kind: z.literal('held'), control: Id, why: z.enum(HELD) }),
  z.strictObject({
    tick: Tick,
    kind: z.literal('hazard'),
    hazard: z.enum(HAZARDS),
    at: Id,
    stage: z.enum(['warning', 'tripped', 'ended']),
    value: finite,
    limit: finite,
  }),
  z.strictObject({ tick: Tick, kind: z.literal('event'), event: z.enum(EVENTS), at: Id }),
  z.strictObject({ tick: Tick, kind: z.literal('left'), hours: z.int().min(1) }),
  z.strictObject({ tick: Tick, kind: z.literal('back') }),
  z.strictObject({ tick: Tick, kind: z.literal('reached'), milestone: Id, value: finite }),
  z.strictObject({ tick: Tick, kind: z.literal('beyond'), limit: z.enum(BEYOND), value: finite }),
  z.strictObject({
    tick: Tick,
    kind: z.literal('done'),
    asked: z.boolean(),
    measures: MeasuresSchema,
  }),
]);

/** One attempt of one person: the record, and what it was found to be worth when it was made. */
export const AttemptSchema = z.strictObject({
  format: z.literal(1),
  kind: z.literal('attempt'),
  record: RecordSchema,
  facts: z.array(FactSchema).max(1_000_000),
  /** Marks as shown then; kept as they were, so any later form of them stays readable. */
  marks: z.looseObject({ total: finite, passed: z.boolean() }).nullable(),
  who: z.string().max(200).nullable(),
  /** The attempt's own id, and in which mode of the pages it was made. */
  id: z.string().max(40).optional(),
  mode: z.enum(['learn', 'practise', 'assess']).optional(),
  /** The assignment it was made for, as it was sent, and the how manieth attempt at it. */
  ticket: z.looseObject({ id: z.string().max(40) }).nullable().optional(),
  nth: z.int().min(1).max(1000).nullable().optional(),
  /** Ticks of looks inside the pipes, where they are noted; tick and seconds of absences. */
  looks: z.array(Tick).max(100_000).optional(),
  away: z.array(z.tuple([Tick, finite.min(0)])).max(100_000).optional(),
  rating: RatingSchema.nullable().optional(),
  branch: BranchSchema.nullable().optional(),
  /** Self-declared by the device: when it began and ended, ISO 8601. */
  wall_clock: z.strictObject({ began: z.iso.datetime(), ended: z.iso.datetime() }).nullable(),
});
export type Attempt = z.infer<typeof AttemptSchema>;

/** Every fault of `json` as a record; with a scenario also whether it belongs to it. */
export function recordFaults(json: unknown, scenario?: Scenario): Fault[] {
  return faultsUnder(json, [], scenario);
}

/** @throws InputFaults with every fault and its path. */
export function parseRecord(json: unknown, scenario?: Scenario): StoredRecord {
  const faults = recordFaults(json, scenario);
  if (faults.length > 0) throw new InputFaults(faults);
  return RecordSchema.parse(json);
}

/** Every fault of `json` as an attempt. */
export function attemptFaults(json: unknown, scenario?: Scenario): Fault[] {
  const parsed = AttemptSchema.safeParse(json);
  const shape = parsed.success ? [] : schemaFaults(parsed.error.issues, json);
  const inside = faultsUnder(memberOf(json, 'record'), ['record'], scenario);
  const facts = parsed.success ? parsed.data.facts : [];
  const order = orderFaults(
    facts.map((f) => f.tick),
    { path: 'facts', key: '.tick', last: null },
  );
  const known = new Set(inside.map((f) => f.path));
  return [...shape.filter((f) => !known.has(f.path)), ...inside, ...order];
}

/** @throws InputFaults with every fault and its path. */
export function parseAttempt(json: unknown, scenario?: Scenario): Attempt {
  const faults = attemptFaults(json, scenario);
  if (faults.length > 0) throw new InputFaults(faults);
  return AttemptSchema.parse(json);
}

export function isAttempt(json: unknown): boolean {
  return memberOf(json, 'kind') === 'attempt';
}

function memberOf(json: unknown, key: string): unknown {
  if (typeof json !== 'object' || json === null) return undefined;
  return (json as Record<string, unknown>)[key];
}

function faultsUnder(json: unknown, under: readonly string[], scenario?: Scenario): Fault[] {
  const parsed = RecordSchema.safeParse(json);
  const faults = parsed.success ? [] : schemaFaults(parsed.error.issues, json, under);
  const prefix = under.length === 0 ? '' : `${under.join('.')}.`;
  const end = Tick.safeParse(memberOf(json, 'end_tick'));
  const last = end.success ? end.data : null;
  for (const key of ['commands', 'checks'] as const) {
    const list = memberOf(json, key);
    if (!Array.isArray(list)) continue;
    const ticks = list.map((entry: unknown) => {
      const tick = Tick.safeParse(Array.isArray(entry) ? entry[0] : undefined);
      return tick.success ? tick.data : null;
    });
    faults.push(...orderFaults(ticks, { path: `${prefix}${key}`, key: '[0]', last }));
  }
  if (scenario !== undefined) faults.push(...strangerFaults(json, prefix, scenario));
  return faults;
}

interface Order {
  readonly path: string;
  /** Where in an entry its tick stands. */
  readonly key: string;
  /** The run's last tick, where it is known. */
  readonly last: number | null;
}

/** Ticks must not go back, nor beyond the end; those that cannot be read are null. */
function orderFaults(ticks: readonly (number | null)[], order: Order): Fault[] {
  const faults: Fault[] = [];
  let before = 0;
  ticks.forEach((tick, at) => {
    if (tick === null) return;
    const path = `${order.path}[${at}]${order.key}`;
    if (tick < before) {
      faults.push({ path, message: `must not lie before tick ${before}, which stands above it` });
    } else before = tick;
    if (order.last !== null && tick > order.last) {
      faults.push({ path, message: `lies beyond the end of the run at tick ${order.last}` });
    }
  });
  return faults;
}

/** What does not fit the scenario: engine, hash, and controls that it does not have. */
function strangerFaults(json: unknown, prefix: string, scenario: Scenario): Fault[] {
  const faults: Fault[] = [];
  const differs = (key: string, wanted: string, what: string): void => {
    const found = memberOf(json, key);
    if (typeof found !== 'string' || found === '' || found === wanted) return;
    const message = `this record is of ${what} ${found}; here is ${wanted}`;
    faults.push({ path: `${prefix}${key}`, message });
  };
  differs('engine', ENGINE, 'engine');
  differs('scenario', scenario.id, 'scenario');
  const hash = Hash.safeParse(memberOf(json, 'scenario_hash'));
  if (hash.success) differs('scenario_hash', scenarioHash(scenario), 'a scenario with hash');
  const commands = memberOf(json, 'commands');
  if (Array.isArray(commands)) {
    commands.forEach((entry: unknown, at) => {
      const parsed = CommandSchema.safeParse(Array.isArray(entry) ? entry[1] : undefined);
      if (!parsed.success) return;
      faults.push(...controlFaults(parsed.data, `${prefix}commands[${at}][1]`, scenario));
    });
  }
  return faults;
}

export const recordJsonSchema = (): unknown => z.toJSONSchema(RecordSchema, { io: 'input' });
export const attemptJsonSchema = (): unknown => z.toJSONSchema(AttemptSchema, { io: 'input' });

/** One command or check to a line, so that a change of physics is a diff that can be read. */
export function recordText(record: RunRecord): string {
  const { commands, checks, ...head } = record;
  const rows = (list: readonly unknown[]): string => {
    if (list.length === 0) return '[]';
    return `[\n    ${list.map((row) => JSON.stringify(row)).join(',\n    ')}\n  ]`;
  };
  const fields = Object.entries(head).map(([k, value]) => `  "${k}": ${JSON.stringify(value)},`);
  const lists = `  "commands": ${rows(commands)},\n  "checks": ${rows(checks)}`;
  return `{\n${fields.join('\n')}\n${lists}\n}\n`;
}
