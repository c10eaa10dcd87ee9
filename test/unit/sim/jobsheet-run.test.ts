// The job sheet in a run: answers as facts, when it is closed, its records; faults of a sheet.
import { describe, expect, it } from 'vitest';
import { advance, createWorld, hash, parseScript, recordOf } from '../../../sim/index.ts';
import { replay, runScript, startRun } from '../../../sim/index.ts';
import { scenarioFaults } from '../../../sim/scenario.ts';
import { DECK_OPEN, HERON_SHEET, marksOf, withSheet } from '../../support/job-sheets.ts';

const heron = withSheet('01-heron-lane', HERON_SHEET);

describe('answers in a run', () => {
  const kinds = (run: ReturnType<typeof startRun>) => run.facts.map(({ kind }) => kind);

  it('are facts that can be changed, until a hand is asked to a control', () => {
    const run = startRun(heron, 1);
    advance(run, [{ kind: 'answer', line: 'volume', value_milli: 90000 }]);
    advance(run, [{ kind: 'answer', line: 'volume', value_milli: 108900 }]);
    advance(run, [{ kind: 'answer', line: 'drop', value_milli: null }]);
    expect(kinds(run)).toEqual([
      'command',
      'answered',
      'command',
      'answered',
      'command',
      'answered',
    ]);
    expect(run.facts[3]).toEqual({
      tick: 1,
      kind: 'answered',
      line: 'volume',
      value: expect.closeTo(0.1089, 12),
    });
    expect(run.facts[5]).toMatchObject({ value: null });
    advance(run, [{ kind: 'valve', valve: 'suction_valve', target_deg: 90 }]);
    const late = advance(run, [{ kind: 'answer', line: 'volume', value_milli: 1 }]);
    expect(late[0]).toMatchObject({ kind: 'refused', reason: 'begun' });
    expect(marksOf(heron, { volume: 0.1089 }).get('volume')?.state).toBe('right');
  });

  it('are refused where there is no such line or no sheet', () => {
    const command = { kind: 'answer', line: 'nothing', value_milli: 1 } as const;
    const bare = withSheet('01-heron-lane', undefined);
    for (const scenario of [heron, bare]) {
      const facts = advance(startRun(scenario, 1), [command]);
      expect(facts[0]).toMatchObject({ kind: 'refused', reason: 'unknown_control' });
    }
  });

  it('replay bit for bit, and a job without a sheet has the state it had', () => {
    const script = parseScript(
      {
        ...{ format: 1, level: heron.id, seed: 3 },
        steps: [
          { do: { kind: 'answer', line: 'volume', value_milli: 108900 } },
          { do: { kind: 'valve', valve: 'suction_valve', target_deg: 90 } },
          { wait_s: 30 },
          { do: { kind: 'answer', line: 'volume', value_milli: 1 } },
          { wait_s: 1 },
        ],
      },
      heron,
    );
    const { record, run } = runScript(heron, script);
    const again = replay(heron, record);
    expect(again.divergedAt).toBeNull();
    expect(hash(again.world)).toBe(hash(run.world));
    expect(again.facts.filter(({ kind }) => kind === 'answered')).toHaveLength(1);
    const bytes = (scenario: typeof heron) => createWorld(scenario, 1).state.buffer.byteLength;
    expect(bytes(heron) - bytes(withSheet('01-heron-lane', undefined))).toBe(8);
    expect(recordOf(run).commands).toHaveLength(3);
  });

  it('a script that names no line of the sheet is refused with its path', () => {
    const steps = [{ do: { kind: 'answer', line: 'none', value_milli: 1 } }];
    const json = { ...{ format: 1, level: heron.id, seed: 3 }, steps };
    expect(() => parseScript(json, heron)).toThrow('no line "none"');
  });
});

describe('faults of a sheet', () => {
  const faultsOf = (sheet: object): string[] => {
    const { $schema: _none, ...json } = structuredClone(heron) as { $schema?: string };
    const { job } = json as unknown as { job: object };
    return scenarioFaults({ ...json, job: { ...job, sheet } }).map(({ path }) => path);
  };
  const line = (one: object) => faultsOf({ ...HERON_SHEET, lines: [one] });

  it('are named with their paths', () => {
    expect(faultsOf(HERON_SHEET)).toEqual([]);
    expect(faultsOf({ ...HERON_SHEET, purge: {} })).toEqual(['job.sheet.purge']);
    expect(faultsOf({ ...HERON_SHEET, purge: { ...DECK_OPEN, tank: 1 } })).toEqual([
      'job.sheet.purge.tank',
    ]);
    expect(faultsOf({ ...HERON_SHEET, purge: { ...DECK_OPEN, return_valve: 91 } })).toEqual([
      'job.sheet.purge.return_valve',
    ]);
    expect(faultsOf({ ...HERON_SHEET, banks: [['circuit']] })).toEqual(['job.sheet.banks[0][0]']);
    expect(faultsOf({ ...HERON_SHEET, banks: [['waste_valve']] })).toEqual([
      'job.sheet.banks[0][0]',
    ]);
    expect(line({ id: 'a', kind: 'flow', link: 'supply_hose' })).toEqual([
      'job.sheet.lines[0].link',
    ]);
    expect(line({ id: 'a', kind: 'total', sections: ['x'] })).toEqual([
      'job.sheet.lines[0].sections[0]',
    ]);
    expect(line({ id: 'a', kind: 'drop', tank: 'casing', valve: 'pump' })).toEqual([
      'job.sheet.lines[0].tank',
      'job.sheet.lines[0].valve',
    ]);
    for (const kind of ['test', 'leave']) {
      expect(line({ id: 'a', kind })).toEqual(['job.sheet.lines[0].kind']);
    }
    const twice = [HERON_SHEET.lines[0], { ...HERON_SHEET.lines[0], id: 'b' }];
    expect(faultsOf({ ...HERON_SHEET, lines: twice })).toEqual(['job.sheet.lines[1].link']);
    const same = [HERON_SHEET.lines[4], { ...HERON_SHEET.lines[4] }];
    expect(faultsOf({ ...HERON_SHEET, lines: same })).toEqual([
      'job.sheet.lines[1].id',
      'job.sheet.lines[1].kind',
    ]);
  });
});
