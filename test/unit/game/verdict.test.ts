// The marks as text, from attempts that were really made.
import { describe, expect, it } from 'vitest';
import { HERON } from '../../support/player.ts';
import { lexicon } from '../../../game/i18n/index.ts';
import { figuresOf } from '../../../game/figures.ts';
import {
  criticalText, deductionText, doneTexts, lostText, measuresText, phasesAmong, pointsText,
  quantityText, reasonTexts, shortReasons,
} from '../../../game/verdict.ts';
import { Session } from '../../../game/session.ts';
import { QUANTITIES } from '../../../sim/index.ts';
import { marksOf, PERFECT, reachedInTurn } from '../../support/goal-facts.ts';
import { goalRig, WAY } from '../../support/goal-rig.ts';

const lex = lexicon(HERON.words);

/** The pump run dry for a minute and everything left as it is. */
function spoiled(): Session {
  const session = Session.start(HERON, 'learn', 1);
  session.act({ kind: 'switch', pump: 'pump', on: true });
  for (let k = 0; k < 300; k++) session.advance();
  session.act({ kind: 'valve', valve: 'loop_supply_valve', target_deg: 90 });
  for (let k = 0; k < 25; k++) session.advance();
  session.act({ kind: 'done' });
  session.advance();
  return session;
}

describe('points', () => {
  it('never show as full when some are missing, nor as nothing when some were lost', () => {
    expect(pointsText(40)).toBe('40');
    expect(pointsText(39.99)).toBe('39.9');
    expect(pointsText(79.96)).toBe('79.9');
    expect(lostText(0.01)).toBe('0.1');
    expect(lostText(0)).toBe('0');
  });
});

describe('a spoiled attempt', () => {
  const session = spoiled();
  const score = session.score()!;
  const ground = { lex, score, scenario: HERON.scenario };

  it('says how long the pump ran dry, not when that was too long', () => {
    const dry = score.deductions.find(({ rule }) => rule === 'dry_run')!;
    expect(dry.value).toBeGreaterThan(60); // 65 s, less the reach for the switch and spin-up.
    expect(dry.value).toBeLessThan(65);
    expect(dry.limit).toBe(30);
  });

  it('explains every point lost without a gap in its words', () => {
    expect(score.passed).toBe(false);
    expect(score.deductions.length).toBeGreaterThan(3);
    for (const found of score.deductions) {
      const text = deductionText(found, ground, HERON.rules.sources);
      for (const part of [text.message, text.seen, text.how, text.source, text.when]) {
        expect(part).toMatch(/\w{2}.*\w{2}/);
        expect(part).not.toMatch(/[{}]|undefined|NaN|^(message|seen|how)\./);
      }
    }
  });

  it('names its critical error with the time on the clock', () => {
    expect(score.critical.length).toBeGreaterThan(0);
    expect(criticalText(score.critical[0]!, ground)).toMatch(/^At 00:00:\d\d: .*30 seconds\.$/);
  });

  it('says what was true at hand-over', () => {
    const done = session.facts.find((fact) => fact.kind === 'done');
    if (done?.kind !== 'done') throw new Error('not done');
    const rows = measuresText(done.measures, lex);
    expect(rows[0]![1]).toMatch(/^10\d(\.\d)? L \(2\d\.\d gal\)$/);
    expect(rows[3]![1]).toBe('00:01:05');
  });
});

describe('a day', () => {
  const outcomes = [
    { kind: 'freeze', share: 0.5, aim_C: -12, within_C: 1 },
    { kind: 'pressure', share: 0.25, node: 'outlet', aim_kPa: 200, within_kPa: 40 },
    { kind: 'flow', share: 0.25, link: 'pipe_a', least_L_s: 0.5 },
  ];
  const worn = { ...WAY, kind: 'stood', control: 'goggles', at: 1 };
  const milestones = [
    { ...WAY, id: 'ran_one', kind: 'ran', link: 'pipe_a', above_L_s: 0.3, for_s: 60 },
    { ...worn, id: 'drawing_read', phase: 'arrive' },
    { ...worn, id: 'held_test', phase: 'leak_test', after: ['drawing_read'] },
    { ...WAY, id: 'read_test', kind: 'noted', entry: 'line', phase: 'leak_test' },
    { ...WAY, id: 'slept', kind: 'left', hours: 12, phase: 'second_visit', after: ['ran_one'] },
  ];
  const scenario = goalRig({ milestones, outcomes }, { antifreeze: 'ethanol' });
  const names = milestones.map(({ id }) => [`milestone.${id}`, `the ${id}`]);
  const day = lexicon({ ...HERON.words, ...Object.fromEntries(names) });
  const end = {
    freeze: { mean_C: -10.6, weakest_C: -9.3, strongest_C: -12 },
    pressures: { outlet: 130_000 },
    flows: { pipe_a: 0.00025 },
  };
  const score = marksOf(scenario, reachedInTurn(['read_test', 'held_test', 'drawing_read']), end);

  it('is told by phase in its order, each milestone with its moment', () => {
    const told = doneTexts(score.milestones, { lex: day, scenario });
    expect(told.map(({ phase, rows }) => [phase, ...rows.map((r) => [r.id, r.state])])).toEqual([
      ['Arrive', ['drawing_read', 'done']],
      ['Test for leaks', ['read_test', 'done'], ['held_test', 'early']],
      ['Purge the loop', ['ran_one', 'missed']],
      ['Second visit', ['slept', 'missed']],
    ]);
    expect(told[1]!.rows[0]!.when).toBe('at 00:00:01');
    expect(told[2]!.rows[0]!.when).toBe('not done');
    expect(phasesAmong(milestones as never)).toEqual([
      'arrive', 'leak_test', 'purge', 'second_visit',
    ]);
  });

  it('explains what was missed, what came too early and what is not as asked for', () => {
    const ground = { lex: day, score, scenario };
    const texts = score.deductions.map((d) => deductionText(d, ground, HERON.rules.sources));
    for (const text of texts) {
      for (const part of Object.values(text)) {
        expect(part).not.toMatch(/[{}]|undefined|NaN|^(message|seen|how)\./);
      }
    }
    const said = texts.map(({ message }) => message).join(' | ');
    expect(said).toMatch(/The held_test: done too early.*the drawing_read\./);
    expect(said).toMatch(/The ran_one: not done.*for 1 min without/);
    expect(said).toMatch(/freezes at −9\.3 °C \(15\.3 °F\).*−11 °C/);
    expect(said).toMatch(/was 130 kPa \(19 psi\)/);
    expect(said).toMatch(/was 15\.0 L\/min.*30\.0 L\/min/);
    const ran = texts.find(({ message }) => message.startsWith('The ran_one'))!;
    expect(ran.includes).toMatch(/The slept\. That is not counted again/);
  });

  it('names what is in another deduction, of whatever kind it is', () => {
    const [one] = score.deductions;
    const text = (includes: readonly string[]) =>
      deductionText({ ...one!, includes }, { lex: day, scenario }, HERON.rules.sources).includes;
    expect(text(['outcome_flow'])).toMatch(/The flow that the job asks for was not there/);
    expect(text(['ran_one'])).toMatch(/The ran_one/);
    for (const rule of ['act_left', 'pump_left_off', 'locked_off', 'suction_before_pump']) {
      expect(text([rule]), rule).not.toMatch(/[{}]|_left|locked_off|suction_before/);
    }
  });

  it('says what it is not passed without, and in short where there is little room', () => {
    const must = milestones.map((one) =>
      (one.id === 'ran_one' || one.id === 'read_test' ? { ...one, essential: true } : one));
    const strict = goalRig({ milestones: must, outcomes }, { antifreeze: 'ethanol' });
    const all = ['read_test', 'drawing_read', 'held_test', 'ran_one', 'slept'];
    const without = marksOf(strict, reachedInTurn(all.filter((id) => id !== 'ran_one')), end);
    const said = reasonTexts(without, day);
    expect(said).toHaveLength(without.reasons.length);
    expect(said.filter((one) => one.includes('the ran_one'))).toHaveLength(1);
    expect(said.join(' ')).not.toContain('the read_test');
    const short = shortReasons(without, day);
    expect(short.length).toBeLessThan(said.length);
    expect(short.join(' ')).toMatch(/the ran_one.*Too few points: .*Result/);
    const rows = doneTexts(without.milestones, { lex: day, scenario: strict })
      .flatMap((phase) => phase.rows);
    expect(rows.filter(({ fails }) => fails).map(({ id }) => id)).toEqual(['ran_one']);
    const whole = marksOf(strict, reachedInTurn(all), end);
    expect(shortReasons(whole, day).join(' ')).not.toContain('ran_one');
  });

  it('says what its outcomes looked at', () => {
    const rows = new Map(measuresText({ ...PERFECT, ...end }, day));
    expect(rows.get('freeze point where it is weakest')).toBe('−9.3 °C (15.3 °F)');
    expect(rows.get('flow in the pipe_a')).toBe('15.0 L/min (4.0 gpm)');
  });
});

describe('quantities', () => {
  it('all have a form', () => {
    for (const quantity of QUANTITIES) expect(quantityText(1, quantity)).toMatch(/\w/);
    expect(quantityText(0.0005, 'volume')).toBe('0.5 L');
    expect(quantityText(42, 'time')).toBe('42 s');
    expect(quantityText(2400, 'time')).toBe('40 min');
    expect(quantityText(79_261, 'time')).toBe('22 h 1 min');
    expect(quantityText(1.1, 'ratio')).toBe('110 %');
    expect(quantityText(0.005, 'mass')).toBe('5 g (0.18 oz)');
    expect(quantityText(2, 'mass')).toBe('2.00 kg (4.41 lb)');
  });
});

describe('the figures of Heron Lane', () => {
  it('are those of its scenario', () => {
    const rows = new Map(figuresOf(HERON.scenario, lex));
    expect(rows.get('circuit length')).toBe('186 m (610 ft)');
    expect(rows.get('circuit bore')).toBe('27.3 mm (1.07 in)');
    expect(rows.get('tank, per 100 mm of level')).toBe('16 L (4.2 gal)');
    expect(rows.get('pump, head at no flow')).toBe('24 m (79 ft)');
  });
});
