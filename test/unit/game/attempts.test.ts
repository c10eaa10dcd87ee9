// The list of attempts: two tabs at one of them, attempts out as files and in again, how many an
// assignment allows, and what is carried over from an older version.
import 'fake-indexeddb/auto';
import { afterEach, describe, expect, it } from 'vitest';
import { entered, HERON, playerAt, settled } from '../../support/player.ts';
import type { Locks } from '../../../game/attempts/claim.ts';
import { bundle, readFiles, textsOf } from '../../../game/attempts/import.ts';
import { LEASE_MS, Library } from '../../../game/attempts/library.ts';
import { begunOf, openingOf, type Wish } from '../../../game/attempts/open.ts';
import { judgeAll } from '../../../game/attempts/resume.ts';
import { drawId, seedOf, type Ticket } from '../../../game/assign/ticket.ts';
import { fileOfKept } from '../../../game/records/attempt.ts';
import { Store } from '../../../game/records/store.ts';
import { isKeptShape } from '../../../game/attempts/entry.ts';
import { keptOf } from '../../../game/verify/kept.ts';
import { verify } from '../../../game/verify/verify.ts';
import type { Asked, Pool } from '../../../game/verify/pool.ts';
import { ENGINE, scenarioHash } from '../../../sim/index.ts';

afterEach(settled);

const TICKET: Ticket = {
  format: 1, kind: 'assignment', id: '00112233445566aa', name: 'Week 3', job: HERON.id, phase: null,
  mode: 'assess', seed: null, attempts: 2, scenario_hash: scenarioHash(HERON.scenario),
  engine: ENGINE,
};

/** Locks as browsers have them, for two tabs of one test. */
function fakeLocks(): Locks {
  const held = new Map<string, (error: Error) => void>();
  return {
    request: (name, { ifAvailable = false, steal = false }, wait) => {
      const thief = held.get(name);
      if (thief !== undefined && steal) thief(new DOMException('stolen', 'AbortError'));
      else if (thief !== undefined && ifAvailable) return Promise.resolve(wait(null));
      return new Promise<void>((done, fail) => {
        held.set(name, fail);
        void Promise.resolve(wait({ name })).then(() => {
          if (held.get(name) === fail) held.delete(name);
          done();
        });
      });
    },
  };
}

/** A pool without workers: the same calls, in this thread. */
const here = {
  check: ({}: never, text: string, wants: Asked['wants']) => {
    const checked = verify('f', text);
    return Promise.resolve({
      ask: 0, report: checked.report, kept: wants === 'kept' ? keptOf(checked) : null,
    });
  },
} as unknown as Pool;

for (const [kind, locks] of [['locks', fakeLocks()], ['leases', null]] as const) {
  describe(`two tabs with ${kind}`, () => {
    it('do not both write: the second is told, and may take over', async () => {
      const [a, b] = [new Library({ locks }), new Library({ locks })];
      const first = entered({ library: a });
      first.pass(1);
      await a.settled();
      const { id } = first.keeper;
      expect(await b.claim(id)).toBe('elsewhere');
      expect(await b.drop(id)).toBe('elsewhere');
      expect((await a.entry(id))?.end_tick).toBeGreaterThan(1);

      expect(await b.claim(id, true)).toBe('mine');
      first.pass(1);
      await a.settled();
      await new Promise((done) => { setTimeout(done, 20); });
      expect(first.play.place.trouble.value).toBe('taken');
      const stood = first.play.session.snapshot().tick;
      first.pass(2);
      first.play.act({ kind: 'valve', valve: 'fill_valve', target_deg: 90 });
      expect(first.play.session.snapshot().tick).toBe(stood);
      expect(first.play.session.waiting).toEqual([]);

      // What the second tab writes stays, whatever the first one still tries.
      const found = judgeAll(HERON, await b.saves(id));
      const entry = await b.entry(id);
      if (found.kind !== 'resumed' || entry === null) throw new Error(found.kind);
      const second = playerAt({ library: b, entry });
      second.play.takeUp(found.session, found.kept);
      second.play.setSpeed(5);
      second.pass(2);
      await b.settled();
      const { end_tick } = (await b.entry(id)) ?? { end_tick: 0 };
      expect(end_tick).toBeGreaterThan(stood);
      expect(await first.keeper.keep(found.kept, null)).toBe('taken');
      expect((await b.entry(id))?.end_tick).toBe(end_tick);
    });

    it('a tab that left, or died, is in nobody\'s way', async () => {
      let now = 1_000_000;
      const clock = () => now;
      const [a, b] = [new Library({ locks, now: clock }), new Library({ locks: null, now: clock })];
      const first = entered({ library: a });
      first.pass(1);
      await a.settled();
      const { id } = first.keeper;
      expect(await b.claim(id)).toBe('elsewhere');
      now += LEASE_MS + 1; // Not renewed: its tab was killed.
      expect(await b.claim(id)).toBe('mine');
      await b.release(id);
      expect((await a.entry(id))?.owner).toBeNull();
    });
  });
}

async function handedOver(library: Library) {
  const bench = entered({ library });
  bench.play.act({ kind: 'valve', valve: 'suction_valve', target_deg: 90 });
  bench.pass(2);
  bench.play.handOver();
  await library.settled();
  return bench;
}

describe('files', () => {
  const progress = () => {};

  it('bring an attempt back: the same record, facts and marks, run again', async () => {
    const library = new Library({ locks: null });
    const { play, keeper } = await handedOver(library);
    const entry = await library.entry(keeper.id);
    const kept = (await library.saves(keeper.id)).find(isKeptShape);
    if (entry === null || kept === undefined) throw new Error('not kept');
    const file = fileOfKept(kept, entry, HERON);
    expect(JSON.stringify(file)).toBe(JSON.stringify(play.file()));
    keeper.leave();
    expect(await library.drop(keeper.id)).toBe('dropped');
    const text = JSON.stringify(bundle([file]));
    expect(textsOf({ file: 'all.json', text }).map((one) => one.file)).toEqual(['all.json (1)']);
    const read = await readFiles([{ file: 'all.json', text }], library, here, progress);
    expect(read).toEqual({ count: 1, kept: 1, remarks: [] });
    const back = await library.entry(keeper.id);
    expect(back).toMatchObject({
      imported: true, finished: true, marks: { total: file.marks?.total }, seed: 3,
    });
    const found = judgeAll(HERON, await library.saves(keeper.id));
    if (found.kind !== 'resumed') throw new Error(found.kind);
    expect(JSON.stringify(found.session.record())).toBe(JSON.stringify(file.record));
    expect(found.session.score()).toEqual(file.marks);
    const again = await readFiles([{ file: 'x', text }], library, here, progress);
    expect(again).toMatchObject({ kept: 0, remarks: ['x (1): it is here already'] });
  });

  it('that say more than their run gives are kept with what it gives, and named', async () => {
    const library = new Library({ locks: null });
    const { play } = await handedOver(library);
    const id = drawId();
    const good = play.file();
    const edited = { ...good, id, marks: { ...good.marks, total: 99, passed: true } };
    const text = JSON.stringify(edited);
    const read = await readFiles([{ file: 'x', text }], library, here, progress);
    expect(read.kept).toBe(1);
    expect(read.remarks[0]).toContain('marks were changed. Passed: the file says yes');
    expect((await library.entry(id))?.marks).toEqual({ total: good.marks?.total, passed: false });
  });

  it('of an assessment that is not over are not gone on with', async () => {
    const library = new Library({ locks: null });
    const bench = entered({ library, mode: 'assess' });
    bench.pass(2);
    const text = JSON.stringify(bench.play.file());
    expect(JSON.parse(text)).toMatchObject({ mode: 'assess', facts: [], marks: null });
    const read = await readFiles([{ file: 'x', text }], library, here, progress);
    expect(read).toMatchObject({ kept: 0 });
    expect(read.remarks[0]).toContain('an assessment that is not finished');
  });
});

describe('an assignment', () => {
  const wish: Wish = {
    level: HERON, mode: 'learn', seed: 1, taken: { ticket: TICKET, label: 'Ann B.', begun: 0 },
    entry: null,
  };

  it('allows no more attempts than it says, each on the seed that is its own', async () => {
    const library = new Library({ locks: null });
    const opening = await openingOf(library, new Store(), wish, false);
    if (opening.kind !== 'here') throw new Error(opening.kind);
    expect(opening).toMatchObject({ mode: 'assess', seed: seedOf(TICKET, 'Ann B.', 1) });
    const bench = entered({ library, mode: opening.mode, assigned: opening.keeper.assigned! });
    expect(bench.keeper.mayBegin).toBe(true);
    bench.play.handOver();
    bench.play.again();
    expect(bench.play.session.seed).toBe(seedOf(TICKET, 'Ann B.', 2));
    expect(bench.play.session.seed).not.toBe(opening.seed);
    expect(bench.keeper.mayBegin).toBe(false);
    bench.pass(1);
    bench.play.handOver();
    const { id } = bench.keeper;
    bench.play.again();
    expect(bench.keeper.id).toBe(id);
    expect(bench.play.view.value).toBe('debrief');
    await library.settled();
    const all = (await library.list()).filter(({ assigned }) => assigned?.ticket.id === TICKET.id);
    expect(all.map(({ assigned }) => assigned?.nth).sort()).toEqual([1, 2]);
  });

  it('still counts attempts that were deleted', async () => {
    const library = new Library({ locks: null });
    const mine = (await library.list()).filter(({ assigned }) => assigned !== null);
    for (const { id } of mine) await library.claim(id, true);
    for (const { id } of mine) expect(await library.drop(id)).toBe('dropped');
    const kept = (await library.ticket(TICKET.id)) as { begun: number };
    expect(kept.begun).toBe(2);
    expect(begunOf({ ticket: TICKET, label: 'x', begun: kept.begun }, [])).toBe(2);
  });
});
