// Hand scripts on the first level: they wait for what can be seen, act once, and give up.
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Fact } from '../../../sim/fact.ts';
import { replay } from '../../../sim/run.ts';
import { parseScenario } from '../../../sim/scenario.ts';
import { parseScript, scriptFaults } from '../../../sim/script-schema.ts';
import { runScript } from '../../../sim/script.ts';

const file = new URL('../../../levels/01-heron-lane/scenario.json', import.meta.url);
/** As it is written, whatever the seed: the numbers below are of that form. */
const { ranges: _forms, ...scenario } = parseScenario(JSON.parse(readFileSync(file, 'utf8')));
const head = { format: 1, level: 'heron_lane', seed: 3 };

const fill = (target_deg: number) => ({ kind: 'valve', valve: 'fill_valve', target_deg });
const done = { do: { kind: 'done' } };

function play(script: object, until_s?: number) {
  return runScript(scenario, parseScript({ ...head, ...script }, scenario), { until_s });
}

function movesOf(facts: readonly Fact[], control: string): [number, number][] {
  return facts.flatMap((f) =>
    f.kind === 'moved' && f.control === control ? [[f.tick / 5, f.value] as [number, number]] : [],
  );
}

describe('the steps of a script', () => {
  it('wait for the reading, and the record is what was done when', () => {
    const { run, record, outcome } = play({
      steps: [
        { do: fill(90) },
        { until: { reading: 'tank_level', above_mm: 430 }, max_s: 200 },
        { do: fill(0) },
        { until: { hands: 'free' }, max_s: 20 },
        done,
      ],
    });
    expect(outcome).toMatchObject({ end: 'finished', step: null });
    // 10 mm of 0.16 m2 are 1.6 L: some seconds at what a garden hose gives.
    expect(outcome.time_s).toBeGreaterThan(3);
    expect(outcome.time_s).toBeLessThan(60);
    expect(movesOf(run.facts, 'fill_valve').map(([, value]) => value)).toEqual([90, 0]);
    expect(record.commands.map(([, c]) => c.kind)).toEqual(['valve', 'valve', 'done']);
    expect(record.seed).toBe(3);
  });

  it('wait for the clock to the tick', () => {
    expect(play({ steps: [{ wait_s: 12.6 }, done] }).record.end_tick).toBe(63);
  });

  it('want a condition to hold without a break', () => {
    const steps = [{ until: { valve: 'fill_valve', at_deg: 0 }, for_s: 7, max_s: 30 }, done];
    expect(play({ steps }).record.end_tick).toBe(35);
  });

  it('are done over as often as asked', () => {
    const { run } = play({
      steps: [
        {
          repeat: 3,
          steps: [
            { do: fill(30) },
            { until: { valve: 'fill_valve', at_deg: 30 }, max_s: 9 },
            { do: fill(0) },
            { until: { valve: 'fill_valve', at_deg: 0 }, max_s: 9 },
          ],
        },
      ],
    });
    expect(movesOf(run.facts, 'fill_valve').map(([, v]) => v)).toEqual([30, 0, 30, 0, 30, 0]);
  });

  it('are left out where what they go by is not seen', () => {
    const when = (condition: object, deg: number) => ({
      if: condition,
      steps: [{ do: fill(deg) }, { until: { valve: 'fill_valve', at_deg: deg }, max_s: 9 }],
    });
    const stands = (at_deg: number) => ({ valve: 'fill_valve', at_deg });
    const { run, outcome } = play({
      steps: [
        when(stands(90), 10),
        when(stands(0), 20),
        { repeat: 2, steps: [when(stands(40), 50), when({ not: stands(40) }, 40)] },
        { if: stands(50), steps: [when(stands(50), 60)] },
        done,
      ],
    });
    expect(movesOf(run.facts, 'fill_valve').map(([, v]) => v)).toEqual([20, 40, 50, 40]);
    expect(outcome.end).toBe('finished');
  });

  it('give up inside of one that is left out otherwise, and say where', () => {
    const never = { until: { reading: 'flow_meter', above_L_min: 50 }, max_s: 5 };
    const open = { not: { valve: 'fill_valve', at_deg: 90 } };
    const { outcome } = play({ steps: [{ if: open, steps: [{ wait_s: 1 }, never] }, done] });
    expect(outcome).toMatchObject({ end: 'gave_up', step: 'steps[0].steps[1]', time_s: 6 });
  });

  it('give up where that is asked for, and go on where not', () => {
    const never = { until: { reading: 'flow_meter', above_L_min: 50 }, max_s: 5 };
    const gaveUp = play({ steps: [{ wait_s: 1 }, never, done] });
    expect(gaveUp.outcome).toMatchObject({ end: 'gave_up', step: 'steps[1]', time_s: 6 });
    const wentOn = play({ steps: [{ ...never, else: 'go_on' }, done] });
    expect(wentOn.outcome).toMatchObject({ end: 'finished', time_s: 5 });
  });

  it('stop when the caller says so', () => {
    expect(play({ steps: [{ wait_s: 100 }] }, 10).outcome).toMatchObject({
      end: 'stopped',
      step: 'steps[0]',
      time_s: 10,
    });
  });

  it('write down what is shown then, on the lines that are named', () => {
    const record = [
      { id: 'level', reading: 'tank_level', tolerance_milli: 0 },
      { id: 'gauge', reading: 'return_gauge', tolerance_milli: 0 },
      { id: 'by_hand', tolerance_milli: 0 },
    ];
    const of = { ...scenario, record };
    const steps = [
      { write: 'level' },
      { do: fill(90) },
      { wait_s: 60 },
      { write: ['level', 'gauge'] },
      done,
    ];
    const played = runScript(of, parseScript({ ...head, steps }, of));
    const notes = played.run.facts.filter((fact) => fact.kind === 'noted');
    expect(notes.map(({ entry }) => entry)).toEqual(['level', 'level', 'gauge']);
    for (const { value, shown } of notes) expect(value).toBeCloseTo(shown!, 9);
    expect(notes[1]!.value - notes[0]!.value).toBeGreaterThan(0.01);
    const faults = (write: unknown) =>
      scriptFaults({ ...head, steps: [{ write }] }, of).map(({ path }) => path);
    expect([faults('nothing'), faults('by_hand'), faults(7)]).toEqual(
      Array.from({ length: 3 }, () => ['steps[0].write']),
    );
  });

  it('may hand over on the very tick of a check, and the record still replays', () => {
    const { record } = play({ steps: [{ wait_s: 20 }, done] });
    expect(record.end_tick).toBe(100);
    expect(replay(scenario, record).divergedAt).toBeNull();
  });

  it('come to the same record every time', () => {
    const script = { steps: [{ do: fill(45) }, { wait_s: 20 }, done] };
    expect(play(script).record).toEqual(play(script).record);
  });
});

describe('a reflex', () => {
  const keep = [
    {
      when: { reading: 'tank_level', below_mm: 425 },
      do: fill(90),
      again: { reading: 'tank_level', above_mm: 440 },
    },
    {
      when: { reading: 'tank_level', above_mm: 450 },
      do: fill(0),
      again: { reading: 'tank_level', below_mm: 440 },
    },
  ];

  it('acts once when its condition comes true, and not again while it stays so', () => {
    const { run } = play({ keep, steps: [{ wait_s: 120 }, done] });
    expect(movesOf(run.facts, 'fill_valve').map(([, value]) => value)).toEqual([90, 0]);
  });

  it('acts again after its condition has been false', () => {
    const again = [{ when: { not: { valve: 'fill_valve', at_deg: 0 } }, do: fill(0) }];
    const steps = [{ do: fill(20) }, { wait_s: 10 }, { do: fill(20) }, { wait_s: 10 }];
    const { record } = play({ keep: again, steps });
    expect(record.commands.map(([, c]) => (c.kind === 'valve' ? c.target_deg : null))).toEqual([
      20, 0, 20, 0,
    ]);
  });
});

describe('the check of a script', () => {
  it('names readings, controls and units that do not fit the scenario', () => {
    const script = {
      ...head,
      level: 'elsewhere',
      keep: [{ when: { reading: 'barometer', above_kPa: 3 }, do: fill(90) }],
      steps: [
        { do: { kind: 'valve', valve: 'trapdoor', target_deg: 90 } },
        {
          repeat: 2,
          steps: [{ until: { all: [{ reading: 'tank_level', above_kPa: 1 }] }, max_s: 1 }],
        },
        { if: { valve: 'trapdoor', at_deg: 0 }, steps: [{ write: 'nothing' }] },
      ],
    };
    expect(scriptFaults(script, scenario).map((f) => f.path)).toEqual([
      'level',
      'keep[0].when.reading',
      'steps[0].do.valve',
      'steps[1].steps[0].until.all[0].above_kPa',
      'steps[2].if.valve',
      'steps[2].steps[0].write',
    ]);
  });

  it('names what is deep inside a step of no clear kind', () => {
    const script = { ...head, steps: [{ until: { any: [{ hands: 'busy' }] }, max_s: 5 }] };
    expect(scriptFaults(script).map((f) => f.path)).toEqual(['steps[0].until.any[0].hands']);
  });
});
