// A dose as hands do it, by what can be read alone; and what files say about hand pumps and cups.
import { describe, expect, it } from 'vitest';
import {
  parseScript,
  replay,
  runScript,
  scriptFaults,
  snapshot,
  steadyState,
  truth,
} from '../../../../sim/index.ts';
import { recordFaults } from '../../../../sim/record-schema.ts';
import { dosing, worstBook } from '../../../support/dosing.ts';

const coarse = { solver: { cell_m: 5, tick_s: 0.2 } };
const { scenario } = dosing({ tank_mm: 350, more: coarse }).plan;
const file = (steps: readonly unknown[]) => ({ format: 1, level: 'dosing', seed: 3, steps });
const free = { until: { hands: 'free' }, max_s: 600 };

describe('a script', () => {
  it('pours, mixes, proves it and presses the loop with the mix', () => {
    const script = parseScript(
      file([
        { do: { kind: 'set', device: 'pail', position: 7 } },
        { until: { device: 'pail', at: 7 }, max_s: 200 },
        { do: { kind: 'switch', pump: 'pump', on: true } },
        { wait_s: 300 },
        { do: { kind: 'set', device: 'cup', position: 2 } },
        { until: { all: [{ reading: 'prism', below_C: -8 }, { hands: 'free' }] }, max_s: 30 },
        { until: { reading: 'float', above_density: 1.018, below_density: 1.024 }, max_s: 1 },
        {
          do: [
            { kind: 'valve', valve: 'return', target_deg: 0 },
            { kind: 'valve', valve: 'discharge', target_deg: 0 },
            { kind: 'switch', pump: 'pump', on: false },
          ],
        },
        free,
        { do: { kind: 'stroke', pump: 'lever', strokes: 12 } },
        { until: { hand_pump: 'lever', strokes_at_least: 12 }, max_s: 60 },
        { until: { reading: 'gauge', above_kPa: 150 }, max_s: 5 },
      ]),
      scenario,
    );
    const played = runScript(scenario, script);
    expect(played.outcome).toMatchObject({ end: 'finished' });
    const again = replay(scenario, played.record);
    expect(again.divergedAt).toBeNull();
    expect(worstBook(again.world)).toBeLessThan(1e-9);
    expect(truth(again.world).ledgers['tank']).toBe(0);
  });

  it('waits for no reading of an empty cup', () => {
    const wait = { until: { reading: 'prism', below_C: 50 }, max_s: 2 };
    expect(runScript(scenario, parseScript(file([wait]), scenario)).outcome.end).toBe('gave_up');
  });

  it('is told of keys that do not suit, and of pumps that are none', () => {
    const paths = scriptFaults(
      file([
        { until: { reading: 'float', above_C: 1 }, max_s: 1 },
        { until: { hand_pump: 'pump', strokes_at_least: 1 }, max_s: 1 },
        { do: { kind: 'stroke', pump: 'suction', strokes: 1 } },
        { do: { kind: 'set', device: 'cup', position: 6 } },
      ]),
      scenario,
    ).map(({ path }) => path);
    expect(paths).toEqual([
      'steps[0].until.above_C',
      'steps[1].until.hand_pump',
      'steps[2].do.pump',
      'steps[3].do.position',
    ]);
  });
});

describe('elsewhere', () => {
  it('a record with strokes at what is no hand pump is none', () => {
    const { record } = runScript(scenario, parseScript(file([{ wait_s: 1 }]), scenario));
    const odd = { ...record, commands: [[0, { kind: 'stroke', pump: 'pump', strokes: 2 }]] };
    expect(recordFaults(odd, scenario).map(({ path }) => path)).toEqual(['commands[0][1].pump']);
  });

  it('a hand pump that nobody works is shut to the steady flow', () => {
    const { links } = steadyState(scenario, new Map([['pump', 1]]));
    expect(links.find(({ id }) => id === 'lever')!.flow).toBe(0);
    expect(links.find(({ id }) => id === 'suction')!.flow).toBeGreaterThan(1e-3);
  });

  it('what stands in the scene is what hands asked for', () => {
    expect(snapshot(dosing()).scene.hand_pumps).toEqual([{ id: 'lever', strokes: 0, wanted: 0 }]);
  });
});
