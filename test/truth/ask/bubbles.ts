// How questions of cases.json about tanks are put to whole worlds: air that a plunging return draws
// in, the share of fine bubbles that is carried under, foam that falls in.
import { createWorld, snapshot, truth, type World } from '../../../sim/index.ts';
import { area, held, joint, scenario } from '../../support/fields.ts';
import { run } from '../../support/worlds.ts';

interface Return {
  readonly bore_mm: number;
  readonly velocity: number;
  readonly fall_m: number;
  readonly level_m: number;
  readonly area_m2: number;
  readonly seconds: number;
}

/** A tank that water falls into and is drawn from at the floor at one rate; run. */
export function plunging(i: Return, more: object = {}): World {
  const { bore_mm } = i;
  const flow_L_s = 1000 * i.velocity * area(bore_mm / 1000);
  const tank = {
    id: 'tank',
    kind: 'tank',
    floor_m: 0,
    area_m2: i.area_m2,
    height_mm: 2500,
    start_level_mm: 1000 * i.level_m,
    ports: [
      { id: 'in', height_mm: 1000 * (i.level_m + i.fall_m), bore_mm },
      { id: 'out', height_mm: 0, bore_mm },
    ],
    bubble_sizes: 2,
    ...more,
  };
  const flow = { kind: 'fixed_flow', bore_mm, flow_L_s };
  const open = { kind: 'valve', bore_mm, start_deg: 90 };
  const high = i.level_m + i.fall_m;
  const links = [
    { id: 'feed', from: 'well', to: 'a', ...flow },
    { id: 'inlet', from: 'a', to: 'tank.in', ...open },
    { id: 'outlet', from: 'tank.out', to: 'b', ...open },
    { id: 'drawn', from: 'b', to: 'away', ...flow },
  ];
  const nodes = [held('well', 50), tank, joint('a', high), joint('b'), held('away', 0)];
  return run(createWorld(scenario(nodes, links), 1), i.seconds);
}

const fizz = (world: World) => snapshot(world).scene.tanks[0]!.fizz;

export const BUBBLES = {
  /** Air over water that the return draws in: what breaks the surface, once it is steady. */
  'world.entrained': (i: Return) => fizz(plunging(i)) / (i.velocity * area(i.bore_mm / 1000)),
  /** Share of the fine bubbles, of so much of the air drawn in, that the outlet draws under. */
  'world.under': (i: Return & { fine_share: number }) => {
    const world = plunging(i);
    const { came, went } = truth(world).gas;
    run(world, 60);
    const drawn = truth(world).gas.came - came + 60 * fizz(world);
    return (truth(world).gas.went - went) / (drawn * i.fine_share);
  },
};
