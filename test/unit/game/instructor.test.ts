// The instructor's sheet: twelve files of a class, each named for what it is; marks from new runs;
// what is the same; and a table that no spreadsheet takes for formulas.
import { beforeAll, describe, expect, it } from 'vitest';
import { attemptOf, classFiles, clone, ROSTER, TICKET } from '../../support/class-files.ts';
import { HERON } from '../../support/player.ts';
import { seedOf } from '../../../game/assign/ticket.ts';
import { csvCell, csvText } from '../../../game/instructor/csv.ts';
import { classSheet } from '../../../game/instructor/sheet.ts';
import { tableOf } from '../../../game/instructor/table.ts';
import { attemptFile, type AttemptFile } from '../../../game/records/attempt.ts';
import { Session } from '../../../game/session.ts';
import { Pool, workersFor, type Answer, type Asked } from '../../../game/verify/pool.ts';
import type { Report } from '../../../game/verify/report.ts';
import { reportText } from '../../../game/verify/text.ts';
import { firstDifference, verify } from '../../../game/verify/verify.ts';
import { ENGINE } from '../../../sim/index.ts';

describe('twelve files of a class', () => {
  let good: ReadonlyMap<string, AttemptFile> = new Map();
  const reports = new Map<string, Report>();
  beforeAll(() => {
    const made = classFiles();
    good = made.good;
    for (const [who, text] of made.texts) reports.set(who, verify(`${who}.json`, text).report);
  });

  it('nine replay to their marks, the three others are named for what they are', () => {
    const odd = ['Hal', 'Ida', 'Jo'];
    for (const who of ROSTER.filter((one) => !odd.includes(one))) {
      const report = reports.get(who)!;
      expect(report.verdict, who).toBe('replays');
      expect(clone(report.rerun?.score), who).toEqual(good.get(who)?.marks);
      expect(report.claims).toMatchObject({ who, mode: 'assess', job: HERON.id, nth: 1 });
    }
    const totals = ROSTER.map((who) => reports.get(who)?.rerun?.score.total);
    expect(new Set(totals).size, 'marks differ from trainee to trainee').toBeGreaterThan(3);
    expect(reports.get('Hal')).toMatchObject({
      verdict: 'marks_differ', difference: { path: 'marks.passed', file: 'true', found: 'false' },
    });
    expect(clone(reports.get('Hal')?.rerun?.score)).toEqual(good.get('Hal')?.marks);
    expect(reports.get('Ida')).toMatchObject({ verdict: 'unreadable', claims: null, rerun: null });
    expect(reports.get('Jo')).toMatchObject({
      verdict: 'other_build', rerun: null, difference: { file: '2.9', found: ENGINE },
    });
    expect(odd.map((who) => reportText(reports.get(who)!))).toEqual([
      'replays, but its marks were changed. Passed: the file says yes, the run gives no',
      'cut short, or not a file of Loopyard',
      `made by another build: physics 2.9, here ${ENGINE}. It cannot be run here`,
    ]);
  });

  it('lays them out by trainee, with what the class loses points for', () => {
    const sheet = classSheet([...reports.values()]);
    expect(sheet.rows.map(({ report }) => report.claims?.who ?? '')).toEqual(
      ['Ann', 'Bo', 'Cy', 'Di', 'Ed', 'Flo', 'Gus', 'Hal', 'Jo', 'Kay', 'Lee', '']);
    expect(sheet.good).toBe(9);
    expect(sheet.counted).toBe(10);
    const [first] = sheet.common;
    expect(first?.attempts).toBe(10); // Everybody left the loop full of air.
    const lost = [...reports.values()].flatMap(({ rerun }) => rerun?.score.deductions ?? [])
      .filter(({ rule }) => rule === first?.rule);
    expect(first?.points).toBeCloseTo(lost.reduce((sum, { points }) => sum + points, 0), 9);
    expect(sheet.rows.flatMap(({ flags }) => flags)).toEqual([]);
    const table = tableOf(sheet);
    expect(table).toHaveLength(13);
    expect(new Set(table.map((row) => row.length))).toEqual(new Set([table[0]?.length]));
    const why = table.map((row) => row[table[0]!.indexOf('why_not')]);
    expect(why[1]).toBe(reports.get('Ann')?.rerun?.score.reasons.join('; '));
    expect(why[1]).toContain('air_left');
  });

  it('finds every other change of a file', () => {
    const base = good.get('Ann')!;
    const changed = (change: (file: ReturnType<typeof clone<AttemptFile>>) => object): Report =>
      verify('x', JSON.stringify({ ...base, ...change(clone(base)) })).report;
    const [first, ...rest] = base.record.commands;
    const less = [[first![0], { ...first![1], target_deg: 45 }], ...rest];
    expect(changed(({ record }) => ({ record: { ...record, commands: less } })).verdict)
      .toBe('diverged');
    // A tick later, and the hand gets there by the same time: what happened tells.
    const later = [[first![0] + 1, first![1]], ...rest];
    expect(['diverged', 'facts_differ']).toContain(
      changed(({ record }) => ({ record: { ...record, commands: later } })).verdict);
    expect(changed(({ record }) => ({ record: { ...record, checks: [] } })).verdict)
      .toBe('diverged');
    const cut = { ...base.record, end_tick: 40, commands: base.record.commands.slice(0, 2) };
    const short = changed(() => ({ record: { ...cut, checks: [] }, facts: [], marks: null }));
    expect(short).toMatchObject({ verdict: 'replays', rerun: { finished: false } });
    expect(changed(({ facts }) => ({ facts: facts.slice(1) })).verdict).toBe('facts_differ');
    expect(changed(() => ({ marks: null })).verdict).toBe('marks_differ');
    expect(changed(() => ({ who: 'Bo' }))).toMatchObject({
      verdict: 'ticket_differs', difference: { path: 'record.seed' },
    });
    expect(changed(() => ({ mode: 'practise' })).verdict).toBe('ticket_differs');
    expect(changed(({ record }) => ({ record: { ...record, scenario: 'owl_corner' } })).verdict)
      .toBe('unknown_job');
    const strange = [[0, { kind: 'valve', valve: 'no_such_valve', target_deg: 9 }]];
    expect(changed(({ record }) => ({ record: { ...record, commands: strange } })).verdict)
      .toBe('not_attempt');
    for (const text of ['7', '{}', '[]', '{"kind":"attempt"}']) {
      expect(verify('x', text).report.verdict, text).toBe('not_attempt');
    }
  });

  it('flags the same attempt twice, and equal timed inputs of two trainees', () => {
    const [ann, bo] = [reports.get('Ann')!, reports.get('Bo')!];
    const copy: Report = { ...ann, file: 'Ann (1).json' };
    const twice = classSheet([ann, bo, copy]);
    expect(twice.rows.map(({ flags }) => flags)).toEqual([
      [{ kind: 'same', file: 'Ann.json' }], [{ kind: 'same', file: 'Ann (1).json' }], [],
    ]);
    expect(twice.counted).toBe(2);
    // The same inputs under another name and on that name's own seed: a run of its own.
    const source = attemptOf('Ann', 0);
    const run = Session.start(HERON, 'assess', seedOf(TICKET, 'Zoe', 1));
    const inputs = [...source.record.commands];
    for (let tick = 0; !run.over; tick++) {
      const late = tick > source.record.end_tick; // Handed over a little later, as copies are.
      for (const [at, command] of inputs) {
        if (command.kind === 'done' ? late : at === tick) run.act(command);
      }
      run.advance();
    }
    const began = '2026-03-04T09:00:00.000Z';
    const kept = { format: 1, mode: 'assess', saved: run.save(), speed: 1, began } as const;
    const zoe = attemptFile({
      kept, marks: run.score(), id: 'f'.repeat(16), who: 'Zoe',
      assigned: { ticket: TICKET, label: 'Zoe', nth: 1 },
    });
    const copied = verify('Zoe.json', JSON.stringify(zoe)).report;
    expect(copied.verdict).toBe('replays');
    const sheet = classSheet([ann, bo, copied]);
    expect(sheet.rows.map(({ flags }) => flags)).toEqual([
      [{ kind: 'inputs', file: 'Zoe.json' }], [], [{ kind: 'inputs', file: 'Ann.json' }],
    ]);
    expect(sheet.counted).toBe(3);
  });
});

describe('the table', () => {
  it('holds no cell that a spreadsheet reckons out, and comes apart again', () => {
    const nasty = ['=1+1', '+1', '-1', '@SUM(A1)', '\tx', '\r=1', ' =1+1', '|x', '%x'];
    for (const text of nasty) expect(csvCell(text), JSON.stringify(text)).toMatch(/^"'/);
    expect(csvCell('Ann "the pump" B., 3')).toBe('"Ann ""the pump"" B., 3"');
    expect(csvCell(-4.5)).toBe('-4.5');
    expect(csvText([['a', 1, null], ['b\nc', 2, 'x']])).toBe('\ufeff"a",1,\r\n"b\nc",2,"x"\r\n');
  });
});

describe('the first difference', () => {
  it('is where two values first part, missing keys and entries included', () => {
    expect(firstDifference({ a: [1, { b: 2 }] }, { a: [1, { b: 2 }] }, 'x')).toBeNull();
    expect(firstDifference({ a: [1, { b: 2 }] }, { a: [1, { b: 3 }] }, 'x')?.path).toBe('x.a[1].b');
    expect(firstDifference([1], [1, 2], 'x')?.path).toBe('x[1]');
    expect(firstDifference({ a: 1, c: 1 }, { a: 1 }, 'x')?.path).toBe('x.c');
    expect(firstDifference(null, {}, 'x')?.path).toBe('x');
  });
});

describe('workers', () => {
  it('are one for each core, four at most, and each answer finds its question', async () => {
    expect([undefined, 1, 2, 16].map(workersFor)).toEqual([1, 1, 2, 4]);
    let made = 0;
    const answers = (asked: Asked): Answer =>
      ({ ask: asked.ask, report: { file: asked.file } as Report, kept: null });
    const make = (): Worker => {
      made += 1;
      const worker = {
        onmessage: (_: MessageEvent) => {},
        postMessage: (asked: Asked) => {
          setTimeout(() => worker.onmessage({ data: answers(asked) } as MessageEvent),
            asked.ask % 3);
        },
        terminate: () => {},
      };
      return worker as unknown as Worker;
    };
    const pool = new Pool(make, 2);
    const names = ROSTER.map((who) => `${who}.json`);
    const found = await Promise.all(names.map((file) => pool.check(file, '')));
    expect(found.map(({ report }) => report.file)).toEqual(names);
    expect(made).toBe(2);
  });

  it('that cannot be had leave the work to the page', async () => {
    const pool = new Pool(() => { throw new Error('no workers here'); }, 2);
    const { report } = await pool.check('x.json', '{');
    expect(report).toMatchObject({ file: 'x.json', verdict: 'unreadable' });
  });
});
