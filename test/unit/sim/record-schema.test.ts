// A record that cannot be replayed is refused with every fault in it, never guessed at.
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import {
  attemptFaults,
  isAttempt,
  parseRecord,
  recordFaults,
  recordText,
} from '../../../sim/record-schema.ts';
import { parseScenario, scenarioHash } from '../../../sim/scenario.ts';
import { ENGINE } from '../../../sim/version.ts';

const file = new URL('../../../levels/01-heron-lane/scenario.json', import.meta.url);
const scenario = parseScenario(JSON.parse(readFileSync(file, 'utf8')));

const good = {
  format: 1,
  engine: ENGINE,
  scenario: scenario.id,
  scenario_hash: scenarioHash(scenario),
  seed: 7,
  end_tick: 400,
  commands: [
    [0, { kind: 'valve', valve: 'suction_valve', target_deg: 90 }],
    [90, { kind: 'switch', pump: 'pump', on: true }],
    [90, { kind: 'mark', tank: 'tank' }],
    [400, { kind: 'done' }],
  ],
  checks: [
    [200, '0123456789abcdef'],
    [400, 'fedcba9876543210'],
  ],
};

function without(change: object): string[] {
  return recordFaults({ ...good, ...change }, scenario).map((f) => f.path);
}

describe('the check of a record', () => {
  it('finds nothing wrong with a good one', () => {
    expect(recordFaults(good, scenario)).toEqual([]);
    expect(parseRecord(JSON.parse(recordText(parseRecord(good))), scenario)).toEqual(good);
  });

  it('names another engine, scenario and hash', () => {
    const other = { engine: '0.0', scenario: 'elsewhere', scenario_hash: '0000000000000000' };
    expect(without(other)).toEqual(['engine', 'scenario', 'scenario_hash']);
  });

  it('names commands out of order and beyond the end', () => {
    const commands = [
      [300, { kind: 'done' }],
      [10, { kind: 'done' }],
      [401, { kind: 'done' }],
    ];
    expect(without({ commands })).toEqual(['commands[1][0]', 'commands[2][0]']);
  });

  it('names hashes that are none, and checks beyond the end', () => {
    const checks = [
      [200, 'not a hash'],
      [900, '0123456789abcdef'],
    ];
    expect(without({ checks })).toEqual(['checks[0][1]', 'checks[1][0]']);
  });

  it('names controls that the scenario does not have, and those of another kind', () => {
    const commands = [
      [0, { kind: 'valve', valve: 'attic_valve', target_deg: 90 }],
      [0, { kind: 'valve', valve: 'pump', target_deg: 90 }],
      [0, { kind: 'switch', pump: 'riser', on: true }],
      [0, { kind: 'mark', tank: 'casing' }],
      [0, { kind: 'flow', link: 'circuit', flow_mL_s: 100 }],
    ];
    expect(without({ commands })).toEqual([
      'commands[0][1].valve',
      'commands[1][1].valve',
      'commands[2][1].pump',
      'commands[3][1].tank',
      'commands[4][1].link',
    ]);
  });

  it('names an angle that no handle has, also half degrees', () => {
    const commands = [
      [0, { kind: 'valve', valve: 'suction_valve', target_deg: 271 }],
      [0, { kind: 'valve', valve: 'suction_valve', target_deg: 0.5 }],
    ];
    expect(without({ commands })).toEqual([
      'commands[0][1].target_deg',
      'commands[1][1].target_deg',
    ]);
  });
});

describe('the check of an attempt', () => {
  const attempt = {
    format: 1,
    kind: 'attempt',
    record: good,
    facts: [{ tick: 3, kind: 'moved', control: 'pump', value: 1 }],
    marks: null,
    who: null,
    wall_clock: { began: '2026-11-05T15:04:00Z', ended: '2026-11-05T15:44:00Z' },
  };

  it('finds nothing wrong with a good one', () => {
    expect(isAttempt(attempt)).toBe(true);
    expect(attemptFaults(attempt, scenario)).toEqual([]);
  });

  it('names faults of the record inside it, once each', () => {
    const broken = { ...attempt, record: { ...good, seed: -1, engine: '0.0' } };
    expect(attemptFaults(broken, scenario).map((f) => f.path)).toEqual([
      'record.seed',
      'record.engine',
    ]);
  });

  it('names facts that nobody can have seen', () => {
    const facts = [{ tick: 5, kind: 'event', event: 'party', at: 'pump' }];
    const paths = attemptFaults({ ...attempt, facts }, scenario).map((f) => f.path);
    expect(paths).toEqual(['facts[0].event']);
  });
});
