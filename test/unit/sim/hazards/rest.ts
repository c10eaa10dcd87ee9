// Hazards of what the liquid does and carries: a valve that slams, debris at a coil, alcohol in the
// air and near a flame. Each row trips, and its near miss comes to four fifths of it at least.
import { deposit, yard } from '../../../support/debris.ts';
import { slamRig } from '../../../truth/ask/surge.ts';
import type { Slam } from '../../../truth/origin/surge.ts';
import { set, turn } from '../../../support/hands.ts';
import { device, reading, shown, valve, type Row } from './rigs.ts';

/** Jumps by 195 kPa: 28.3 psi by Joukowsky. */
const SLAM: Slam = {
  ...{ bore_mm: 27.305, wall_mm: 3.048, length_m: 150, modulus_MPa: 1000 },
  ...{ head_kPa: 27.7, loss_k_open: 0.1, shut_s: 0.3 },
};
const meter = {
  ...{ id: 'meter', kind: 'flow', link: 'main' },
  ...{ range_L_min: 60, resolution_L_min: 1, lag_s: 0.5 },
};
const slams = (rating_kPa: number): Row['trips'] => ({
  scenario: slamRig(SLAM, rating_kPa, { all: { instruments: [meter] } }),
  hands: [[25, turn('valve', 0)]],
  lasts_s: 35,
});

/** Grains lie in the suction and nothing is in the filter's way: they go on to the coil. */
const fouls = (grams: number): Row['trips'] => {
  const scenario = yard([deposit('suction', 'fine', grams, 2)]);
  const debris = scenario.debris!;
  const catchers = debris.catchers.filter(({ link }) => link === 'coil');
  return {
    scenario: { ...scenario, debris: { ...debris, catchers } },
    hands: [[0, turn('coil_valve', 90)]],
    lasts_s: 120,
  };
};

/** An open drum of alcohol in a room of a cubic metre, with a fan and a flame in it. */
const drum = (x: number, temperature_C: number, more: object = {}): unknown => ({
  ...{ format: 1, id: 'cellar', temperature_C, antifreeze: 'ethanol', ends_after_s: 7200 },
  ...{ solver: { tick_s: 0.2 }, hands: { reach_s: 1 } },
  nodes: [
    {
      ...{ id: 'drum', kind: 'tank', floor_m: 0, area_m2: 0.25, height_mm: 900 },
      ...{ start_level_mm: 600, start_antifreeze_fraction: x },
      ports: [{ id: 'bung', height_mm: 20, bore_mm: 25 }],
    },
    { id: 'floor', kind: 'open', elevation_m: 0, goes_to: 'ground' },
  ],
  links: [{ id: 'tap', kind: 'valve', from: 'drum.bung', to: 'floor', bore_mm: 25, start_deg: 0 }],
  devices: [
    { id: 'fan', kind: 'fan', take_s: 1, air_L_s: 50 },
    { id: 'flame', kind: 'flame', take_s: 5 },
    { id: 'cup', kind: 'cup', places: ['drum'], litres: 0.2, take_s: 5 },
  ],
  instruments: [{ id: 'float', kind: 'hydrometer', cup: 'cup', resolution: 0.001 }],
  room: { volume_m3: 1, leak_air_changes_per_h: 0.2, holds: ['drum', 'floor'], ...more },
});

export const REST: readonly Row[] = [
  {
    hazard: 'hammer',
    at: 'valve',
    shown_by: 'the meter: much water moves towards a valve that can be slammed',
    sees: (now) => shown(now, 'meter') > 15 / 60000 && valve(now, 'valve').deg > 0,
    trips: slams(190),
    near: slams(200),
  },
  {
    hazard: 'fouled',
    at: 'coil',
    shown_by: 'grit in the clear hose, with the valve of the coil open',
    sees: (now) => {
      const eye = reading(now, 'eye');
      return eye.kind === 'sight' && eye.grit !== 'none' && valve(now, 'coil_valve').deg > 0;
    },
    trips: fouls(60),
    near: fouls(16),
  },
  {
    hazard: 'vapour',
    at: 'room',
    shown_by: 'the fan, standing beside an open drum',
    sees: (now) => device(now, 'fan').position === 0,
    trips: { scenario: drum(0.9, 30), hands: [], lasts_s: 400 },
    near: { scenario: drum(0.9, 30), hands: [[300, set('fan', 1)]], lasts_s: 400 },
  },
  {
    hazard: 'neat_alcohol',
    at: 'flame',
    shown_by: 'a float in a cup of it: as light as what can be lit',
    sees: (now) => shown(now, 'float') < 0.935,
    trips: {
      scenario: drum(0.4417, 30),
      hands: [
        [0, set('cup', 1)],
        [10, set('flame', 1)],
      ],
      lasts_s: 30,
    },
    near: {
      scenario: drum(0.4417, 22),
      hands: [
        [0, set('cup', 1)],
        [10, set('flame', 1)],
      ],
      lasts_s: 30,
    },
  },
];
