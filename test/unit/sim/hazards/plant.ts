// Hazards to plant: pumps, tanks, ratings, couplings, supplies. Each row trips, and its near miss
// comes to four fifths of the limit at least.
import { set, turn } from '../../../support/hands.ts';
import {
  device,
  gauge,
  joint,
  mainsRig,
  off,
  on,
  part,
  pumpRig,
  reading,
  shown,
  valve,
  type Row,
} from './rigs.ts';

const arms = (start: number) => ({
  devices: [{ id: 'arms', kind: 'latch', of: 'joint', start, take_s: 1 }],
});

/** A pipe full of test air behind a coupling; at rest. */
const airRig = (kPa: number): unknown => {
  const held = { start_pressure_kPa: kPa, start_gas_fraction: 1 };
  const pipe = { bore_mm: 35, wall_mm: 4, length_m: 30, start_pressure_kPa: kPa };
  return {
    ...{ format: 1, id: 'air', temperature_C: 15, ends_after_s: 600, hands: { reach_s: 1 } },
    nodes: [joint('far', held), joint('near', held), joint('cart', held)],
    links: [
      {
        ...{ id: 'loop', kind: 'pipe', from: 'far', to: 'near', ...pipe },
        gas: [{ from_m: 0, to_m: 30 }],
      },
      {
        ...{ id: 'joint', kind: 'coupling', from: 'near', to: 'cart', start: 'made' },
        ...{ bore_mm: 35, make_s: 4, to_apart: 'capped' },
      },
    ],
    instruments: [gauge('near')],
  };
};

/** A hose and a strainer that stand full in hard frost; with weak antifreeze slush is left. */
const frostRig = (x: number): unknown => {
  const mixed = { start_antifreeze_fraction: x };
  const tank = { id: 'tank', kind: 'tank', floor_m: 0.2, area_m2: 0.15, height_mm: 500, ...mixed };
  const ports = [{ id: 'out', height_mm: 50, bore_mm: 15 }];
  const fluid = x > 0 ? 'propylene_glycol' : 'none';
  return {
    ...{ format: 1, id: 'frost', temperature_C: 1, antifreeze: fluid, ends_after_s: 9000 },
    solver: { tick_s: 0.2 },
    heat: { air_C: -40, soil_C: 5, air_film_W_m2K: 200 },
    nodes: [{ ...tank, start_level_mm: 300, ports }, joint('near'), joint('far')],
    links: [
      {
        ...{ id: 'lead', kind: 'hose', from: 'tank.out', to: 'near' },
        ...{ bore_mm: 15, length_m: 1, ...mixed },
      },
      {
        ...{ id: 'strainer', kind: 'filter', from: 'near', to: 'far' },
        ...{ bore_mm: 15, loss_k: 4 },
      },
    ],
    instruments: [gauge('far', { range_kPa: 100, resolution_kPa: 0.5, lag_s: 1 })],
  };
};

/** Joined to drinking water beside a pump that can press more than the supply. */
const supplyRig = (): unknown => {
  const rig = pumpRig({
    devices: [{ id: 'check', kind: 'guard', of: 'fill' }],
  }) as { nodes: unknown[]; links: unknown[] };
  rig.nodes.push({ id: 'mains', kind: 'reservoir', elevation_m: 0, pressure_kPa: 120 });
  rig.links.push({
    ...{ id: 'fill', kind: 'valve', from: 'mains', to: 'half' },
    ...{ bore_mm: 20, start_deg: 0 },
  });
  return rig;
};

/** A tick of a fifth of a second, for what takes minutes. */
const coarse = { solver: { tick_s: 0.2 } };
const dryCasing = { casing: { start_gas_fraction: 1, volume_L: 1 }, suction: { start_deg: 0 } };
const choked = {
  tank: { start_level_mm: 760 },
  suction: { start_deg: 20 },
  pump: { npsh_required_m: 6 },
};
const slowThrottle = { throttle: { rate_deg_s: 3, start_deg: 90 } };
const fillRig = (): unknown => {
  const rig = pumpRig({}, { tank: { start_level_mm: 780 } }) as {
    nodes: unknown[];
    links: unknown[];
  };
  rig.nodes.push({ id: 'mains', kind: 'reservoir', elevation_m: 0, pressure_kPa: 20 });
  rig.links.push({
    ...{ id: 'fill', kind: 'valve', from: 'mains', to: 'tank.back', bore_mm: 8 },
    ...{ start_deg: 90, loss_k_open: 20 },
  });
  return rig;
};

/** Left to run for 40 s; off again after 26 s. */
const toDamage = (changes: Parameters<typeof pumpRig>[1]): Pick<Row, 'trips' | 'near'> => {
  const started = { scenario: pumpRig({}, changes), lasts_s: 40 };
  return {
    trips: { ...started, hands: [[0, on]] },
    near: {
      ...started,
      hands: [
        [0, on],
        [26, off],
      ],
    },
  };
};

export const PLANT: readonly Row[] = [
  {
    hazard: 'dry_run',
    at: 'pump',
    shown_by: 'the note of the pump: dry',
    sees: (now) => reading(now, 'note').value === 'dry',
    ...toDamage(dryCasing),
  },
  {
    hazard: 'starved',
    at: 'pump',
    shown_by: 'the note of the pump: starved',
    sees: (now) => reading(now, 'note').value === 'starved',
    ...toDamage(choked),
  },
  {
    hazard: 'deadhead',
    at: 'pump',
    shown_by: 'the gauge at shut-off with the throttle across the pipe',
    sees: (now) => shown(now, 'gauge') > 180e3 && valve(now, 'throttle').deg === 0,
    trips: {
      scenario: pumpRig(coarse, { throttle: { start_deg: 0 } }),
      hands: [[0, on]],
      lasts_s: 310,
    },
    near: {
      scenario: pumpRig(coarse, { throttle: { start_deg: 0 } }),
      hands: [
        [0, on],
        [260, turn('throttle', 90)],
      ],
      lasts_s: 330,
    },
  },
  {
    hazard: 'overflow',
    at: 'tank',
    shown_by: 'the sight tube, within 15 mm of the rim',
    sees: (now) => shown(now, 'sight_tube') > 0.785,
    trips: { scenario: fillRig(), hands: [], lasts_s: 120 },
    near: { scenario: fillRig(), hands: [[78, turn('fill', 0)]], lasts_s: 120 },
  },
  {
    hazard: 'over_pressure',
    at: 'out',
    shown_by: 'the gauge, rising past three quarters of the rating',
    sees: (now) => shown(now, 'gauge') > 0.75 * 150e3,
    trips: {
      scenario: pumpRig({}, { ...slowThrottle, out: { rating_kPa: 150 } }),
      hands: [
        [0, on],
        [5, turn('throttle', 0)],
      ],
      lasts_s: 40,
    },
    near: {
      scenario: pumpRig({}, { ...slowThrottle, out: { rating_kPa: 150 } }),
      hands: [
        [0, on],
        [5, turn('throttle', 25)],
      ],
      lasts_s: 40,
    },
  },
  {
    hazard: 'cracked',
    at: 'strainer',
    shown_by: 'the gauge behind it, pressed up by ice that takes more room',
    sees: (now) => shown(now, 'gauge') > 10e3,
    trips: { scenario: frostRig(0), hands: [], lasts_s: 700 },
    near: { scenario: frostRig(0.09), hands: [], lasts_s: 1400 },
  },
  {
    hazard: 'opened_under_pressure',
    at: 'joint',
    shown_by: 'the gauge beside the coupling',
    sees: (now) => shown(now, 'gauge') >= 40e3,
    trips: { scenario: mainsRig(300), hands: [[2, part]], lasts_s: 12 },
    near: { scenario: mainsRig(45), hands: [[2, part]], lasts_s: 12 },
  },
  {
    hazard: 'test_air',
    at: 'joint',
    shown_by: 'the gauge of the test',
    sees: (now) => shown(now, 'gauge') >= 80e3,
    trips: { scenario: airRig(300), hands: [[2, part]], lasts_s: 12 },
    near: { scenario: airRig(88), hands: [[2, part]], lasts_s: 12 },
  },
  {
    hazard: 'unpinned',
    at: 'joint',
    shown_by: 'the arms, shut but not pinned, and the gauge',
    sees: (now) => device(now, 'arms').position < 2 && shown(now, 'gauge') > 50e3,
    trips: { scenario: mainsRig(100, arms(1)), hands: [], lasts_s: 40 },
    near: { scenario: mainsRig(100, arms(1)), hands: [[25, set('arms', 2)]], lasts_s: 40 },
  },
  {
    hazard: 'no_backflow',
    at: 'fill',
    shown_by: 'the empty place of the protection, with the supply valve open',
    sees: (now) => device(now, 'check').position === 0 && valve(now, 'fill').deg > 0,
    trips: {
      scenario: supplyRig(),
      hands: [
        [0, turn('throttle', 0)],
        [4, turn('fill', 90)],
        [12, on],
      ],
      lasts_s: 30,
    },
    near: {
      scenario: supplyRig(),
      hands: [
        [0, turn('throttle', 0)],
        [4, turn('fill', 90)],
      ],
      lasts_s: 30,
    },
  },
];
