// How questions of cases.json are put to whole worlds, through createWorld and step: losses,
// weight, springs of air and pipe, and air that stays or goes. Answers in the unit of the name.
import { createWorld, step, truth, type Scenario } from '../../../sim/index.ts';
import { area, held, joint, pipe, scenario } from '../../support/fields.ts';
import { bench } from '../../support/rigs.ts';
import { ATM, closed, FT, link, lossOver, node, PSI, run } from '../../support/worlds.ts';

const G = 9.80665;
const RHO = 998.2; // kg/m3, water at 20 C.

/** Pressure at the foot of a bore under so many psi, psi gauge. */
function foot({ head_psi, depth_ft, x = 0 }: { head_psi: number; depth_ft: number; x?: number }) {
  const depth = depth_ft * FT;
  const bore = { ...pipe('bore', ['top', 'foot'], 27.3, depth), start_antifreeze_fraction: x };
  const top = { ...held('top', (head_psi * PSI) / 1000), antifreeze_fraction: x };
  const mix = x > 0 ? { antifreeze: 'propylene_glycol' } : {};
  const world = createWorld(scenario([top, joint('foot', -depth)], [bore], mix), 1);
  run(world, 120);
  return (node(world, 'foot') - ATM) / PSI;
}

/**
 * Litres that a pipe with 5 L of air at its dead end takes in under a head that comes on at once,
 * over what Boyle's law gives for the air that is left: the head flings a little of it back out of
 * the mouth.
 */
function boyle({ psi }: { psi: number }) {
  const length_m = 4.5 / 1000 / area(0.1); // The end fitting holds the other half litre.
  const world = createWorld(
    closed({
      pressure_kPa: (psi * PSI) / 1000,
      bore_mm: 100,
      length_m: 4,
      gas: { from_m: 4 - length_m, to_m: 4 },
      end_gas: 1,
    }),
    1,
  );
  const before = truth(world).liquid.now;
  run(world, 120);
  const left = truth(world).gas.now * 1000;
  const taken = (1000 * (truth(world).liquid.now - before)) / RHO;
  return taken / (5 - (left * ATM) / (ATM + psi * PSI));
}

interface Stretch {
  readonly bore_mm: number;
  readonly wall_mm: number;
  readonly length_m: number;
  readonly modulus_MPa: number;
  readonly psi: readonly [from: number, to: number];
}

/** Water that a liquid-full pipe of plastic takes in as its pressure rises, L. */
function stretch({ psi, ...tube }: Stretch) {
  const holds = psi.map((p) => {
    const world = createWorld(closed({ ...tube, pressure_kPa: (p * PSI) / 1000, nu: 0.45 }), 1);
    return truth(run(world, 240)).liquid.now;
  });
  return (1000 * (holds[1]! - holds[0]!)) / RHO;
}

type Change = (rig: Scenario) => Scenario;
const asItIs: Change = (rig) => rig;

interface Cushion {
  readonly water_m: number;
  readonly air_m: number;
  readonly over: number;
  readonly bore_mm?: number;
  /** Swings over which the period is the mean. */
  readonly swings?: number;
}

/** Period of a column of water upright under an air cushion, small swings, s. */
export function cushion(i: Cushion, change = asItIs): number {
  const { bore_mm = 100, swings = 3 } = i;
  const A = area(bore_mm / 1000);
  const room = A * i.air_m + 0.0005; // The end fitting is air too.
  const column = i.water_m + (room - room / (1 + i.over)) / A; // As it stands at rest.
  const rig = closed({
    pressure_kPa: (i.over * ATM + RHO * G * column) / 1000,
    bore_mm,
    length_m: i.water_m + i.air_m,
    fall_m: -(i.water_m + i.air_m),
    gas: { from_m: i.water_m, to_m: i.water_m + i.air_m },
    end_gas: 1,
  });
  const world = createWorld(change(rig), 1);
  const crossings: number[] = [];
  for (let tick = 0, last = 0; crossings.length <= swings && tick < 2000; tick++) {
    step(world, []);
    const { flow } = link(world, 'pipe');
    if (last > 0 && flow <= 0) crossings.push((tick + last / (last - flow)) * world.dt);
    last = flow;
  }
  return (crossings[swings]! - crossings[0]!) / swings;
}

interface Squeeze {
  /** The head at the water's top over 1 atm. */
  readonly ratio: number;
  readonly tick_s?: number;
  readonly cell_m?: number;
}

/** Highest pressure over 1 atm of a metre of air above ten of water, stiff and smooth. */
export function peak({ ratio, tick_s = 0.001, cell_m = 0.25 }: Squeeze, change = asItIs): number {
  const rig = closed({
    pressure_kPa: ((ratio - 1) * ATM + RHO * G * 10) / 1000,
    bore_mm: 100,
    length_m: 11,
    fall_m: -11,
    wall_mm: 20,
    modulus_MPa: 250000,
    roughness_mm: 0,
    gas: { from_m: 10, to_m: 11 },
    end_gas: 1,
    tick_s,
    cell_m,
  });
  const world = createWorld(change(rig), 1);
  let most = 0;
  for (let tick = 0; tick < 1.5 / tick_s; tick++) {
    step(world, []);
    most = Math.max(most, node(world, 'end'));
  }
  return most / ATM;
}

/** Share of 1.2 L of air, at the top of the falling leg of a U-bend, that is still in the pipe. */
function bendLeft(i: { velocity: number; seconds: number }) {
  const flow_L_s = i.velocity * area(0.0273) * 1000;
  const world = createWorld(bench({ bore_mm: 27.3, flow_L_s, gas: { from_m: 2, to_m: 4 } }), 1);
  const first = truth(world).gas_by_link['pipe']!;
  run(world, i.seconds);
  return truth(world).gas_by_link['pipe']! / first;
}

const basin = (level_mm: number, area_m2: number, bore_mm: number) => ({
  id: 'tank',
  kind: 'tank',
  floor_m: 0,
  area_m2,
  height_mm: 1500,
  start_level_mm: level_mm,
  ports: [{ id: 'out', height_mm: 0, bore_mm }],
});

/** Share of the air in a bore 10 m deep and wholly full of it, under an open tank, that stays. */
function boreLeft({ seconds }: { seconds: number }) {
  const bore = pipe('bore', ['tank.out', 'foot'], 27.3, 10);
  const foot = { ...joint('foot', -10), volume_L: 0.5, start_gas_fraction: 1 };
  const links = [{ ...bore, gas: [{ from_m: 0, to_m: 10 }] }];
  const world = run(createWorld(scenario([basin(500, 1, 27), foot], links), 1), seconds);
  return truth(world).gas_by_link['bore']! / (area(0.0273) * 10);
}

interface Outlet {
  readonly area_m2: number;
  readonly bore_mm: number;
  readonly loss_k: number;
  readonly level_mm: readonly [from: number, to: number];
}

/** Time for a tank to fall from one level to another through a resistance at its floor, s. */
function emptying({ area_m2, bore_mm, loss_k, level_mm }: Outlet) {
  const valve = {
    id: 'valve',
    kind: 'valve',
    from: 'tank.out',
    to: 'away',
    bore_mm,
    start_deg: 90,
    loss_k_open: loss_k,
  };
  const tank = basin(level_mm[0], area_m2, bore_mm);
  const world = createWorld(scenario([tank, held('away', 0)], [valve]), 1);
  const drop = (area_m2 * (level_mm[0] - level_mm[1])) / 1000;
  const first = truth(world).liquid.now;
  let seconds = 0;
  for (; (first - truth(world).liquid.now) / RHO < drop && seconds < 2000; seconds += world.dt) {
    step(world, []);
  }
  return seconds;
}

/** Flow through a valve of 25 mm alone between two reservoirs 20 kPa apart, L/s. */
function valveFlow({ closed_deg }: { closed_deg: number }) {
  const valve = { id: 'valve', kind: 'valve', from: 'high', to: 'low', bore_mm: 25 };
  const turned = { ...valve, start_deg: 90 - closed_deg, loss_k_open: 0.01 };
  const world = createWorld(scenario([held('high', 20), held('low', 0)], [turned]), 1);
  return 1000 * link(run(world, 30), 'valve').flow;
}

export const WORLDS = {
  'world.loss_Pa': lossOver,
  'world.foot_psi': foot,
  'world.boyle': boyle,
  'world.stretch_L': stretch,
  'world.cushion_s': cushion,
  'world.peak_atm': peak,
  'world.bend_left': bendLeft,
  'world.bore_left': boreLeft,
  'world.emptying_s': emptying,
  'world.valve_L_s': valveFlow,
};
