// Passes: what counts while one goes on, and what is left of it when it is gone through once more.
import { describe, expect, it } from 'vitest';
import { GOOD } from '../../../../sim/player/habits.ts';
import { Know } from '../../../../sim/player/know.ts';
import { rigOf } from '../../../../sim/player/map.ts';
import { gone, isTired, onceMore, type Pass } from '../../../../sim/player/passes.ts';
import type { View } from '../../../../sim/player/view.ts';
import { briefingOf } from '../../../../sim/play.ts';
import { startRun } from '../../../../sim/run.ts';
import { snapshot } from '../../../../sim/see.ts';
import { scenarioOf } from '../../../tools/golden.ts';

const scenario = scenarioOf('01-heron-lane');
const { world } = startRun(scenario, 1);
const rig = rigOf(briefingOf(scenario));
const { panel, scene } = snapshot(world);
const viewAt = (time_s: number): View => ({ time_s, panel, scene });

const pass: Pass = {
  id: 'fill_1',
  way: rig.ways[0]!,
  ...{ open: null, enough: 0, for_s: 25, good: ['clear'], least: 0, most: 0.1, by: 'pump' },
};

/** Looked at every second: litres that have come back at a litre a second. */
function litres(know: Know, from_s: number, to_s: number): number {
  let sum = 0;
  for (let now = from_s; now <= to_s; now++) {
    know.look(viewAt(now));
    sum = gone(know, pass, 0.001) * 1000;
  }
  return sum;
}

describe('a pass', () => {
  const fresh = (): Know => new Know(rig, { ...GOOD, patience_s: 60 }, viewAt(0));

  it('counts what has come back, whatever else was done meanwhile', () => {
    const know = fresh();
    expect(litres(know, 10, 30)).toBeCloseTo(20, 6);
    expect(litres(know, 35, 40)).toBeCloseTo(30, 6);
  });

  it('counts anew once more, water and patience; and only the last of its kind', () => {
    const know = fresh();
    know.keep('fill_0');
    litres(know, 0, 100);
    isTired(know, pass);
    know.keep('fill_1');
    know.keep('fills');
    know.look(viewAt(200));
    expect(isTired(know, pass)).toBe(true);
    onceMore(know, 'fill');
    expect(['fill_0', 'fill_1', 'fills'].map((key) => know.has(key))).toEqual([true, false, true]);
    expect(isTired(know, pass)).toBe(false);
    expect(litres(know, 200, 210)).toBeCloseTo(10, 6);
  });
});
