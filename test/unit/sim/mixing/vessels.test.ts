// Cups and pails: what they take, where it goes, how long it takes, and what instruments make of a
// sample. Expected figures are those of published tables or worked out by hand here.
import { describe, expect, it } from 'vitest';
import { clone, hash, snapshot, truth } from '../../../../sim/index.ts';
import { dosing, level, shown, TANK_AREA, worstBook } from '../../../support/dosing.ts';
import { during, set, turn, turnOn } from '../../../support/hands.ts';

const HEAT = { air_C: 0, soil_C: 12 };

describe('a cup', () => {
  it('shows nothing before a sample and once it is emptied, and takes it exactly', () => {
    const world = dosing({ loop: 0.2, more: { heat: HEAT } });
    for (const id of ['float', 'prism', 'index', 'dip']) expect(shown(world, id)).toBeNull();
    const before = truth(world).liquid.now;
    during(world, 6, [set('cup', 1)]);
    expect(snapshot(world).scene.devices[0]!.position).toBe(1);
    const kg = truth(world).ledgers['sample']!;
    expect(kg).toBeCloseTo(0.2 * 1.01478, 3); // 0.2 L at 20 C [Melinder 2010].
    expect(truth(world).liquid.now).toBeCloseTo(before - kg, 9);
    expect(shown(world, 'dip')).toBeCloseTo(20, 1);
    expect(worstBook(world)).toBeLessThan(1e-9);
    during(world, 6, [set('cup', 0)]);
    expect(shown(world, 'prism')).toBeNull();
    expect(truth(world).ledgers['sample']).toBe(kg);
  });

  it('fills at a cock as fast as its hole lets, and not at all without pressure', () => {
    const world = dosing({ loop: 0.2 });
    expect(during(world, 7, [set('cup', 5)])).toContainEqual(
      expect.objectContaining({ kind: 'held', control: 'cup', why: 'nothing_comes' }),
    );
    during(world, 20, [turnOn(true)]);
    const facts = during(world, 12, [set('cup', 4)]);
    const [done] = facts.filter((f) => f.kind === 'moved');
    // 5.5 s to get there, then 0.2 L at the 50 mL/s that a hand lets run.
    const took = (done!.tick - facts[0]!.tick) * world.dt;
    expect(took).toBeGreaterThan(5.5 + 3.7);
    expect(took).toBeLessThan(5.5 + 4.5);
    expect(worstBook(world)).toBeLessThan(1e-9);
  });

  it('takes the warmth of the air in the better part of an hour', () => {
    const world = dosing({ loop: 0.2, more: { heat: HEAT, solver: { cell_m: 5, tick_s: 0.2 } } });
    during(world, 6, [set('cup', 1)]);
    during(world, 600);
    // A ball of 0.2 L under 10 W/m2/K, 4000 J/kg/K: worked out by hand.
    const area = 4.836 * 0.2e-3 ** (2 / 3);
    const tau = (0.2 * 1.01478 * 4000) / (10 * area);
    expect(shown(world, 'dip')).toBeCloseTo(20 * Math.exp(-600 / tau), 0);
  });

  it('is part of the state: a copy in the middle of filling goes the same way', () => {
    const world = dosing({ loop: 0.2 });
    during(world, 27, [turnOn(true), set('cup', 2)]);
    const copy = clone(world);
    during(world, 20, [set('pail', 2)]);
    during(copy, 20, [set('pail', 2)]);
    expect(hash(copy)).toBe(hash(world));
  });
});

describe('instruments at a sample', () => {
  const sampled = (antifreeze: string, loop: number, more: Record<string, unknown> = {}) => {
    const world = dosing({ antifreeze, loop, more });
    during(world, 7, [set('cup', 1)]);
    return world;
  };

  it('a hydrometer gives the published relative density 20/20', () => {
    expect(shown(sampled('propylene_glycol', 0.2), 'float')).toBeCloseTo(1.0166, 2.9);
    expect(shown(sampled('ethanol', 0.2), 'float')).toBeCloseTo(0.9706, 2.9);
    expect(shown(sampled('methanol', 0.2), 'float')).toBeCloseTo(0.9685, 2.9);
  });

  it('a refractometer for propylene glycol is right for that and wrong for the rest', () => {
    const points = (fluid: string, x: number) => shown(sampled(fluid, x), 'prism')!;
    expect(Math.abs(points('propylene_glycol', 0.2) - -7.1)).toBeLessThan(0.6); // ASHRAE.
    expect(Math.abs(points('propylene_glycol', 0.3) - -12.7)).toBeLessThan(0.6);
    // Ethanol of 20 % by mass has 1.3469, as propylene glycol of 12.8 %: -4.4 C by ASHRAE's table,
    // where it freezes at -10.9 C. Methanol of 20 % has 1.3381: 4.7 %, -1.5 C for -15.0 C.
    expect(Math.abs(points('ethanol', 0.2) - -4.4)).toBeLessThan(0.6);
    expect(Math.abs(points('methanol', 0.2) - -1.5)).toBeLessThan(0.6);
    expect(shown(sampled('ethanol', 0.2), 'index')).toBeCloseTo(1.3469, 4);
  });

  it('a cold sample floats higher; the scale beside it helps for its own antifreeze only', () => {
    const cold = (corrects_for?: string) => {
      const float = { id: 'float', kind: 'hydrometer', cup: 'cup', resolution: 0.0001 };
      const one = corrects_for === undefined ? float : { ...float, corrects_for };
      const world = dosing({
        antifreeze: 'ethanol',
        loop: 0.2,
        t_C: 0,
        more: { instruments: [one] },
      });
      during(world, 7, [set('cup', 1)]);
      return shown(world, 'float')!;
    };
    // 975.77 kg/m3 at 0 C and 968.92 at 20 C [Melinder 2010], over 998.2 of water.
    expect(cold()).toBeCloseTo(0.9775 - 0.0005, 3);
    expect(cold('ethanol')).toBeCloseTo(0.9706, 3);
    expect(Math.abs(cold('propylene_glycol') - 0.9706)).toBeGreaterThan(0.003);
  });
});

describe('a pail', () => {
  it('goes as often as it is told, a trip at a time, and loses nothing', () => {
    const world = dosing({ drum: 1 });
    const [a, b] = [level(world, 'drum'), level(world, 'tank')];
    during(world, 0.5 + 15 + 0.3, [set('pail', 3)]);
    expect(snapshot(world).scene.devices[1]!.position).toBe(1);
    during(world, 31);
    expect(snapshot(world).scene.devices[1]!.position).toBe(3);
    expect(a - level(world, 'drum')).toBeCloseTo(0.03 / 0.25, 4);
    expect(level(world, 'tank')).toBeLessThan(b + 0.03 / TANK_AREA);
    expect(worstBook(world)).toBeLessThan(1e-9);
    during(world, 17, [set('pail', 1)]);
    expect(snapshot(world).scene.devices[1]!.position).toBe(1); // Counts anew.
    expect(a - level(world, 'drum')).toBeCloseTo(0.04 / 0.25, 4);
  });

  it('finds an empty drum empty, and what finds no room runs over', () => {
    const world = dosing({ drum_mm: 60, tank_mm: 880 });
    const facts = during(world, 60, [set('pail', 3)]);
    expect(facts).toContainEqual(
      expect.objectContaining({ kind: 'held', control: 'pail', why: 'empty' }),
    );
    expect(facts).toContainEqual(
      expect.objectContaining({ kind: 'hazard', hazard: 'overflow', at: 'tank', stage: 'tripped' }),
    );
    expect(truth(world).ledgers['tank']).toBeGreaterThan(5);
    expect(worstBook(world)).toBeLessThan(1e-9);
  });
});

describe('bubbles', () => {
  it('go with the pail in which they are', () => {
    const bail = { id: 'bail', kind: 'carry', from: 'tank', to: 'drum', litres: 10, take_s: 5 };
    const world = dosing({ more: { devices: [bail], instruments: [] } });
    // The drum's own pump lets it fall into the tank, which draws air under.
    during(world, 30, [turn('drum_tap', 90), { kind: 'switch', pump: 'drum_pump', on: true }]);
    during(world, 5, [turn('drum_tap', 0), { kind: 'switch', pump: 'drum_pump', on: false }]);
    const gas = (id: string): number => world.state.gas[world.plan.nodeIx.get(id)!]!;
    const share = 0.01 / (TANK_AREA * level(world, 'tank'));
    during(world, 5.4, [set('bail', 1)]);
    const before = gas('tank');
    expect(gas('drum')).toBe(0);
    while (snapshot(world).scene.devices[0]!.position === 0) during(world, 0.1);
    expect(gas('drum') / (share * before)).toBeCloseTo(1, 1);
    expect(worstBook(world)).toBeLessThan(1e-9);
  });
});

describe('a drum with a pump of its own', () => {
  it('makes of strong and neat what the table of densities says', () => {
    const world = dosing({ antifreeze: 'ethanol', drum: 1, loop: 0.5, tank_mm: 200 });
    during(world, 47, [set('pail', 3)]);
    // By hand: 40 L of 913.8 kg/m3 and 30 L of 789.3 make 60.2 kg of 69.7 %, 868 kg/m3 [CRC].
    const kg = 40 * 0.9138 + 30 * 0.7893;
    expect((1000 * TANK_AREA * level(world, 'tank')) / (kg / 0.868)).toBeCloseTo(1, 2);
  });

  it('stands as full as it was, neat or mixed, with heat and without', () => {
    for (const more of [{}, { heat: HEAT }]) {
      for (const drum of [0.5, 0.75, 1]) {
        const world = dosing({ antifreeze: 'ethanol', drum, more });
        during(world, 3, [set('pail', 1)]); // On the way to it: nothing is taken yet.
        expect(level(world, 'drum'), `${drum}`).toBeCloseTo(0.6, 3);
      }
    }
  });

  it('gives the tank what it loses, by weight and not by volume', () => {
    const world = dosing({ antifreeze: 'ethanol', drum: 1 });
    const before = truth(world).antifreeze_by_part;
    const [a, b] = [level(world, 'drum'), level(world, 'tank')];
    during(world, 60, [turn('drum_tap', 90), { kind: 'switch', pump: 'drum_pump', on: true }]);
    during(world, 5, [turn('drum_tap', 0), { kind: 'switch', pump: 'drum_pump', on: false }]);
    const after = truth(world).antifreeze_by_part;
    const litres = 250 * (a - level(world, 'drum'));
    expect(litres).toBeGreaterThan(15);
    expect(before['drum']! - after['drum']!).toBeCloseTo(litres * 0.7893, 1);
    // Into 100 L of water: the rest of the volume is lost as they mix, 1 to 2 L.
    const lost = litres - 1000 * TANK_AREA * (level(world, 'tank') - b);
    expect(lost).toBeGreaterThan(0.03 * litres);
    expect(lost).toBeLessThan(0.12 * litres);
    expect(shown(world, 'drum_level')).toBeCloseTo(level(world, 'drum'), 3);
    expect(worstBook(world)).toBeLessThan(1e-9);
  });

  it('is warned of by its own name when the drum is empty, and the tank when it runs over', () => {
    const world = dosing({ drum_mm: 150, tank_mm: 880 });
    const facts = during(world, 90, [
      turn('drum_tap', 90),
      { kind: 'switch', pump: 'drum_pump', on: true },
    ]);
    const told = facts.flatMap((f) => (f.kind === 'hazard' ? [`${f.hazard} ${f.at}`] : []));
    expect(told).toContain('dry_run drum_pump');
    expect(told).toContain('overflow tank');
    expect(told).not.toContain('overflow drum');
    expect(worstBook(world)).toBeLessThan(1e-9);
  });
});
