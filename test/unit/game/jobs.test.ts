// The list of jobs: the best marks kept, the addresses, what is read off a site, and the storage.
import 'fake-indexeddb/auto';
import { openDB } from 'idb';
import { describe, expect, it } from 'vitest';
import { circuitsOf, span } from '../../../game/circuits.ts';
import { jobAddress, jobOf, listAddress, nextJob } from '../../../game/jobs.ts';
import { betterOf, readBest, type Best } from '../../../game/records/best.ts';
import { entryOf } from '../../../game/attempts/entry.ts';
import { Library } from '../../../game/attempts/library.ts';
import { placeOf } from '../../../game/attempts/resume.ts';
import { Store } from '../../../game/records/store.ts';
import { LEVELS, levelById } from '../../../levels/index.ts';
import { entered, HERON, settled } from '../../support/player.ts';

const marks = (change: Partial<Best> = {}): Best => ({
  format: 1, points: 70, passed: false, time_s: 900, engine: 'x', scenario_hash: 'y', ...change,
});

describe('the best marks', () => {
  it('are those passed, then those with more points, then those in less time', () => {
    const old = marks();
    expect(betterOf(null, old)).toBe(old);
    const better = [marks({ passed: true, points: 60 }), marks({ points: 71 }),
      marks({ time_s: 800 })];
    for (const one of better) expect(betterOf(old, one)).toBe(one);
    const worse = [marks({ points: 69 }), marks({ time_s: 1000 })];
    for (const one of worse) expect(betterOf(old, one)).toBe(old);
    const passed = marks({ passed: true, points: 60 });
    expect(betterOf(passed, marks({ points: 99 }))).toBe(passed);
  });

  it('of another form of the job give way to fresh ones', () => {
    const fresh = marks({ scenario_hash: 'z', points: 10 });
    expect(betterOf(marks({ points: 100, passed: true }), fresh)).toBe(fresh);
    expect(betterOf(marks({ engine: 'w', points: 100 }), fresh)).toBe(fresh);
  });

  it('that cannot be read are none', () => {
    const bad = [null, 7, 'x', {}, { ...marks(), format: 2 }, { ...marks(), points: NaN },
      { ...marks(), passed: 1 }, { ...marks(), engine: undefined }];
    for (const json of bad) expect(readBest(json), JSON.stringify(json)).toBeNull();
    expect(readBest(marks())).toEqual(marks());
  });

  it('stay kept beside the attempt, and a worse attempt does not take their place', async () => {
    const store = new Store();
    await store.keepBest('job', marks());
    await store.keepBest('job', marks({ points: 50 }));
    expect(await new Store().best('job')).toEqual(marks());
    expect(await store.best('another job')).toBeNull();
  });

  it('are kept when a job is handed over', async () => {
    const { play, store } = entered();
    play.handOver();
    await settled();
    const best = await store.best(HERON.id);
    expect(best).toMatchObject({ passed: false, points: play.score.value?.total });
  });
});

describe('the storage', () => {
  it('of an earlier version of the page keeps its attempts and gets room for marks', async () => {
    indexedDB.deleteDatabase('loopyard');
    const old = await openDB('loopyard', 1, {
      upgrade(db) { db.createObjectStore('attempts'); },
    });
    await old.put('attempts', 'something', 'job');
    old.close();
    const store = new Store();
    await store.keepBest('job', marks());
    const library = new Library({ locks: null });
    const [entry] = await library.list();
    expect(entry).toMatchObject({ job: 'job', finished: false });
    expect(await library.saves(entry?.id ?? '')).toEqual(['something']);
    expect(await store.best('job')).toEqual(marks());
  });
});

describe('where an attempt stands', () => {
  it('is the place on its clock, as long as it is not handed over', () => {
    const { play, pass } = entered();
    play.setSpeed(5);
    pass(2);
    const lease = { slot: 0, owner: null, lease_until: 0 } as const;
    const about = { id: 'x', assigned: null, imported: false, marks: null };
    const keep = () => entryOf({
      format: 1, mode: 'learn', saved: play.session.save(), speed: 5, began: '2026-01-02',
    }, about, lease);
    const { time_s } = play.session.snapshot();
    expect(time_s).toBeGreaterThan(5);
    expect(placeOf(HERON, keep())).toBeCloseTo(time_s, 9);
    expect(placeOf(LEVELS[1] ?? HERON, keep())).toBeNull(); // The place of another job.
    play.handOver();
    expect(placeOf(HERON, keep())).toBeNull();
    expect(placeOf(HERON, null)).toBeNull();
  });
});

describe('addresses', () => {
  it('name the job, keep what concerns the drawing, and drop the rest', () => {
    expect(jobAddress('heron_lane', '?aa=0&seed=7&job=other&pictures=1'))
      .toBe('./?aa=0&pictures=1&job=heron-lane');
    expect(jobAddress('heron_lane', '')).toBe('./?job=heron-lane');
    expect(listAddress('?job=heron-lane')).toBe('./');
    expect(jobOf('heron-lane')?.id).toBe('heron_lane');
    expect(jobOf('nowhere')).toBeNull();
  });

  it('lead from each job to the one after it, and from the last to none', () => {
    const ids = LEVELS.map(({ id }) => id);
    expect(ids.map((id) => nextJob(id)?.id ?? null)).toEqual([...ids.slice(1), null]);
  });
});

describe('circuits read off a site', () => {
  const scenarioOf = (id: string) => {
    const level = levelById(id);
    if (level === null) throw new Error(`no job ${id}`);
    return level.scenario;
  };

  it('are the long pipes of the loop, without headers and runs', () => {
    const heron = circuitsOf(HERON.scenario);
    expect(heron).toHaveLength(1);
    expect(heron[0]).toMatchObject({ length_m: 186, steep: false });
    const sedge = circuitsOf(scenarioOf('sedge_meadow'));
    expect(sedge).toHaveLength(4);
    expect(sedge.every(({ steep }) => !steep)).toBe(true);
    const kestrel = circuitsOf(scenarioOf('kestrel_yard'));
    expect(kestrel).toHaveLength(6);
    expect(kestrel.every(({ steep }) => steep)).toBe(true);
    expect(circuitsOf(scenarioOf('lapwing_school'))).toHaveLength(12); // Not the banks' runs.
  });

  it('have the smallest and the largest of their lengths named', () => {
    expect(span([3, 1, 2])).toEqual([1, 3]);
    expect(span([])).toBeNull();
  });
});
