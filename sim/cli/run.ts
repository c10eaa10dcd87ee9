// The verb `run`: a scenario with a script, a record's commands or idle hands; what came of it,
// and a series of looks at it where one is asked for. All input is checked before it begins.
import { existsSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { assert } from '../base/assert.ts';
import { floor, round } from '../base/math.ts';
import { parseRules, type Rules } from '../rules.ts';
import { advance, startRun, type Run, type RunRecord } from '../run.ts';
import { scenarioHash, type Scenario } from '../scenario.ts';
import { score } from '../score.ts';
import { runScript, type Outcome, type Played } from '../script.ts';
import { parseScript, type Script } from '../script-schema.ts';
import { snapshot } from '../see.ts';
import { truth } from '../see-truth.ts';
import { ENGINE } from '../version.ts';
import { hash, isOver } from '../world.ts';
import { digits, type Answer } from './answer.ts';
import { cutScript, scenarioIn } from './drill.ts';
import { checkPlace, read, recordIn, refuse, seconds, seedOf, together } from './files.ts';
import { written, type Options } from './files.ts';
import { readScript } from './scripts.ts';
import { addRow, emptySeries, ticksOf, type Series } from './series.ts';

export function runVerb(file: string, options: Options): Answer {
  const { scenario, script, stored, rules, every_s, seed, until_s } = inputOf(file, options);
  if (script !== null) {
    const { run, outcome, phases } = runScript(scenario, script, { seed, until_s });
    const series = seriesAgain(run, options, every_s);
    return told(run, { options, rules, outcome, phases, series });
  }
  const run = startRun(scenario, stored?.seed ?? seed ?? 1);
  const end = stored === null ? Infinity : stored.end_tick;
  const stop = until_s === undefined ? end : round(until_s / scenario.solver.tick_s);
  const series = options.out === undefined ? null : emptySeries(run.world, every_s);
  playTimed(run, { commands: stored?.commands ?? [], stop, series });
  return told(run, { options, rules, outcome: null, series });
}

interface Input {
  readonly scenario: Scenario;
  readonly script: Script | null;
  readonly stored: RunRecord | null;
  /** Null where there is no job to be marked. */
  readonly rules: Rules | null;
  readonly every_s: number;
  readonly seed: number | undefined;
  readonly until_s: number | undefined;
}

/** All that a run needs, before it begins. @throws InputFaults with those of every file. */
function inputOf(file: string, options: Options): Input {
  const { script, record, rules, out } = options;
  const [scenario, every_s, seed, until_s] = together(
    () => scenarioIn(file, options),
    () => everyOf(options),
    () => seedOf(options.seed),
    () => seconds(options.until, '--until'),
    () => checkTogether(options),
    () => checkPlace(out, [file, script, record, rules]),
    // Without its scenario a script or a record can still be told its own faults.
    () => script !== undefined && readScript(script, (json) => parseScript(json)),
    () => record !== undefined && read(record, (json) => recordIn(json)),
    () => rules !== undefined && read(rules, parseRules),
  );
  const [played, stored, marking] = together(
    () =>
      script === undefined
        ? null
        : readScript(script, (json) => parseScript(cutScript(json, scenario, options), scenario)),
    () => (record === undefined ? null : read(record, (json) => recordIn(json, scenario))),
    () => (scenario.job === undefined ? null : rulesOf(file, options)),
  );
  return { scenario, script: played, stored, rules: marking, every_s, seed, until_s };
}

/** @throws InputFaults on options that do not go together. */
function checkTogether({ script, record, seed, every, out }: Options): void {
  if (script !== undefined && record !== undefined) {
    refuse('--script', 'and --record cannot be given together');
  }
  if (record !== undefined && seed !== undefined) refuse('--seed', 'is in the record already');
  if (every !== undefined && out === undefined) refuse('--every', 'is of a series: give --out');
}

function everyOf(options: Options): number {
  const every_s = seconds(options.every, '--every') ?? 1;
  return every_s > 0 ? every_s : refuse('--every', 'must be above 0');
}

/** The series of a run that a script has played: its own commands again, looked at on the way. */
function seriesAgain(run: Run, options: Options, every_s: number): Series | null {
  if (options.out === undefined) return null;
  const again = startRun(run.base, run.seed);
  const series = emptySeries(again.world, every_s);
  const stop = run.world.state.counter[0]!;
  playTimed(again, { commands: run.commands, stop, series });
  assert(hash(again.world) === hash(run.world), 'the same commands led elsewhere');
  return series;
}

interface Playing {
  readonly commands: RunRecord['commands'];
  readonly stop: number;
  readonly series: Series | null;
}

/** Feeds timed commands until `stop` ticks have gone by or the run is over. */
function playTimed(run: Run, { commands, stop, series }: Playing): void {
  const every = series === null ? 1 : ticksOf(series, run.world);
  let next = 0;
  let due = 0;
  for (let tick = 0; tick < stop && !isOver(run.world); tick = run.world.state.counter[0]!) {
    if (series !== null && tick >= due) {
      addRow(series, run.world);
      due += every * (1 + floor((tick - due) / every)); // A step of a night may go beyond some.
    }
    const now = [];
    for (; commands[next]?.[0] === tick; next += 1) now.push(commands[next]![1]);
    advance(run, now);
  }
  // "Done" takes no tick: it stands at the run's last one.
  const last = commands.slice(next).filter(([tick, { kind }]) => tick === stop && kind === 'done');
  if (last.length > 0 && !isOver(run.world)) advance(run, [last[0]![1]]);
  if (series !== null) addRow(series, run.world);
}

interface Telling {
  readonly options: Options;
  readonly rules: Rules | null;
  readonly outcome: Outcome | null;
  readonly phases?: Played['phases'];
  readonly series: Series | null;
}

function told(run: Run, { options, rules, outcome, phases, series }: Telling): Answer {
  const { scenario, facts } = run;
  const marks = rules === null ? null : score(scenario, rules, facts);
  const head = headOf(run);
  const { out } = options;
  if (out !== undefined && series !== null) {
    written(out, { ...head, script: outcome, ...series, facts, score: marks });
  }
  const seen = snapshot(run.world);
  const json = {
    ...head,
    end_tick: seen.tick,
    time_s: digits(seen.time_s),
    over: isOver(run.world),
    hash: hash(run.world),
    script: outcome,
    ...(phases === undefined || phases.length === 0 ? {} : { phases }),
    readings: seen.panel.readings,
    truth: truth(run.world),
    facts,
    score: marks,
    ...(out === undefined ? {} : { out }),
  };
  const ended = outcome === null || outcome.end === 'finished';
  return { code: (marks === null || marks.passed) && ended ? 0 : 1, json };
}

function headOf({ base, seed }: Run): object {
  return { engine: ENGINE, scenario: base.id, scenario_hash: scenarioHash(base), seed };
}

/** The rules named, or those that stand in the folder above the scenario's. */
export function rulesOf(scenarioAt: string, options: Options): Rules {
  const above = join(dirname(resolve(scenarioAt)), '..', 'rules.json');
  const usual = [above, join('levels', 'rules.json')];
  const places = options.rules === undefined ? usual : [options.rules];
  const path = places.find((place) => existsSync(place));
  if (path === undefined) return refuse(places.join(', '), 'no rules were found: give --rules');
  return read(path, parseRules);
}
