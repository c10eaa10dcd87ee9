// A run keeps its own record: what was commanded when, and the hash at every check.
// A record replays on the engine that made it, bit for bit, or says where it first differs.
import { assert } from './base/assert.ts';
import { floor } from './base/math.ts';
import type { Command } from './command.ts';
import { CHECK_EVERY, CHECK_EVERY_AWAY } from './constants.ts';
import type { Fact } from './fact.ts';
import { formOf } from './form.ts';
import { scenarioHash, type Scenario } from './scenario.ts';
import { ENGINE } from './version.ts';
import { createWorld, hash, isOver, loadState, saveState, step, type World } from './world.ts';

export interface RunRecord {
  readonly format: 1;
  readonly engine: string;
  readonly scenario: string;
  readonly scenario_hash: string;
  readonly seed: number;
  readonly end_tick: number;
  readonly commands: readonly (readonly [tick: number, command: Command])[];
  readonly checks: readonly (readonly [tick: number, hash: string])[];
}

export interface Run {
  readonly world: World;
  /** As it is written: what a record names, by hash. */
  readonly base: Scenario;
  /** What the seed makes of it: what is worked on, shown and marked. */
  readonly scenario: Scenario;
  readonly seed: number;
  readonly commands: [number, Command][];
  readonly checks: [number, string][];
  readonly facts: Fact[];
}

/** @param base the scenario as it is written, with its ranges */
export function startRun(base: Scenario, seed: number): Run {
  const scenario = formOf(base, seed);
  return {
    world: createWorld(scenario, seed),
    base,
    scenario,
    seed,
    commands: [],
    checks: [],
    facts: [],
  };
}

/** One tick with these commands; nothing happens once the run is over. */
export function advance(run: Run, commands: readonly Command[]): readonly Fact[] {
  const { world } = run;
  const tick = world.state.counter[0]!;
  const wasOver = isOver(world);
  if (!wasOver) for (const command of commands) run.commands.push([tick, command]);
  const facts = step(world, commands);
  if (facts.length > 0 && !wasOver) run.facts.push(...facts);
  const now = world.state.counter[0]!;
  const ended = isOver(world) && !wasOver;
  if (isChecked(tick, now) || ended) run.checks.push([now, hash(world)]);
  return facts;
}

/** A step of a night is longer than a tick, and may not end where a check is due. */
function isChecked(before: number, now: number): boolean {
  const every = now - before > 1 ? CHECK_EVERY_AWAY : CHECK_EVERY;
  return floor(now / every) !== floor(before / every);
}

export function recordOf(run: Run): RunRecord {
  const { world, base, seed } = run;
  return {
    format: 1,
    engine: ENGINE,
    scenario: base.id,
    scenario_hash: scenarioHash(base),
    seed,
    end_tick: world.state.counter[0]!,
    commands: [...run.commands],
    checks: [...run.checks],
  };
}

/** Everything needed to go on later: the record so far, the facts, the bytes of the state. */
export interface SavedRun {
  readonly record: RunRecord;
  readonly state: ArrayBuffer;
  readonly facts: readonly Fact[];
}

export function saveRun(run: Run): SavedRun {
  return { record: recordOf(run), state: saveState(run.world), facts: [...run.facts] };
}

/** @throws AssertionError when the record is of another engine or scenario. */
export function resumeRun(base: Scenario, saved: SavedRun): Run {
  const { record } = saved;
  assert(record.engine === ENGINE, `record of engine ${record.engine}, this is ${ENGINE}`);
  const own = scenarioHash(base);
  assert(
    record.scenario_hash === own,
    `record of scenario ${record.scenario_hash}, this is ${own}`,
  );
  const scenario = formOf(base, record.seed);
  const world = loadState(scenario, record.seed, saved.state.slice(0));
  return {
    world,
    base,
    scenario,
    seed: record.seed,
    facts: [...saved.facts],
    commands: record.commands.map(([t, c]) => [t, c]),
    checks: record.checks.map(([t, h]) => [t, h]),
  };
}

export interface Replay {
  readonly world: World;
  readonly facts: readonly Fact[];
  /** First checked tick whose hash differs, or null. */
  readonly divergedAt: number | null;
}

/** Runs a record again from its seed. @throws AssertionError on another engine or scenario. */
export function replay(base: Scenario, record: RunRecord): Replay {
  assert(record.engine === ENGINE, `record of engine ${record.engine}, this is ${ENGINE}`);
  const own = scenarioHash(base);
  assert(
    record.scenario_hash === own,
    `record of scenario ${record.scenario_hash}, this is ${own}`,
  );
  const run = startRun(base, record.seed);
  let next = 0;
  let seen = 0;
  while (run.world.state.counter[0]! < record.end_tick || next < record.commands.length) {
    const tick = run.world.state.counter[0]!;
    const now: Command[] = [];
    while (next < record.commands.length && record.commands[next]![0] <= tick) {
      now.push(record.commands[next++]![1]);
    }
    advance(run, now);
    for (; seen < run.checks.length; seen++) {
      const [at, found] = run.checks[seen]!;
      const said = record.checks[seen];
      if (said === undefined || said[0] !== at || said[1] !== found) {
        return { world: run.world, facts: run.facts, divergedAt: at };
      }
    }
    if (isOver(run.world)) break;
  }
  const missed = record.checks[seen];
  const divergedAt = missed === undefined ? null : missed[0];
  return { world: run.world, facts: run.facts, divergedAt };
}
