// What is typed on a job sheet and not yet written down: it is there again after a reload, before
// the yard and in it, whichever of the two storages answered in time.
import 'fake-indexeddb/auto';
import { afterEach, describe, expect, it } from 'vitest';
import { draftKey, isDraft, Jotted, type Draft } from '../../../game/attempts/draft.ts';
import { Library } from '../../../game/attempts/library.ts';
import { openingOf, type Wish } from '../../../game/attempts/open.ts';
import type { SmallStorage } from '../../../game/attempts/small.ts';
import { draftOf, isOpen, keepTyped, writeSheet } from '../../../game/jobsheet-draft.ts';
import type { Play } from '../../../game/play.ts';
import { Store } from '../../../game/records/store.ts';
import type { Ticket } from '../../../game/assign/ticket.ts';
import { ENGINE, scenarioHash } from '../../../sim/index.ts';
import { LEVELS } from '../../../levels/index.ts';
import { playerAt, settled, type Bench } from '../../support/player.ts';

let job = 0;
/** A job of its own for each test: they share one database. */
function levelOf() {
  const id = `draft_${(job += 1)}`;
  return { ...LEVELS[0]!, id, scenario: { ...LEVELS[0]!.scenario, id } };
}
type Level = ReturnType<typeof levelOf>;

afterEach(settled);

/** As the form does at every key. */
function type(play: Play, typed: Readonly<Record<string, string>>): void {
  for (const { field, typed: text } of draftOf(play).entries) {
    text.value = typed[field.id] ?? text.value;
  }
  keepTyped(play);
}

const typedIn = (play: Play) =>
  Object.fromEntries(Object.entries(draftOf(play).typed).filter(([, text]) => text !== ''));

/** The page as it opens, after a reload or the first time. */
async function opened(level: Level, of: Partial<Wish> = {}, small?: SmallStorage): Promise<Bench> {
  const library = new Library({ locks: null, small: small ?? null });
  const wish: Wish = { level, mode: 'learn', seed: 1, taken: null, entry: null, ...of };
  const opening = await openingOf(library, new Store(), wish, true);
  if (opening.kind !== 'here') throw new Error(opening.kind);
  const { mode, seed, draft, found, keeper } = opening;
  const entry = found.kind === 'resumed' ? await library.entry(keeper.id) : null;
  const { assigned } = keeper;
  const bench = playerAt({
    ...{ library, level, mode, seed, draft }, ...(entry === null ? {} : { entry }),
    ...(assigned === null ? {} : { assigned }),
  });
  if (found.kind === 'resumed') bench.play.takeUp(found.session, found.kept);
  return bench;
}

const lines = (level: Level) => level.scenario.job!.sheet!.lines.map(({ id }) => id);

describe('what is typed before the yard', () => {
  it('comes back with the mode and the form, whether it can be read or not', async () => {
    const level = levelOf();
    const [a, b] = lines(level) as [string, string];
    const first = await opened(level);
    first.play.choose('practise', 7);
    type(first.play, { [a]: 'much', [b]: '0,36' });
    await first.library.settled();
    const { play } = await opened(level);
    const { mode, seed } = play.session;
    expect([mode, seed, play.view.value]).toEqual(['practise', 7, 'front']);
    expect(typedIn(play)).toEqual({ [a]: 'much', [b]: '0,36' });
    const other = await opened(level, { seed: 5, bound: true }); // Another form was asked for.
    expect(other.play.session.seed).toBe(5);
    expect(typedIn(other.play)).toEqual({});
  });

  it('at an assignment is kept apart, for each attempt at it', async () => {
    const level = levelOf();
    const [a] = lines(level) as [string];
    const ticket: Ticket = {
      format: 1, kind: 'assignment', id: `ticket_${level.id}`, name: 'Week 3', job: level.id,
      phase: null, mode: 'assess', seed: null, attempts: 2,
      scenario_hash: scenarioHash(level.scenario), engine: ENGINE,
    };
    const taken = { ticket, label: 'Ann B.', begun: 0 };
    const first = await opened(level, { taken });
    type(first.play, { [a]: '0.4' });
    await first.library.settled();
    expect(typedIn((await opened(level, { taken })).play)).toEqual({ [a]: '0.4' });
    expect(typedIn((await opened(level, { taken: { ...taken, begun: 1 } })).play)).toEqual({});
    const free = await opened(level);
    expect([free.play.session.mode, typedIn(free.play)]).toEqual(['learn', {}]);
  });

  it('is written down on the way to work; the next first page is empty', async () => {
    const level = levelOf();
    const [a] = lines(level) as [string];
    const first = await opened(level);
    type(first.play, { [a]: '0.4' });
    expect(writeSheet(first.play)).toBe(true);
    first.play.enter();
    first.play.ready();
    first.pass(1);
    await first.library.settled();
    const back = await opened(level);
    expect(back.play.view.value).toBe('yard');
    expect(typedIn(back.play)).toEqual({ [a]: '0.4' });
    first.keeper.leave();
    back.keeper.leave();
    await back.library.settled();
    expect(await back.library.drop(back.keeper.id)).toBe('dropped');
    const after = await opened(level);
    expect([after.play.view.value, typedIn(after.play)]).toEqual(['front', {}]);
  });
});

describe('what is typed in the yard', () => {
  it('comes back until a hand is at work, and what was written stands from then on', async () => {
    const level = levelOf();
    const [a, b] = lines(level) as [string, string];
    const first = await opened(level);
    first.play.enter();
    first.play.ready();
    first.pass(0.6);
    await first.library.settled();
    await first.library.settled();
    type(first.play, { [a]: '0.4', [b]: 'much' });
    await first.library.settled();
    const back = await opened(level);
    expect(isOpen(back.play)).toBe(true);
    expect(typedIn(back.play)).toEqual({ [a]: '0.4', [b]: 'much' });
    back.play.act({ kind: 'valve', valve: 'suction_valve', target_deg: 90 });
    back.play.setSpeed(1);
    back.pass(1);
    await back.library.settled();
    const closed = await opened(level);
    expect(isOpen(closed.play)).toBe(false);
    expect(typedIn(closed.play)).toEqual({});
  });
});

describe('the small storage', () => {
  const storage = () => {
    const kept = new Map<string, string>();
    const small: SmallStorage = {
      getItem: (key) => kept.get(key) ?? null,
      setItem: (key, text) => { kept.set(key, text); },
      removeItem: (key) => { kept.delete(key); },
    };
    return { kept, small };
  };

  it('has what the large one has not yet answered for, and nothing after that', async () => {
    const level = levelOf();
    const [a] = lines(level) as [string];
    const { kept, small } = storage();
    const first = await opened(level, {}, small);
    type(first.play, { [a]: '0.3' });
    await first.library.settled();
    await first.library.settled();
    expect([...kept.keys()]).toEqual([]);
    // Killed before the large storage answers: only what was jotted down is left.
    const jotted = new Jotted(small);
    type(first.play, { [a]: '0.35' });
    const last = jotted.read(draftKey(level.id, null));
    await first.library.settled();
    const key = draftKey(level.id, null);
    jotted.write(key, { ...last!, count: last!.count + 1, typed: { [a]: '9' } });
    expect(typedIn((await opened(level, {}, small)).play)).toEqual({ [a]: '9' });
    jotted.write(key, { ...last!, count: 0, typed: { [a]: '1' } });
    expect(typedIn((await opened(level, {}, small)).play)).toEqual({ [a]: '0.35' });
  });

  it('with rubbish in it is passed over', () => {
    const { kept, small } = storage();
    const good: Draft = {
      format: 1, count: 1, attempt: null, mode: 'learn', seed: 1, typed: { a: null, b: 'x' },
    };
    expect(isDraft(good)).toBe(true);
    for (const bad of [null, 7, {}, { ...good, mode: 'x' }, { ...good, typed: { a: 3 } }]) {
      kept.set('loopyard-draft-k', JSON.stringify(bad));
      expect(new Jotted(small).read('k')).toBeNull();
    }
    kept.set('loopyard-draft-k', '{');
    expect(new Jotted(small).read('k')).toBeNull();
  });
});
