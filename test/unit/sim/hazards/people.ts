// Hazards to people and the ground, and to the truth of a record. Each row trips, and its near miss
// comes to four fifths of the limit at least.
import { set, turn } from '../../../support/hands.ts';
import { device, join, mainsRig, on, part, pumpRig, shown, valve, type Row } from './rigs.ts';

const GLYCOL = { start_antifreeze_fraction: 0.3 };
const mixed = (more: Record<string, unknown> = {}, joint: Record<string, unknown> = {}) =>
  mainsRig(
    3,
    { antifreeze: 'propylene_glycol', ...more },
    { mains: { antifreeze_fraction: 0.3 }, hose: GLYCOL, joint },
  );

const glasses = { devices: [{ id: 'glasses', kind: 'wear', what: 'eyes', take_s: 2 }] };
const gloves = { devices: [{ id: 'gloves', kind: 'wear', what: 'gloves', take_s: 2 }] };
const pit = {
  devices: [
    { id: 'air_test', kind: 'act', take_s: 5 },
    { id: 'pit', kind: 'entry', where: 'vault', needs: ['air_test'], take_s: 19 },
  ],
};
const padlock = {
  devices: [{ id: 'padlock', kind: 'lock', of: 'pump', service: ['throttle'], take_s: 4 }],
};
const sheet = { record: [{ id: 'line', reading: 'gauge' }] };
const hotRig = (temperature_C: number) =>
  pumpRig(
    { temperature_C, devices: [{ id: 'check', kind: 'act' }] },
    { casing: { volume_L: 0.5 }, throttle: { start_deg: 0 }, suction: { rate_deg_s: 30 } },
  );
const note = (value_milli: number) => ({ kind: 'note', entry: 'line', value_milli }) as const;

/** Seen once so many m3 have run out. */
const onGround = (m3: number): Pick<Row, 'at' | 'shown_by' | 'sees'> => ({
  at: 'ground',
  shown_by: 'what runs out of the open drain',
  sees: (now) => now.scene.outlets.some((o) => o.id === 'ground' && o.total > m3),
});

export const PEOPLE: readonly Row[] = [
  {
    hazard: 'no_eyes',
    at: 'glasses',
    shown_by: 'the eye protection, not worn',
    sees: (now) => device(now, 'glasses').position === 0,
    trips: { scenario: mainsRig(10, glasses), hands: [[2, part]], lasts_s: 10 },
    near: { scenario: mainsRig(350, glasses), hands: [[22, set('glasses', 1)]], lasts_s: 40 },
  },
  {
    hazard: 'no_gloves',
    at: 'gloves',
    shown_by: 'the gloves, not worn, with hands at the coupling',
    sees: (now) => device(now, 'gloves').position === 0 && now.scene.hands.busy === 'joint',
    trips: {
      scenario: mixed(gloves, { make_s: 20 }),
      hands: [
        [2, part],
        [23.5, join],
      ],
      lasts_s: 60,
    },
    near: { scenario: mixed(gloves, { make_s: 25 }), hands: [[2, part]], lasts_s: 40 },
  },
  {
    hazard: 'to_ground',
    ...onGround(0.0001),
    trips: { scenario: mixed(), hands: [[1, turn('drain', 90)]], lasts_s: 12 },
    near: {
      scenario: mixed(),
      hands: [
        [1, turn('drain', 60)],
        [4.5, turn('drain', 0)],
      ],
      lasts_s: 12,
    },
  },
  {
    hazard: 'waste_to_ground',
    ...onGround(0.001),
    trips: { scenario: mainsRig(30), hands: [[1, turn('drain', 90)]], lasts_s: 40 },
    near: {
      scenario: mainsRig(30),
      hands: [
        [1, turn('drain', 90)],
        [7, turn('drain', 0)],
      ],
      lasts_s: 40,
    },
  },
  {
    hazard: 'hot',
    at: 'suction',
    shown_by: 'the gauge at shut-off, with the throttle across the pipe, for long',
    sees: (now) => shown(now, 'gauge') > 180e3 && valve(now, 'throttle').deg === 0,
    trips: {
      scenario: hotRig(45),
      hands: [
        [0, on],
        [150, turn('suction', 0)],
      ],
      lasts_s: 170,
    },
    near: {
      scenario: hotRig(45),
      hands: [
        [0, on],
        [20, turn('suction', 0)],
      ],
      lasts_s: 40,
    },
  },
  {
    hazard: 'entry',
    at: 'pit',
    shown_by: 'the test of the air, not done, on the way in',
    sees: (now) => device(now, 'air_test').position === 0 && device(now, 'pit').wanted === 1,
    trips: { scenario: mainsRig(10, pit), hands: [[1, set('pit', 1)]], lasts_s: 30 },
    near: {
      scenario: mainsRig(10, pit),
      hands: [
        [1, set('pit', 1)],
        [18.5, set('pit', 0)],
      ],
      lasts_s: 30,
    },
  },
  {
    hazard: 'locked_off',
    at: 'padlock',
    shown_by: 'the lock, not on, with a service valve moved',
    sees: (now) => device(now, 'padlock').position === 0 && valve(now, 'throttle').deg < 90,
    trips: { scenario: pumpRig(padlock), hands: [[1, turn('throttle', 0)]], lasts_s: 30 },
    near: {
      scenario: pumpRig(padlock),
      hands: [
        [1, turn('throttle', 0)],
        [10, set('padlock', 1)],
      ],
      lasts_s: 30,
    },
  },
  {
    hazard: 'false_record',
    at: 'line',
    shown_by: 'the gauge of the line, at another value',
    sees: (now) => shown(now, 'gauge') === 45e3,
    trips: { scenario: mainsRig(45, sheet), hands: [[5, note(60000)]], lasts_s: 10 },
    near: { scenario: mainsRig(45, sheet), hands: [[5, note(50000)]], lasts_s: 10 },
  },
];
