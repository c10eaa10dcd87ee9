// Cups and pails of antifreeze in bare hands and before bare eyes: how long they count, and what
// does not count.
import { describe, expect, it } from 'vitest';
import { createWorld, parseScenario, type World } from '../../../../sim/index.ts';
import { during, set, stages } from '../../../support/hands.ts';

const WORN = [
  { id: 'gloves', kind: 'wear', what: 'gloves', take_s: 2 },
  { id: 'glasses', kind: 'wear', what: 'eyes', take_s: 2 },
];
const BARE = ['no_gloves', 'no_eyes'] as const;
const vessel = (id: string, x: number) => ({
  ...{ id, kind: 'tank', floor_m: 0, area_m2: 0.25, height_mm: 900 },
  ...{ start_level_mm: 500, start_antifreeze_fraction: x },
  ports: [{ id: 'foot', height_mm: 20, bore_mm: 25 }],
});
const rig = (drum: number): World =>
  createWorld(
    parseScenario({
      ...{ format: 1, id: 'vessels', temperature_C: 20, ends_after_s: 600 },
      ...{ antifreeze: 'propylene_glycol', hands: { reach_s: 0.5 } },
      nodes: [vessel('drum', drum), vessel('tank', 0)],
      links: [
        {
          ...{ id: 'tap', kind: 'valve', from: 'drum.foot', to: 'tank.foot' },
          ...{ bore_mm: 25, start_deg: 0 },
        },
      ],
      devices: [
        { id: 'cup', kind: 'cup', places: ['drum', 'tank'], litres: 0.2, take_s: 10 },
        { id: 'pail', kind: 'carry', from: 'drum', to: 'tank', litres: 10, take_s: 12 },
        ...WORN,
      ],
    }),
    1,
  );
/** Seconds of both, out of the thirty that are allowed. */
const counted = (world: World): number[] =>
  BARE.map((hazard) => {
    const at = world.watches.findIndex((w) => w.hazard === hazard);
    return 30 * world.state.watch[at * (world.state.watch.length / world.watches.length)]!;
  });

describe('antifreeze in hand', () => {
  it('counts for as long as cup or pail takes, not on the way there', () => {
    const cup = rig(1);
    during(cup, 0.5, [set('cup', 1)]);
    expect(counted(cup)).toEqual([0, 0]);
    during(cup, 5);
    for (const s of counted(cup)) expect(s).toBeCloseTo(5, 0);
    const pail = rig(1);
    during(pail, 12, [set('pail', 2)]);
    for (const s of counted(pail)) expect(s).toBeCloseTo(11.5, 0);
    during(pail, 12);
    for (const s of counted(pail)) expect(s).toBeCloseTo(23.5, 0);
  });

  it('trips with the third pail, and never with gloves and glasses on', () => {
    const bare = during(rig(1), 46, [set('pail', 3)]);
    const all = ['warning', 'tripped', 'ended'];
    for (const hazard of BARE) expect(stages(bare, hazard)).toEqual(all);
    const clad = rig(1);
    const before = during(clad, 6, [set('gloves', 1), set('glasses', 1)]);
    const facts = [...before, ...during(clad, 40, [set('pail', 3)])];
    for (const hazard of BARE) expect(stages(facts, hazard)).toEqual([]);
  });

  it('is that in the vessel it is taken from, and in the cup that is emptied', () => {
    const water = rig(0);
    during(water, 12, [set('pail', 1)]);
    expect(counted(water)).toEqual([0, 0]);
    const cup = rig(1);
    during(cup, 12, [set('cup', 2)]); // Out of the tank, which holds water.
    during(cup, 12, [set('cup', 0)]);
    expect(counted(cup)).toEqual([0, 0]);
    during(cup, 20, [set('cup', 1)]);
    during(cup, 5);
    expect(counted(cup)).toEqual([0, 0]);
    during(cup, 5.5, [set('cup', 0)]);
    for (const s of counted(cup)) expect(s).toBeCloseTo(5, 0);
  });
});
