// How questions of cases.json are put to vessels, samples and alcohols: what is poured together,
// what instruments make of it, what stands over it. Answers in the unit of the question's name.
import * as alcohol from '../../../sim/laws/alcohol.ts';
import {
  massFraction,
  mixDensity,
  mixViscosity,
  type Antifreeze,
} from '../../../sim/laws/antifreeze.ts';
import { snapshot } from '../../../sim/index.ts';
import { dosing, level, shown, TANK_AREA } from '../../support/dosing.ts';
import { during, set } from '../../support/hands.ts';

const P_ATM = 101325;

type Alcohol = 'ethanol' | 'methanol';

interface Sampled {
  readonly fluid: Antifreeze;
  readonly x: readonly number[];
  readonly t_C?: number;
}

/** A cup of each mixture out of a tank of it, and what the instrument says. */
function sampled({ fluid, x, t_C = 20 }: Sampled, instrument: string): number[] {
  return x.map((loop) => {
    const world = dosing({ antifreeze: fluid, loop, t_C });
    during(world, 7, [set('cup', 1)]);
    return shown(world, instrument)!;
  });
}

/** Litres that so much neat antifreeze makes with water, carried from the drum in pails of ten. */
function poured({
  fluid,
  neat_L,
  water_L,
}: {
  fluid: Antifreeze;
  neat_L: number;
  water_L: number;
}) {
  const tank_mm = water_L / TANK_AREA;
  const world = dosing({ antifreeze: fluid, drum: 1, tank_mm });
  const trips = neat_L / 10;
  during(world, 1 + 15 * trips, [set('pail', trips)]);
  if (snapshot(world).scene.devices[1]!.position !== trips) return NaN;
  return 1000 * TANK_AREA * level(world, 'tank');
}

interface Strong {
  readonly fluid: Antifreeze;
  readonly t_C: number;
  readonly x: readonly number[];
}

export const MIXING = {
  'world.poured_L': poured,
  'world.hydrometer': (i: Sampled) => sampled(i, 'float'),
  'world.refractometer_C': (i: Sampled) => sampled(i, 'prism'),
  'antifreeze.strongDensity': ({ fluid, t_C, x }: Strong) =>
    x.map((y) => mixDensity(fluid, t_C, y)),
  'antifreeze.strongViscosity_mPa_s': ({ fluid, t_C, x }: Strong) =>
    x.map((y) => 1000 * mixViscosity(fluid, t_C, y)),
  'flash.point_C': ({ alcohol: fluid, phi }: { alcohol: Alcohol; phi: readonly number[] }) =>
    phi.map((share) => alcohol.flashPoint_C(fluid, massFraction(fluid, share))),
  'flash.headspace_ppm': (i: { alcohol: Alcohol; phi: number; t_C: number }) =>
    (1e6 * alcohol.alcoholPressure(i.alcohol, i.t_C, massFraction(i.alcohol, i.phi))) / P_ATM,
};
