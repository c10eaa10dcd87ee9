// The verbs about records: `replay`, `record`, `score`, `hash`.
import { canonicalJson, hashText } from '../base/hash.ts';
import { formOf } from '../form.ts';
import { recordText } from '../record-schema.ts';
import { replay } from '../run.ts';
import { parseScenario, scenarioHash } from '../scenario.ts';
import { score } from '../score.ts';
import { runScript } from '../script.ts';
import { parseScript } from '../script-schema.ts';
import { ENGINE } from '../version.ts';
import { hash } from '../world.ts';
import type { Answer } from './answer.ts';
import { checkPlace, memberOf, notFound, read, recordFile, recordIn, refuse } from './files.ts';
import { scenarioFile, seedOf, together, written, type Options } from './files.ts';
import { rulesOf } from './run.ts';
import { readScript } from './scripts.ts';

export function replayVerb(file: string, options: Options): Answer {
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

export function recordVerb(file: string, options: Options): Answer {
  const level = readScript(file, (json) => memberOf(json, 'level'));
  const at = scenarioFile(file, level, options);
  if (at === null) return notFound(file, readScript(file, (json) => parseScript(json)).level);
  const scenario = read(at, parseScenario);
  const [script, seed] = together(
    () => readScript(file, (json) => parseScript(json, scenario)),
    () => seedOf(options.seed),
    () => checkPlace(options.out, [file, at]),
  );
  const { record, outcome } = runScript(scenario, script, { seed });
  if (outcome.end !== 'finished') return { code: 1, json: { script: outcome } };
  if (options.out === undefined) return { code: 0, json: record };
  written(options.out, recordText(record));
  return { code: 0, json: { script: outcome, out: options.out, end_tick: record.end_tick } };
}

export function scoreVerb(file: string, options: Options): Answer {
  const { record, scenario, at } = recordFile(file, options);
  if (scenario.job === undefined) refuse('job', `"${scenario.id}" has no job to be marked`);
  const rules = rulesOf(at, options);
  const { facts, divergedAt } = replay(scenario, record);
  const marks = score(formOf(scenario, record.seed), rules, facts);
  const same = divergedAt === null;
  const head = { engine: ENGINE, scenario: scenario.id, seed: record.seed, same };
  const json = { ...head, diverged_at_tick: divergedAt, score: marks };
  return { code: marks.passed && same ? 0 : 1, json };
}

export function hashVerb(file: string): Answer {
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
