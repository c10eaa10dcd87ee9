// A tab that is killed at any moment, also while it saves: what the next one goes on with.
import 'fake-indexeddb/auto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { chance, seedOfRun } from '../../tools/chance.ts';
import { hashOf } from '../../support/hash-of.ts';
import { entered, HERON, settled, type Bench } from '../../support/player.ts';
import { Library } from '../../../game/attempts/library.ts';
import type { SmallStorage } from '../../../game/attempts/small.ts';
import { judgeAll } from '../../../game/attempts/resume.ts';
import { Session } from '../../../game/session.ts';
import type { Command } from '../../../sim/index.ts';

const KILLS = 60; // At a fifth of a second a save is seldom a tick behind what was jotted down.
const END = 120; // Ticks.
const FRAME_S = 0.02;
/** Wall time that may be lost, s; with a small storage as well, even when the large one is slow. */
const LOST_S = 1;
const JOTTED_S = 0.6;

const valve = (id: string, target_deg: number): Command =>
  ({ kind: 'valve', valve: id, target_deg });
/** What hands do is saved at once, so there is a long while in which they do nothing. */
const SCRIPT: ReadonlyMap<number, Command> = new Map([
  [3, valve('suction_valve', 90)], [5, valve('return_valve', 10)], [112, valve('fill_valve', 30)],
  [114, { kind: 'switch', pump: 'pump', on: true }],
]);

/** Once `dead`, nothing of the storage answers, and what was under way is rolled back. */
const kill = { dead: false, outlived: false, after: Infinity, ops: 0, cut: 0 };
const open = new Set<IDBTransaction>();

function strike(): void {
  kill.dead = true;
  for (const one of open) {
    if (one.mode !== 'readwrite') continue; // What only reads changes nothing by its end.
    try {
      one.abort();
      kill.cut += 1;
    } catch { /* It was over. */ }
  }
  open.clear();
}

const METHODS = ['get', 'put'] as const;
const before = {
  transaction: IDBDatabase.prototype.transaction,
  get: IDBObjectStore.prototype.get, put: IDBObjectStore.prototype.put,
};

beforeAll(() => {
  IDBDatabase.prototype.transaction = function transaction(...args) {
    if (kill.dead) throw new Error('killed');
    const made = before.transaction.apply(this, args);
    open.add(made);
    made.addEventListener('complete', () => open.delete(made));
    return made;
  };
  for (const name of METHODS) {
    IDBObjectStore.prototype[name] = function counted(this: IDBObjectStore, ...args: never[]) {
      kill.ops += 1;
      if (kill.ops >= kill.after) strike();
      if (kill.dead) throw new Error('killed');
      return (before[name] as (...all: never[]) => IDBRequest).apply(this, args);
    } as never;
  }
});
afterAll(async () => {
  IDBDatabase.prototype.transaction = before.transaction;
  for (const name of METHODS) IDBObjectStore.prototype[name] = before[name] as never;
  await settled();
});

function smallStorage(): SmallStorage {
  const kept = new Map<string, string>();
  return {
    getItem: (key) => kept.get(key) ?? null,
    setItem: (key, text) => { kept.set(key, text); },
    removeItem: (key) => { kept.delete(key); },
  };
}

const turn = () => new Promise((done) => { setImmediate(done); });

/** Frame by frame, each with a moment for the storage, until the tab dies; its ticks by frame. */
async function playUntilKilled({ play, pass }: Bench, lastFrame: number): Promise<number[]> {
  const ticks: number[] = [];
  play.setSpeed(5);
  // With a small storage the tab lives on after the large one has stopped answering.
  const dead = () => kill.dead && !kill.outlived;
  for (let frame = 0; frame <= lastFrame && !dead(); frame++) {
    const { tick } = play.session.snapshot();
    const command = SCRIPT.get(tick);
    if (command !== undefined) play.act(command);
    if (play.speed.value !== 5) play.setSpeed(5); // A warning slows the clock; hands speed it up.
    pass(FRAME_S);
    ticks.push(play.session.snapshot().tick);
    await turn();
  }
  if (!kill.dead) strike();
  return ticks;
}

function runOn(session: Session): string {
  for (let { tick } = session.snapshot(); tick < END; tick++) {
    const command = SCRIPT.get(tick);
    if (command !== undefined) session.act(command);
    session.advance();
  }
  return hashOf(session);
}

describe('a tab that is killed', () => {
  it('loses at most the last second, wherever it is cut, and goes on to the same end', async () => {
    const unbroken = runOn(Session.start(HERON, 'learn', 3));
    const luck = chance(seedOfRun());
    const lost: number[] = [];
    let went = 0;
    for (let k = 0; k < KILLS; k++) {
      const small = k % 4 < 2 ? smallStorage() : null;
      Object.assign(kill, { dead: false, ops: 0, after: Infinity, outlived: small !== null });
      // Every other time in the midst of what the storage is doing, by its own count.
      if (k % 2 === 0) kill.after = 4 + luck.below(40);
      const cutAt = kill.after;
      const bench = entered({ library: new Library({ locks: null, small }) });
      const ticks = await playUntilKilled(bench, k % 2 === 0 ? 118 : 10 + luck.below(108));
      bench.keeper.leave(); // Its timer dies with the tab; what it asks for goes nowhere.
      await bench.library.settled();
      Object.assign(kill, { dead: false, after: Infinity });
      const next = new Library({ locks: null, small, now: () => Date.now() + 60_000 });
      const entry = await next.entry(bench.keeper.id);
      const tail = entry === null ? null : next.tails.read(entry);
      expect(await next.claim(bench.keeper.id)).toBe('mine');
      const found = judgeAll(HERON, await next.saves(bench.keeper.id), tail);
      const back = Math.round((small === null ? LOST_S : JOTTED_S) / FRAME_S);
      const least = ticks[ticks.length - 1 - back] ?? 0;
      if (found.kind !== 'resumed') {
        // Its storage was dead before the very first save, about its tenth request.
        expect(cutAt, `kill ${k}: nothing was kept`).toBeLessThan(12);
        continue;
      }
      const { tick } = found.session.snapshot();
      expect(tick, `kill ${k}`).toBeGreaterThanOrEqual(least);
      if (tail !== null && tail.tick > (entry?.end_tick ?? 0)) went += 1;
      lost.push((ticks.at(-1) ?? 0) - tick);
      expect(runOn(found.session), `kill ${k} at tick ${tick}`).toBe(unbroken);
    }
    expect(lost.length).toBeGreaterThan(KILLS / 2);
    expect(went, 'went on by what was jotted down').toBeGreaterThan(3);
    expect(kill.cut, 'saves that were cut').toBeGreaterThan(2);
  });
});
