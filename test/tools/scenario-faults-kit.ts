// Ways to break what hands have beside valves, and what is in the pipes beside water: devices,
// vessels, rooms, power, debris. The first level has none, so each row brings its own.
export interface Planted {
  readonly name: string;
  readonly path: string;
  readonly value: unknown;
  readonly named?: string;
  readonly needs?: readonly string[];
}

const cup = (...places: string[]) => ({ id: 'cup', kind: 'cup', places });
const pail = (from: string, to: string) => ({ id: 'pail', kind: 'carry', from, to, litres: 10 });
const float = { id: 'float', kind: 'hydrometer', resolution: 0.001 };

/** Debris with some of its lists replaced; all of it in the first level's circuit. */
const debris = (more: object) => ({
  classes: [{ id: 'sand', diameter_mm: 1, relative_density: 2.65 }],
  elements: [{ id: 'bag', d50_um: 100, capacity_g: 50 }],
  lying: [{ link: 'circuit', class: 'sand', from_m: 0, to_m: 10, grams: 5 }],
  ...more,
});
const lies = (more: object) =>
  debris({ lying: [{ link: 'circuit', class: 'sand', from_m: 0, to_m: 10, grams: 5, ...more }] });

/** Rows planted at one path, the start of the path that their faults name. */
const plantedAt =
  (path: string) =>
  (name: string, named: string, value: unknown, ...needs: readonly string[]): Planted => ({
    ...{ name, path, value, named: path + named },
    ...(needs.length === 0 ? {} : { needs }),
  });
const inDevices = plantedAt('devices');
const inDebris = plantedAt('debris');

export const PLANTED_KIT: readonly Planted[] = [
  inDevices('a housing whose element is not told', '[0].elements[0]', [
    { id: 'lid', kind: 'housing', of: 'suction_valve', elements: ['sock'] },
  ]),
  inDevices(
    'a housing of a valve',
    '[0].of',
    [{ id: 'lid', kind: 'housing', of: 'return_valve', elements: ['sock'] }],
    'links.return_valve',
  ),
  inDevices(
    'a cup filled at a place that is not there',
    '[0].places[1]',
    [cup('casing', 'cellar')],
    'nodes.casing',
  ),
  inDevices(
    'a cup filled twice at one place',
    '[0].places[1]',
    [cup('casing', 'casing')],
    'nodes.casing',
  ),
  inDevices('a pail carried to a fitting', '[0].to', [pail('tank', 'casing')], 'nodes.casing'),
  inDevices('a pail carried from a tank to itself', '[0].to', [pail('tank', 'tank')], 'nodes.tank'),
  {
    name: 'a hydrometer in a cup that is not there',
    path: 'instruments',
    value: [{ ...float, cup: 'cup' }],
    named: 'instruments[0].cup',
  },
  {
    name: 'a hydrometer whose scale ends where it begins',
    path: 'instruments',
    value: [{ ...float, cup: 'cup', from: 1, to: 1 }],
    named: 'instruments[0].to',
  },
  {
    name: 'a room around a valve',
    path: 'room',
    value: { volume_m3: 30, holds: ['return_valve'] },
    named: 'room.holds[0]',
  },
  {
    name: 'a room with nothing in its liquid that goes into the air',
    path: 'room',
    value: { volume_m3: 30, holds: ['tank'] },
    named: 'room',
    needs: ['nodes.tank'],
  },
  inDevices('a lock on a pump that is not there', '[0].of', [
    { id: 'padlock', kind: 'lock', of: 'pump_9' },
  ]),
  inDevices(
    'a latch on a valve',
    '[0].of',
    [{ id: 'arms', kind: 'latch', of: 'return_valve' }],
    'links.return_valve',
  ),
  inDevices(
    'two locks on one pump',
    '[1].of',
    [
      { id: 'padlock', kind: 'lock', of: 'pump' },
      { id: 'chain', kind: 'lock', of: 'pump' },
    ],
    'links.pump',
  ),
  inDevices('an entry that needs a device which is not there', '[0].needs[0]', [
    { id: 'pit', kind: 'entry', where: 'vault', needs: ['air_test'] },
  ]),
  inDevices('an entry with a valve inside which is not there', '[0].inside[0]', [
    { id: 'pit', kind: 'entry', where: 'vault', inside: ['nowhere'] },
  ]),
  inDevices('a lock whose unit is opened by a valve that is not there', '[0].service[0]', [
    { id: 'padlock', kind: 'lock', of: 'pump', service: ['port_9'] },
  ]),
  inDevices(
    'a lock whose unit is opened by a pipe',
    '[0].service[0]',
    [{ id: 'padlock', kind: 'lock', of: 'pump', service: ['circuit'] }],
    'links.circuit',
  ),
  inDevices(
    'a lock with one valve twice',
    '[0].service[1]',
    [{ id: 'padlock', kind: 'lock', of: 'pump', service: ['return_valve', 'return_valve'] }],
    'links.return_valve',
  ),
  {
    name: 'a line of the sheet for an instrument that is not there',
    path: 'record',
    value: [{ id: 'line', reading: 'gauge_9' }],
    named: 'record[0].reading',
  },
  {
    name: 'a line of the sheet for an instrument without a number',
    path: 'record',
    value: [{ id: 'line', reading: 'pump_note' }],
    named: 'record[0].reading',
    needs: ['instruments.pump_note'],
  },
  {
    name: 'a line of the sheet with the id of a node',
    path: 'record',
    value: [{ id: 'casing' }],
    named: 'record[0].id',
    needs: ['nodes.casing'],
  },
  {
    name: 'a device at hand-over that is not there',
    path: 'job.hand_over.0',
    value: { control: 'padlock', state: 'pinned' },
    named: 'job.hand_over[0].control',
  },
  inDevices(
    'a device with the id of a node',
    '[0].id',
    [{ id: 'casing', kind: 'act' }],
    'nodes.casing',
  ),
  {
    name: 'power without the plug and breaker that let it through',
    path: 'power',
    value: {
      supply: { kind: 'outlet', voltage_V: 120, breaker_A: 20 },
      cord: { length_m: 15, copper_mm2: 3.3 },
    },
  },
  {
    name: 'a motor where there is no power',
    path: 'links.pump.motor',
    value: { rated_W: 746, voltage_V: 115 },
  },
  inDevices('a plug where there is no power', '[0].kind', [{ id: 'plug', kind: 'plug' }]),
  {
    name: 'a clamp where there is no power',
    path: 'instruments.0',
    value: { id: 'clamp', kind: 'current', range_A: 50, resolution_A: 0.1 },
    named: 'instruments[0].kind',
  },
  inDebris(
    'sand in a valve',
    '.lying[0].link',
    lies({ link: 'return_valve' }),
    'links.return_valve',
  ),
  inDebris('sand in a pipe that is not there', '.lying[0].link', lies({ link: 'circuit_9' })),
  inDebris('grains of a class that is not told', '.lying[0].class', lies({ class: 'gold' })),
  inDebris('sand that lies backward', '.lying[0].to_m', lies({ from_m: 20 })),
  inDebris(
    'sand beyond the end of its pipe',
    '.lying[0].to_m',
    lies({ to_m: 4000 }),
    'links.circuit',
  ),
  inDebris(
    'an element in a pipe',
    '.catchers[0].link',
    debris({ catchers: [{ link: 'circuit', element: 'bag' }] }),
    'links.circuit',
  ),
  inDebris(
    'an element that is not told',
    '.catchers[0].element',
    debris({ catchers: [{ link: 'circuit', element: 'sock' }] }),
  ),
  inDebris(
    'two elements in one housing',
    '.catchers[1].link',
    debris({
      catchers: [
        { link: 'circuit', element: 'bag' },
        { link: 'circuit', element: 'bag' },
      ],
    }),
  ),
  inDebris(
    'two classes of one name',
    '.classes[1].id',
    debris({
      classes: ['sand', 'sand'].map((id) => ({ id, diameter_mm: 1, relative_density: 2.65 })),
    }),
  ),
  inDebris('debris without a class', '.classes', debris({ classes: [] })),
];
