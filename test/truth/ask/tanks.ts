// How questions of cases.json are put about tanks and filters: suction head, air drawn in over an
// outlet, what mixes in a closed round, and what a filter leaves after so many rounds.
import { createWorld, truth, xray } from '../../../sim/index.ts';
import * as solids from '../../../sim/laws/solids.ts';
import { held, joint, pipe, scenario } from '../../support/fields.ts';
import { node, run } from '../../support/worlds.ts';

const G = 9.80665;
const RHO = 998.2; // kg/m3, water at 20 C.

function tankOf(area_m2: number, level_mm: number, more: object = {}) {
  return {
    id: 'tank',
    kind: 'tank',
    floor_m: 0,
    area_m2,
    height_mm: 1500,
    start_level_mm: level_mm,
    ports: [
      { id: 'in', height_mm: 50, bore_mm: 52.5 },
      { id: 'out', height_mm: 50, bore_mm: 52.5 },
    ],
    ...more,
  };
}

const open = { kind: 'valve', bore_mm: 52.5, start_deg: 90 };
const outlet = { ...open, id: 'outlet', from: 'tank.out', to: 'eye' };

/** Suction head available at a pump's eye under so much water, m, with a loss on the way. */
function npsh(i: { over_m: number; loss_m: number; flow_L_s: number; vapour_Pa: number }) {
  const A = (Math.PI / 4) * 0.0525 * 0.0525;
  const V = i.flow_L_s / 1000 / A;
  const loss_k_open = (i.loss_m * 2 * G) / (V * V);
  const drawn = { id: 'drawn', kind: 'fixed_flow', from: 'eye', to: 'away', bore_mm: 52.5 };
  const links = [
    { ...outlet, loss_k_open },
    { ...drawn, flow_L_s: i.flow_L_s },
  ];
  // So wide that its level falls by less than a millimetre meanwhile.
  const tank = tankOf(20, 1000 * i.over_m + 50);
  const world = createWorld(scenario([tank, joint('eye', 0.05), held('away', 0)], links), 1);
  return (node(run(world, 10), 'eye') - i.vapour_Pa) / (RHO * G);
}

/** Whether a tank's outlet draws air at so much water over it: 1 or 0. */
function drawn({ over_m, flow_L_s }: { over_m: number; flow_L_s: number }) {
  const links = [
    { ...outlet, loss_k_open: 0.1 },
    { id: 'drawn', kind: 'fixed_flow', from: 'eye', to: 'away', bore_mm: 52.5, flow_L_s },
  ];
  const tank = tankOf(20, 1000 * over_m + 50);
  const world = createWorld(scenario([tank, joint('eye', 0.05), held('away', 0)], links), 1);
  run(world, 10);
  const { gas_by_link, gas } = truth(world);
  const air = Object.values(gas_by_link).reduce((sum, x) => sum + x, 0) + Math.abs(gas.now);
  return air > 1e-9 ? 1 : 0;
}

interface Round {
  readonly tank_L: number;
  readonly bore_mm: number;
  readonly length_m: number;
  readonly seconds: number;
}

/** A dosed tank pumped round through a loop of water: share of its strength when all is mixed. */
function mixed({ tank_L, bore_mm, length_m, seconds }: Round) {
  const x = 0.02;
  const room = (id: string) => ({ ...joint(id, 0.05), volume_L: 0.5 });
  const tank = tankOf(0.2, tank_L / 0.2, { start_antifreeze_fraction: x });
  const links = [
    outlet,
    { id: 'round', kind: 'fixed_flow', from: 'eye', to: 'far', bore_mm: 52.5, flow_L_s: 1 },
    pipe('loop', ['far', 'near'], bore_mm, length_m),
    { ...open, id: 'inlet', from: 'near', to: 'tank.in' },
  ];
  const nodes = [tank, room('eye'), room('far'), room('near')];
  const of = scenario(nodes, links, { antifreeze: 'propylene_glycol' });
  const { nodes: now } = xray(run(createWorld(of, 1), seconds));
  return ['tank', 'near'].map((id) => now.find((n) => n.id === id)!.antifreeze / x);
}

interface Grains {
  readonly d_um: number;
  readonly d50_um: number;
  readonly turnovers: number;
}

/** Share of the grains of one size that is left after so many rounds through a filter. */
const filterLeft = ({ d_um, d50_um, turnovers }: Grains) =>
  Math.pow(1 - solids.filterCapture(d_um * 1e-6, d50_um * 1e-6), turnovers);

interface Cake {
  readonly area_m2: number;
  readonly medium_per_m: number;
  readonly cake_m_kg: number;
  /** kg of solids that a cubic metre brings. */
  readonly load_kg_m3: number;
  readonly mPa_s: number;
}

const filterOf = (i: Cake) => ({ area: i.area_m2, medium: i.medium_per_m, cake: i.cake_m_kg });

/** What a cake costs at one flow, twice as much of it over as much. */
function cakeRatio(i: Cake & { flow_L_s: number; caught_kg: number }): number {
  const at = (kg: number) => solids.filterLoss(i.flow_L_s / 1000, i.mPa_s / 1000, kg, filterOf(i));
  return (at(2 * i.caught_kg) - at(0)) / (at(i.caught_kg) - at(0));
}

/** Seconds until so much has passed a filter under a constant pressure, litre by litre. */
function cakeTime(i: Cake & { loss_kPa: number; litres: readonly number[] }): number[] {
  const step = 1e-5;
  const seconds: number[] = [];
  let [t, V] = [0, 0];
  for (const litres of i.litres) {
    for (; V < litres / 1000 - step / 2; V += step) {
      const slope = solids.filterLoss(
        1,
        i.mPa_s / 1000,
        (V + step / 2) * i.load_kg_m3,
        filterOf(i),
      );
      t += (step * slope) / (1000 * i.loss_kPa); // Loss is straight in the flow.
    }
    seconds.push(t);
  }
  return seconds;
}

export const TANKS = {
  'world.npsh_m': npsh,
  'world.drawn': drawn,
  'world.mixed': mixed,
  filterLeft,
  'filter.cakeRatio': cakeRatio,
  'filter.cakeTime_s': cakeTime,
};
