// The brief of a drill: every number in it is the drill's own, and nothing of the day around it.
import { describe, expect, it } from 'vitest';
import {
  askedTexts, criticalTexts, leaveTexts, marksRows, outcomeTexts, passTexts, phasesUpTo,
  runningAtStart,
} from '../../../game/drill.ts';
import { lexicon } from '../../../game/i18n/index.ts';
import { lengthText, summaryOf, titleOf } from '../../../game/jobs.ts';
import { drillOfLevel, LEVELS, levelById, type Level } from '../../../levels/index.ts';
import { formed } from '../../../sim/form-made.ts';
import { rulesFor, type Scenario } from '../../../sim/index.ts';

const DRILLS = LEVELS.flatMap((whole) =>
  whole.drills.map((phase) => drillOfLevel(whole, phase) as Level));

function drill(id: string): Level {
  const found = levelById(id);
  if (found === null) throw new Error(`no drill ${id}`);
  return found;
}

/** All that the brief of a drill says of itself, in one list. */
function said(level: Level): readonly string[] {
  const lex = lexicon(level.words);
  const { scenario } = level;
  return [
    titleOf(level, lex), summaryOf(level, lex),
    ...askedTexts(level, lex).flatMap(({ name, detail, points }) => [name, detail, points]),
    ...outcomeTexts(level, lex), ...leaveTexts(scenario, lex).flat(),
    ...marksRows(level, lex).flat(), ...passTexts(level), ...criticalTexts(scenario, lex),
    ...runningAtStart(scenario, lex),
  ];
}

describe('the brief of any drill', () => {
  it('has words for all it names', () => {
    expect(DRILLS.length).toBeGreaterThan(40);
    for (const level of DRILLS) {
      const odd = said(level).filter((text) => /[{}_]|undefined|NaN|^\d*$/.test(text));
      expect(odd, level.id).toEqual([]);
    }
  });

  it('names no part with a defect that is to be found, nor does a line of the sheet', () => {
    let found = 0;
    for (const level of DRILLS) {
      const lex = lexicon(level.words);
      const { defects = [], record = [] } = level.scenario;
      const names = defects.flatMap((one) => ('at' in one ? [lex.part(one.at)] : []));
      const asked = askedTexts(level, lex).flatMap(({ name, detail }) => [name, detail]);
      const all = [...asked, ...outcomeTexts(level, lex),
        ...record.map(({ id }) => lex.part(id))];
      for (const name of names) {
        const told = new RegExp(`\\b${name}\\b`, 'i');
        expect(all.filter((text) => told.test(text)), level.id).toEqual([]);
        found += 1;
      }
    }
    expect(found).toBeGreaterThan(10);
  });

  it('tells of what has to be found among which it is, with words of the level or without', () => {
    const whole = LEVELS.find(({ folder }) => folder === '06-lapwing-school')!;
    const { 'asked.kinked_alone': own, ...words } = whole.words;
    const { ranges = [], ...written } = whole.scenario;
    const range = ranges.find(({ id }) => id === 'kink_in')!;
    const details = [0, 1, 2, 3, 4, 5].map((pick) => {
      const scenario = formed(written, [range], [pick]) as Scenario;
      return [whole.words, words].map((said) =>
        askedTexts({ ...whole, scenario }, lexicon(said)).map(({ detail }) => detail));
    });
    for (const other of details) expect(other).toEqual(details[0]);
    const [told, made] = details[0]!;
    expect(told).toContain(own);
    const found = made!.find((text) => text.includes('found'))!;
    for (const k of [7, 8, 9, 10, 11, 12]) expect(found).toMatch(new RegExp(`trench ${k}\\b`));
    expect(made!.some((text) => text.includes('written while it runs'))).toBe(false); // Its own.
  });

  it('asks for every milestone, and leaves out no control that is looked at', () => {
    for (const level of DRILLS) {
      const lex = lexicon(level.words);
      const job = level.scenario.job!;
      expect(askedTexts(level, lex)).toHaveLength(job.milestones!.length);
      expect(outcomeTexts(level, lex)).toHaveLength(job.outcomes!.length);
      const left = leaveTexts(level.scenario, lex).map(([, parts]) => parts).join();
      for (const { control } of job.hand_over) expect(left).toContain(lex.part(control));
    }
  });

  it('gives the time and the points of the drill, not of the day', () => {
    for (const level of DRILLS) {
      const { job, ends_after_s } = level.scenario;
      const text = passTexts(level).join(' ');
      for (const time of [job!.time_full_s, job!.time_zero_s, ends_after_s]) {
        expect(text, level.id).toContain(lengthText(time));
      }
      expect(text).not.toBe(level.words['pass.time']);
      const { dimensions } = rulesFor(level.scenario, level.rules);
      const rows = marksRows(level, lexicon(level.words));
      const points = rows.map(([, value]) => Number.parseFloat(value));
      const sum = points.reduce((a, b) => a + b, 0);
      expect(sum).toBeGreaterThan(100 - 0.1 * Object.keys(dimensions).length);
      expect(sum).toBeLessThanOrEqual(100);
    }
  });
});

describe('the brief of one drill', () => {
  it('gives the numbers of its milestones', () => {
    const level = drill('otter_bank_leak_test');
    const [held, start] = askedTexts(level, lexicon(level.words));
    expect(held).toEqual({
      id: 'held_test', name: 'Ten minutes of leak test held', points: '5 points',
      detail: 'Pressure at the field side of the return service valve between 200 kPa (29 psi) '
        + 'and 350 kPa (51 psi) for 10 min without a break',
    });
    expect(start?.detail).toBe('Line of the sheet: pressure at the start of the test');
    const purge = drill('otter_bank_purge');
    expect(askedTexts(purge, lexicon(purge.words))[0]?.detail).toBe('At least 24 L/min (6.3 gpm) '
      + 'backward through trench 1 for 30 s without a break, while these stand still: '
      + 'trench 2, trench 3, trench 4');
  });

  it('says how things are to be left in the words of their handles', () => {
    const rows = (id: string) => new Map(leaveTexts(drill(id).scenario, lexicon(drill(id).words)));
    const setUp = rows('otter_bank_set_up');
    expect(setUp.get('Arms shut and pinned')).toContain('arms of the supply coupling');
    expect(setUp.get('Joined')).toBe('supply coupling, return coupling');
    expect(setUp.get('Cart with field')).toBe('supply service valve, return service valve');
    expect(setUp.get('Fitted')).toBe('backflow protection');
    const arrive = rows('otter_bank_arrive');
    expect(arrive.get('On')).toBe('eye protection, gloves');
    expect(arrive.get('Locked off')).toBe('lock of the loop pump');
  });

  it('says what of the day has been done', () => {
    expect(phasesUpTo(drill('otter_bank_leak_test'))).toEqual(['arrive', 'set_up', 'leak_test']);
    expect(phasesUpTo(drill('otter_bank_arrive'))).toEqual(['arrive']);
    const purge = drill('otter_bank_purge');
    expect(runningAtStart(purge.scenario, lexicon(purge.words))).toEqual(['pump']);
  });

  it('names false notes among what fails it only where there is a sheet', () => {
    const { scenario, words } = drill('otter_bank_arrive');
    const lex = lexicon(words);
    const false_note = lex.say('critical.false_record');
    expect(criticalTexts(scenario, lex)).toContain(false_note);
    expect(criticalTexts({ ...scenario, record: [] }, lex)).not.toContain(false_note);
  });
});

describe('a planned length of time', () => {
  it('is told in the unit that suits it', () => {
    const told = [30, 60, 2400, 10740, 10800, 79200, 240000].map(lengthText);
    expect(told).toEqual(['30 s', '1 min', '40 min', '179 min', '3 h', '22 h', '66 h 40 min']);
  });
});
