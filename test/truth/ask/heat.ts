// How questions of cases.json about cold liquid, heat and frost are put to whole worlds.
import { createWorld, steadyState, truth, xray } from '../../../sim/index.ts';
import { filmResistance, wallResistance } from '../../../sim/laws/heat.ts';
import { held, joint, pipe, scenario } from '../../support/fields.ts';
import { link, node, run } from '../../support/worlds.ts';
import type { Cold } from '../origin/pipes.ts';

/** 102 m of smooth pipe under an imposed flow of a mixture, 100 m of it between two fittings. */
function coldRig({ fluid, x, t_C, bore_mm, flow_L_s }: Cold) {
  const mixed = (of: object) => ({ ...of, start_antifreeze_fraction: x, roughness_mm: 0 });
  return scenario(
    [
      { ...held('source', 100), antifreeze_fraction: x },
      joint('a'),
      joint('b'),
      { ...held('sink', 50), antifreeze_fraction: x },
    ],
    [
      { id: 'feed', kind: 'fixed_flow', from: 'source', to: 'a', bore_mm, flow_L_s },
      mixed(pipe('long', ['a', 'b'], bore_mm, 100)),
      mixed(pipe('out', ['b', 'sink'], bore_mm, 2)),
    ],
    { antifreeze: fluid, temperature_C: t_C },
  );
}

/** Loss over 100 m of pipe as a run comes to it, Pa. */
function coldLoss(i: Cold): number {
  const world = run(createWorld(coldRig(i), 1), 120);
  return node(world, 'a') - node(world, 'b');
}

/** The same as the steady solver has it, Pa. */
function coldSteady(i: Cold): number {
  return steadyState(coldRig(i)).links.find(({ id }) => id === 'long')!.loss;
}

/** A tank beside a shut valve, so that what lies behind it stands alone. */
const tank = {
  ...{ id: 'tank', kind: 'tank', floor_m: 0, area_m2: 0.1, height_mm: 500, start_level_mm: 200 },
  ports: [{ id: 'port', height_mm: 5, bore_mm: 25 }],
};
const shut = { id: 'shut', kind: 'valve', from: 'tank.port', to: 'a', bore_mm: 25, start_deg: 0 };

/** Liquid that stands in a pipe or hose of some metres, in the air or the ground. */
function standing(conduit: object, more: object) {
  const coarse = { solver: { tick_s: 0.2, cell_m: 2 } };
  const nodes = [tank, joint('a'), joint('b')];
  return createWorld(scenario(nodes, [shut, conduit], { ...coarse, ...more }), 1);
}
const mean = (list: readonly number[]) => list.reduce((sum, x) => sum + x, 0) / list.length;

const HOSE = { id: 'hose', kind: 'hose', from: 'a', to: 'b', bore_mm: 38, length_m: 20 };
const WINTER = {
  ...{ air_C: -10, soil_C: 10, air_film_W_m2K: 25 },
  places: [{ link: 'hose', in: 'air', wall_mm: 5, wall_W_mK: 0.16 }],
};

/** Resistance of wall and air of a hose of 38/48 mm, K m/W. */
const hoseR = () => wallResistance(0.038, 0.048, 0.16) + filmResistance(25, 0.048);

/** Minutes until standing water of 5 C in that hose stands at 0.05 C, then to a tenth of ice. */
function freezing(): [number, number] {
  const world = standing(HOSE, { temperature_C: 5, heat: WINTER });
  const until = (done: () => boolean): number => {
    const from = world.state.counter[0]!;
    while (!done()) run(world, 10);
    return ((world.state.counter[0]! - from) * world.dt) / 60;
  };
  const cold = until(() => link(world, 'hose').temperature_C[5]! < 0.05);
  return [cold, until(() => link(world, 'hose').ice[5]! >= 0.1)];
}

/** Ice that stands in a hose of a mixture once it is as cold as the air, mass fraction. */
function slush(i: { fluid: string; x: number; t_C: number }): number {
  const world = standing(
    { ...HOSE, length_m: 4, start_antifreeze_fraction: i.x },
    {
      ...{ temperature_C: 5, antifreeze: i.fluid },
      heat: { ...WINTER, air_C: i.t_C, air_film_W_m2K: 200 },
    },
  );
  return mean(link(run(world, 40000), 'hose').ice);
}

/** K above the air of standing water in a black pipe in the sun, once it is in balance. */
function sunny(i: { bore_mm: number; wall_mm: number; sun: number; film: number }): number {
  const black = { ...pipe('black', ['a', 'b'], i.bore_mm, 4), wall_mm: i.wall_mm };
  const heat = {
    ...{ air_C: 20, soil_C: 10, air_film_W_m2K: i.film, sun_W_m2: i.sun },
    places: [{ link: 'black', in: 'air' }],
  };
  return mean(link(run(standing(black, { heat }), 20000), 'black').temperature_C) - 20;
}

/** L in two metres of pipe of 50 mm and two fittings of half a litre. */
const BESIDE = 4.93;

/** K in an hour that a kilowatt of shaft power warms so many litres, most of them in a tank. */
function stirring({ litres }: { litres: number }): number {
  const holds = { id: 'tank', kind: 'tank', floor_m: 0, area_m2: 1, height_mm: 500 };
  const ports = ['out', 'in'].map((id) => ({ id, height_mm: 50, bore_mm: 50 }));
  const curve = [
    { flow_L_s: 0, head_m: 25 },
    { flow_L_s: 2, head_m: 5 },
  ];
  const ends = { bore_mm: 50, length_m: 1 };
  const lagged = ['suction', 'back'].map((id) => ({
    ...{ link: id, in: 'air', insulation_mm: 200, insulation_W_mK: 0.01 },
  }));
  const world = createWorld(
    scenario(
      [{ ...holds, start_level_mm: litres - BESIDE, ports }, joint('a'), joint('b')],
      [
        { id: 'suction', kind: 'pipe', from: 'tank.out', to: 'a', wall_mm: 5, ...ends },
        {
          ...{ id: 'pump', kind: 'pump', from: 'a', to: 'b', bore_mm: 50, curve },
          ...{ best_flow_L_s: 1.5, start_on: true },
        },
        { id: 'back', kind: 'pipe', from: 'b', to: 'tank.in', wall_mm: 5, ...ends },
      ],
      { heat: { air_C: 20, soil_C: 20, air_film_W_m2K: 1, places: lagged } },
    ),
    1,
  );
  run(world, 3600);
  const warmer = xray(world).nodes.find((n) => n.id === 'tank')!.temperature_C - 20;
  return (warmer * 3.6e6) / -truth(world).heat_ledgers['shaft']!;
}

/** kPa that the pressure in a full, isolated, buried loop rises by a kelvin, about 10 C. */
function perKelvin(i: { modulus_MPa: number; t_C: number }): number {
  const loop = { ...pipe('loop', ['a', 'b'], 27.3, 400), wall_mm: 3.03, start_pressure_kPa: 400 };
  const ends = [joint('a'), joint('b')].map((one) => ({ ...one, start_pressure_kPa: 400 }));
  const world = createWorld(
    scenario([tank, ...ends], [shut, { ...loop, modulus_MPa: i.modulus_MPa }], {
      ...{ solver: { tick_s: 0.2, cell_m: 5 }, temperature_C: i.t_C + 0.5 },
      heat: { air_C: i.t_C, soil_C: i.t_C - 15 },
    }),
    1,
  );
  run(world, 2);
  const start = node(world, 'b');
  const first = mean(link(world, 'loop').temperature_C);
  while (mean(link(world, 'loop').temperature_C) > i.t_C - 0.5) run(world, 5);
  return (node(world, 'b') - start) / 1000 / (mean(link(world, 'loop').temperature_C) - first);
}

export const HEAT = {
  'heat.hose_R': hoseR,
  'world.freezing_min': freezing,
  'world.slush': slush,
  'world.sunny_K': sunny,
  'world.stirring_K_h': stirring,
  'world.kPa_per_K': perKelvin,
  'world.cold_loss_Pa': coldLoss,
  'cold.steady_Pa': coldSteady,
};
