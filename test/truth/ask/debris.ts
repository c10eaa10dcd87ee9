// How questions of cases.json about sand and shavings are put to whole worlds.
import { createWorld, truth, xray, type World } from '../../../sim/index.ts';
import {
  bench,
  grainsIn,
  GRAINS,
  middle,
  ring,
  turnover,
  type Bench,
} from '../../support/debris.ts';
import { held, joint, pipe, scenario } from '../../support/fields.ts';
import { node, run } from '../../support/worlds.ts';

/** Lowest velocity between two at which something is so, m/s. */
function threshold(lo: number, hi: number, is: (V: number) => boolean): number {
  for (let k = 0; k < 12; k++) {
    const V = (lo + hi) / 2;
    if (is(V)) hi = V;
    else lo = V;
  }
  return (lo + hi) / 2;
}

/** True where something of what lay in a level pipe has moved in 10 s. */
function stirs(o: Bench): boolean {
  const world = bench(o);
  const before = grainsIn(world, 'run');
  return grainsIn(run(world, 10), 'run').some((kg, k) => Math.abs(kg - before[k]!) > 1e-9);
}

/**
 * True where grains in the first metre of an upright pipe go on along it once its flow is steady:
 * what a first surge took along comes back where the flow is too slow.
 */
function carried(o: Bench): boolean {
  const world = bench({ ...o, length_m: 4, from_m: 0, to_m: 1 });
  const beyond = () => {
    const foot = xray(world).nodes.find(({ id }) => id === 'a')!;
    const stays = grainsIn(world, 'run')[0]! + foot.debris_moving + foot.debris_lying;
    return truth(world).debris!.start - stays;
  };
  run(world, 10);
  const before = beyond();
  run(world, 10);
  return before > 1e-9 && beyond() > (1 - 1e-9) * before;
}

/** Shares that are left in a ring after 1, 2, 3 ... turnovers through its filter. */
function leftAfter(i: { diameter_mm: number; d50_um: number; V: number; turns: number }) {
  const element = { d50_um: i.d50_um, capacity_g: 1e6 };
  const world = ring({ ...i, grams: 20, element });
  const seconds = turnover(world, i.V);
  return Array.from({ length: i.turns }, () => {
    const { debris, elements } = truth(run(world, seconds));
    return (debris!.now - elements[0]!.load) / debris!.start;
  });
}

/** Rise of a filter's loss, kPa, when it has caught a half and all of its capacity. */
function risenBy(i: { capacity_g: number; full_kPa: number; V: number }): number[] {
  const element = { d50_um: 1, capacity_g: i.capacity_g, full_kPa: i.full_kPa };
  const dirty = (grams: number) => ring({ diameter_mm: 0.03, V: i.V, grams, element });
  const loss = (world: World) => (node(world, 'b') - node(world, 'c')) / 1000;
  const clean = loss(run(dirty(1e-6), 20));
  const world = dirty(1.2 * i.capacity_g);
  return [0.5, 1].map((share) => {
    const caught = () => truth(world).elements[0]!.load / (i.capacity_g / 1000);
    while (caught() < share) run(world, 0.2);
    return ((loss(world) - clean) / caught()) * share;
  });
}

/** Share of the grains coming to a tank that stay in it, with water drawn at the same rate. */
function keptByTank(i: { grain: string; area_m2: number; level_m: number; flow_L_s: number }) {
  const bore_mm = 27.3;
  const tank = {
    ...{ id: 'tank', kind: 'tank', floor_m: 0, area_m2: i.area_m2, height_mm: 2000 },
    start_level_mm: 1000 * i.level_m,
    ports: [
      { id: 'in', height_mm: 100, bore_mm },
      { id: 'out', height_mm: 0, bore_mm },
    ],
  };
  const drive = { kind: 'fixed_flow', bore_mm, flow_L_s: i.flow_L_s };
  const world: World = createWorld(
    scenario(
      [held('well', 50), tank, joint('a'), joint('b', 0.1), joint('c'), held('away', 0)],
      [
        { id: 'feed', from: 'well', to: 'a', ...drive },
        pipe('brings', ['a', 'b'], bore_mm, 4),
        { id: 'inlet', kind: 'valve', from: 'b', to: 'tank.in', bore_mm, start_deg: 90 },
        { id: 'outlet', kind: 'valve', from: 'tank.out', to: 'c', bore_mm, start_deg: 90 },
        { id: 'drawn', from: 'c', to: 'away', ...drive },
      ],
      {
        debris: {
          classes: GRAINS,
          lying: [{ link: 'brings', class: i.grain, from_m: 0, to_m: 4, grams: 10 }],
        },
      },
    ),
    1,
  );
  run(world, 900);
  const { start, went } = truth(world).debris!;
  return 1 - went / start;
}

interface Between {
  readonly from_m_s: number;
  readonly to_m_s: number;
}

export const DEBRIS = {
  'world.debris_stirs': (i: Bench) => threshold(0.01, 2, (V) => stirs({ ...i, V })),
  'world.debris_carried': (i: Bench & { diameter_mm?: number } & Between) => {
    const size = GRAINS.find(({ id }) => id === i.grain)!.diameter_mm;
    if (i.diameter_mm !== undefined && i.diameter_mm !== size) throw new Error(`${size} mm`);
    return threshold(i.from_m_s, i.to_m_s, (V) => carried({ ...i, V }));
  },
  /** m/s of what rolls along a level pipe, between two times. */
  'world.debris_rolls': (i: Bench & { t0_s: number; t1_s: number }) => {
    const world = run(bench(i), i.t0_s);
    const before = middle(world, 'run');
    return (middle(run(world, i.t1_s - i.t0_s), 'run') - before) / (i.t1_s - i.t0_s);
  },
  'world.debris_left': leftAfter,
  'world.debris_loss': risenBy,
  'world.debris_tank': keptByTank,
  /** Shares of what lay that a flush of so many seconds at each velocity has taken out. */
  'world.debris_flushed': (i: Bench & { velocities: number[]; seconds: number }) =>
    i.velocities.map((V) => {
      const { start, went } = truth(run(bench({ ...i, V }), i.seconds)).debris!;
      return went / start;
    }),
};
