// What is kept between visits: good, old, damaged, and storage that fails.
import 'fake-indexeddb/auto';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { HERON } from '../../support/player.ts';
import type { Kept } from '../../../game/attempts/entry.ts';
import { Library } from '../../../game/attempts/library.ts';
import { judge, judgeAll } from '../../../game/attempts/resume.ts';
import { fileName } from '../../../game/records/attempt.ts';
import { Session } from '../../../game/session.ts';

function kept(): Kept {
  const session = Session.start(HERON, 'learn', 1);
  session.act({ kind: 'valve', valve: 'fill_valve', target_deg: 30 });
  for (let k = 0; k < 60; k++) session.advance();
  const began = '2026-01-02T03:04:05.000Z';
  return { format: 1, mode: 'learn', saved: session.save(), speed: 5, began };
}

const about = (id: string) => ({ id, assigned: null, imported: false, marks: null });

const withRecord = (change: object): Kept => {
  const good = kept();
  return { ...good, saved: { ...good.saved, record: { ...good.saved.record, ...change } } };
};

afterEach(() => { vi.unstubAllGlobals(); });

describe('what was kept', () => {
  it('comes back from the storage as it was put there', async () => {
    const library = new Library({ locks: null });
    const before = kept();
    expect(await library.keep(before, about('one'))).toBe('kept');
    const found = judgeAll(HERON, await new Library({ locks: null }).saves('one'));
    if (found.kind !== 'resumed') throw new Error(found.kind);
    expect(found.kept.speed).toBe(5);
    expect(found.session.record()).toEqual(before.saved.record);
    expect(found.session.facts).toEqual(before.saved.facts);
    expect(await library.drop('one')).toBe('dropped');
    expect(judgeAll(HERON, await library.saves('one')).kind).toBe('none');
    expect(await library.entry('one')).toBeNull();
  });

  it('is taken from the save before where the newest cannot be read', () => {
    const good = kept();
    expect(judgeAll(HERON, [{ ...good, format: 2 }, good]).kind).toBe('resumed');
    expect(judgeAll(HERON, [{ ...good, format: 2 }, 7]).kind).toBe('damaged');
    expect(judgeAll(HERON, []).kind).toBe('none');
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
    const library = new Library({ locks: null });
    expect(await library.list()).toEqual([]);
    expect(library.trouble).toBe('blocked');
    expect(await library.keep(kept(), about('two'))).toBe('blocked');
    expect(await library.claim('two')).toBe('mine');
  });

  it('is named full when there is no room, and good again when there is', async () => {
    const library = new Library({ locks: null });
    const full = vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(() => {
      throw new DOMException('no room', 'QuotaExceededError');
    });
    expect(await library.keep(kept(), about('three'))).toBe('full');
    expect(library.trouble).toBe('full');
    full.mockRestore();
    expect(await library.keep(kept(), about('three'))).toBe('kept');
    expect(library.trouble).toBeNull();
  });
});

describe('the file name', () => {
  it('says the job and the time', () => {
    const name = fileName('heron_lane', new Date(Date.UTC(2026, 10, 25, 12, 40)));
    expect(name).toBe('loopyard-heron-lane-2026-11-25-1240.json');
  });
});
