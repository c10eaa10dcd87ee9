// Alcohol in a room's air: where it comes from, what airs it, and when it is told. Expected figures
// by hand from published vapour pressures.
import { describe, expect, it } from 'vitest';
import { truth, type Fact, type World } from '../../../../sim/index.ts';
import { dosing, worstBook } from '../../../support/dosing.ts';
import { during, set } from '../../../support/hands.ts';

const fan = { id: 'fan', kind: 'fan', take_s: 1 };
const flame = { id: 'flame', kind: 'flame', take_s: 1 };
const VOLUME = 4; // m3

interface RoomAsk {
  readonly fluid?: 'ethanol' | 'methanol' | 'propylene_glycol';
  readonly t_C?: number;
  readonly x?: number;
  readonly mm?: number;
  readonly flame?: Record<string, unknown>;
  readonly changes?: number;
  readonly fan_L_s?: number;
}

/** A cellar with an open drum in it, and a valve to a floor that nobody opens yet. */
function cellar(o: RoomAsk = {}): World {
  const { fluid = 'ethanol', t_C = 20, x = 0.165, mm = 600, changes = 0.2, fan_L_s = 50 } = o;
  return dosing({
    antifreeze: fluid,
    t_C,
    more: {
      nodes: [
        {
          id: 'drum',
          kind: 'tank',
          floor_m: 0.5,
          area_m2: 0.25,
          height_mm: 900,
          start_level_mm: mm,
          start_antifreeze_fraction: x,
          ports: [{ id: 'bung', height_mm: 20, bore_mm: 25 }],
        },
        { id: 'floor', kind: 'open', elevation_m: 0, goes_to: 'ground' },
      ],
      links: [
        { id: 'tap', kind: 'valve', from: 'drum.bung', to: 'floor', bore_mm: 25, start_deg: 0 },
      ],
      devices: [
        { ...fan, air_L_s: fan_L_s },
        { ...flame, ...o.flame },
      ],
      instruments: [],
      solver: { tick_s: 0.2 },
      room: { volume_m3: VOLUME, leak_air_changes_per_h: changes, holds: ['drum', 'floor'] },
    },
  });
}

const airOf = (world: World) => truth(world).room!;
const told = (facts: readonly Fact[], hazard: string): string[] =>
  facts.flatMap((f) => (f.kind === 'hazard' && f.hazard === hazard ? [`${f.stage} ${f.at}`] : []));

describe("alcohol in a room's air", () => {
  it('settles where what comes off is what leaks, by the published vapour pressure', () => {
    const world = cellar({ changes: 6 });
    during(world, 2400);
    // 20 % by volume: 11.4 mmHg at 20 C. kg/m3 at the surface, speed by Mackay and Matsugu in air
    // of 0.2 m/s over a breadth of 0.564 m with a Schmidt number of 1.27.
    const surface = (11.4 * 133.3 * 0.04607) / (8.314 * 293.15);
    const speed = 0.00482 * 0.2 ** 0.78 * 0.564 ** -0.11 * 1.27 ** -0.67;
    const flow = (6 * VOLUME) / 3600;
    const kg = (surface * speed * 0.25 * VOLUME) / (flow + speed * 0.25);
    expect(airOf(world).alcohol_kg / kg).toBeGreaterThan(0.95);
    expect(airOf(world).alcohol_kg / kg).toBeLessThan(1.05);
    const { alcohol_kg, came_kg, went_kg } = airOf(world);
    expect(came_kg - went_kg).toBeCloseTo(alcohol_kg, 9);
    expect(truth(world).ledgers['vapour']).toBeCloseTo(came_kg, 9);
    expect(worstBook(world)).toBeLessThan(1e-9);
  });

  it('is told before it burns, and a fan clears it', () => {
    const world = cellar({ x: 0.9, t_C: 30 });
    const facts = during(world, 2400);
    expect(told(facts, 'vapour')).toEqual(['warning room', 'tripped room']);
    const cleared = during(world, 600, [set('fan', 1)]);
    expect(told(cleared, 'vapour')).toEqual(['ended room']);
  });

  it('with the fan on from the start it is warned of at most', () => {
    const world = cellar({ x: 0.9, t_C: 30, changes: 0, fan_L_s: 3.1 });
    const aired = during(world, 4200, [set('fan', 1)]);
    const share = airOf(world).burning_share;
    expect(share).toBeGreaterThan(0.8 * 0.25);
    expect(share).toBeLessThan(0.25);
    expect(told(aired, 'vapour')).toEqual(['warning room']);
  });

  it('comes off a wet floor too, faster the wider it is', () => {
    const dry = cellar({ x: 0.5, mm: 40 });
    const wet = cellar({ x: 0.5, mm: 40 });
    during(dry, 600);
    during(wet, 600, [{ kind: 'valve', valve: 'tap', target_deg: 90 }]);
    // 5 L on the floor make half a square metre beside a quarter that stays in the drum.
    const ratio = airOf(wet).came_kg / airOf(dry).came_kg;
    expect(ratio).toBeGreaterThan(2);
    expect(ratio).toBeLessThan(3.5);
    expect(worstBook(wet)).toBeLessThan(1e-9);
  });

  it('none comes off glycol, and such a room is a fault of its author', () => {
    expect(() => cellar({ fluid: 'propylene_glycol' })).toThrow(/nothing goes into its air/);
  });
});

describe('alcohol near a flame', () => {
  const lit = (o: RoomAsk): string[] =>
    told(during(cellar(o), 60, [set('flame', 1)]), 'neat_alcohol');

  it('neat it can be lit at once, mixed to a fifth it cannot on a cool day', () => {
    expect(lit({ x: 0.94 })).toEqual(['warning flame', 'tripped flame']);
    expect(lit({ x: 0.165 })).toEqual([]); // Flashes at 36 C.
  });

  it('is warned of within six kelvin of flashing, and trips only beyond', () => {
    // 50 % by volume flashes at 24 to 25 C (published 24): 0.44 by mass.
    expect(lit({ x: 0.4417, t_C: 22 })).toEqual(['warning flame']);
    expect(lit({ x: 0.4417, t_C: 30 })).toEqual(['warning flame', 'tripped flame']);
    expect(lit({ x: 0.4417, t_C: 15 })).toEqual([]);
  });

  it('does not count below the strength that the job allows, nor without a flame', () => {
    expect(lit({ x: 0.4417, t_C: 30, flame: { above_fraction: 0.5 } })).toEqual([]);
    expect(told(during(cellar({ x: 0.94 }), 60), 'neat_alcohol')).toEqual([]);
    const world = cellar({ x: 0.94 });
    during(world, 10, [set('flame', 1)]);
    expect(told(during(world, 10, [set('flame', 0)]), 'neat_alcohol')).toEqual(['ended flame']);
  });
});
