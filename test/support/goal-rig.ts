// A small rig with two ways back to its tank, whose job asks for milestones: a pump, a sheet with
// one line, eye protection, a loop of two pipes.
import { parseScenario, type Scenario } from '../../sim/index.ts';

const ends = { bore_mm: 32 };
const pipe = { kind: 'pipe', wall_mm: 3, length_m: 12, ...ends };

/** What every milestone of a test has. */
export const WAY = { phase: 'purge', points: 4, dimension: 'safety' } as const;

export const PARTS = {
  nodes: [
    {
      id: 'tank',
      kind: 'tank',
      floor_m: 0,
      area_m2: 0.25,
      height_mm: 900,
      start_level_mm: 700,
      ports: [
        { id: 'out', height_mm: 50, bore_mm: 50 },
        { id: 'back_a', height_mm: 300, bore_mm: 32 },
        { id: 'back_b', height_mm: 300, bore_mm: 32 },
      ],
    },
    { id: 'casing', kind: 'junction', elevation_m: 0, volume_L: 2 },
    { id: 'outlet', kind: 'junction', elevation_m: 0 },
    { id: 'end_a', kind: 'junction', elevation_m: 0 },
    { id: 'end_b', kind: 'junction', elevation_m: 0 },
  ],
  links: [
    { id: 'suction', kind: 'valve', from: 'tank.out', to: 'casing', start_deg: 90, ...ends },
    {
      id: 'pump',
      kind: 'pump',
      from: 'casing',
      to: 'outlet',
      best_flow_L_s: 1,
      curve: [
        { flow_L_s: 0, head_m: 20 },
        { flow_L_s: 2, head_m: 2 },
      ],
      ...ends,
    },
    { id: 'pipe_a', from: 'outlet', to: 'end_a', ...pipe },
    { id: 'valve_a', kind: 'valve', from: 'end_a', to: 'tank.back_a', start_deg: 90, ...ends },
    { id: 'pipe_b', from: 'outlet', to: 'end_b', ...pipe },
    { id: 'valve_b', kind: 'valve', from: 'end_b', to: 'tank.back_b', start_deg: 0, ...ends },
  ],
  instruments: [
    {
      id: 'gauge',
      kind: 'pressure',
      node: 'outlet',
      range_kPa: 400,
      resolution_kPa: 10,
      lag_s: 0.5,
    },
  ],
  devices: [{ id: 'goggles', kind: 'wear', what: 'eyes' }],
};

export const JOB = {
  loop_links: ['pipe_a', 'pipe_b'],
  rule_velocity_m_s: 0.6,
  air_knots: [
    { air_L: 0, share: 1 },
    { air_L: 1, share: 0.6 },
    { air_L: 100, share: 0 },
  ],
  air_allowed_L: 1,
  loss_free_L: 5,
  loss_cap_L: 50,
  time_full_s: 1800,
  time_zero_s: 3600,
  hand_over: [{ control: 'pump', state: 'off' }],
  critical: ['dry_run'],
};

/** The rig with this added to its job, and to itself. */
export function goalRig(job: object, more: object = {}): Scenario {
  return parseScenario({
    format: 1,
    id: 'goals',
    temperature_C: 15,
    ends_after_s: 3600,
    record: [{ id: 'line', reading: 'gauge' }],
    ...PARTS,
    ...more,
    job: { ...JOB, ...job },
  });
}
