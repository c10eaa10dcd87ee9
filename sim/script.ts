// Plays a hand script on a run: gives commands as hands would, looks at panel and scene a few
// times a second, and keeps the record. It never sees inside a pipe.
import { max, round } from './base/math.ts';
import type { Command } from './command.ts';
import type { Panel, Reading, Scene } from './lens.ts';
import { airWorkedOut, workedOut } from './jobsheet/worked-out.ts';
import { advance, recordOf, startRun } from './run.ts';
import type { Run, RunRecord } from './run.ts';
import type { Phase } from './phases.ts';
import type { Scenario } from './scenario.ts';
import { milliOf } from './notes.ts';
import { isList } from './script-schema.ts';
import type { Condition, PlainStep, Reflex, Script, Step } from './script-schema.ts';
import { Glance, sceneOf } from './scene.ts';
import { snapshot, timeOf } from './see.ts';
import { isOver } from './world.ts';

/** s. How often a pair of eyes goes over the panel. */
const LOOK_EVERY = 0.25;

/**
 * `finished`: all steps done. `over`: the run ended first. `gave_up`: waited in vain.
 * `stopped`: the caller's time was up.
 */
export interface Outcome {
  readonly end: 'finished' | 'over' | 'gave_up' | 'stopped';
  /** The step it stopped at, as `steps[3]`, or null. */
  readonly step: string | null;
  readonly time_s: number;
}

/** Where the script says that a phase begins. */
export interface PhaseBegun {
  readonly id: Phase;
  readonly tick: number;
}

export interface Played {
  readonly run: Run;
  readonly record: RunRecord;
  readonly outcome: Outcome;
  readonly phases: readonly PhaseBegun[];
}

type Seen = Scene & { readonly panel: Panel };

interface Player {
  readonly run: Run;
  readonly dt: number;
  readonly lookEvery: number;
  readonly endTick: number;
  readonly reflexes: ReadonlyArray<{ readonly reflex: Reflex; armed: boolean }>;
  /** The tick at which the step began. */
  began: number;
  tick: number;
  jumped: boolean;
  seen: Seen;
  readonly phases: PhaseBegun[];
  readonly onPhase: ((id: Phase, run: Run) => void) | undefined;
}

export interface PlayOptions {
  /** Instead of the script's own. */
  readonly seed?: number | undefined;
  /** s. Stop here, whatever is still to be done. */
  readonly until_s?: number | undefined;
  /** Called where a phase begins, before its first step. It must leave the run as it is. */
  readonly onPhase?: ((id: Phase, run: Run) => void) | undefined;
}

/** Plays `script` from the start, to its end or the run's. */
export function runScript(scenario: Scenario, script: Script, options: PlayOptions = {}): Played {
  const run = startRun(scenario, options.seed ?? script.seed);
  const dt = scenario.solver.tick_s;
  const player: Player = {
    run,
    dt,
    lookEvery: max(1, round(LOOK_EVERY / dt)),
    endTick: options.until_s === undefined ? Infinity : round(options.until_s / dt),
    reflexes: script.keep.map((reflex) => ({ reflex, armed: true })),
    began: 0,
    tick: 0,
    jumped: false,
    seen: new Glance(run.world),
    phases: [],
    onPhase: options.onPhase,
  };
  const [end, step] = playAll(player, script.steps, 'steps');
  const { phases } = player;
  return { run, record: recordOf(run), outcome: { end, step, time_s: timeOf(run.world) }, phases };
}

/** One after the other; bounded, because the schema bounds repeats. */
function playAll(
  player: Player,
  steps: readonly Step[],
  path: string,
): [Outcome['end'], string | null] {
  for (const [at, step] of steps.entries()) {
    const here = `${path}[${at}]`;
    if (isOver(player.run.world)) return ['over', here];
    player.began = player.tick;
    if ('steps' in step) {
      const times = 'repeat' in step ? step.repeat : holds(player, step.if) ? 1 : 0;
      for (let k = 0; k < times; k++) {
        const inner = playAll(player, step.steps, `${here}.steps`);
        if (inner[0] !== 'finished') return inner;
      }
      continue;
    }
    if (playStep(player, step)) continue;
    if (isOver(player.run.world)) return ['over', here];
    return [player.tick >= player.endTick ? 'stopped' : 'gave_up', here];
  }
  return ['finished', null];
}

/** False where the step could not be brought to its end. */
function playStep(player: Player, step: PlainStep): boolean {
  if ('phase' in step) {
    player.phases.push({ id: step.phase, tick: player.tick });
    player.onPhase?.(step.phase, player.run);
    return true;
  }
  if ('sheet' in step) {
    const { scenario, facts } = player.run;
    const air = step.sheet === 'air_left';
    return onward(player, air ? airWorkedOut(scenario, facts) : workedOut(scenario));
  }
  if ('do' in step) {
    return onward(player, isList(step.do) ? step.do : [step.do]);
  }
  if ('write' in step) return onward(player, notesOf(player, step.write));
  if ('wait_s' in step) {
    while (elapsed(player) < step.wait_s) if (!onward(player, [])) return false;
    return true;
  }
  let since: number | null = null;
  for (;;) {
    if (!holds(player, step.until)) since = null;
    else since ??= player.tick;
    if (since !== null && (player.tick - since) * player.dt >= step.for_s) return true;
    if (elapsed(player) >= step.max_s) return step.else === 'go_on';
    if (!onward(player, [])) return false;
  }
}

/** What the instruments of these lines show at this look, as it is written down. */
function notesOf({ run }: Player, what: string | readonly string[]): readonly Command[] {
  const { record, instruments } = run.scenario;
  const { readings } = snapshot(run.world).panel;
  return (typeof what === 'string' ? [what] : what).flatMap((entry): Command[] => {
    const line = record.find(({ id }) => id === entry);
    const spec = instruments.find(({ id }) => id === line?.reading);
    const shown = readings.find(({ id }) => id === spec?.id)?.value;
    if (spec === undefined || typeof shown !== 'number') return [];
    return [{ kind: 'note', entry, value_milli: round(shown / milliOf(spec.kind)) }];
  });
}

function elapsed(player: Player): number {
  return (player.tick - player.began) * player.dt;
}

/** One tick; every few of them the eyes look, and reflexes may add to the commands. */
function onward(player: Player, commands: readonly Command[]): boolean {
  if (isOver(player.run.world) || player.tick >= player.endTick) return false;
  const looks = player.tick % player.lookEvery === 0 || player.jumped;
  const more = looks ? reflexCommands(player) : [];
  advance(player.run, more.length === 0 ? commands : [...commands, ...more]);
  const now = player.run.world.state.counter[0]!;
  player.jumped = now > player.tick + 1; // A step of a night; eyes look again behind it.
  player.tick = now;
  if (looks || commands.length > 0) player.seen = lookAt(player);
  return true;
}

/** Where eyes look again before the world has gone on twice, at what they are asked for alone. */
function lookAt({ run, lookEvery }: Player): Seen {
  const glance = new Glance(run.world);
  return lookEvery === 1 ? glance : { panel: glance.panel, ...sceneOf(glance) };
}

function reflexCommands(player: Player): readonly Command[] {
  const commands: Command[] = [];
  for (const entry of player.reflexes) {
    const { reflex } = entry;
    const holdsNow = holds(player, reflex.when);
    if (entry.armed && holdsNow) {
      entry.armed = false;
      commands.push(...(isList(reflex.do) ? reflex.do : [reflex.do]));
    } else if (!entry.armed && !holdsNow) {
      entry.armed = reflex.again === undefined || holds(player, reflex.again);
    }
  }
  return commands;
}

/** Judged on the last look, as a person would. */
function holds(player: Player, condition: Condition): boolean {
  const scene = player.seen;
  if ('all' in condition) return condition.all.every((c) => holds(player, c));
  if ('any' in condition) return condition.any.some((c) => holds(player, c));
  if ('not' in condition) return !holds(player, condition.not);
  if ('after_s' in condition) return elapsed(player) >= condition.after_s;
  if ('hands' in condition) {
    if (scene.back_in_s !== null) return false;
    return scene.hands.busy === null && scene.hands.waiting.length === 0;
  }
  if ('helper' in condition) {
    return scene.helper !== null && scene.helper.busy === null && scene.helper.waiting.length === 0;
  }
  if ('device' in condition) {
    return scene.devices.some((d) => d.id === condition.device && d.position === condition.at);
  }
  if ('hand_pump' in condition) {
    const { hand_pump, strokes_at_least } = condition;
    return scene.hand_pumps.some((p) => p.id === hand_pump && p.strokes >= strokes_at_least);
  }
  if ('valve' in condition) {
    return scene.valves.some((v) => v.id === condition.valve && v.deg === condition.at_deg);
  }
  if ('coupling' in condition) {
    const { coupling, made } = condition;
    return scene.couplings.some((c) => c.id === coupling && c.made === made);
  }
  if ('pump' in condition) {
    return scene.pumps.some((p) => p.id === condition.pump && p.on === condition.on);
  }
  if ('tank' in condition) {
    return scene.tanks.some((t) => t.id === condition.tank && t.bubbles < condition.bubbles_below);
  }
  const reading = scene.panel.readings.find((r) => r.id === condition.reading);
  return reading !== undefined && readingHolds(reading, condition);
}

/** One of each unit in SI, as the panel has it. */
const MM = 0.001;
const KPA = 1000;
const L_MIN = 1 / 60000;
const LITRE = 0.001;

function readingHolds(reading: Reading, c: Extract<Condition, { reading: string }>): boolean {
  switch (reading.kind) {
    case 'pressure':
    case 'difference':
      return isWithin(reading.value, KPA, [c.above_kPa, c.below_kPa]);
    case 'flow':
      return isWithin(reading.value, L_MIN, [c.above_L_min, c.below_L_min]);
    case 'temperature':
    case 'freeze':
      return isWithin(reading.value, 1, [c.above_C, c.below_C]);
    case 'meter':
      return isWithin(reading.value, LITRE, [c.above_L, c.below_L]);
    case 'level':
      return isWithin(reading.value, MM, [c.above_mm, c.below_mm]);
    case 'current':
      return isWithin(reading.value, 1, [c.above_A, c.below_A]);
    case 'voltage':
      return isWithin(reading.value, 1, [c.above_V, c.below_V]);
    case 'density':
      return isWithin(reading.value, 1, [c.above_density, c.below_density]);
    case 'index':
      return isWithin(reading.value, 1, [c.above_index, c.below_index]);
    default:
      return isOneOf(reading.value, c.is);
  }
}

type Limit = number | undefined;

/** Never, where there is no reading yet. */
function isWithin(
  value: number | null,
  unit: number,
  [above, below]: readonly [Limit, Limit],
): boolean {
  if (value === null) return false;
  if (above !== undefined && value <= above * unit) return false;
  return below === undefined || value < below * unit;
}

function isOneOf(value: string, wanted: string | readonly string[] | undefined): boolean {
  if (wanted === undefined) return true;
  return typeof wanted === 'string' ? value === wanted : wanted.includes(value);
}
