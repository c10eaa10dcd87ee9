// An assessment: what the page is told of a whole job from the first tick to the hand-over, and
// what it may do with the clock.
import 'fake-indexeddb/auto';
import { afterEach, describe, expect, it } from 'vitest';
import { entered, HERON, playerAt, settled, type Bench } from '../../support/player.ts';
import { Watch } from '../../../game/pace.ts';
import { MODES, Session, toldOf, type Mode } from '../../../game/session.ts';
import {
  advance, snapshot, startRun, truth, xray, type Command, type Fact, type Snapshot,
} from '../../../sim/index.ts';

afterEach(settled);

const valve = (id: string, target_deg: number): Command =>
  ({ kind: 'valve', valve: id, target_deg });
const pump = (on: boolean): Command => ({ kind: 'switch', pump: 'pump', on });
/** A job done badly, so that there is something to be told: the pump runs dry, water runs over. */
const BADLY: readonly (readonly [tick: number, command: Command])[] = [
  [5, pump(true)], [150, pump(false)], [160, valve('fill_valve', 90)],
  [165, valve('suction_valve', 90)], [170, valve('return_valve', 90)],
  [175, valve('loop_supply_valve', 90)], [180, valve('loop_return_valve', 90)],
  [185, valve('discharge_valve', 90)], [600, pump(true)],
];
const END = 900;

/** Every key anywhere inside a value, and under which keys it lies. */
function keysIn(value: unknown, into: Set<string>): Set<string> {
  if (Array.isArray(value) || value instanceof Map || value instanceof Set) {
    for (const one of value) keysIn(one, into);
  } else if (typeof value === 'object' && value !== null) {
    for (const [key, inside] of Object.entries(value)) {
      into.add(key);
      keysIn(inside, into);
    }
  }
  return into;
}

/** What the lenses of inside and truth hold that the panel and the scene do not. */
function secretKeys(): ReadonlySet<string> {
  const run = startRun(HERON.scenario, 1);
  for (let k = 0; k < 50; k++) advance(run, []);
  const shown = keysIn(snapshot(run.world), new Set());
  const ids = new Set([...HERON.scenario.nodes, ...HERON.scenario.links].map(({ id }) => id));
  const secret = keysIn([xray(run.world), truth(run.world)], new Set(['measures', 'limit']));
  return new Set([...secret].filter((key) => !shown.has(key) && !ids.has(key) && key !== 'tick'));
}

interface Heard { readonly name: string; readonly value: unknown }

/**
 * The session with everything it hands out noted. Not noted: `level`, the job's file, which the
 * page has anyway; `save` and `tail`, which go to the storage of the device as bytes and commands;
 * the rest after the hand-over, when everything may be known.
 */
function overheard(session: Session, heard: (one: Heard) => void): Session {
  const silent = new Set(['level', 'save', 'tail', 'over', 'run']);
  return new Proxy(session, {
    get(target, name) {
      const value: unknown = Reflect.get(target, name, target);
      const note = (found: unknown): unknown => {
        if (!silent.has(String(name)) && !target.over) heard({ name: String(name), value: found });
        return found;
      };
      if (typeof value !== 'function') return note(value);
      return (...args: unknown[]) => note((value as (...all: unknown[]) => unknown)
        .apply(target, args));
    },
  });
}

/** A whole job through the page, from the first tick to the hand-over. */
function playThrough({ play, pass }: Bench): void {
  const left = [...BADLY];
  for (let tick = 0; tick < END; tick = play.session.snapshot().tick) {
    while ((left[0]?.[0] ?? Infinity) <= tick) play.act(left.shift()![1]);
    play.look(tick % 100 === 0);
    if (tick % 500 === 0) {
      const { session } = play; // What the page may ask at any time, it is asked for.
      play.file();
      for (const of of [session.told, session.facts, session.record(), session.score()]) void of;
    }
    play.setSpeed(1); // One tick each time, also while hands are at a control.
    pass(0.2);
  }
  play.handOver();
}

function told(mode: Mode, change: (session: Session) => Session = (one) => one) {
  const secret = secretKeys();
  const leaks = new Set<string>();
  const names = new Set<string>();
  let messages = 0;
  const bench = playerAt({ mode });
  bench.play.session = overheard(change(bench.play.session), ({ name, value }) => {
    messages += 1;
    names.add(name);
    for (const key of keysIn(value, new Set())) if (secret.has(key)) leaks.add(`${name}: ${key}`);
  });
  const drawn = { draw: () => {}, setHot: () => {}, resize: () => {}, destroy: () => {} };
  bench.play.yard = drawn; // What it is handed comes from the session, by `snapshot` and `xray`.
  bench.play.enter();
  bench.play.ready();
  playThrough(bench);
  return { bench, leaks, names, messages };
}

describe('what the page is told in an assessment', () => {
  it('is panel and scene alone, from the first tick of a job to its hand-over', () => {
    const { bench, leaks, names, messages } = told('assess');
    expect(bench.play.view.value).toBe('debrief');
    expect(messages).toBeGreaterThan(6000);
    for (const name of ['snapshot', 'advance', 'xray', 'told', 'facts', 'score', 'record']) {
      expect([...names], name).toContain(name);
    }
    expect([...leaks]).toEqual([]);
    // Afterwards everything may be known, and the debrief needs it.
    const kinds = new Set(bench.play.session.facts.map((fact) =>
      fact.kind === 'hazard' ? `${fact.hazard} ${fact.stage}` : fact.kind));
    for (const kind of ['done', 'dry_run warning', 'event']) {
      expect([...kinds]).toContain(kind);
    }
    expect(bench.play.score.value?.finished).toBe(true);
    expect(Object.keys(bench.play.session.snapshot()).sort())
      .toEqual(['panel', 'scene', 'tick', 'time_s']);
  });

  it('would be found out: the same ears hear the inside of the pipes where it is let out', () => {
    const secret = secretKeys();
    expect(secret.size).toBeGreaterThan(10);
    const heard = new Set<string>();
    const session = overheard(Session.start(HERON, 'practise', 1), ({ value }) => {
      for (const key of keysIn(value, new Set())) if (secret.has(key)) heard.add(key);
    });
    session.look(true);
    session.xray();
    expect([...heard]).toContain('dissolved');
  });

  it('of a fact is what can be seen or heard, never the measured truth', () => {
    const facts: Fact[] = [
      {
        tick: 1, kind: 'hazard', hazard: 'dry_run', at: 'pump', stage: 'warning', value: 1,
        limit: 2,
      },
      { tick: 2, kind: 'beyond', limit: 'bore', value: 3 },
      { tick: 3, kind: 'event', event: 'primed', at: 'pump' },
    ];
    expect(facts.map(toldOf)).toEqual([
      { tick: 1, kind: 'hazard', hazard: 'dry_run', at: 'pump', stage: 'warning' },
      null,
      facts[2],
    ]);
  });
});

describe('the clock of an assessment', () => {
  it('has no freeze and no more than twenty times real time', () => {
    const { play, pass } = entered({ mode: 'assess' });
    expect(play.speeds).toEqual([1, 5, 20]);
    for (const speed of [0, 0.25, 60] as const) play.setSpeed(speed);
    expect(play.speed.value).toBe(1);
    const { tick } = play.session.snapshot();
    pass(1);
    expect(play.session.snapshot().tick).toBeGreaterThan(tick + 4);
    expect(MODES.filter((mode) => playerAt({ mode }).play.speeds.includes(0)))
      .toEqual(['learn', 'practise']);
  });

  it('comes back to real time while hands are at a control, and at a critical error too', () => {
    const { play, pass } = entered({ mode: 'assess' });
    play.setSpeed(20);
    pass(1);
    expect(play.speed.value).toBe(20);
    play.act({ kind: 'switch', pump: 'pump', on: true });
    expect(play.speed.value).toBe(1);
    pass(0.4);
    play.setSpeed(20);
    pass(0.1);
    expect(play.speed.value, 'hands are still at it').toBe(1);
    for (let k = 0; k < 400 && play.seen.value.time_s < 60; k++) {
      play.setSpeed(20);
      pass(0.5);
    }
    const ruined = play.session.told.some((fact) =>
      fact.kind === 'hazard' && fact.hazard === 'dry_run' && fact.stage === 'tripped');
    expect(ruined).toBe(true);
    const tones = new Set(play.captions.value.map(({ tone }) => tone));
    expect(tones).toContain('warning');
    expect(tones).not.toContain('critical'); // That it fails the job, the end tells,
    expect(play.speed.value).toBeGreaterThan(0); // and nothing was frozen to be looked at.
  });

  it('is slowed by what changes after it had stood, not by what flickers', () => {
    const watch = new Watch();
    const at = (time_s: number, value: 'clear' | 'bubbles'): Snapshot => ({
      tick: 0, time_s,
      panel: { readings: [{ id: 's', kind: 'sight', value, moving: 0, grit: 'none' }] },
      scene: { tanks: [], outlets: [] },
    }) as unknown as Snapshot;
    expect(watch.news(at(0, 'clear'))).toBe(false);
    expect(watch.news(at(40, 'clear'))).toBe(false);
    expect(watch.news(at(41, 'bubbles'))).toBe(true);
    expect(watch.news(at(43, 'clear'))).toBe(false);
    expect(watch.news(at(90, 'bubbles'))).toBe(true);
  });

  it('notes where the page was away, and a look inside in practice', () => {
    const { play, pass } = entered({ mode: 'assess' });
    pass(1);
    play.setShown(false);
    pass(61);
    play.setShown(true);
    const { tick } = play.session.snapshot();
    expect(play.file().away).toEqual([[tick, 61]]);
    const other = entered({ mode: 'practise' });
    other.pass(1);
    const looked = other.play.session.snapshot().tick;
    other.play.look(true);
    other.play.look(true);
    expect(other.play.session.xray()).not.toBeNull();
    expect(other.play.file().looks).toEqual([looked]);
    expect(Session.resume(HERON, 'practise', other.play.session.save()).looks).toEqual([looked]);
  });
});
