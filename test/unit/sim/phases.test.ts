// A drill is a merge patch on its job; a script is cut at the markers of its phases.
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { drillOf, drillScript, phasesOf } from '../../../sim/phases.ts';
import { parseScenario } from '../../../sim/scenario.ts';
import { parseScript, scriptFaults } from '../../../sim/script-schema.ts';
import { runScript } from '../../../sim/script.ts';

const file = new URL('../../../levels/01-heron-lane/scenario.json', import.meta.url);
const json: unknown = JSON.parse(readFileSync(file, 'utf8'));
const head = { format: 1, level: 'heron_lane', seed: 3 };

describe('a patch', () => {
  it('does to members what the examples of RFC 7396 say', () => {
    const rows: [object, object, object][] = [
      [{ a: 'b' }, { a: 'c' }, { a: 'c' }],
      [{ a: 'b' }, { b: 'c' }, { a: 'b', b: 'c' }],
      [{ a: 'b' }, { a: null }, {}],
      [{ a: 'b', b: 'c' }, { a: null }, { b: 'c' }],
      [{ a: ['b'] }, { a: 'c' }, { a: 'c' }],
      [{ a: { b: 'c' } }, { a: { b: 'd', c: null } }, { a: { b: 'd' } }],
      [{ a: [{ b: 'c' }] }, { a: [1] }, { a: [1] }],
      [{}, { a: { bb: { ccc: null } } }, { a: { bb: {} } }],
      [{ e: null }, { a: 1 }, { e: null, a: 1 }],
    ];
    for (const [target, patch, result] of rows) {
      const drill = drillOf({ id: 'x', ...target }, 'purge', patch as Record<string, unknown>);
      expect(drill).toEqual({ ...result, id: 'x_purge' });
    }
  });

  it('patches nodes and links by id, and replaces every other list', () => {
    const job = { id: 'x', nodes: [{ id: 'a', p: 1, q: 2 }, { id: 'b' }], record: [{ id: 'r' }] };
    const patch = { nodes: [{ id: 'a', p: 3, q: null }, { id: 'c' }], record: [{ id: 's' }] };
    expect(drillOf(job, 'flush', patch)).toEqual({
      id: 'x_flush',
      nodes: [{ id: 'a', p: 3 }, { id: 'b' }, { id: 'c' }],
      record: [{ id: 's' }],
    });
    expect(job.nodes[0]).toEqual({ id: 'a', p: 1, q: 2 });
  });

  it('of a level makes a scenario that can be parsed', () => {
    const patch = { links: [{ id: 'fill_valve', start_deg: 45 }] };
    const drill = parseScenario(drillOf(json, 'prime', patch));
    const valve = drill.links.find(({ id }) => id === 'fill_valve');
    expect(valve).toMatchObject({ kind: 'valve', start_deg: 45 });
    expect(drill.id).toBe('heron_lane_prime');
    expect(drill.links.length).toBe(parseScenario(json).links.length);
  });

  it('is played on the job as it is written: without its ranges', () => {
    const ranges = [{ id: 'supply', min: 1, max: 2, step: 1, touches: [] }];
    expect(drillOf({ id: 'x', ranges }, 'purge', {})).toEqual({ id: 'x_purge' });
  });

  it('is taken from a file only for phases that there are', () => {
    const found = phasesOf({ purge: { scenario: { a: 1 } }, lunch: { scenario: {} }, unit: 7 });
    expect(found).toEqual({ purge: { scenario: { a: 1 } } });
    expect(phasesOf(null)).toEqual({});
  });
});

const steps = [
  { phase: 'prime' },
  { wait_s: 3 },
  { phase: 'purge' },
  { wait_s: 2 },
  { phase: 'unit' },
  { wait_s: 1 },
  { do: { kind: 'done' } },
];

describe('markers of phases in a script', () => {
  it('take no time and say when each began', () => {
    const scenario = parseScenario(json);
    const seen: [string, number][] = [];
    const played = runScript(scenario, parseScript({ ...head, steps }, scenario), {
      onPhase: (id, run) => seen.push([id, run.world.state.counter[0]!]),
    });
    expect(played.phases).toEqual([
      { id: 'prime', tick: 0 },
      { id: 'purge', tick: 15 },
      { id: 'unit', tick: 25 },
    ]);
    expect(seen).toEqual(played.phases.map(({ id, tick }) => [id, tick]));
    expect(played.record.end_tick).toBe(30);
  });

  it('come once, and not inside what is repeated', () => {
    const twice = [...steps, { phase: 'prime' }];
    expect(scriptFaults({ ...head, steps: twice }).map(({ path }) => path)).toEqual([
      'steps[7].phase',
    ]);
    const inside = [{ repeat: 2, steps: [{ phase: 'prime' }] }];
    expect(scriptFaults({ ...head, steps: inside }).map(({ path }) => path)).toEqual([
      'steps[0].steps[0].phase',
    ]);
    const maybe = [{ if: { hands: 'free' }, steps: [{ phase: 'prime' }] }];
    expect(scriptFaults({ ...head, steps: maybe }).map(({ path }) => path)).toEqual([
      'steps[0].steps[0].phase',
    ]);
    expect(scriptFaults({ ...head, steps: [{ phase: 'lunch' }] })).not.toEqual([]);
  });

  it('are where a drill is cut out', () => {
    const cut = drillScript({ ...head, expects: { passed: true }, steps }, 'purge', []);
    expect(cut).toEqual({
      ...head,
      level: 'heron_lane_purge',
      steps: [{ phase: 'purge' }, { wait_s: 2 }, { do: { kind: 'done' } }],
    });
    expect(drillScript({ ...head, steps }, 'unit', [])?.steps).toEqual(steps.slice(4));
    expect(drillScript({ ...head, steps }, 'dose', [])).toBeNull();
  });

  it('leave out what is written on lines that the drill does not have', () => {
    const note = (entry: string) => ({ kind: 'note', entry, value_milli: 0 });
    const tap = { kind: 'tap', gauge: 'g' };
    const day = [
      { phase: 'purge' },
      { do: note('a') },
      { do: note('b') },
      { do: [note('a'), note('b'), tap] },
      { repeat: 2, steps: [{ do: note('b') }, { wait_s: 1 }] },
      { if: { hands: 'free' }, steps: [{ write: 'b' }] },
    ];
    const cut = (lines: readonly string[]) =>
      drillScript({ ...head, steps: day }, 'purge', lines)?.steps;
    const done = { do: { kind: 'done' } };
    const both = { if: { hands: 'free' }, steps: [{ write: ['b'] }] };
    expect(cut(['a', 'b'])).toEqual([...day.slice(0, -1), both, done]);
    expect(cut(['a'])).toEqual([
      ...[{ phase: 'purge' }, { do: note('a') }, { do: [note('a'), tap] }],
      ...[{ repeat: 2, steps: [{ wait_s: 1 }] }, done],
    ]);
  });
});
