// A made-up day on a bench: a cart's tank and pump, two hoses, a shut loop of one pipe. Filled from
// the main, held under test, left for an hour, purged, and pressed at the second visit.
import { joint, mains, pipe, valve } from './nights.ts';

const hose = (id: string, from: string, to: string, more: object = {}) => ({
  ...{ id, kind: 'hose', from, to, bore_mm: 25, length_m: 4, clear: true },
  ...more,
});
const AIR = (to_m: number) => ({ gas: [{ from_m: 0, to_m }] });
const gassy = { start_gas_fraction: 1 };

const nodes = [
  mains('main', 250),
  joint('tap'),
  {
    ...{ id: 'tank', kind: 'tank', floor_m: 0, area_m2: 0.3, height_mm: 800 },
    start_level_mm: 500,
    ports: [
      { id: 'suction', height_mm: 50, bore_mm: 32 },
      { id: 'back', height_mm: 750, bore_mm: 32 },
    ],
  },
  joint('casing'),
  joint('pump_out', gassy),
  joint('supply', gassy),
  joint('back', gassy),
  joint('foot', gassy),
];

const curve = [
  { flow_L_s: 0, head_m: 30 },
  { flow_L_s: 1, head_m: 25 },
  { flow_L_s: 2, head_m: 5 },
];
const links = [
  hose('suction', 'tank.suction', 'casing'),
  {
    ...{ id: 'pump', kind: 'pump', from: 'casing', to: 'pump_out', bore_mm: 32, curve },
    best_flow_L_s: 1,
  },
  valve('supply_valve', 'pump_out', 'supply', 0),
  pipe('loop_out', 'supply', 'foot', { length_m: 30, ...AIR(30) }),
  pipe('loop_back', 'foot', 'back', { length_m: 30, ...AIR(30) }),
  valve('return_valve', 'back', 'tank.back', 0),
  pipe('feed', 'main', 'tap', { length_m: 2 }),
  valve('press_valve', 'tap', 'supply', 0),
];

export const SMALL_DAY = {
  ...{ format: 1, id: 'small_day', temperature_C: 12, ends_after_s: 40000 },
  solver: { tick_s: 0.1, cell_m: 2 },
  hands: { reach_s: 0.5 },
  nodes,
  links,
  instruments: [
    { id: 'return_sight', kind: 'sight', link: 'suction' },
    { id: 'gauge', kind: 'pressure', node: 'supply', range_kPa: 1000, resolution_kPa: 5, lag_s: 1 },
  ],
  devices: [{ id: 'tag', kind: 'act', take_s: 2 }],
  job: {
    loop_links: ['loop_out', 'loop_back'],
    rule_velocity_m_s: 0.7,
    air_knots: [
      { air_L: 0, share: 1 },
      { air_L: 0.2, share: 0.9 },
      { air_L: 60, share: 0 },
    ],
    air_allowed_L: 1.5,
    loss_free_L: 50,
    loss_cap_L: 200,
    time_full_s: 6000,
    time_zero_s: 12000,
    hand_over: [{ control: 'pump', state: 'off' }],
    critical: [],
  },
};

const turn = (id: string, target_deg: number) => ({ kind: 'valve', valve: id, target_deg });
const free = { until: { hands: 'free' }, max_s: 4000 };
const pump = (on: boolean) => ({ kind: 'switch', pump: 'pump', on });

export const SMALL_DAY_SCRIPT = {
  ...{ format: 1, level: 'small_day', seed: 1 },
  steps: [
    { phase: 'purge' },
    { do: [turn('supply_valve', 90), turn('return_valve', 90), pump(true)] },
    free,
    { wait_s: 300 },
    { do: [turn('return_valve', 0), turn('supply_valve', 0), pump(false)] },
    free,
    { phase: 'pressure' },
    { do: turn('press_valve', 30) },
    { until: { reading: 'gauge', above_kPa: 200 }, max_s: 60 },
    { do: [turn('press_valve', 0), { kind: 'set', device: 'tag', position: 1 }] },
    free,
    { do: { kind: 'leave', hours: 1 } },
    free,
    { phase: 'second_visit' },
    { do: turn('press_valve', 30) },
    { wait_s: 10 },
    { do: turn('press_valve', 0) },
    free,
    { do: { kind: 'done' } },
  ],
};
