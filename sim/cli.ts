// The headless command line: runs scenarios, plays hand scripts, replays and marks records.
// JSON on stdout; faults also one to a line on stderr. Nothing is written on bad input.
import { existsSync, writeFileSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { canonicalJson, hashText } from './base/hash.ts';
import { round } from './base/math.ts';
import { codeOf, memberOf, notFound, read, recordFile, recordIn } from './cli/files.ts';
import { refuse, scenarioFile } from './cli/files.ts';
import { seconds, wholeNumber, type Options } from './cli/files.ts';
import type { Fact } from './fact.ts';
import { InputFaults } from './fault.ts';
import type { Score } from './marks.ts';
import { attemptJsonSchema, recordJsonSchema, recordText } from './record-schema.ts';
import { parseRules, rulesJsonSchema } from './rules.ts';
import { advance, replay, startRun, type Run, type RunRecord } from './run.ts';
import { parseScenario, scenarioHash, scenarioJsonSchema } from './scenario.ts';
import type { Scenario } from './scenario.ts';
import { score } from './score.ts';
import { runScript, type Outcome } from './script.ts';
import { parseScript, scriptJsonSchema } from './script-schema.ts';
import { ENGINE } from './version.ts';
import { snapshot, truth } from './see.ts';
import { hash, isOver } from './world.ts';

const HELP = `Loopyard without a screen. Usage: npm run -s sim -- VERB ...

  run SCENARIO [--script FILE | --record FILE] [--until S] [--seed N] [--rules FILE]
        Runs a scenario: with a hand script, with the commands of a record, or with idle
        hands; to its end or to S seconds. Prints readings, facts, the books and the marks.
  replay RECORD [--scenario FILE]
        Runs a record (or an attempt) again and compares every hash kept in it.
  record SCRIPT [--scenario FILE] [--seed N] [--out FILE]
        Plays a hand script and prints the timed record, or writes it to FILE.
  score RECORD [--scenario FILE] [--rules FILE]
        Replays a record (or an attempt) and marks what happened.
  hash FILE
        The hash of a scenario, a record or an attempt.
  schema [scenario | rules | record | attempt | script]
        Prints a JSON Schema; of the scenario if nothing is named.

A scenario that is not named is looked for by its id: beside the file, then in
levels/*/scenario.json below the current folder. Rules: in the folder above the scenario's,
then in levels/rules.json.

Exit codes: 0 passed, or replayed to the same hashes; 1 did not pass, diverged, or the script
did not come to its end; 2 bad input: {"faults": [{"path", "message", "file"}]}, nothing
written; 70 a fault of the program itself.
`;

interface Answer {
  readonly code: 0 | 1;
  readonly json: unknown;
}

type Verb = (file: string, options: Options) => Answer;

const VERBS: Readonly<Record<string, { readonly takes: readonly (keyof Options)[]; do: Verb }>> = {
  run: { takes: ['script', 'record', 'until', 'seed', 'rules'], do: runVerb },
  replay: { takes: ['scenario'], do: replayVerb },
  record: { takes: ['scenario', 'seed', 'out'], do: recordVerb },
  score: { takes: ['scenario', 'rules'], do: scoreVerb },
  hash: { takes: [], do: hashVerb },
};

main(process.argv.slice(2));

function main(args: readonly string[]): void {
  if (args.length === 0 || args.includes('--help') || args.includes('-h')) {
    process.stdout.write(HELP);
    process.exitCode = args.length === 0 ? 2 : 0;
    return;
  }
  try {
    const { code, json } = answer(args);
    process.stdout.write(`${JSON.stringify(json, null, 2)}\n`);
    process.exitCode = code;
  } catch (error) {
    if (!(error instanceof InputFaults)) {
      process.stderr.write(`${error instanceof Error ? (error.stack ?? '') : String(error)}\n`);
      process.exitCode = 70;
      return;
    }
    process.stdout.write(`${JSON.stringify({ faults: error.faults }, null, 2)}\n`);
    for (const fault of error.faults) {
      const file = 'file' in fault ? `${String(fault.file)}: ` : '';
      process.stderr.write(`${file}${fault.path}: ${fault.message}\n`);
    }
    process.exitCode = 2;
  }
}

function answer(args: readonly string[]): Answer {
  const { values, positionals } = parsedArguments(args);
  const [name = '', file, ...rest] = positionals;
  if (name === 'schema') return { code: 0, json: schemaOf(file ?? 'scenario') };
  const verb = Object.hasOwn(VERBS, name) ? VERBS[name] : undefined;
  if (verb === undefined) refuse(name, `is no verb: ${Object.keys(VERBS).join(', ')} or schema`);
  if (file === undefined) refuse(name, 'needs a file');
  if (rest.length > 0) refuse(rest.join(' '), `is one thing too many for ${name}`);
  for (const key of Object.keys(values) as (keyof Options)[]) {
    if (!verb.takes.includes(key)) refuse(`--${key}`, `is not an option of ${name}`);
  }
  return verb.do(file, values);
}

function parsedArguments(args: readonly string[]): { values: Options; positionals: string[] } {
  const text = { type: 'string' } as const;
  const options = {
    script: text,
    record: text,
    scenario: text,
    rules: text,
    out: text,
    until: text,
    seed: text,
  };
  try {
    return parseArgs({ args: [...args], options, allowPositionals: true, strict: true });
  } catch (error) {
    return refuse('arguments', error instanceof Error ? error.message : String(error));
  }
}

function runVerb(file: string, options: Options): Answer {
  const scenario = read(file, parseScenario);
  const { script, record } = options;
  if (script !== undefined && record !== undefined) {
    refuse('--script', 'and --record cannot be given together');
  }
  if (record !== undefined && options.seed !== undefined) {
    refuse('--seed', 'is in the record already');
  }
  const seed = wholeNumber(options.seed, '--seed', 4294967295);
  const until_s = seconds(options.until);
  if (script !== undefined) {
    const played = read(script, (json) => parseScript(json, scenario));
    const { run, outcome } = runScript(scenario, played, { seed, until_s });
    return told(run, { file, options, outcome });
  }
  const stored = record === undefined ? null : read(record, (json) => recordIn(json, scenario));
  const run = startRun(scenario, stored?.seed ?? seed ?? 1);
  const end = stored === null ? Infinity : stored.end_tick;
  const stop = until_s === undefined ? end : round(until_s / scenario.solver.tick_s);
  playTimed(run, stored?.commands ?? [], stop);
  return told(run, { file, options, outcome: null });
}

/** Feeds timed commands until `stop` ticks have gone by or the run is over. */
function playTimed(run: Run, commands: RunRecord['commands'], stop: number): void {
  let next = 0;
  for (let tick = 0; tick < stop && !isOver(run.world); tick += 1) {
    const now = [];
    for (; commands[next]?.[0] === tick; next += 1) now.push(commands[next]![1]);
    advance(run, now);
  }
  // "Done" takes no tick: it stands at the run's last one.
  const last = commands.slice(next).filter(([tick, { kind }]) => tick === stop && kind === 'done');
  if (last.length > 0 && !isOver(run.world)) advance(run, [last[0]![1]]);
}

interface Telling {
  readonly file: string;
  readonly options: Options;
  readonly outcome: Outcome | null;
}

function told(run: Run, { file, options, outcome }: Telling): Answer {
  const { scenario, seed, world, facts } = run;
  const seen = snapshot(world);
  const marks = scenario.job === undefined ? null : marksOf(scenario, { file, options }, facts);
  const json = {
    engine: ENGINE,
    scenario: scenario.id,
    scenario_hash: scenarioHash(scenario),
    seed,
    end_tick: seen.tick,
    time_s: seen.time_s,
    over: isOver(world),
    hash: hash(world),
    script: outcome,
    readings: seen.panel.readings,
    truth: truth(world),
    facts,
    score: marks,
  };
  const ended = outcome === null || outcome.end === 'finished';
  return { code: (marks === null || marks.passed) && ended ? 0 : 1, json };
}

function replayVerb(file: string, options: Options): Answer {
  const { record, scenario } = recordFile(file, options);
  const { world, divergedAt } = replay(scenario, record);
  const same = divergedAt === null;
  const json = {
    engine: ENGINE,
    scenario: record.scenario,
    seed: record.seed,
    end_tick: record.end_tick,
    checks: record.checks.length,
    same,
    diverged_at_tick: divergedAt,
    hash: hash(world),
  };
  return { code: same ? 0 : 1, json };
}

function recordVerb(file: string, options: Options): Answer {
  const at = scenarioFile(
    file,
    read(file, (json) => memberOf(json, 'level')),
    options,
  );
  if (at === null) return notFound(file, read(file, (json) => parseScript(json)).level);
  const scenario = read(at, parseScenario);
  const script = read(file, (json) => parseScript(json, scenario));
  const seed = wholeNumber(options.seed, '--seed', 4294967295);
  const { record, outcome } = runScript(scenario, script, { seed });
  if (outcome.end !== 'finished') return { code: 1, json: { script: outcome } };
  if (options.out === undefined) return { code: 0, json: record };
  try {
    writeFileSync(options.out, recordText(record));
  } catch (error) {
    refuse(options.out, `cannot be written: ${codeOf(error)}`);
  }
  return { code: 0, json: { script: outcome, out: options.out, end_tick: record.end_tick } };
}

function scoreVerb(file: string, options: Options): Answer {
  const { record, scenario, at } = recordFile(file, options);
  if (scenario.job === undefined) refuse('job', `"${scenario.id}" has no job to be marked`);
  const { facts, divergedAt } = replay(scenario, record);
  const marks = marksOf(scenario, { file: at, options }, facts);
  const same = divergedAt === null;
  const head = { engine: ENGINE, scenario: scenario.id, seed: record.seed, same };
  const json = { ...head, diverged_at_tick: divergedAt, score: marks };
  return { code: marks.passed && same ? 0 : 1, json };
}

function hashVerb(file: string): Answer {
  const json = read(file, (content) => content);
  const has = (key: string): boolean => typeof json === 'object' && json !== null && key in json;
  if (has('nodes')) {
    const scenario = read(file, parseScenario);
    return { code: 0, json: { kind: 'scenario', id: scenario.id, hash: scenarioHash(scenario) } };
  }
  const record = read(file, (content) => recordIn(content));
  const recordHash = hashText(canonicalJson(record));
  const { scenario, scenario_hash } = record;
  return { code: 0, json: { kind: 'record', hash: recordHash, scenario, scenario_hash } };
}

function schemaOf(name: string): unknown {
  const schemas: Readonly<Record<string, () => unknown>> = {
    scenario: scenarioJsonSchema,
    rules: rulesJsonSchema,
    record: recordJsonSchema,
    attempt: attemptJsonSchema,
    script: scriptJsonSchema,
  };
  const make = Object.hasOwn(schemas, name) ? schemas[name] : undefined;
  return (make ?? refuse(name, `has no schema: ${Object.keys(schemas).join(', ')}`))();
}

interface Place {
  /** The scenario's file. */
  readonly file: string;
  readonly options: Options;
}

function marksOf(scenario: Scenario, { file, options }: Place, facts: readonly Fact[]): Score {
  const above = join(dirname(resolve(file)), '..', 'rules.json');
  const usual = [above, join('levels', 'rules.json')];
  const places = options.rules === undefined ? usual : [options.rules];
  const path = places.find((place) => existsSync(place));
  if (path === undefined) refuse(places.join(', '), 'no rules were found: give --rules');
  return score(scenario, read(path, parseRules), facts);
}
