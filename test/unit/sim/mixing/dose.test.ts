// Dosing by the book and proving it: strength once mixed, what a sample says before that, where
// the antifreeze is in the end; and the plug flow and stirred tank they are held against, by hand.
import { describe, expect, it } from 'vitest';
import { truth, xray, type World } from '../../../../sim/index.ts';
import {
  dosing,
  FITTINGS,
  HOSE,
  level,
  LOOP,
  shown,
  TANK_AREA,
  worstBook,
} from '../../../support/dosing.ts';
import { during, set, turnOn } from '../../../support/hands.ts';

const WATER = 998.2; // kg/m3
const NEAT = 1036.1; // kg/m3, propylene glycol
const TANK_MM = 350;
const ALL = (TANK_AREA * TANK_MM) / 1000 + LOOP + 2 * HOSE + FITTINGS; // 0.230 m3
const POURED = 0.07; // m3, seven pails of ten litres

/** Seven pails of neat propylene glycol into the tank; the pump still stands. */
function poured(more: Record<string, unknown> = {}): World {
  const world = dosing({ tank_mm: TANK_MM, more });
  during(world, 0.5 + 7 * 15 + 1, [set('pail', 7)]);
  return world;
}

const flow = (world: World): number => xray(world).links.find((l) => l.id === 'suction')!.flow;

describe('a dose by the book', () => {
  it('gives the freezing point of the table once it is mixed, within half a kelvin', () => {
    const world = poured({ solver: { cell_m: 3, tick_s: 0.2 } });
    during(world, 600, [turnOn(true)]);
    expect((flow(world) * 600) / (ALL + POURED)).toBeGreaterThan(6); // Turnovers.
    const x = (POURED * NEAT) / (POURED * NEAT + ALL * WATER);
    expect(x).toBeCloseTo(0.24, 2);
    const table = -7.1 + ((x - 0.2) / 0.1) * (-12.7 + 7.1); // ASHRAE, straight between.
    for (const place of [1, 2]) {
      during(world, 12, [set('cup', place)]);
      expect(Math.abs(shown(world, 'prism')! - table)).toBeLessThan(0.5);
    }
    // The float between the published 20 % and 30 % of 1.0166 and 1.0256.
    expect(shown(world, 'float')).toBeCloseTo(1.0166 + 0.4 * 0.009, 2.7);

    // Where it is: by volume, since it is the same everywhere; all of it is in the books.
    const parts = truth(world).antifreeze_by_part;
    const kg = (id: string): number => parts[id]!;
    const whole = truth(world).antifreeze.now;
    expect(Object.values(parts).reduce((a, b) => a + b, 0) / whole).toBeCloseTo(1, 9);
    const drum = ['drum', 'eye', 'spout', 'drum_hose'].reduce((sum, id) => sum + kg(id), 0);
    const inRig = whole - drum;
    const trenches = [0, 1, 2, 3].reduce((sum, k) => sum + kg(`trench_${k}`), 0);
    const volume = ALL + POURED * 0.97; // It loses a little as it mixes.
    expect(trenches / inRig).toBeCloseTo(LOOP / volume, 2);
    expect((kg('tank') + kg('hose_out') + kg('hose_back')) / inRig).toBeCloseTo(
      (TANK_AREA * level(world, 'tank') + 2 * HOSE) / volume,
      2,
    );
    expect(worstBook(world)).toBeLessThan(1e-9);
  });

  it('is not there before its front has come, and stronger than the end just after', () => {
    const world = poured();
    const neat = POURED * NEAT;
    const first = neat / (neat + ((TANK_AREA * TANK_MM) / 1000) * WATER); // In the tank: 0.51.
    const way = LOOP + HOSE + 0.004; // m3 to the foot of the trenches.
    const tank = (TANK_AREA * TANK_MM) / 1000 + POURED;
    let passed = 0;
    const until = (volume: number): void => {
      let started = passed > 0;
      while (passed < volume) {
        during(world, 0.5, started ? [] : [turnOn(true)]);
        started = true;
        passed += 0.5 * flow(world);
      }
    };
    until(0.55 * way);
    during(world, 10, [set('cup', 2)]);
    expect(shown(world, 'prism')!).toBeGreaterThan(-0.3); // Plug flow: still water.
    passed += 10 * flow(world);
    until(1.15 * way);
    during(world, 10, [set('cup', 2)]);
    passed += 10 * flow(world);
    // What stands there left the stirred tank when `passed - way` had: water came home till then.
    const x = xray(world).nodes.find((n) => n.id === 'foot')!.antifreeze;
    expect(Math.abs(x - first * Math.exp(-(passed - way) / tank))).toBeLessThan(0.04);
    expect(shown(world, 'prism')!).toBeLessThan(-13); // The whole will be -9.
  });
});
