// What is wrong with needles and counters: what they show changes, the truth does not.
import { describe, expect, it } from 'vitest';
import { createWorld, xray } from '../../../sim/index.ts';
import { defectRig, numbersOf } from '../../support/defect-rig.ts';
import { rig, told } from '../../support/defect-worlds.ts';
import { reading, turn } from '../../support/hands.ts';
import { run } from '../../support/worlds.ts';

describe('needles', () => {
  const both = (defect: object, seconds = 20) => {
    const world = run(rig({ at: 'discharge_gauge', ...defect }), seconds);
    return { world, healthy: run(rig(null), seconds) };
  };

  it('leave the truth alone', () => {
    const { world, healthy } = both({ kind: 'gauge_offset', by_share: -0.1 });
    expect(xray(world)).toEqual(xray(healthy));
    expect(reading(world, 'discharge_gauge') - reading(healthy, 'discharge_gauge')).toBe(-40000);
  });

  it('that stick stay in their band until somebody taps', () => {
    const { world, healthy } = both({
      kind: 'gauge_sticks',
      band_share: 0.4,
      from: { after_s: 10 },
    });
    for (const each of [world, healthy]) told(each, turn('b_out', 0), 10);
    const gap = () => reading(healthy, 'discharge_gauge') - reading(world, 'discharge_gauge');
    expect(gap()).toBeGreaterThan(30000);
    const facts = told(world, { kind: 'tap', gauge: 'discharge_gauge' }, 4);
    run(healthy, 4);
    expect(facts).toMatchObject([{ kind: 'moved', control: 'discharge_gauge' }]);
    expect(Math.abs(gap())).toBeLessThan(2000); // A hundredth of its band.
    expect(told(world, { kind: 'tap', gauge: 'level' }, 1)).toMatchObject([
      { kind: 'refused', reason: 'unknown_control' },
    ]);
  });

  it('that are dead lie where it is said, or where they stood', () => {
    expect(reading(both({ kind: 'gauge_dead', at_share: 0.5 }).world, 'discharge_gauge')).toBe(2e5);
    const { world } = both({ kind: 'gauge_dead', from: { after_s: 10 } });
    const stood = reading(world, 'discharge_gauge');
    told(world, turn('return_valve', 0), 10);
    expect(reading(world, 'discharge_gauge')).toBe(stood);
  });

  it('behind a clogged snubber come late: 63 % after the lag and its own', () => {
    const { world, healthy } = both({ kind: 'gauge_slow', lag_s: 7.5 }, 100);
    const from = reading(healthy, 'discharge_gauge');
    for (const each of [world, healthy])
      told(each, { kind: 'switch', pump: 'pump', on: false }, 9.4);
    const share =
      (reading(world, 'discharge_gauge') - from) / (reading(healthy, 'discharge_gauge') - from);
    expect(share).toBeGreaterThan(0.58);
    expect(share).toBeLessThan(0.69);
  });

  it('of a wrong scale, and counters of one', () => {
    const { world, healthy } = both({ kind: 'meter_scale', at: 'flow_meter', factor: 0.5 });
    expect(reading(world, 'flow_meter') / reading(healthy, 'flow_meter')).toBeCloseTo(0.5, 2);
    const counting = [null, { kind: 'meter_scale', at: 'supply_meter', factor: 0.5 }].map(rig1);
    for (const each of counting) told(each, turn('fill_valve', 90), 30);
    const [right, wrong] = counting.map((each) => reading(each, 'supply_meter'));
    expect(wrong! / right!).toBeCloseTo(0.5, 1);
    expect(right!).toBeGreaterThan(0.008);
  });
  const rig1 = (defect: object | null) => rig(defect);

  it('are off within their class, by the seed', () => {
    const instruments = [0.016, 0.016, undefined].map((error_share, k) => ({
      ...{ id: `g${k}`, kind: 'pressure', node: 'fill_in', range_kPa: 1000, resolution_kPa: 0.01 },
      ...{ lag_s: 0.05, error_share },
    }));
    const of = defectRig([], { instruments });
    const errors = Array.from({ length: 40 }, (_, seed) => {
      const seen = numbersOf(createWorld(of, seed));
      return [0, 1, 2].map((k) => (seen[`g${k}`]! - 297000) / 1e6);
    });
    const first = errors.map(([e]) => e!);
    expect(Math.max(...first)).toBeGreaterThan(0.01);
    expect(Math.min(...first)).toBeLessThan(-0.01);
    for (const [a, b, c] of errors) {
      expect(Math.abs(a!)).toBeLessThan(0.0161);
      expect(a).not.toBe(b);
      expect(c).toBeCloseTo(0, 5);
    }
  });
});
