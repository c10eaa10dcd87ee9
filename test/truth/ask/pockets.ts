// How questions of cases.json about gas that warms when it is squeezed are put to whole worlds:
// periods and peaks of air cushions, fast and slow.
import { createWorld, step, truth, type Scenario } from '../../../sim/index.ts';
import { area } from '../../support/fields.ts';
import { ATM, closed, link, node, PSI, run } from '../../support/worlds.ts';

const G = 9.80665;
const RHO = 998.2; // kg/m3, water at 20 C.

const heated = (scenario: Scenario): Scenario => ({ ...scenario, gas_heats: true });

interface Cushion {
  readonly bore_mm: number;
  readonly water_m: number;
  readonly air_m: number;
  readonly over: number;
  readonly swings: number;
}

/** Period of a column of water upright under an air cushion that may warm, small swings, s. */
function cushion({ bore_mm, water_m, air_m, over, swings }: Cushion) {
  const A = area(bore_mm / 1000);
  const room = A * air_m + 0.0005; // The end fitting is air too.
  const column = water_m + (room - room / (1 + over)) / A; // As it stands at rest.
  const world = createWorld(
    heated(
      closed({
        pressure_kPa: (over * ATM + RHO * G * column) / 1000,
        bore_mm,
        length_m: water_m + air_m,
        fall_m: -(water_m + air_m),
        gas: { from_m: water_m, to_m: water_m + air_m },
        end_gas: 1,
      }),
    ),
    1,
  );
  const crossings: number[] = [];
  for (let tick = 0, last = 0; crossings.length <= swings && tick < 2000; tick++) {
    step(world, []);
    const { flow } = link(world, 'pipe');
    if (last > 0 && flow <= 0) crossings.push((tick + last / (last - flow)) * world.dt);
    last = flow;
  }
  return (crossings[swings]! - crossings[0]!) / swings;
}

/** Highest pressure over 1 atm of a metre of air above ten of water, stiff and smooth. */
function peak({ ratio }: { ratio: number }) {
  const tick_s = 0.001;
  const world = createWorld(
    heated(
      closed({
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
        cell_m: 0.25,
      }),
    ),
    1,
  );
  let most = 0;
  for (let tick = 0; tick < 1.5 / tick_s; tick++) {
    step(world, []);
    most = Math.max(most, node(world, 'end'));
  }
  return most / ATM;
}

/** Water that 5 L of air at a dead end lets in, over Boyle's, so many seconds after a head. */
function boyle({ psi, seconds }: { psi: number; seconds: number }) {
  const length_m = 4.5 / 1000 / area(0.1); // The end fitting holds the other half litre.
  const world = createWorld(
    heated(
      closed({
        pressure_kPa: (psi * PSI) / 1000,
        bore_mm: 100,
        length_m: 4,
        gas: { from_m: 4 - length_m, to_m: 4 },
        end_gas: 1,
      }),
    ),
    1,
  );
  const before = truth(world).liquid.now;
  run(world, seconds);
  const left = truth(world).gas.now * 1000;
  const taken = (1000 * (truth(world).liquid.now - before)) / RHO;
  return taken / (5 - (left * ATM) / (ATM + psi * PSI));
}

export const POCKETS = {
  'world.warmCushion_s': cushion,
  'world.warmPeak_atm': peak,
  'world.warmBoyle': boyle,
};
