// The job sheet on the page: lines with their units, what is typed and what is written down, when
// it is closed, what stands beside readings, and that an assessment is told nothing of it.
import 'fake-indexeddb/auto';
import { afterEach, describe, expect, it } from 'vitest';
import { lexicon } from '../../../game/i18n/index.ts';
import { besideReadings } from '../../../game/jobsheet-beside.ts';
import { answersOf, draftOf, isOpen, writeSheet } from '../../../game/jobsheet-draft.ts';
import { answerText, fieldsOf, rangeText, typedText } from '../../../game/jobsheet.ts';
import type { Play } from '../../../game/play.ts';
import { deductionText } from '../../../game/verdict.ts';
import { parseScenario, type Deduction, type SheetKind } from '../../../sim/index.ts';
import { DECK_OPEN, HERON_SHEET, marksOf, withSheet } from '../../support/job-sheets.ts';
import { HERON, playerAt, settled, type BenchOptions } from '../../support/player.ts';

const scenario = withSheet('01-heron-lane', HERON_SHEET);
const LEVEL = { ...HERON, scenario };
const lex = lexicon(HERON.words);
const open = (options: BenchOptions = {}): Play => playerAt({ level: LEVEL, ...options }).play;

afterEach(settled);

function type(play: Play, typed: Readonly<Record<string, string>>): void {
  for (const { field, typed: text } of draftOf(play).entries) text.value = typed[field.id] ?? '';
}

describe('lines of the job sheet', () => {
  it('have a name and a unit each, the bore where it is for pipes of one', () => {
    const fields = fieldsOf(scenario, lex);
    expect(fields.map(({ unit }) => unit)).toEqual(['L/s', 'L/s', 'm', 'banks', 'L', 'min', 'mm']);
    expect(fields[0]?.name).toBe('Flow for the rule velocity, bore 27.3 mm');
    for (const { name } of fields) expect(name).not.toMatch(/sheet_line|\{/);
    expect(fieldsOf(withSheet('01-heron-lane', undefined), lex)).toEqual([]);
  });

  it('are written in their unit and in the one an instrument has', () => {
    expect(answerText('total', 0.00143)).toBe('1.43 L/s (85.8 L/min)');
    expect(answerText('make_up', 330)).toBe('5.5 min');
    expect([0, 1, 2].map((n) => answerText('banks', n))).toEqual([
      'not with this rig', 'at once', '2 banks',
    ]);
    expect(answerText('drop', null)).toBe('cannot tell');
  });

  it('come back as they were typed', () => {
    const kinds: readonly [SheetKind, string, number][] = [
      ['flow', '0.357', 0.000357], ['volume', '108.9', 0.1089], ['test', '200', 200000],
      ['drop', '5.4', 0.0054], ['make_up', '5.5', 330],
    ];
    for (const [kind, text, value] of kinds) expect(typedText(kind, value)).toBe(text);
  });
});

describe('filling in the job sheet', () => {
  it('tells of all that cannot be read at once, and keeps it', () => {
    const play = open();
    type(play, { flow: '0,357', volume: 'much', head: '4 m', make_up: '1,234' });
    expect(writeSheet(play)).toBe(false);
    const wrong = [['volume', 'no_number'], ['make_up', 'which']];
    expect([...draftOf(play).faults.value]).toEqual(wrong);
    expect(answersOf(play).size).toBe(0);
    expect(draftOf(play).entries.map(({ typed }) => typed.value)).toContain('much');
    type(play, { flow: '0,357', volume: '108,9', head: '4 m' });
    expect(writeSheet(play)).toBe(true);
    expect(draftOf(play).faults.value.size).toBe(0);
    expect(Object.fromEntries(answersOf(play))).toEqual({
      flow: expect.closeTo(0.000357, 9) as number,
      volume: expect.closeTo(0.1089, 9) as number,
      head: expect.closeTo(4, 9) as number,
    });
  });

  it('writes only what is new, and lasts through another mode', () => {
    const play = open();
    type(play, { volume: '90' });
    writeSheet(play);
    play.choose('practise'); // The session is a new one; what was typed is not lost.
    expect(answersOf(play).size).toBe(0);
    expect(writeSheet(play)).toBe(true);
    play.enter();
    play.session.advance();
    writeSheet(play);
    expect(play.session.waiting).toEqual([]);
    type(play, { volume: '108.9' });
    const drop = draftOf(play).entries.find(({ field }) => field.id === 'drop')!;
    drop.untold.value = true;
    writeSheet(play);
    expect(play.session.waiting).toEqual([
      { kind: 'answer', line: 'volume', value_milli: 108900 },
      { kind: 'answer', line: 'drop', value_milli: null },
    ]);
  });

  it('is another one where the form of the job is another', () => {
    const play = open();
    type(play, { volume: '90' });
    play.choose('learn', 7);
    expect(draftOf(play).filled).toBe(0);
    type(play, { volume: '91' });
    play.choose('assess', 7);
    expect(draftOf(play).filled).toBe(1);
  });

  it('is over once a hand is asked to a control, whatever comes later', () => {
    const play = open();
    play.enter();
    type(play, { volume: '90' });
    writeSheet(play);
    play.session.advance();
    expect(isOpen(play)).toBe(true);
    play.act({ kind: 'valve', valve: 'suction_valve', target_deg: 90 });
    expect(isOpen(play)).toBe(false);
    play.session.advance();
    type(play, { volume: '108.9' });
    expect(writeSheet(play)).toBe(true);
    expect(play.session.waiting).toEqual([]);
    expect(answersOf(play).get('volume')).toBeCloseTo(0.09, 9);
  });

  it('in an assessment tells one\'s own answers and nothing of what they should be', () => {
    const play = open({ mode: 'assess' });
    type(play, { volume: '90' });
    writeSheet(play);
    play.enter();
    const told = play.session.advance();
    expect(told.map(({ kind }) => kind)).toContain('answered');
    expect(JSON.stringify([told, play.session.told])).not.toMatch(/expected|truth|108\.8|from/);
    expect(play.session.score()).toBeNull();
    expect(answersOf(play).get('volume')).toBeCloseTo(0.09, 9);
  });
});

describe('what the sheet says later', () => {
  it('stands beside the instruments that show it', () => {
    const { job, ...rest } = structuredClone(scenario);
    const day = parseScenario({
      ...rest,
      job: {
        ...job,
        milestones: [
          {
            id: 'tight', phase: 'leak_test', points: 1, dimension: 'safety', kind: 'held',
            node: 'return_tee', from_kPa: 200, to_kPa: 350, for_s: 60,
          },
        ],
        outcomes: [
          { kind: 'pressure', share: 0.5, node: 'return_tee', aim_kPa: 150, within_kPa: 20 },
          { kind: 'air', share: 0.5 },
        ],
        sheet: {
          purge: DECK_OPEN,
          lines: [
            { id: 'total', kind: 'total' },
            { id: 'drop', kind: 'drop', tank: 'tank', valve: 'return_valve' },
            { id: 'test', kind: 'test' }, { id: 'leave', kind: 'leave' },
          ],
        },
      },
    });
    const own = new Map<string, number | null>([
      ['total', 0.0019], ['drop', null], ['test', 200000], ['leave', 150000],
    ]);
    const beside = besideReadings(day, own);
    expect(beside.get('flow_meter')).toBe('your sheet: 1.9 L/s (114 L/min)');
    expect(beside.get('return_gauge')).toMatch(/test at 200 kPa .*; your sheet: leave 150 kPa/);
    expect(beside.has('tank_level')).toBe(false);
    expect(besideReadings(day, new Map()).size).toBe(0);
  });

  it('is explained line by line, and as a deduction by the name of the line', () => {
    const mark = marksOf(scenario, { volume: 0.2 }).get('volume')!;
    expect(rangeText(mark)).toBe('108.9 L (28.8 gal); anything from 105.6 to 112.1 is right');
    const drop = marksOf(scenario, { drop: 1 }).get('drop')!;
    expect(rangeText(drop)).toMatch(/^"cannot tell"; the sum is /);
    const found: Deduction = {
      ...{ rule: 'sheet_wrong', dimension: 'record', stage: null, points: 2, max: 3, tick: 0 },
      ...{ at: null, value: 0.2, limit: mark.value, quantity: 'volume', includes: [] },
      line: { id: 'volume', kind: 'volume', bore: null },
      ...{ source: 'sheet_volume', message: 'message.sheet_wrong' },
      ...{ seen: 'seen.sheet_wrong', how: 'how.sheet_wrong' },
    };
    const text = deductionText(found, { lex, scenario }, HERON.rules.sources);
    expect(text.message).toMatch(/^Job sheet, volume of the loop: 200 L .* it should be 108\.9 L/);
    expect(text.source).toMatch(/^Geometry/);
    expect(text.when).toBe('before work');
    const flow = { ...found, value: 0.0006, limit: 0.000357, quantity: 'flow' as const };
    const told = deductionText(
      { ...flow, line: { id: 'flow', kind: 'flow', bore: 0.0273 } }, { lex, scenario }, {},
    );
    expect(told.message).toMatch(/bore 27\.3 mm: 0\.6 L\/s .* should be 0\.357 L\/s/);
  });
});
