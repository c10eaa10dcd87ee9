// What is kept between visits: good, old, damaged, and storage that fails.
import 'fake-indexeddb/auto';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { HERON } from '../../support/player.ts';
import { fileName } from '../../../game/records/attempt.ts';
import { judge } from '../../../game/records/resume.ts';
import { Store, type Kept } from '../../../game/records/store.ts';
import { Session } from '../../../game/session.ts';

function kept(): Kept {
  const session = Session.start(HERON, 'learn', 1);
  session.act({ kind: 'valve', valve: 'fill_valve', target_deg: 30 });
  for (let k = 0; k < 60; k++) session.advance();
  const began = '2026-01-02T03:04:05.000Z';
  return { format: 1, mode: 'learn', saved: session.save(), speed: 5, began };
}

const withRecord = (change: object): Kept => {
  const good = kept();
  return { ...good, saved: { ...good.saved, record: { ...good.saved.record, ...change } } };
};

afterEach(() => { vi.unstubAllGlobals(); });

describe('what was kept', () => {
  it('comes back from the storage as it was put there', async () => {
    const store = new Store();
    const before = kept();
    await store.keep('job', before);
    const found = judge(HERON, await new Store().load('job'));
    if (found.kind !== 'resumed') throw new Error(found.kind);
    expect(found.speed).toBe(5);
    expect(found.session.record()).toEqual(before.saved.record);
    expect(found.session.facts).toEqual(before.saved.facts);
    await store.drop('job');
    expect(judge(HERON, await store.load('job')).kind).toBe('none');
  });

  it('is not taken up when another engine or another form of the job made it', () => {
    expect(judge(HERON, withRecord({ engine: '0.9' })).kind).toBe('old');
    expect(judge(HERON, withRecord({ scenario_hash: '0123456789abcdef' })).kind).toBe('old');
    expect(judge(HERON, kept()).kind).toBe('resumed');
  });

  it('is called damaged when it cannot be read', () => {
    const good = kept();
    const bad = [
      7, 'text', {}, { ...good, format: 2 }, { ...good, mode: 'god' }, { ...good, speed: 3 },
      { ...good, saved: { ...good.saved, state: new ArrayBuffer(8) } },
      { ...good, saved: { ...good.saved, state: 'bytes' } },
      { ...good, saved: { ...good.saved, facts: null } },
      withRecord({ commands: [[5, { kind: 'valve' }]] }),
    ];
    for (const json of bad) expect(judge(HERON, json).kind, JSON.stringify(json)).toBe('damaged');
  });
});

describe('storage that fails', () => {
  it('is named blocked, and play gets no exception', async () => {
    vi.stubGlobal('indexedDB', { open: () => { throw new DOMException('no', 'SecurityError'); } });
    const store = new Store();
    expect(await store.load('job')).toBeNull();
    expect(store.trouble).toBe('blocked');
    await store.keep('job', kept());
    expect(store.trouble).toBe('blocked');
  });

  it('is named full when there is no room, and good again when there is', async () => {
    const store = new Store();
    await store.load('job');
    const full = vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(() => {
      throw new DOMException('no room', 'QuotaExceededError');
    });
    await store.keep('job', kept());
    expect(store.trouble).toBe('full');
    full.mockRestore();
    await store.keep('job', kept());
    expect(store.trouble).toBeNull();
  });
});

describe('the file name', () => {
  it('says the job and the time', () => {
    const name = fileName('heron_lane', new Date(Date.UTC(2026, 10, 25, 12, 40)));
    expect(name).toBe('loopyard-heron-lane-2026-11-25-1240.json');
  });
});
