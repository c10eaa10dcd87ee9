// Small rigs for hazards, made through the door, and a run that keeps what happened and when
// something could first be seen. Hands only: nothing is poked.
import {
  createWorld,
  isOver,
  parseScenario,
  snapshot,
  step,
  type Command,
  type Fact,
  type HazardKind,
  type Snapshot,
} from '../../../../sim/index.ts';
import { of, turnOn } from '../../../support/hands.ts';

type Json = Record<string, unknown>;

const ends = { bore_mm: 38 };
export const joint = (id: string, more: Json = {}): Json => ({
  id,
  kind: 'junction',
  elevation_m: 0,
  ...more,
});

export const gauge = (node: string, more: Json = {}): Json => ({
  ...{ id: 'gauge', kind: 'pressure', node },
  ...{ range_kPa: 600, resolution_kPa: 5, lag_s: 0.5, ...more },
});
const hands = { reach_s: 1 };
const WHOLE = { format: 1, id: 'rig', temperature_C: 15, ends_after_s: 7200, hands };

/** Parts of `list`, those of `changes` with other keys; null takes one out. */
function changed(list: readonly Json[], changes: Record<string, Json | null>): Json[] {
  return list.flatMap((part) => {
    const change = changes[part.id as string];
    return change === null ? [] : [{ ...part, ...change }];
  });
}

const CURVE = [
  { flow_L_s: 0, head_m: 20 },
  { flow_L_s: 2, head_m: 2 },
];

/**
 * A tank, suction valve, pump, coupling, hose and throttle back to the tank: 196 kPa at shut-off.
 * `more` are keys of the scenario, `changes` of parts by id.
 */
export function pumpRig(more: Json = {}, changes: Record<string, Json | null> = {}): unknown {
  const ports = [
    { id: 'out', height_mm: 50, bore_mm: 50 },
    { id: 'back', height_mm: 700, bore_mm: 38 },
  ];
  const tank = { id: 'tank', kind: 'tank', floor_m: 0, area_m2: 0.2, height_mm: 800 };
  const nodes = [
    { ...tank, start_level_mm: 600, ports },
    joint('casing', { volume_L: 1 }),
    joint('out'),
    joint('half'),
    joint('end'),
  ];
  const links = [
    { id: 'suction', kind: 'valve', from: 'tank.out', to: 'casing', start_deg: 90, ...ends },
    {
      ...{ id: 'pump', kind: 'pump', from: 'casing', to: 'out', ...ends },
      ...{ best_flow_L_s: 1, curve: CURVE },
    },
    { id: 'joint', kind: 'coupling', from: 'out', to: 'half', start: 'made', make_s: 4, ...ends },
    { id: 'hose', kind: 'hose', from: 'half', to: 'end', length_m: 2, ...ends },
    { id: 'throttle', kind: 'valve', from: 'end', to: 'tank.back', start_deg: 90, ...ends },
  ];
  return {
    ...WHOLE,
    instruments: [
      gauge('out'),
      { id: 'sight_tube', kind: 'level', tank: 'tank', resolution_mm: 2 },
      { id: 'note', kind: 'note', pump: 'pump' },
    ],
    ...more,
    nodes: changed(nodes, changes),
    links: changed(links, changes),
  };
}

/** Mains of `kPa`, a supply valve, a coupling, a hose and a drain to the ground. */
export function mainsRig(
  kPa: number,
  more: Json = {},
  changes: Record<string, Json | null> = {},
): unknown {
  const nodes = [
    { id: 'mains', kind: 'reservoir', elevation_m: 0, pressure_kPa: kPa },
    joint('near'),
    joint('far'),
    joint('end'),
    { id: 'ground', kind: 'open', elevation_m: 0, goes_to: 'ground' },
  ];
  const links = [
    { id: 'supply', kind: 'valve', from: 'mains', to: 'near', start_deg: 90, ...ends },
    { id: 'joint', kind: 'coupling', from: 'near', to: 'far', start: 'made', make_s: 4, ...ends },
    { id: 'hose', kind: 'hose', from: 'far', to: 'end', length_m: 2, ...ends },
    { id: 'drain', kind: 'valve', from: 'end', to: 'ground', start_deg: 0, ...ends },
  ];
  return {
    ...WHOLE,
    instruments: [gauge('near')],
    ...more,
    nodes: changed(nodes, changes),
    links: changed(links, changes),
  };
}

/** What hands do, each command with the second it is given at. */
export type Hands = ReadonlyArray<readonly [at_s: number, ...commands: Command[]]>;

const givenAt = (tick: number, hands: Hands, dt: number): Command[] =>
  hands.flatMap(([when, ...commands]) => (Math.round(when / dt) === tick ? commands : []));

export interface Seen {
  /** Facts of the hazard at the place, and all. */
  readonly stages: readonly string[];
  readonly facts: readonly Fact[];
  /** The most that was measured. */
  readonly most: number;
  /** The limit of tripping at the place. */
  readonly trip: number;
  /** s at which it tripped, or Infinity; and from which on it could be seen. */
  readonly tripped_s: number;
  readonly seen_s: number;
}

export interface Run {
  readonly scenario: unknown;
  readonly hands: Hands;
  /** s; then the run is handed over, so that what goes on ends and tells its most. */
  readonly lasts_s: number;
}

export function watchFor(
  { hazard, at, sees }: Pick<Row, 'hazard' | 'at' | 'sees'>,
  { scenario, hands, lasts_s }: Run,
): Seen {
  const world = createWorld(parseScenario(scenario), 1);
  const all: Fact[] = [];
  let seen_s = Infinity;
  const ticks = Math.round(lasts_s / world.dt);
  for (let tick = 0; tick <= ticks && !isOver(world); tick++) {
    const time = tick * world.dt;
    if (seen_s === Infinity && tick % 5 === 0 && sees(snapshot(world))) seen_s = time;
    const given = givenAt(tick, hands, world.dt);
    all.push(...step(world, tick === ticks ? [...given, { kind: 'done' }] : given));
  }
  const own = of(all, hazard).filter((f) => f.at === at);
  const atStage = (stage: string) => own.filter((f) => f.stage === stage);
  return {
    stages: own.map((f) => f.stage),
    facts: all,
    trip: world.watches.find((w) => w.hazard === hazard && w.at === at)!.trip,
    most: Math.max(0, ...atStage('ended').map((f) => f.value)),
    tripped_s: (atStage('tripped')[0]?.tick ?? Infinity) * world.dt,
    seen_s,
  };
}

/** A hazard: what shows it, hands that trip it, and hands that come near. */
export interface Row {
  readonly hazard: HazardKind;
  readonly at: string;
  /** Which reading or what in the scene shows it, in words; and the same as a question. */
  readonly shown_by: string;
  readonly sees: (now: Snapshot) => boolean;
  readonly trips: Run;
  readonly near: Run;
}

export const reading = (now: Snapshot, id: string) =>
  now.panel.readings.find((one) => one.id === id)!;
/** The number of a reading, SI; NaN where it has none. */
export const shown = (now: Snapshot, id: string): number => {
  const { value } = reading(now, id);
  return typeof value === 'number' ? value : NaN;
};
export const device = (now: Snapshot, id: string) => now.scene.devices.find((d) => d.id === id)!;
export const valve = (now: Snapshot, id: string) => now.scene.valves.find((v) => v.id === id)!;

export const on = turnOn(true);
export const off = turnOn(false);
export const part: Command = { kind: 'coupling', coupling: 'joint', made: false };
export const join: Command = { kind: 'coupling', coupling: 'joint', made: true };

/** Facts of a rig under these hands for so long. */
export function run(scenario: unknown, hands: Hands, lasts_s: number): Fact[] {
  const world = createWorld(parseScenario(scenario), 1);
  const facts: Fact[] = [];
  for (let tick = 0; tick <= Math.round(lasts_s / world.dt); tick++) {
    facts.push(...step(world, givenAt(tick, hands, world.dt)));
  }
  return facts;
}
