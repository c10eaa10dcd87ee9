// The verbs of the command line: what each takes, and who answers.
import { parseArgs } from 'node:util';
import { attemptJsonSchema, recordJsonSchema } from '../record-schema.ts';
import { mistakeJsonSchema } from '../script-mistake.ts';
import { rulesJsonSchema } from '../rules.ts';
import { scenarioJsonSchema } from '../scenario.ts';
import { scriptJsonSchema } from '../script-schema.ts';
import type { Answer } from './answer.ts';
import { bench } from './bench.ts';
import { refuse, wholeNumber, type Options } from './files.ts';
import { lawVerb } from './law.ts';
import { playVerb } from './play.ts';
import { hashVerb, recordVerb, replayVerb, scoreVerb } from './records.ts';
import { runVerb } from './run.ts';
import { sheetVerb } from './sheet.ts';
import { steadyVerb } from './steady.ts';

interface Verb {
  readonly takes: readonly (keyof Options)[];
  /** Called with what is named behind the verb; `file` verbs always have it. */
  readonly file?: (name: string, options: Options) => Answer;
  readonly maybe?: (name: string | undefined, options: Options) => Answer;
}

const VERBS: Readonly<Record<string, Verb>> = {
  run: {
    takes: ['script', 'record', 'phase', 'until', 'seed', 'rules', 'out', 'every'],
    file: runVerb,
  },
  play: {
    takes: ['player', 'seeds', 'phase', 'rules', 'record', 'why'],
    file: playVerb,
  },
  replay: { takes: ['scenario'], file: replayVerb },
  record: { takes: ['scenario', 'seed', 'out'], file: recordVerb },
  score: { takes: ['scenario', 'rules'], file: scoreVerb },
  sheet: { takes: ['seed', 'answers', 'rules'], file: sheetVerb },
  steady: { takes: ['set', 'seed'], file: steadyVerb },
  law: { takes: ['in', 'list'], maybe: lawVerb },
  bench: { takes: ['rounds'], maybe: benchVerb },
  hash: { takes: [], file: hashVerb },
  schema: { takes: [], maybe: schemaVerb },
};

/** What a command line asks for. @throws InputFaults where it cannot be had. */
export function answer(args: readonly string[]): Answer {
  const { values, positionals } = parsedArguments(args);
  const [name = '', file, ...rest] = positionals;
  const verb = Object.hasOwn(VERBS, name) ? VERBS[name] : undefined;
  if (verb === undefined) return refuse(name, `is no verb: ${Object.keys(VERBS).join(', ')}`);
  if (file === undefined && verb.maybe === undefined) refuse(name, 'needs a file');
  if (rest.length > 0) refuse(rest.join(' '), `is one thing too many for ${name}`);
  for (const key of Object.keys(values) as (keyof Options)[]) {
    if (!verb.takes.includes(key)) refuse(`--${key}`, `is not an option of ${name}`);
  }
  return verb.maybe?.(file, values) ?? verb.file!(file!, values);
}

function parsedArguments(args: readonly string[]): { values: Options; positionals: string[] } {
  const text = { type: 'string' } as const;
  const options = {
    ...{ script: text, record: text, scenario: text, rules: text, out: text, until: text },
    ...{ phase: text, answers: text, seed: text, every: text, in: text, rounds: text },
    ...{ player: text, seeds: text, why: { type: 'boolean' } as const },
    set: { type: 'string', multiple: true },
    list: { type: 'boolean' },
  } as const;
  try {
    return parseArgs({ args: [...args], options, allowPositionals: true, strict: true });
  } catch (error) {
    return refuse('arguments', error instanceof Error ? error.message : String(error));
  }
}

function benchVerb(name: string | undefined, options: Options): Answer {
  if (name !== undefined) refuse(name, 'is one thing too many for bench');
  const rounds = wholeNumber(options.rounds, '--rounds', 100) ?? 15;
  if (rounds === 0) refuse('--rounds', 'must be at least 1');
  return { code: 0, json: bench(rounds) };
}

function schemaVerb(name = 'scenario'): Answer {
  const schemas: Readonly<Record<string, () => unknown>> = {
    scenario: scenarioJsonSchema,
    rules: rulesJsonSchema,
    record: recordJsonSchema,
    attempt: attemptJsonSchema,
    script: scriptJsonSchema,
    mistake: mistakeJsonSchema,
  };
  const make = Object.hasOwn(schemas, name) ? schemas[name] : undefined;
  const known = Object.keys(schemas).join(', ');
  return { code: 0, json: (make ?? refuse(name, `has no schema: ${known}`))() };
}
