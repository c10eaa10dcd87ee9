// An attempt as the page drives it, with the real engine below.
import 'fake-indexeddb/auto';
import { afterEach, describe, expect, it } from 'vitest';
import { hashOf } from '../../support/hash-of.ts';
import { entered, HERON, playerAt, settled } from '../../support/player.ts';
import type { Keeper } from '../../../game/attempts/keeper.ts';
import { Library } from '../../../game/attempts/library.ts';
import { judgeAll } from '../../../game/attempts/resume.ts';
import { attemptFaults, replay } from '../../../sim/index.ts';

const OPEN = 90;
const valve = (id: string, target_deg: number) =>
  ({ kind: 'valve', valve: id, target_deg }) as const;
afterEach(settled);

/** What a page that is loaded anew finds of an attempt. */
async function foundIn(library: Library, { id }: Keeper) {
  const entry = await library.entry(id);
  if (entry === null) throw new Error('nothing was kept');
  const found = judgeAll(HERON, await library.saves(entry.id));
  if (found.kind !== 'resumed') throw new Error(found.kind);
  return { ...found, entry };
}

const PUMP_ON = { kind: 'switch', pump: 'pump', on: true } as const;

describe('an attempt', () => {
  it('begins to run when the drawing stands, not before', () => {
    const { play, pass } = playerAt();
    play.enter();
    pass(2);
    expect(play.seen.value.tick).toBe(0);
    play.ready();
    pass(2);
    expect(play.seen.value.time_s).toBeGreaterThan(1.5);
  });

  it('lets hands wait while the clock is frozen, and says what they wait for', () => {
    const { play, pass } = entered();
    play.setSpeed(0);
    pass(0.5);
    const { tick } = play.seen.value;
    play.act(valve('suction_valve', 45));
    play.act(valve('suction_valve', OPEN));
    pass(0.5);
    expect([...play.waiting.value.keys()]).toEqual(['suction_valve']);
    expect(play.seen.value.tick).toBe(tick);
    play.setSpeed(1);
    pass(4);
    expect(play.waiting.value.size).toBe(0);
    const seen = play.seen.value.scene.valves.find(({ id }) => id === 'suction_valve');
    expect(seen?.deg).toBe(OPEN);
    expect(play.session.record().commands).toEqual([[tick, valve('suction_valve', OPEN)]]);
  });

  it('comes back to real time at a warning and freezes at a critical error', () => {
    const { play, pass } = entered();
    play.act(PUMP_ON);
    play.setSpeed(5);
    pass(2);
    expect(play.braked.value).toBe('slow');
    expect(play.speed.value).toBe(1);
    for (let k = 0; k < 4 && play.braked.value !== 'freeze'; k++) {
      play.setSpeed(5); // Each new warning slows the clock again.
      pass(12);
    }
    expect(play.speed.value).toBe(0);
    expect(play.braked.value).toBe('freeze');
    expect(play.captions.value.some(({ tone }) => tone === 'critical')).toBe(true);
  });

  it('gives each caution once', () => {
    const { play } = entered();
    play.act(PUMP_ON);
    play.act({ ...PUMP_ON, on: false });
    play.act(PUMP_ON);
    const cautions = play.captions.value.filter(({ tone }) => tone === 'caution');
    expect(cautions.map(({ key }) => key)).toEqual(['caution.electricity']);
  });

  it('is judged at once when handed over, even when frozen', () => {
    const { play } = entered();
    play.setSpeed(0);
    play.handOver();
    expect(play.view.value).toBe('debrief');
    expect(play.score.value?.finished).toBe(true);
    expect(play.score.value?.passed).toBe(false);
    play.act(PUMP_ON);
    expect(play.session.waiting).toEqual([]);
  });

  it('begins again on the same seed', () => {
    const { play, pass } = entered();
    play.act(PUMP_ON);
    pass(2);
    play.handOver();
    play.again();
    expect(play.view.value).toBe('yard');
    expect(play.seen.value.tick).toBe(0);
    expect(play.session.seed).toBe(3);
    expect(play.score.value).toBeNull();
    expect(play.session.record().commands).toEqual([]);
  });

  it('shows the inside of the pipes only through the lens', () => {
    const { play } = entered();
    expect(play.session.xray()).toBeNull();
    play.look(true);
    expect(play.session.xray()?.links.length).toBeGreaterThan(5);
    const assessed = playerAt({ mode: 'assess' }).play;
    assessed.look(true);
    expect(assessed.session.xray()).toBeNull();
    expect(assessed.looking.value).toBe(false);
  });
});

describe('a reload', () => {
  it('takes the attempt up at its tick, frozen, and goes on bit by bit the same', async () => {
    const library = new Library({ locks: null });
    const first = entered({ library });
    first.play.act(valve('suction_valve', OPEN));
    first.pass(3);
    first.play.setSpeed(0);
    first.play.act(valve('loop_supply_valve', OPEN));
    first.pass(0.5);
    await settled();

    const { session, kept, entry } = await foundIn(library, first.keeper);
    const second = playerAt({ library, entry });
    second.play.takeUp(session, kept);
    expect(second.play.seen.value.tick).toBe(first.play.seen.value.tick);
    expect(second.play.greeting.value).toMatchObject({ kind: 'resumed' });
    second.pass(2);
    expect(second.play.session.snapshot().tick).toBe(first.play.session.snapshot().tick);
    expect([...second.play.waiting.value.keys()]).toEqual(['loop_supply_valve']);

    for (const { play, pass } of [first, second]) {
      play.setSpeed(1);
      pass(6);
      while (play.session.snapshot().tick < 300) play.session.advance();
    }
    expect(hashOf(second.play.session)).toBe(hashOf(first.play.session));
    expect(second.play.session.facts).toEqual(first.play.session.facts);
  });

  it('after the hand-over shows the debrief again', async () => {
    const library = new Library({ locks: null });
    const { play, pass, keeper } = entered({ library });
    pass(1);
    play.handOver();
    await settled();
    const { session, kept, entry } = await foundIn(library, keeper);
    const second = playerAt({ library, entry }).play;
    second.takeUp(session, kept);
    expect(second.view.value).toBe('debrief');
    expect(second.score.value?.total).toBe(play.score.value?.total);
  });
});

describe('the file', () => {
  it('is an attempt without faults that replays to the same end', () => {
    const { play, pass } = entered();
    play.act(valve('suction_valve', OPEN));
    play.act(PUMP_ON);
    pass(5);
    play.handOver();
    const file = JSON.parse(JSON.stringify(play.file())) as ReturnType<typeof play.file>;
    expect(attemptFaults(file, HERON.scenario)).toEqual([]);
    expect(file.who).toBeNull();
    const again = replay(HERON.scenario, file.record);
    expect(again.divergedAt).toBeNull();
    expect(JSON.parse(JSON.stringify(again.facts))).toEqual(file.facts);
  });
});
