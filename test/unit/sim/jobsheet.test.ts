// The job sheet: what each line should say, against sums done by hand or by another formula; and
// marks that follow the trainee's own numbers.
import { describe, expect, it } from 'vitest';
import { advance, score, startRun, steadyState } from '../../../sim/index.ts';
import { expectedOf } from '../../../sim/jobsheet/expected.ts';
import { rigOf } from '../../../sim/jobsheet/judge.ts';
import { leastFlow } from '../../../sim/jobsheet/least-flow.ts';
import { headFor, headGiven } from '../../../sim/jobsheet/rig.ts';
import { generator } from '../../support/rigs.ts';
import { answered, DECK_OPEN, HERON_SHEET, marksOf } from '../../support/job-sheets.ts';
import { RULES } from '../../tools/golden.ts';
import { withSheet } from '../../support/job-sheets.ts';

const heron = withSheet('01-heron-lane', HERON_SHEET);

/** SI values of all lines, as the plant has them. */
function truths(scenario = heron): Record<string, number> {
  const lines = scenario.job?.sheet?.lines ?? [];
  return Object.fromEntries(
    lines.map((line) => [line.id, expectedOf(rigOf(scenario), scenario, line, new Map()).value]),
  );
}

describe('least flow', () => {
  const section = (id: string, from: string, to: string, least: number) => ({
    ...{ id, from, to, least },
  });

  it('adds what lies side by side and takes the largest of what lies in a row', () => {
    const sections = [
      section('run', 'a', 'b', 5),
      section('one', 'b', 'c', 2),
      section('two', 'b', 'c', 4),
      section('back', 'c', 'd', 1),
    ];
    expect(leastFlow(sections, 'a', 'd')).toBeCloseTo(6, 12);
    sections[0] = section('run', 'a', 'b', 9);
    expect(leastFlow(sections, 'a', 'd')).toBeCloseTo(9, 12);
  });

  it('shares one flow between sections where a way leads through both', () => {
    // A bridge: what must pass a-b and c-d can be the same water by way of b-c.
    const sections = [
      section('ab', 'a', 'b', 3),
      section('bd', 'b', 'd', 0),
      section('ac', 'a', 'c', 0),
      section('cd', 'c', 'd', 3),
      section('bc', 'b', 'c', 0),
    ];
    expect(leastFlow(sections, 'a', 'd')).toBeCloseTo(3, 12);
    expect(leastFlow(sections.slice(0, 4), 'a', 'd')).toBeCloseTo(6, 12);
  });

  it('says so where a section lies on no way', () => {
    const sections = [section('ab', 'a', 'b', 1), section('xb', 'x', 'b', 1)];
    expect(() => leastFlow(sections, 'a', 'b')).toThrow('xb');
  });
});

describe('what the lines of one circuit should say', () => {
  const found = truths();

  it('flow and volume by geometry', () => {
    // 0.61 m/s and 186 m through 27.3 mm: area 5.8535e-4 m2.
    expect(found.flow).toBeCloseTo(0.61 * 5.8535e-4, 7);
    expect(found.volume).toBeCloseTo(186 * 5.8535e-4, 4);
    expect(found.total).toBeCloseTo(found.flow!, 12);
  });

  it('head by Blasius 1913 within 5 %', () => {
    const nu = 1.235e-6; // Water at 12 C, from memory of tables.
    const loss = (v: number, D: number, L: number, K: number): number =>
      (((0.3164 / ((v * D) / nu) ** 0.25) * L) / D + K) * ((v * v) / 19.613);
    const Q = 0.61 * 5.8535e-4;
    const v = (bore: number): number => Q / ((Math.PI / 4) * bore * bore);
    const head = loss(0.61, 0.0273, 186, 3.2) + 2 * loss(v(0.032), 0.032, 8, 0.6);
    expect(Math.abs(found.head! / head - 1)).toBeLessThan(0.05);
  });

  it('head at the flow that the rig settles at is what the curve gives there', () => {
    const rig = rigOf(heron);
    const steady = steadyState(heron, new Map(Object.entries(DECK_OPEN)));
    const Q = steady.links.find(({ id }) => id === 'pump')!.flow;
    expect(headFor(rig, DECK_OPEN, Q)! / headGiven(rig, Q)).toBeCloseTo(1, 4);
  });

  it('make-up by Swamee and Jain 1976 within 3 %', () => {
    // 28.55 m of tap less 0.335 m of height, through 15 m of 13 mm hose with K 2.3.
    const nu = 1.235e-6;
    let v = 4;
    for (let k = 0; k < 50; k++) {
      const Re = (v * 0.013) / nu;
      const f = 0.25 / Math.log10(0.01 / 13 / 3.7 + 5.74 / Re ** 0.9) ** 2;
      v = Math.sqrt((19.613 * 28.22) / ((f * 15) / 0.013 + 2.3));
    }
    const time = (186 * 5.8535e-4) / (v * 1.32732e-4);
    expect(Math.abs(found.make_up! / time - 1)).toBeLessThan(0.03);
  });

  it('the cart can do it at once, and half a litre of air is below a division', () => {
    expect(found.banks).toBe(1);
    const line = HERON_SHEET.lines[6];
    expect(expectedOf(rigOf(heron), heron, line, new Map()).cannot_tell).toBe(true);
    const more = { ...line, air_L: 5 };
    expect(expectedOf(rigOf(heron), heron, more, new Map()).cannot_tell).toBe(false);
  });
});

describe('marks of the sheet', () => {
  const own = truths();
  const right: Record<'flow' | 'head' | 'volume' | 'make_up', number> & Record<'drop', null> = {
    ...{ flow: own.flow!, head: own.head!, volume: own.volume!, make_up: own.make_up! },
    ...own,
    drop: null,
  };

  it('takes nothing where all is right, and asks all of it where nothing is answered', () => {
    for (const mark of marksOf(heron, right).values())
      expect([mark.id, mark.state]).toEqual([mark.id, 'right']);
    const empty = [...marksOf(heron, {}).values()];
    const lost = empty.reduce((sum, { points }) => sum + points, 0);
    expect(lost).toBeCloseTo(20, 9); // All of the record, since the job tests nothing else of it.
    expect(new Set(empty.map(({ state }) => state))).toEqual(new Set(['unanswered']));
  });

  it('a wrong number costs its own line alone when the rest follows from it', () => {
    const flow = 1.5 * right.flow;
    const wrong = new Map([
      ['flow', flow],
      ['total', flow],
    ]);
    const head = expectedOf(rigOf(heron), heron, HERON_SHEET.lines[2], wrong).value;
    expect(head).toBeGreaterThan(1.8 * right.head);
    const marks = marksOf(heron, { ...right, flow, total: flow, head });
    expect(marks.get('flow')?.state).toBe('wrong');
    expect(marks.get('total')).toMatchObject({ state: 'right', follows: true, points: 0 });
    expect(marks.get('head')).toMatchObject({ state: 'right', follows: true, points: 0 });
    const lost = [...marks.values()].reduce((sum, { points }) => sum + points, 0);
    expect(lost).toBeCloseTo(20 / 7, 9);
  });

  it('two errors that cancel are found', () => {
    const marks = marksOf(heron, { ...right, flow: 2 * right.flow });
    expect(marks.get('flow')?.state).toBe('wrong');
    expect(marks.get('total')).toMatchObject({ state: 'cancelled', follows: true });
    expect(marks.get('total')!.points).toBeCloseTo(20 / 7, 9);
    // The next rests on the total as it stands, which is right by the plant.
    expect(marks.get('head')?.state).toBe('right');
  });

  it('a volume taken wrong goes on into the time and no further', () => {
    const volume = 2 * right.volume;
    const marks = marksOf(heron, { ...right, volume, make_up: 2 * right.make_up });
    expect(marks.get('volume')?.state).toBe('wrong');
    expect(marks.get('make_up')?.state).toBe('right');
    expect(marksOf(heron, { ...right, volume }).get('make_up')?.state).toBe('cancelled');
  });

  it('a number of absurd size is no ground to go on from', () => {
    const marks = marksOf(heron, { ...right, volume: 1000 * right.volume });
    expect(marks.get('make_up')?.state).toBe('right');
  });

  it('falls in a straight line from what is allowed to twice of it', () => {
    const at = (off: number) => marksOf(heron, { ...right, volume: off * right.volume });
    expect(at(1.029).get('volume')?.points).toBe(0);
    expect(at(1.045).get('volume')?.state).toBe('near');
    expect(at(1.045).get('volume')!.points).toBeCloseTo(10 / 7, 2);
    expect(at(0.93).get('volume')).toMatchObject({ state: 'wrong' });
  });

  it('"cannot tell" is right where it is, and nowhere else', () => {
    expect(marksOf(heron, right).get('drop')?.state).toBe('right');
    expect(marksOf(heron, { ...right, volume: null }).get('volume')?.state).toBe('could_tell');
    const sheet = { ...HERON_SHEET, lines: [{ ...HERON_SHEET.lines[6], air_L: 5 }] };
    expect(marksOf(withSheet('01-heron-lane', sheet), { drop: null }).get('drop')?.state).toBe(
      'could_tell',
    );
  });

  it('takes any answers without a fault, and never more than there is', () => {
    const chance = generator(20261);
    const ids = HERON_SHEET.lines.map(({ id }) => id);
    for (let n = 0; n < 12; n++) {
      const own = Object.fromEntries(
        ids.flatMap((id) => {
          const kind = Math.floor(4 * chance());
          const value = [null, -1, 0, truths()[id]! * 10 ** (6 * chance() - 3)][kind]!;
          return chance() < 0.2 ? [] : [[id, value]];
        }),
      );
      for (const { points, max } of marksOf(heron, own).values()) {
        expect(points).toBeGreaterThanOrEqual(0);
        expect(points).toBeLessThanOrEqual(max + 1e-12);
      }
    }
  });

  it('comes into the marks of the job as deductions of the record', () => {
    const facts = [...answered({ ...right, flow: 2 * right.flow, head: null })];
    const run = startRun(heron, 1);
    advance(run, [{ kind: 'done' }]);
    const done = run.facts.find(({ kind }) => kind === 'done')!;
    const marks = score(heron, RULES, [...facts, done]);
    const record = marks.dimensions.find(({ dimension }) => dimension === 'record')!;
    expect(record.points).toBeCloseTo((20 * 4) / 7, 9);
    const rules = marks.deductions.filter(({ dimension }) => dimension === 'record');
    expect(rules.map(({ rule, line }) => [rule, line?.id])).toEqual([
      ['sheet_wrong', 'flow'],
      ['sheet_cancelled', 'total'],
      ['sheet_could_tell', 'head'],
    ]);
    const without = score(withSheet('01-heron-lane', undefined), RULES, [done]);
    expect(without.untested).toContain('record');
    expect(without.sheet).toEqual([]);
  });
});
