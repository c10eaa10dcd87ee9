// Learning the controls, going home for the night, and a day's phases as jobs: pages without a
// screen, the real engine below.
import 'fake-indexeddb/auto';
import { afterEach, describe, expect, it } from 'vitest';
import { drillsOf, jobAddress, jobOf } from '../../../game/jobs.ts';
import { Lesson, TASKS } from '../../../game/lesson.ts';
import { homeHours } from '../../../game/night.ts';
import { Store } from '../../../game/records/store.ts';
import { CONTROLS, LEVELS } from '../../../levels/index.ts';
import { entered, HERON, settled } from '../../support/player.ts';

afterEach(settled);

const open = (valve: string, target_deg = 90) =>
  ({ kind: 'valve', valve, target_deg }) as const;

function begun() {
  const lesson = new Lesson();
  const bench = entered({ level: CONTROLS, lesson });
  return { lesson, ...bench };
}

describe('the lesson', () => {
  it('ticks each step for what was done, and nothing is marked', async () => {
    const { lesson, play, pass, store } = begun();
    const at = (n: number) => expect(TASKS[lesson.at.value]).toBe(TASKS[n]);
    lesson.where = 'drawing';
    play.act(open('fill_valve'));
    at(0); // Asked for is not done: hands need a moment.
    pass(4);
    at(1);
    lesson.where = 'list';
    play.act(open('waste_valve'));
    pass(4);
    at(2);
    play.act({ kind: 'tap', gauge: 'discharge_gauge' });
    at(3);
    play.setSpeed(0);
    at(4);
    play.setSpeed(1);
    at(4);
    play.setSpeed(5);
    at(5);
    play.look(true);
    at(6);
    play.act({ kind: 'note', entry: 'practice_line', value_milli: 0 });
    pass(1);
    at(7);
    play.tell(true);
    play.act(open('return_valve'));
    at(8);
    play.tell(false);
    play.act(open('fill_valve', 45));
    pass(4);
    at(8); // Not shut yet.
    play.act(open('fill_valve', 0));
    pass(4);
    at(9);
    play.handOver();
    expect(lesson.all).toBe(true);
    await settled();
    expect(await store.learnt()).toBe(true);
    expect(await store.best(CONTROLS.id)).toBeNull();
  });

  it('wants the handle first, not the list', () => {
    const { lesson, play, pass } = begun();
    lesson.where = 'list';
    play.act(open('fill_valve'));
    pass(4);
    expect(lesson.at.value).toBe(0);
  });

  it('can be left out step by step, and is not done then', async () => {
    const { lesson, play } = begun();
    for (let k = 0; k < TASKS.length + 2; k++) lesson.skip();
    expect(lesson.at.value).toBe(TASKS.length);
    play.handOver();
    expect(lesson.all).toBe(false);
    await settled();
    expect(await new Store().best(CONTROLS.id)).toBeNull();
    expect(lesson.ticked.value.size).toBe(0);
    expect(play.place.trouble.value).toBeNull();
  });

  it('has a yard of its own that no list of jobs shows', () => {
    expect(LEVELS.map(({ id }) => id)).not.toContain(CONTROLS.id);
    expect(CONTROLS.scenario.hands.helper).toBeDefined();
    expect(CONTROLS.scenario.record).toHaveLength(1);
    expect(HERON.scenario.record).toHaveLength(0);
  });
});

const DAY = LEVELS.find(({ id }) => id === 'otter_bank')!;

describe('a whole day', () => {
  it('offers a night as long as the second visit asks for, and a day', () => {
    expect(homeHours(DAY.scenario)).toEqual([12, 24]);
    expect(homeHours(HERON.scenario)).toEqual([]);
  });

  it('lists its phases as jobs with addresses of their own', () => {
    const drills = drillsOf(DAY, new Set(['otter_bank_purge']));
    expect(drills.length).toBeGreaterThan(10);
    expect(drills.filter(({ passed }) => passed).map(({ phase }) => phase)).toEqual(['purge']);
    const { id } = drills[0]!;
    const address = jobAddress(id, '');
    const level = jobOf(new URLSearchParams(address.slice(2)).get('job')!);
    expect(level?.phase).toBe(drills[0]!.phase);
    expect(drillsOf(HERON, new Set())).toEqual([]);
  });

  it('says of a drill which phase it is', () => {
    const level = jobOf('otter-bank-purge')!;
    const { play } = entered({ level });
    expect(play.title).toBe('Otter Bank: Purge the loop');
    expect(entered().play.title).toBe('Heron Lane, one trench');
  });

  it('goes home with a clock that stood: nobody is there to look', () => {
    const { play } = entered({ level: DAY });
    play.setSpeed(0);
    play.goHome(12);
    expect(play.session.waiting).toEqual([{ kind: 'leave', hours: 12 }]);
    expect(play.speed.value).toBe(1);
  });
});
