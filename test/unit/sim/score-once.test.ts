// One cause, one deduction: what an omission brings about stands with it, and two acts stay two.
import { describe, expect, it } from 'vitest';
import type { Fact } from '../../../sim/fact.ts';
import type { Deduction } from '../../../sim/marks.ts';
import { sameCause, type Spell } from '../../../sim/same-cause.ts';
import { onceEach } from '../../../sim/score-once.ts';
import { scenarioOf } from '../../tools/golden.ts';

const scenario = scenarioOf('05-curlew-rise');

function lost(rule: string, points: number, more: Partial<Deduction> = {}): Deduction {
  const words = { message: '', seen: '', how: '', source: '' };
  const head = { rule, points, max: points, dimension: 'safety', stage: null, tick: 9 } as const;
  return {
    ...head,
    at: null,
    value: null,
    limit: null,
    quantity: 'none',
    includes: [],
    ...words,
    ...more,
  };
}

const missed = (milestone: string, control: string, points: number): Deduction =>
  lost('missed_stood', points, { milestone, at: control });

/** What is left: rule, points and what else is in it. */
const once = (...wanted: Deduction[]): unknown =>
  onceEach(scenario, wanted).map(({ rule, points, includes }) => [rule, points, includes]);

describe('a milestone that was missed', () => {
  it('is in the hazard that its device was there to prevent', () => {
    const unlocked = lost('locked_off', 17, { at: 'lock_unit' });
    expect(once(missed('unit_locked', 'lock_unit', 3), unlocked)).toEqual([
      ['locked_off', 17, ['unit_locked']],
    ]);
    const back = lost('no_backflow', 3, { at: 'make_up_hose', stage: 'warning' });
    expect(once(back, missed('guarded', 'backflow', 3))).toEqual([['no_backflow', 3, ['guarded']]]);
  });

  it('stands where it costs more, with the hazard in it', () => {
    const warned = lost('no_eyes', 1, { at: 'eyes', stage: 'warning' });
    expect(once(warned, missed('eyes_on', 'eyes', 2))).toEqual([['missed_stood', 2, ['no_eyes']]]);
  });

  it('is in what stood wrong at hand-over, if the same was asked for', () => {
    const left = lost('act_left', 7, { at: 'tag', value: 0, limit: 1 });
    expect(once(left, missed('tagged', 'tag', 1))).toEqual([['act_left', 7, ['tagged']]]);
    const lock = lost('lock_left', 7, { at: 'lock_unit', value: 1, limit: 0 });
    expect(once(lock, missed('unit_locked', 'lock_unit', 3))).toHaveLength(2);
  });

  it('is in what froze because it was not drained, and in nothing else that froze', () => {
    const drain = missed('hose_drained', 'hose_drain', 3);
    const tap = lost('cracked', 17, { at: 'tap' });
    expect(once(drain, tap)).toEqual([['cracked', 17, ['hose_drained']]]);
    expect(once(drain, lost('cracked', 17, { at: 'pump' }))).toHaveLength(2);
  });

  it('stays beside hazards that are not of its device', () => {
    const dry = lost('dry_run', 17, { at: 'pump' });
    expect(once(missed('eyes_on', 'eyes', 2), dry)).toHaveLength(2);
    expect(
      once(lost('missed_noted', 2, { milestone: 'air_noted', at: 'test_air' }), dry),
    ).toHaveLength(2);
  });
});

describe('a flow that is not there', () => {
  const flow = lost('outcome_flow', 2, { dimension: 'outcome', at: 'coil' });

  it('is in what was left off, and not in what was left on', () => {
    const off = lost('pump_left_off', 10, { at: 'loop_pump', value: 0, limit: 1 });
    expect(once(flow, off)).toEqual([['pump_left_off', 10, ['outcome_flow']]]);
    expect(once(flow, lost('pump_left_on', 10, { at: 'pump', value: 1, limit: 0 }))).toHaveLength(
      2,
    );
  });

  it('stands alone where all is as it was to be left', () => {
    expect(once(flow)).toEqual([['outcome_flow', 2, []]]);
  });
});

describe('two spells', () => {
  const spell = (rule: string, at: string, from: number, to: number): Spell => ({
    ...{ rule, at, from, to, family: 'pressure' },
  });
  const moved = (control: string, tick: number): Fact => ({
    tick,
    kind: 'moved',
    control,
    value: 1,
  });
  const same = (a: Spell, b: Spell, ...facts: Fact[]): boolean =>
    sameCause(scenario, facts, 25)(a, b);

  it('are one while the device that is there against them has not been touched', () => {
    const [a, b] = [spell('no_eyes', 'eyes', 10, 20), spell('no_eyes', 'eyes', 900, 950)];
    expect(same(a, b)).toBe(true);
    expect(same(a, b, moved('gloves', 400))).toBe(true);
    expect(same(a, b, moved('eyes', 400))).toBe(false);
    const pump = (from: number): Spell => spell('dry_run', 'pump', from, from + 9);
    expect(same(pump(10), pump(900))).toBe(false);
  });

  it('are one pressure where it stands in one body of liquid at one time', () => {
    const [hose] = scenario.links.filter(({ kind }) => kind === 'hose');
    const [a, b] = [
      spell('over_pressure', hose!.from, 10, 90),
      spell('over_pressure', hose!.to, 50, 80),
    ];
    expect(same(a, b)).toBe(true);
    expect(same(a, { ...b, from: 500, to: 600 })).toBe(false);
    expect(same(a, { ...b, at: 'field_end' })).toBe(false);
  });

  it('are one frost in what hangs together in one night', () => {
    const [tap, drain] = [
      spell('cracked', 'tap', 10, 999),
      spell('cracked', 'hose_drain', 60, 999),
    ];
    expect(same(tap, drain)).toBe(true);
    expect(same(tap, { ...drain, at: 'pump' })).toBe(false);
    expect(same(tap, drain, { tick: 30, kind: 'back' })).toBe(false);
  });
});
