// One rig for all that can be wrong with a plant: a tank, a pump with a filter, two circuits with
// valves, a supply with a meter. Everything is full of liquid and runs when the clock starts.
// Also the states it is looked at in, and its readings as plain numbers.
import {
  createWorld,
  parseScenario,
  snapshot,
  step,
  type Command,
  type Scenario,
  type World,
} from '../../sim/index.ts';
import { turn } from './hands.ts';

const joint = (id: string, more: object = {}) => ({
  id,
  kind: 'junction',
  elevation_m: 0.4,
  start_pressure_kPa: 3,
  ...more,
});
const valve = (id: string, ends: readonly [string, string], bore_mm: number, start_deg = 90) => ({
  id,
  kind: 'valve',
  from: ends[0],
  to: ends[1],
  bore_mm,
  start_deg,
  rate_deg_s: 60,
});
const hose = (id: string, ends: readonly [string, string], bore_mm: number, length_m: number) => ({
  id,
  kind: 'hose',
  from: ends[0],
  to: ends[1],
  bore_mm,
  length_m,
  clear: true,
  start_antifreeze_fraction: 0.25,
});
const circuit = (id: string, ends: readonly [string, string], length_m: number) => ({
  id,
  kind: 'pipe',
  from: ends[0],
  to: ends[1],
  bore_mm: 27.3,
  wall_mm: 3,
  length_m,
  start_antifreeze_fraction: 0.25,
  profile: [
    { at_m: 2, elevation_m: -1.4 },
    { at_m: length_m - 2, elevation_m: -1.4 },
  ],
});
const gauge = (id: string, node: string, range_kPa = 400) => ({
  id,
  kind: 'pressure',
  node,
  range_kPa,
  resolution_kPa: 0.5,
  lag_s: 0.5,
});
const meter = (id: string, link: string) => ({
  id,
  kind: 'flow',
  link,
  range_L_min: 120,
  resolution_L_min: 0.5,
  lag_s: 0.5,
});

const NODES = [
  {
    id: 'mains',
    kind: 'reservoir',
    elevation_m: 0.6,
    pressure_kPa: 300,
    antifreeze_fraction: 0.25,
  },
  joint('fill_in', { elevation_m: 0.9, start_pressure_kPa: 297 }),
  {
    id: 'tank',
    kind: 'tank',
    floor_m: 0.35,
    area_m2: 0.16,
    height_mm: 800,
    start_level_mm: 420,
    start_antifreeze_fraction: 0.25,
    ports: [
      { id: 'outlet', height_mm: 60, bore_mm: 25 },
      { id: 'inlet', height_mm: 585, bore_mm: 13 },
      { id: 'back', height_mm: 60, bore_mm: 38 },
    ],
  },
  ...['suction', 'casing', 'pump_out', 'filtered', 'discharge', 'head_s'].map((id) => joint(id)),
  ...['a0', 'a1', 'b0', 'b1', 'head_r', 'back_in'].map((id) => joint(id)),
];
const LINKS = [
  { ...hose('make_up', ['mains', 'fill_in'], 13, 10), start_pressure_kPa: 300 },
  { ...valve('fill_valve', ['fill_in', 'tank.inlet'], 13, 0), loss_k_open: 40 },
  valve('suction_valve', ['tank.outlet', 'suction'], 25),
  { ...hose('suction_hose', ['suction', 'casing'], 25, 1), loss_k: 1 },
  {
    id: 'pump',
    kind: 'pump',
    from: 'casing',
    to: 'pump_out',
    bore_mm: 38,
    curve: [
      { flow_L_s: 0, head_m: 24 },
      { flow_L_s: 0.4, head_m: 22.8 },
      { flow_L_s: 0.8, head_m: 19.2 },
      { flow_L_s: 1.2, head_m: 13.2 },
      { flow_L_s: 1.6, head_m: 4.8 },
      { flow_L_s: 1.78, head_m: 0 },
    ],
    best_flow_L_s: 0.9,
    start_on: true,
  },
  { id: 'filter', kind: 'filter', from: 'pump_out', to: 'filtered', bore_mm: 38, loss_k: 20 },
  valve('discharge_valve', ['filtered', 'discharge'], 38),
  hose('supply_hose', ['discharge', 'head_s'], 32, 6),
  valve('a_in', ['head_s', 'a0'], 27.3),
  valve('b_in', ['head_s', 'b0'], 27.3),
  circuit('circuit_a', ['a0', 'a1'], 40),
  circuit('circuit_b', ['b0', 'b1'], 60),
  valve('a_out', ['a1', 'head_r'], 27.3),
  valve('b_out', ['b1', 'head_r'], 27.3),
  hose('return_hose', ['head_r', 'back_in'], 32, 6),
  valve('return_valve', ['back_in', 'tank.back'], 32),
];
const INSTRUMENTS = [
  { ...gauge('suction_gauge', 'casing', 100), from_kPa: -100, resolution_kPa: 0.2 },
  gauge('discharge_gauge', 'pump_out'),
  {
    id: 'filter_gauge',
    kind: 'difference',
    high: 'pump_out',
    low: 'filtered',
    range_kPa: 200,
    resolution_kPa: 0.2,
    lag_s: 0.5,
  },
  gauge('header_gauge', 'head_s'),
  gauge('return_gauge', 'head_r'),
  gauge('supply_gauge', 'fill_in'),
  meter('flow_meter', 'supply_hose'),
  meter('flow_meter_a', 'circuit_a'),
  { id: 'level', kind: 'level', tank: 'tank', resolution_mm: 1 },
  { id: 'supply_meter', kind: 'meter', link: 'make_up', resolution_L: 0.1 },
];

/** The rig with these defects, and other keys of the scenario. */
export function defectRig(defects: readonly object[], more: object = {}): Scenario {
  return parseScenario({
    format: 1,
    id: 'defect_rig',
    temperature_C: 10,
    antifreeze: 'propylene_glycol',
    ends_after_s: 100000,
    nodes: NODES,
    links: LINKS,
    instruments: INSTRUMENTS,
    defects,
    ...more,
  });
}

/** Units of the readings' resolutions, SI: what a reading must move by to have moved. */
export const DIVISIONS: Readonly<Record<string, number>> = {
  ...{ suction_gauge: 200, discharge_gauge: 500, filter_gauge: 200, header_gauge: 500 },
  ...{ return_gauge: 500, supply_gauge: 500, flow_meter: 0.5 / 60000 },
  ...{ flow_meter_a: 0.5 / 60000, level: 0.001, supply_meter: 0.0001 },
};

/** What hands do, by second. */
const HANDS: Readonly<Record<number, readonly Command[]>> = {
  40: [turn('b_in', 0), turn('b_out', 0)],
  60: [turn('return_valve', 0)],
  90: [turn('fill_valve', 90)],
};

/** When the rig is looked at, s. */
export const STATES = { full: 40, one_circuit: 60, just_shut: 64, deadhead: 90, filling: 110 };
export type StateName = keyof typeof STATES;

export type Numbers = Readonly<Record<string, number>>;

/** Every reading with a number. */
export function numbersOf(world: World): Numbers {
  const { readings } = snapshot(world).panel;
  return Object.fromEntries(
    readings.flatMap((r) => (typeof r.value === 'number' ? [[r.id, r.value]] : [])),
  );
}

/** Plays the hands and looks at each state. */
export function looked(scenario: Scenario): Readonly<Record<StateName, Numbers>> {
  const world = createWorld(scenario, 1);
  const found: Record<string, Numbers> = {};
  for (let tick = 0; tick <= 10 * STATES.filling; tick++) {
    for (const [name, at] of Object.entries(STATES)) {
      if (tick === 10 * at) found[name] = numbersOf(world);
    }
    step(world, HANDS[tick / 10] ?? []);
  }
  return found as Record<StateName, Numbers>;
}
