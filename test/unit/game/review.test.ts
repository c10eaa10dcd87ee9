// A debrief with the real engine below: the record run again, the charts of it, the way back to a
// moment, and on from there as a branch.
import 'fake-indexeddb/auto';
import { afterEach, describe, expect, it } from 'vitest';
import { isKeptShape } from '../../../game/attempts/entry.ts';
import { judgeAll } from '../../../game/attempts/resume.ts';
import { lexicon } from '../../../game/i18n/index.ts';
import { lookAgain, lookAway, sessionAt, tryFromHere } from '../../../game/review/back.ts';
import { chartsOf, tableOf } from '../../../game/review/charts.ts';
import { drive, type Told } from '../../../game/review/drive.ts';
import type { Captured, Rerun } from '../../../game/review/rerun.ts';
import { Session } from '../../../game/session.ts';
import { keptOf } from '../../../game/verify/kept.ts';
import { verify } from '../../../game/verify/verify.ts';
import {
  attemptFaults, parseScenario, parseScript, replay, runScript, type RunRecord,
} from '../../../sim/index.ts';
import solution from '../../../levels/01-heron-lane/solution.script.json' with { type: 'json' };
import { entered, HERON, playerAt, settled, type Bench } from '../../support/player.ts';

afterEach(settled);

const { scenario } = HERON;
const TICKS = 1 / scenario.solver.tick_s; // In a second.
const VALVES = [
  'suction_valve', 'discharge_valve', 'return_valve', 'loop_supply_valve', 'loop_return_valve',
];

/** Fills for a minute with everything open, then hands over. */
function worked(seed = 1, level = HERON): Session {
  const session = Session.start(level, 'practise', seed);
  for (const valve of VALVES) session.act({ kind: 'valve', valve, target_deg: 90 });
  for (let k = 0; k < 15 * TICKS; k++) session.advance();
  session.act({ kind: 'switch', pump: 'pump', on: true });
  for (let k = 0; k < 50 * TICKS; k++) session.advance();
  session.act({ kind: 'done' });
  session.advance();
  return session;
}

interface Again {
  readonly captured: ReadonlyMap<number, Captured>;
  readonly rerun: Rerun;
  readonly shares: readonly number[];
}

function runAgain(record: RunRecord, wanted: readonly number[], form = scenario): Again {
  const told: Told[] = [];
  const work = record.end_tick;
  const step = drive({ scenario: form, record, wanted, work }, (one) => told.push(one));
  while (step(5));
  const last = told.at(-1)!;
  if (last.kind !== 'end') throw new Error('it did not end');
  const on = told.flatMap((one) => (one.kind === 'on' ? [one] : []));
  const captured = new Map(on.flatMap((one) => one.captured.map((c) => [c.tick, c] as const)));
  return { captured, rerun: last.rerun, shares: on.map(({ share }) => share) };
}

/** Half a minute after the start, and two seconds. */
const [THEN, SOON] = [30 * TICKS, 2 * TICKS];

describe('a record that is run again', () => {
  const session = worked();
  const end = session.record().end_tick;
  const { captured, rerun, shares } = runAgain(session.record(), [THEN, SOON, end]);

  it('proves itself by its hashes, and ends where the record does', () => {
    expect(rerun.same).toBe(true);
    expect(rerun.rows[0]!.tick).toBe(0);
    expect(rerun.rows.at(-1)!.tick).toBe(end);
    expect([...shares].sort((a, b) => a - b)).toEqual(shares);
    const done = session.facts.find((fact) => fact.kind === 'done');
    if (done?.kind !== 'done') throw new Error('not done');
    const { air, spilled, wasted } = rerun.rows.at(-1)!;
    expect(air).toBeCloseTo(done.measures.loop_air_m3, 9);
    expect(spilled).toBeCloseTo(done.measures.spilled_m3, 12);
    expect(wasted).toBeCloseTo(done.measures.wasted_m3, 12);
  });

  it('counts what a leak that nobody sees has lost, as the marks do', () => {
    const { ranges: _in_one_form, ...written } = scenario;
    const leak = { id: 'drip', kind: 'leak', at: 'pump_out', share: 1 };
    const json = { ...written, defects: [{ ...leak, bore_mm: 6, goes_to: 'ground' }] };
    const leaky = worked(1, { ...HERON, scenario: parseScenario(json) });
    const done = leaky.facts.find((fact) => fact.kind === 'done');
    if (done?.kind !== 'done') throw new Error('not done');
    expect(done.measures.spilled_m3).toBeGreaterThan(1e-3);
    const { rows } = runAgain(leaky.record(), [], leaky.level.scenario).rerun;
    expect(rows.at(-1)!.spilled).toBeCloseTo(done.measures.spilled_m3, 12);
  });

  it('says so where the record was changed', () => {
    const record = session.record();
    const commands = record.commands.filter(([, { kind }]) => kind !== 'switch');
    expect(runAgain({ ...record, commands }, []).rerun.same).toBe(false);
  });

  it('stops at every tick that was asked for, with a state a little before it', () => {
    expect([...captured.keys()].sort((a, b) => a - b)).toEqual([SOON, THEN, end]);
    for (const { tick, before, readings } of captured.values()) {
      expect(before.tick).toBeLessThanOrEqual(Math.max(0, tick - 5 * TICKS));
      expect(before.tick).toBeGreaterThanOrEqual(tick - 25 * TICKS);
      expect(readings.map(({ id }) => id)).toContain('flow_meter');
    }
  });

  it('goes on from there to the very same end', () => {
    const again = sessionAt(session, captured.get(THEN)!.before);
    expect(again.repeats).toBe(true);
    again.act({ kind: 'switch', pump: 'pump', on: false }); // Nothing comes of it.
    expect(again.waiting).toEqual([]);
    while (!again.over) again.advance();
    expect(again.record()).toEqual(session.record());
    expect(again.facts).toEqual(session.facts);
  });

  it('does all that on a form that a seed has drawn as well', () => {
    const drawn = worked(7);
    expect(drawn.level.scenario).not.toEqual(session.level.scenario);
    const again = runAgain(drawn.record(), [THEN], drawn.level.scenario);
    expect(again.rerun.same).toBe(true);
    const back = sessionAt(drawn, again.captured.get(THEN)!.before);
    while (!back.over) back.advance();
    expect(back.record()).toEqual(drawn.record());
  });

  it('makes a chart of each thing, with a sentence without gaps', () => {
    const charts = chartsOf({ rerun, scenario, lex: lexicon(HERON.words) });
    expect(charts.map(({ id }) => id)).toEqual([
      'charts.flow', 'charts.speed', 'charts.air', 'charts.level', 'charts.pressure', 'charts.loss',
    ]);
    for (const { lines, says, name } of charts) {
      expect(says).not.toMatch(/[{}]|undefined|NaN|Infinity/);
      expect(name).toMatch(/^[A-Z].*, \S+$/);
      for (const { values } of lines) expect(values).toHaveLength(rerun.rows.length);
    }
    expect(charts[2]!.says).toMatch(/did not stay below/);
    const [flow] = charts;
    expect(Math.max(...flow!.lines[0]!.values)).toBeGreaterThan(20); // L/min.
  });

  it('makes a table with a row for each moment', () => {
    const row = captured.get(THEN)!.row;
    const table = tableOf({ rerun, scenario, lex: lexicon(HERON.words) }, [['Moment 1', row]]);
    expect(table.rows.map(([name]) => name)).toEqual(['Start', 'Moment 1', 'End']);
    for (const cells of table.rows) expect(cells).toHaveLength(table.columns.length + 1);
    expect(table.rows[0]![1]).toBe('00:00:00');
  });
});

describe('a job that was purged', () => {
  const script = parseScript(solution, scenario);
  const { record } = runScript(scenario, script);
  const { rerun } = runAgain(record, []);
  const allowed = scenario.job!.air_allowed_L / 1000;

  it('tells from when on the loop had no more air than the job allows', () => {
    const { purged, rows, loss } = rerun;
    const after = rows.filter(({ tick }) => tick >= purged!.tick);
    expect(after.length).toBeGreaterThan(1);
    expect(Math.max(...after.map(({ air }) => air))).toBeLessThanOrEqual(allowed);
    const before = rows[rows.length - after.length - 1]!;
    expect(before.air).toBeGreaterThan(allowed);
    expect(purged!.row.air).toBe(after[0]!.air);
    expect(purged!.before.tick).toBeLessThanOrEqual(purged!.tick - 5 * TICKS);
    expect(loss).toBeNull(); // Nothing ran over or out.
  });

  it('says for how long the rule velocity was kept, by its rows', () => {
    const { rows, fast_s } = rerun;
    const rule = scenario.job!.rule_velocity_m_s;
    const sum = rows.reduce((all, { fastest, tick }, k) =>
      all + (k > 0 && fastest >= rule ? tick - rows[k - 1]!.tick : 0), 0);
    expect(fast_s[0]).toBeCloseTo(sum / TICKS, 6); // One circuit: the fastest is the only one.
    expect(fast_s[0]).toBeGreaterThan(300);
  });

  it('is drawn with its limit in sight, and says since when', () => {
    const [, speed, air] = chartsOf({ rerun, scenario, lex: lexicon(HERON.words) });
    expect(air!.says).toMatch(/It stayed below that from 00:0\d:\d\d on\./);
    expect(air!.tenfold).toBe(true);
    expect(Math.min(...air!.lines[0]!.values)).toBeGreaterThan(0); // It has a logarithm.
    expect(speed!.limit?.value).toBe(scenario.job!.rule_velocity_m_s);
  });
});

/** A bench whose job was worked at and handed over, and a moment of it. */
function handedOver(mode: 'learn' | 'practise' | 'assess'): Bench & { captured: Captured } {
  const bench = entered({ mode });
  const { play, pass } = bench;
  for (const valve of VALVES) play.act({ kind: 'valve', valve, target_deg: 90 });
  pass(45);
  play.handOver();
  const { captured } = runAgain(play.session.record(), [THEN]);
  return { ...bench, captured: captured.get(THEN)! };
}

describe('after the hand-over', () => {
  it('one rates oneself before the marks, and the rating is kept and in the file', async () => {
    const { play, library, keeper } = handedOver('learn');
    expect(play.rating.value).toBe(true);
    play.rate({ steps: { outcome: 2 }, sign: false });
    expect(play.rating.value).toBe(false);
    await library.settled();
    const kept = (await library.saves(keeper.id)).find(isKeptShape);
    expect(kept?.rating).toEqual({ steps: { outcome: 2 }, sign: false });
    expect(play.place.trouble.value).toBeNull();
    const entry = (await library.entry(keeper.id))!;
    const found = judgeAll(HERON, await library.saves(entry.id));
    if (found.kind !== 'resumed') throw new Error(found.kind);
    const { play: later } = playerAt({ library, entry });
    later.takeUp(found.session, found.kept);
    expect(later.rating.value).toBe(false); // It is asked once.
    expect(later.place.rated).toEqual({ steps: { outcome: 2 }, sign: false });
    const file = JSON.parse(JSON.stringify(play.file())) as Record<string, unknown>;
    expect(attemptFaults(file)).toEqual([]);
    const checked = verify('a', JSON.stringify(file));
    expect(checked.report.verdict).toBe('replays');
    expect(keptOf(checked)?.rating).toEqual({ steps: { outcome: 2 }, sign: false });
  });

  it('files from before, without rating or branch, stay readable; wrong ones are refused', () => {
    const { play } = handedOver('learn');
    const { rating: _rating, branch: _branch, ...old } =
      JSON.parse(JSON.stringify(play.file())) as Record<string, unknown>;
    expect(attemptFaults(old)).toEqual([]);
    const wrong = { ...old, rating: { steps: { outcome: 9 }, sign: null } };
    expect(attemptFaults(wrong).map(({ path }) => path)).toEqual(['rating.steps.outcome']);
  });

  it('one looks at the yard of a moment, where nothing one does counts', () => {
    const { play, captured, pass } = handedOver('assess');
    const before = play.session.record();
    lookAgain(play, { captured, title: 'that', asker: 'lost-0' });
    const { play: looking } = play.back.value!;
    expect(looking.seen.value.tick).toBe(captured.before.tick);
    expect(looking.session.mayLook).toBe(true); // It is over: the truth may be seen.
    looking.act({ kind: 'switch', pump: 'pump', on: true });
    for (let k = 0; k < 6 * TICKS; k++) looking.session.advance();
    expect(looking.session.record().commands).toEqual(before.commands.filter(([tick]) =>
      tick < looking.session.snapshot().tick));
    pass(1);
    lookAway(play);
    expect(play.back.value).toBeNull();
    expect(play.session.record()).toEqual(before);
  });

  it('one goes on from there as a branch: it replays, says so, is not the best', async () => {
    const { play, captured, library, keeper, store } = handedOver('practise');
    play.rate(null);
    await library.settled();
    const first = keeper.id;
    lookAgain(play, { captured, title: 'that', asker: 'lost-0' });
    tryFromHere(play);
    expect(play.view.value).toBe('yard');
    expect(keeper.id).not.toBe(first);
    const { tick } = captured.before;
    expect(play.session.snapshot().tick).toBe(tick);
    expect(play.session.mode).toBe('practise');
    const best = await store.best(HERON.id);
    play.act({ kind: 'valve', valve: 'fill_valve', target_deg: 90 });
    play.handOver();
    play.rate(null);
    const file = play.file();
    expect(file.branch).toEqual({ of: first, tick });
    expect(attemptFaults(JSON.parse(JSON.stringify(file)))).toEqual([]);
    const again = replay(scenario, file.record);
    expect(again.divergedAt).toBeNull();
    expect(again.facts).toEqual(file.facts);
    await library.settled();
    expect(await store.best(HERON.id)).toEqual(best);
    expect((await library.entry(keeper.id))?.branch).toEqual({ of: first, tick });
  });

  it('an assessment has no way on from its middle', () => {
    const { play, captured } = handedOver('assess');
    lookAgain(play, { captured, title: 'that', asker: 'lost-0' });
    const { session } = play;
    play.branch(play.back.value!.play.session);
    expect(play.session).toBe(session);
    expect(play.view.value).toBe('debrief');
    lookAway(play);
  });
});
