// The command line as a user has it: JSON on stdout, faults in plain lines, honest exit codes.
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { HELP } from '../../../sim/cli/help.ts';
import { asked, faultPaths, faultsOf, folderOfTests, LEVEL, ROOT, sim, told } from './cli-tools.ts';

const { at, written } = folderOfTests();

const SCRIPT = {
  format: 1,
  level: 'heron_lane',
  seed: 11,
  steps: [
    { do: { kind: 'valve', valve: 'suction_valve', target_deg: 90 } },
    { wait_s: 25 },
    { do: { kind: 'done' } },
  ],
};

describe('the command line', () => {
  it('plays a script, writes its record, replays it and marks it', () => {
    const script = written('short.script.json', SCRIPT);
    const out = at('short.record.json');
    expect(told('record', script, '--out', out).code).toBe(0);
    const record = JSON.parse(readFileSync(out, 'utf8')) as { seed: number; end_tick: number };
    expect(record).toMatchObject({ seed: 11, end_tick: 126 });

    const replayed = told('replay', out);
    expect(replayed).toMatchObject({ code: 0, json: { same: true, diverged_at_tick: null } });

    const marked = sim('score', out);
    expect(marked.code).toBe(1);
    expect(marked.json).toMatchObject({ same: true, score: { finished: true, passed: false } });

    const again = told('run', LEVEL, '--record', out);
    expect(again.json['hash']).toBe(replayed.json['hash']);
    expect(again.json['score']).toEqual(marked.json['score']);
  });

  it('plays a mistake, which is a script beside it with one edit', () => {
    const level = 'levels/01-heron-lane/too-early';
    const kept: unknown = JSON.parse(readFileSync(join(ROOT, `${level}.record.json`), 'utf8'));
    expect(told('record', `${level}.mistake.json`)).toEqual({ code: 0, json: kept });
    const ran = told('run', LEVEL, '--script', `${level}.mistake.json`);
    expect(ran.json['score']).toMatchObject({ reasons: ['air_left', 'minimum_outcome', 'total'] });
  });

  it('names the script that a mistake is of where that is not beside it, and what it lacks', () => {
    const expects = { passed: false, deductions: [], reasons: [], critical: [] };
    const edit = { leave_out: { step: { wait_s: 26 } } };
    const mistake = { format: 1, of: 'nowhere', why: 'One edit.', edit, expects };
    const alone = written('alone.mistake.json', mistake);
    expect(faultPaths(() => asked('record', alone))).toEqual([at('nowhere.script.json')]);
    written('base.script.json', SCRIPT);
    const off = written('off.mistake.json', { ...mistake, of: 'base' });
    expect(faultsOf(() => asked('record', off))).toEqual([
      { path: 'edit.leave_out', message: 'is not found in the script', file: off },
    ]);
  });

  it('says at which tick a record diverges', () => {
    const script = written('false.script.json', SCRIPT);
    const out = at('false.record.json');
    told('record', script, '--out', out);
    const record = JSON.parse(readFileSync(out, 'utf8')) as { checks: [number, string][] };
    record.checks[0]![1] = '0000000000000000';
    const replayed = told('replay', written('false.record.json', record));
    expect(replayed).toMatchObject({ code: 1, json: { same: false, diverged_at_tick: 100 } });
  });

  it('runs with idle hands for as long as asked', () => {
    const { code, json } = told('run', LEVEL, '--until', '5', '--seed', '42');
    expect(json).toMatchObject({ seed: 42, end_tick: 25, time_s: 5, over: false });
    expect(json['score']).toMatchObject({ reasons: ['not_finished'] });
    expect(code).toBe(1);
  });

  it('gives the hash of a scenario whatever the order of its keys', () => {
    const json = JSON.parse(readFileSync(join(ROOT, LEVEL), 'utf8')) as object;
    const turned = written('turned.json', Object.fromEntries(Object.entries(json).reverse()));
    expect(asked('hash', turned)).toEqual(asked('hash', LEVEL));
  });

  it('prints the schema that is published', () => {
    const kept: unknown = JSON.parse(
      readFileSync(join(ROOT, 'levels/scenario.schema.json'), 'utf8'),
    );
    expect(asked('schema')).toEqual(kept);
    for (const name of ['rules', 'record', 'attempt', 'script', 'mistake']) {
      expect(asked('schema', name)).toHaveProperty('type', 'object');
    }
  });
});

describe('help', () => {
  it('tells of every verb, with an example', () => {
    const [fault] = faultsOf(() => asked('fly'));
    const verbs = fault!.message.replace('is no verb: ', '').split(', ');
    expect(verbs).toContain('steady');
    const [usage, examples] = HELP.split('Examples') as [string, string];
    for (const verb of verbs) {
      expect(usage, verb).toMatch(new RegExp(`^ {2}${verb}( |$)`, 'm'));
      expect(examples, verb).toMatch(new RegExp(`^ {2}${verb} `, 'm'));
    }
    for (const [path] of HELP.matchAll(/levels\/\d[\w/.-]+/g)) {
      expect(existsSync(join(ROOT, path)), path).toBe(true);
    }
  });
});

describe('bad input', () => {
  it('is refused with every fault, its path and its file, and nothing is written', () => {
    const script = written('bad.script.json', {
      ...SCRIPT,
      seed: -1,
      steps: [{ do: { kind: 'valve', valve: 'suction_valve', target_deg: 900 } }],
    });
    const out = at('never.json');
    const { code, stderr, json } = sim('record', script, '--out', out);
    expect(code).toBe(2);
    const paths = (json['faults'] as { path: string }[]).map(({ path }) => path);
    expect(paths).toEqual(['seed', 'steps[0].do.target_deg']);
    expect(stderr.trim().split('\n')).toEqual([
      `${script}: seed: must be at least 0`,
      `${script}: steps[0].do.target_deg: must be at most 270`,
    ]);
    expect(existsSync(out)).toBe(false);
  });

  it('names a file that is not there and one that is not JSON', () => {
    const nowhere = at('nowhere.json');
    expect(faultPaths(() => asked('run', nowhere))).toEqual([nowhere]);
    const torn = written('torn.json', '{ "format": 1,');
    expect(faultPaths(() => asked('hash', torn))).toEqual([torn]);
  });

  it('names a record of another engine and an unknown control at once', () => {
    const record = {
      format: 1,
      engine: '0.0',
      scenario: 'heron_lane',
      scenario_hash: '0000000000000000',
      seed: 1,
      end_tick: 10,
      commands: [[0, { kind: 'valve', valve: 'trapdoor', target_deg: 90 }]],
      checks: [],
    };
    const old = written('old.record.json', record);
    expect(faultPaths(() => asked('replay', old))).toEqual([
      'engine',
      'scenario_hash',
      'commands[0][1].valve',
    ]);
  });

  it.each([
    [['run'], 'run'],
    [['run', LEVEL, '--until', 'noon'], '--until'],
    [['run', LEVEL, '--seed', '1.5'], '--seed'],
    [['hash', LEVEL, '--seed', '1'], '--seed'],
    [['run', LEVEL, '--loud'], 'arguments'],
    [['schema', 'music'], 'music'],
    [['bench', '--rounds', '0'], '--rounds'],
  ])('refuses %j', (args, path) => {
    expect(faultPaths(() => asked(...args))).toEqual([path]);
  });
});
