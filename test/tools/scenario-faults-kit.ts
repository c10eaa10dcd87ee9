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

export const PLANTED_KIT: readonly Planted[] = [
  {
    name: 'a housing whose element is not told',
    path: 'devices',
    value: [{ id: 'lid', kind: 'housing', of: 'suction_valve', elements: ['sock'] }],
    named: 'devices[0].elements[0]',
  },
  {
    name: 'a housing of a valve',
    path: 'devices',
    value: [{ id: 'lid', kind: 'housing', of: 'return_valve', elements: ['sock'] }],
    named: 'devices[0].of',
    needs: ['links.return_valve'],
  },
  {
    name: 'a cup filled at a place that is not there',
    path: 'devices',
    value: [cup('casing', 'cellar')],
    named: 'devices[0].places[1]',
    needs: ['nodes.casing'],
  },
  {
    name: 'a cup filled twice at one place',
    path: 'devices',
    value: [cup('casing', 'casing')],
    named: 'devices[0].places[1]',
    needs: ['nodes.casing'],
  },
  {
    name: 'a pail carried to a fitting',
    path: 'devices',
    value: [pail('tank', 'casing')],
    named: 'devices[0].to',
    needs: ['nodes.casing'],
  },
  {
    name: 'a pail carried from a tank to itself',
    path: 'devices',
    value: [pail('tank', 'tank')],
    named: 'devices[0].to',
    needs: ['nodes.tank'],
  },
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
  {
    name: 'a lock on a pump that is not there',
    path: 'devices',
    value: [{ id: 'padlock', kind: 'lock', of: 'pump_9' }],
    named: 'devices[0].of',
  },
  {
    name: 'a latch on a valve',
    path: 'devices',
    value: [{ id: 'arms', kind: 'latch', of: 'return_valve' }],
    named: 'devices[0].of',
    needs: ['links.return_valve'],
  },
  {
    name: 'two locks on one pump',
    path: 'devices',
    value: [
      { id: 'padlock', kind: 'lock', of: 'pump' },
      { id: 'chain', kind: 'lock', of: 'pump' },
    ],
    named: 'devices[1].of',
    needs: ['links.pump'],
  },
  {
    name: 'an entry that needs a device which is not there',
    path: 'devices',
    value: [{ id: 'pit', kind: 'entry', where: 'vault', needs: ['air_test'] }],
    named: 'devices[0].needs[0]',
  },
  {
    name: 'a lock whose unit is opened by a valve that is not there',
    path: 'devices',
    value: [{ id: 'padlock', kind: 'lock', of: 'pump', service: ['port_9'] }],
    named: 'devices[0].service[0]',
  },
  {
    name: 'a lock whose unit is opened by a pipe',
    path: 'devices',
    value: [{ id: 'padlock', kind: 'lock', of: 'pump', service: ['circuit'] }],
    named: 'devices[0].service[0]',
    needs: ['links.circuit'],
  },
  {
    name: 'a lock with one valve twice',
    path: 'devices',
    value: [
      { id: 'padlock', kind: 'lock', of: 'pump', service: ['return_valve', 'return_valve'] },
    ],
    named: 'devices[0].service[1]',
    needs: ['links.return_valve'],
  },
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
  {
    name: 'a device with the id of a node',
    path: 'devices',
    value: [{ id: 'casing', kind: 'act' }],
    named: 'devices[0].id',
    needs: ['nodes.casing'],
  },
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
  {
    name: 'a plug where there is no power',
    path: 'devices',
    value: [{ id: 'plug', kind: 'plug' }],
    named: 'devices[0].kind',
  },
  {
    name: 'a clamp where there is no power',
    path: 'instruments.0',
    value: { id: 'clamp', kind: 'current', range_A: 50, resolution_A: 0.1 },
    named: 'instruments[0].kind',
  },
  {
    name: 'sand in a valve',
    path: 'debris',
    value: lies({ link: 'return_valve' }),
    named: 'debris.lying[0].link',
    needs: ['links.return_valve'],
  },
  {
    name: 'sand in a pipe that is not there',
    path: 'debris',
    value: lies({ link: 'circuit_9' }),
    named: 'debris.lying[0].link',
  },
  {
    name: 'grains of a class that is not told',
    path: 'debris',
    value: lies({ class: 'gold' }),
    named: 'debris.lying[0].class',
  },
  {
    name: 'sand that lies backward',
    path: 'debris',
    value: lies({ from_m: 20 }),
    named: 'debris.lying[0].to_m',
  },
  {
    name: 'sand beyond the end of its pipe',
    path: 'debris',
    value: lies({ to_m: 4000 }),
    named: 'debris.lying[0].to_m',
    needs: ['links.circuit'],
  },
  {
    name: 'an element in a pipe',
    path: 'debris',
    value: debris({ catchers: [{ link: 'circuit', element: 'bag' }] }),
    named: 'debris.catchers[0].link',
    needs: ['links.circuit'],
  },
  {
    name: 'an element that is not told',
    path: 'debris',
    value: debris({ catchers: [{ link: 'circuit', element: 'sock' }] }),
    named: 'debris.catchers[0].element',
  },
  {
    name: 'two elements in one housing',
    path: 'debris',
    value: debris({
      catchers: [
        { link: 'circuit', element: 'bag' },
        { link: 'circuit', element: 'bag' },
      ],
    }),
    named: 'debris.catchers[1].link',
  },
  {
    name: 'two classes of one name',
    path: 'debris',
    value: debris({
      classes: ['sand', 'sand'].map((id) => ({ id, diameter_mm: 1, relative_density: 2.65 })),
    }),
    named: 'debris.classes[1].id',
  },
  {
    name: 'debris without a class',
    path: 'debris',
    value: debris({ classes: [] }),
    named: 'debris.classes',
  },
];
