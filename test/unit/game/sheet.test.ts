// The sheet: numbers as people type them, lines with their units, and what stands written.
import { describe, expect, it } from 'vitest';
import { captionOf } from '../../../game/captions.ts';
import { lexicon } from '../../../game/i18n/index.ts';
import { decimalsOf, readingText } from '../../../game/readings.ts';
import { Session } from '../../../game/session.ts';
import {
  linesOf, milliIn, readTyped, unitWord, writtenOn, writtenText,
} from '../../../game/sheet.ts';
import { LEVELS } from '../../../levels/index.ts';
import { CommandSchema, createWorld, parseScenario, snapshot, step } from '../../../sim/index.ts';

const milli = (text: string, unit = 'kPa') => readTyped(text, unit).value_milli;
const fault = (text: string, unit = 'kPa') => readTyped(text, unit).fault;

const junction = (id: string) => ({ id, kind: 'junction', elevation_m: 0, volume_L: 1 });
const RIG = parseScenario({
  format: 1, id: 'bench', temperature_C: 15, ends_after_s: 600,
  nodes: [
    { id: 'mains', kind: 'reservoir', elevation_m: 0, pressure_kPa: 100 },
    junction('a'), junction('b'),
  ],
  links: [
    { id: 'inlet', kind: 'valve', from: 'mains', to: 'a', bore_mm: 25, start_deg: 90 },
    { id: 'outlet', kind: 'valve', from: 'a', to: 'b', bore_mm: 25, start_deg: 90 },
  ],
  instruments: [
    { id: 'gauge', kind: 'pressure', node: 'a', range_kPa: 400, resolution_kPa: 5, lag_s: 0.4 },
    {
      id: 'vacuum', kind: 'pressure', node: 'a', from_kPa: -100, range_kPa: 400,
      resolution_kPa: 5, lag_s: 0.4,
    },
    { id: 'warmth', kind: 'temperature', node: 'a', resolution_C: 0.5, lag_s: 5 },
    { id: 'counter', kind: 'meter', link: 'inlet', resolution_L: 0.1 },
  ],
  record: [
    { id: 'before', reading: 'gauge' }, { id: 'below', reading: 'vacuum' },
    { id: 'warm', reading: 'warmth' }, { id: 'drunk', reading: 'counter' }, { id: 'leak' },
  ],
});
const LEVEL = { ...LEVELS[0]!, scenario: RIG };

describe('a number that is typed', () => {
  it('is taken with a point, a comma, spaces, either minus, its unit or without', () => {
    for (const [text, wanted] of [
      ['95', 95000], ['95.5', 95500], ['95,5', 95500], [' 95 . 5 ', 95500], ['+7', 7000],
      ['.5', 500], [',25', 250], ['7.', 7000], ['-3,125', null], ['-3.125', -3125],
      ['\u22123.1', -3100], ['\u20133.1', -3100], ['95 kPa', 95000], ['95kpa', 95000],
      ['1 234,5', 1234500], ['1\u202f234', 1234000], ['0,125', 125], ['12,50', 12500],
      ['1.2300', 1230], ['007', 7000], ['1,234.5', 1234500], ['1.234,5', 1234500],
      ['1,234,567', null], ['100,000,0', null],
    ] as const) {
      expect([text, milli(text)]).toEqual([text, wanted]);
    }
  });

  it('leaves only whole thousandths, as the engine takes them', () => {
    for (const text of ['0.001', '0.1', '1.005', '4.35', '999999.999', '-0', '8.2', '1000000']) {
      const value_milli = milli(text);
      expect(Object.is(value_milli, -0)).toBe(false);
      const command = { kind: 'note', entry: 'before', value_milli };
      expect([text, CommandSchema.safeParse(command).success]).toEqual([text, true]);
    }
    expect(['1.005', '4.35', '8.2'].map((text) => milli(text))).toEqual([1005, 4350, 8200]);
  });

  it('is refused with its reason', () => {
    expect([fault(''), fault('  '), fault('kPa')]).toEqual(['empty', 'empty', 'empty']);
    const words = ['ninety', '1e5', '5-', '--5', '1.2.3', '1,2,3', '.', '-', '95 psi', '5/2'];
    for (const text of words) {
      expect([text, fault(text)]).toEqual([text, 'no_number']);
    }
    expect([fault('1,234'), fault('-12,500')]).toEqual(['which', 'which']);
    expect(fault('0.1234')).toBe('too_fine');
    expect([fault('1000000.001'), fault('1,234,567')]).toEqual(['too_large', 'too_large']);
  });
});

describe('the lines of a sheet', () => {
  const lines = linesOf(RIG);

  it('have the unit that their instrument is shown in, and a minus where there is one', () => {
    expect(lines.map(unitWord)).toEqual(['kPa', 'kPa', '°C', 'L', '']);
    expect(lines.map(({ signed }) => signed)).toEqual([false, true, true, false, true]);
    expect(lines.map(({ reading }) => reading)).toEqual([
      'gauge', 'vacuum', 'warmth', 'counter', null,
    ]);
  });

  it('get back from the engine what was written, in any unit', () => {
    const session = Session.start(LEVEL, 'learn', 1);
    const typed = [95500, -30250, 12500, 1234567, 4];
    lines.forEach(({ id }, at) => {
      session.act({ kind: 'note', entry: id, value_milli: typed[at]! });
    });
    // None of them takes the place of another, nor does the end of the job.
    expect(session.waiting).toHaveLength(lines.length);
    session.advance();
    const back = lines.map((line) => writtenOn(line, session.facts, [], 1).at(-1)?.value_milli);
    expect(back).toEqual(typed);
    expect(lines.map((line, at) => writtenText(line, typed[at]!))).toEqual([
      '95.5 kPa', '−30.25 kPa', '12.5 °C', '1234.567 L', '0.004',
    ]);
  });

  it('keep what was written before, and show at once what waits for the clock', () => {
    const session = Session.start(LEVEL, 'learn', 1);
    const [line] = lines;
    session.act({ kind: 'note', entry: 'before', value_milli: 90000 });
    session.advance();
    session.act({ kind: 'note', entry: 'before', value_milli: 91000 });
    session.act({ kind: 'note', entry: 'before', value_milli: 95000 });
    expect(writtenOn(line!, session.facts, session.waiting, 1)).toEqual([
      { value_milli: 90000, tick: 0 }, { value_milli: 95000, tick: 1 },
    ]);
  });

  it('are still written when the job is handed over in the same breath', () => {
    const session = Session.start(LEVEL, 'learn', 1);
    session.act({ kind: 'note', entry: 'before', value_milli: 90000 });
    session.act({ kind: 'done' });
    const kinds = session.advance().map(({ kind }) => kind);
    expect(kinds).toContain('noted');
    expect(session.over).toBe(true);
  });

  it('say what was written down, with its unit', () => {
    const lex = lexicon({ 'part.before': 'pressure before' });
    const noted = { tick: 3, kind: 'noted', entry: 'before', value: 95500, shown: 95000 } as const;
    expect(captionOf(noted, lex, [], lines)).toEqual({
      key: 'noted.before', tone: 'event', tick: 3,
      text: 'Written down: pressure before, 95.5 kPa.',
    });
    expect(milliIn(lines[0]!, noted.value)).toBe(95500);
  });
});

describe('what the page shows of an instrument', () => {
  const divisions = (resolution_kPa: number) =>
    [{ ...RIG.instruments[0]!, resolution_kPa }] as (typeof RIG)['instruments'];

  it('has the decimals that its division asks for', () => {
    const asked = [5, 1, 0.5, 0.25, 0.1, 0.025, 0.3].map((resolution_kPa) =>
      decimalsOf({ instruments: divisions(resolution_kPa) }, 'gauge'));
    expect(asked).toEqual([0, 0, 1, 2, 1, 3, 1]);
    expect(decimalsOf(RIG, 'nowhere')).toBe(0);
  });

  it('is no false record when it is written down as it stands, however fine the scale', () => {
    for (const resolution_kPa of [5, 0.25, 0.1]) {
      const mains = { ...RIG.nodes[0]!, pressure_kPa: 94.37 } as (typeof RIG)['nodes'][number];
      const instruments = divisions(resolution_kPa);
      const scenario = {
        ...RIG, nodes: [mains, ...RIG.nodes.slice(1)], instruments, record: RIG.record.slice(0, 1),
      };
      const world = createWorld(scenario, 1);
      for (let tick = 0; tick < 900; tick++) step(world, []);
      const [reading] = snapshot(world).panel.readings;
      const shown = readingText(reading!, lexicon({}), decimalsOf(scenario, 'gauge')).value;
      const value_milli = milli(shown)!;
      const note = { kind: 'note', entry: 'before', value_milli } as const;
      const kinds = [step(world, [note]), step(world, [])].flat().map(({ kind }) => kind);
      expect(kinds).toContain('noted');
      expect(kinds).not.toContain('hazard');
    }
  });
});

it('a job without a sheet has no lines', () => {
  expect(linesOf(LEVELS[0]!.scenario)).toEqual([]);
});
