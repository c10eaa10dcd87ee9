// What an assignment opens: the drill it names, in its mode and on its seed; the sheet in an
// assessment; and the lesson, which is opened afresh each time.
import 'fake-indexeddb/auto';
import { afterEach, describe, expect, it } from 'vitest';
import { levelOf } from '../../../game/assign/levels.ts';
import { packTicket, seedOf, unpackTicket } from '../../../game/assign/ticket.ts';
import { openingOf } from '../../../game/attempts/open.ts';
import { ticketOf } from '../../../game/instructor/maker.tsx';
import { titleById } from '../../../game/jobs.ts';
import { Lesson, TASKS } from '../../../game/lesson.ts';
import { writtenOn, writtenText } from '../../../game/sheet.ts';
import { CONTROLS, drillOfLevel, LEVELS, levelById } from '../../../levels/index.ts';
import { scenarioHash } from '../../../sim/index.ts';
import { entered, playerAt, settled } from '../../support/player.ts';

afterEach(settled);

const DAY = LEVELS.find(({ id }) => id === 'otter_bank')!;
const ID = '0123456789abcdef';

function ticketFor(phase: string, mode: 'practise' | 'assess') {
  const ticket = ticketOf({
    name: 'Week 4', job: DAY.id, phase, mode, seed: 'own', seed_number: '', attempts: '1',
  } as Parameters<typeof ticketOf>[0], ID);
  if (typeof ticket === 'string') throw new Error(ticket);
  return ticket;
}

describe('an assignment of one phase', () => {
  it('opens that drill, and no other, for every phase there is', () => {
    for (const phase of DAY.drills) {
      const ticket = unpackTicket(packTicket(ticketFor(phase, 'assess')))!;
      const level = levelOf(ticket.job, ticket.phase);
      expect(level?.phase).toBe(phase);
      expect(ticket.scenario_hash).toBe(scenarioHash(level!.scenario));
      expect(ticket.scenario_hash).toBe(scenarioHash(drillOfLevel(DAY, phase)!.scenario));
    }
    expect(levelOf('otter_bank', null)?.phase).toBeNull();
    expect(levelOf('heron_lane', 'purge')).toBeNull();
  });

  it('runs in its mode and on the seed of the trainee, and is kept under the drill', async () => {
    const ticket = ticketFor('arrive', 'assess');
    const level = levelOf(ticket.job, ticket.phase)!;
    const { library, store } = playerAt();
    const taken = { ticket, label: 'Ann', begun: 0 };
    const wish = { level, mode: 'learn', seed: 1, taken, entry: null } as const;
    const opening = await openingOf(library, store, wish, false);
    if (opening.kind !== 'here') throw new Error('it is open elsewhere');
    expect(opening.mode).toBe('assess');
    expect(opening.seed).toBe(seedOf(ticket, 'Ann', 1));
    const assigned = opening.keeper.assigned!;
    const { play, pass, library: kept } = entered({ level, mode: opening.mode, assigned });
    expect(play.title).toBe('Otter Bank: Arrive');
    pass(1);
    play.handOver();
    await settled();
    const entry = (await kept.list()).find((one) => one.assigned?.ticket.id === ID);
    expect(entry).toMatchObject({ job: 'otter_bank_arrive', mode: 'assess', finished: true });
    expect(titleById(entry!.job)).toBe('Otter Bank: Arrive');
    const file = play.file();
    expect(file.record.scenario).toBe('otter_bank_arrive');
    expect(file.ticket?.phase).toBe('arrive');
  });
});

describe('the sheet in an assessment', () => {
  it('takes a reading and shows it with its time, while the truth stays hidden', () => {
    const level = levelById('otter_bank_arrive')!;
    const { play, pass } = entered({ level, mode: 'assess' });
    const line = play.lines.find(({ id }) => id === 'test_air')!;
    pass(2);
    play.act({ kind: 'note', entry: 'test_air', value_milli: 300_000 });
    const written = () => {
      const { told, waiting } = play.session;
      const noted = told.filter((fact) => fact.kind === 'noted');
      return writtenOn(line, noted, waiting, play.session.snapshot().tick);
    };
    expect(written()).toHaveLength(1); // Not yet taken, but it stands there at once.
    pass(1);
    const [one, ...more] = written();
    expect(more).toEqual([]);
    expect(writtenText(line, one!.value_milli)).toBe('300 kPa');
    expect(one!.tick).toBeGreaterThan(0);
    expect(play.captions.value.some(({ text }) => text.includes('300 kPa'))).toBe(true);
    expect(play.session.facts).toEqual([]); // What is judged is told at the end.
    play.act({ kind: 'note', entry: 'test_air', value_milli: 295_000 });
    pass(1);
    expect(written().map(({ value_milli }) => value_milli)).toEqual([300_000, 295_000]);
    play.handOver();
    expect(play.score.value?.milestones.find(({ id }) => id === 'test_air_noted')?.tick)
      .toBe(one!.tick);
  });
});

describe('the lesson opened again', () => {
  it('begins at its first step, and having been learnt stays kept', async () => {
    const first = new Lesson();
    const before = entered({ level: CONTROLS, lesson: first });
    for (const task of TASKS) {
      if (task !== 'done') first.skip();
    }
    before.play.handOver();
    await before.store.keepLearnt();
    await settled();
    expect(first.at.value).toBe(TASKS.length);
    const again = new Lesson();
    const { play, store, library } = entered({ level: CONTROLS, lesson: again });
    expect([again.at.value, again.ticked.value.size]).toEqual([0, 0]);
    expect(play.view.value).toBe('yard');
    expect(play.seen.value.time_s).toBe(0);
    expect(play.greeting.value).toBeNull();
    expect(await store.learnt()).toBe(true);
    // Nothing of it is an attempt that could be gone on with.
    expect((await library.list()).filter(({ job }) => job === CONTROLS.id)).toEqual([]);
  });
});
