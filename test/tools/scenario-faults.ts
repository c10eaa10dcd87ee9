// Ways to break the first level that only the check across its parts can see. Each row: what is
// wrong, where it is planted, what is put there. `named` is the path a fault must carry, where
// it is another; `needs` are other parts that must be whole for the fault to be seen.

export interface Planted {
  readonly name: string;
  readonly path: string;
  readonly value: unknown;
  readonly named?: string;
  readonly needs?: readonly string[];
}

const ends = ['nodes.pump_out', 'nodes.riser_top'];

/** Surroundings in which these links are named. */
const around = (...links: string[]) => ({
  air_C: 0,
  soil_C: 10,
  places: links.map((link) => ({ link, in: 'air' })),
});

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

export const PLANTED: readonly Planted[] = [
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
  {
    name: 'a place of a pipe that is not there',
    path: 'heat',
    value: around('circuit_9'),
    named: 'heat.places[0].link',
  },
  {
    name: 'a place of a valve',
    path: 'heat',
    value: around('return_valve'),
    named: 'heat.places[0].link',
    needs: ['links.return_valve'],
  },
  {
    name: 'two places of one pipe',
    path: 'heat',
    value: around('circuit', 'circuit'),
    named: 'heat.places[1].link',
    needs: ['links.circuit'],
  },
  {
    name: 'a leak in a tank',
    path: 'defects',
    value: [{ id: 'hole', kind: 'leak', at: 'tank', bore_mm: 1 }],
    named: 'defects[0].at',
    needs: ['nodes.tank'],
  },
  {
    name: 'a defect that begins with a valve that is not there',
    path: 'defects',
    value: [
      {
        id: 'kink',
        kind: 'blocked',
        at: 'circuit',
        from: { when: { valve: 'attic', above_deg: 5 } },
      },
    ],
    named: 'defects[0].from.when.valve',
  },
  { name: 'an id used twice', path: 'links.5.id', value: 'casing', needs: ['nodes.casing'] },
  {
    name: 'an instrument with the id of a node',
    path: 'instruments.0.id',
    value: 'tank',
    needs: ['nodes.tank'],
  },
  { name: 'a port used twice', path: 'nodes.tank.ports.1.id', value: 'outlet' },
  { name: 'an end that leads nowhere', path: 'links.riser.to', value: 'attic' },
  {
    name: 'a tank without its port',
    path: 'links.suction_valve.from',
    value: 'tank',
    needs: ['nodes.tank'],
  },
  {
    name: 'a port that the tank does not have',
    path: 'links.suction_valve.from',
    value: 'tank.lid',
    needs: ['nodes.tank'],
  },
  {
    name: 'a port of something that is no tank',
    path: 'links.riser.from',
    value: 'casing.out',
    needs: ['nodes.casing'],
  },
  { name: 'a link that starts where it ends', path: 'links.riser.to', value: 'pump_out' },
  { name: 'profile points out of order', path: 'links.circuit.profile.3.at_m', value: 5 },
  { name: 'a profile point at the end', path: 'links.circuit.profile.27.at_m', value: 186 },
  { name: 'a profile point at the start', path: 'links.circuit.profile.0.at_m', value: 0 },
  { name: 'a step steeper than it is long', path: 'links.circuit.profile.5.elevation_m', value: 9 },
  {
    name: 'a pipe shorter than the height it climbs',
    path: 'links.riser.length_m',
    value: 0.3,
    needs: ends,
  },
  { name: 'gas beyond the end', path: 'links.circuit.gas.0.to_m', value: 190 },
  { name: 'gas that ends before it starts', path: 'links.circuit.gas.0.to_m', value: 0 },
  {
    name: 'gas stretches out of order',
    path: 'links.circuit.gas',
    value: [
      { from_m: 9, to_m: 12 },
      { from_m: 3, to_m: 5 },
    ],
    named: 'links[9].gas[1].from_m',
  },
  { name: 'a level above the rim', path: 'nodes.tank.start_level_mm', value: 601 },
  { name: 'a port above the rim', path: 'nodes.tank.ports.1.height_mm', value: 700 },
  { name: 'a pump curve with a flow twice', path: 'links.pump.curve.2.flow_L_s', value: 0.4 },
  { name: 'a pump curve that rises', path: 'links.pump.curve.2.head_m', value: 23 },
  { name: 'a pump curve that is level', path: 'links.pump.curve.1.head_m', value: 24 },
  { name: 'a best flow beyond the curve', path: 'links.pump.best_flow_L_s', value: 2 },
  {
    name: 'an open end without a link',
    path: 'nodes.15',
    value: { id: 'spare', kind: 'open', elevation_m: 0, goes_to: 'waste' },
  },
  { name: 'a gauge on a tank', path: 'instruments.0.node', value: 'tank', needs: ['nodes.tank'] },
  { name: 'a meter on nothing', path: 'instruments.2.link', value: 'hose_9' },
  {
    name: 'a sight tube on a junction',
    path: 'instruments.3.tank',
    value: 'casing',
    needs: ['nodes.casing'],
  },
  {
    name: 'a look into an opaque pipe',
    path: 'instruments.4.link',
    value: 'circuit',
    needs: ['links.circuit'],
  },
  {
    name: 'a note of something that is no pump',
    path: 'instruments.5.pump',
    value: 'riser',
    needs: ['links.riser'],
  },
  {
    name: 'a loop link that is a valve',
    path: 'job.loop_links.0',
    value: 'return_valve',
    needs: ['links.return_valve'],
  },
  { name: 'a loop link that is not there', path: 'job.loop_links.0', value: 'circuit_9' },
  {
    name: 'a hand-over of a pipe',
    path: 'job.hand_over.1.control',
    value: 'riser',
    needs: ['links.riser'],
  },
  {
    name: 'a pump handed over shut',
    path: 'job.hand_over.0.state',
    value: 'shut',
    needs: ['links.pump'],
  },
  {
    name: 'a valve handed over off',
    path: 'job.hand_over.1.state',
    value: 'off',
    needs: ['links.loop_supply_valve'],
  },
  { name: 'a first knot with air', path: 'job.air_knots.0.air_L', value: 0.05 },
  { name: 'knots that go back', path: 'job.air_knots.2.air_L', value: 0.1 },
  { name: 'knots that are level', path: 'job.air_knots.2.share', value: 0.95 },
  {
    name: 'knots that end below the loop volume',
    path: 'job.air_knots.4.air_L',
    value: 60,
    needs: ['links.circuit', 'job.loop_links'],
  },
  {
    name: 'a cap below the free allowance',
    path: 'job.loss_cap_L',
    value: 5,
    needs: ['job.loss_free_L'],
  },
  {
    name: 'a zero before the full time',
    path: 'job.time_zero_s',
    value: 2400,
    needs: ['job.time_full_s'],
  },
  { name: 'an unknown hazard', path: 'job.critical.3', value: 'boredom' },
  { name: 'a hazard named twice', path: 'job.critical.3', value: 'deadhead' },
  {
    name: 'antifreeze where there is none',
    path: 'nodes.tank.start_antifreeze_fraction',
    value: 0.2,
    needs: ['antifreeze'],
  },
  {
    name: 'cells too short for the tick',
    path: 'solver.cell_m',
    value: 0.1,
    needs: ['solver.tick_s'],
  },
  {
    name: 'pipes too short for the tick',
    path: 'solver',
    value: { tick_s: 0.2, cell_m: 0.6 },
    named: 'links[14].length_m',
    needs: ['links.drop_pipe'],
  },
  {
    name: 'a modulus said of polyethylene',
    path: 'links.circuit.material',
    value: 'pe',
    named: 'links[9].modulus_MPa',
  },
  { name: 'bubbles of three sizes', path: 'nodes.tank.bubble_sizes', value: 3 },
  { name: 'foam that is gone at once', path: 'nodes.tank.foam_half_life_s', value: 0 },
  { name: 'gas that heats by a word', path: 'gas_heats', value: 'yes' },
  { name: 'layers that run by a number', path: 'running_layers', value: 1 },
  { name: 'air in solution by a word', path: 'dissolved_air', value: true },
  {
    name: 'bubbles without a size',
    path: 'dissolved_air',
    value: { bubble_mm: 0 },
    named: 'dissolved_air.bubble_mm',
  },
  { name: 'surges by a number', path: 'surges', value: 1 },
  { name: 'a key that nobody knows', path: 'links.riser.colour', value: 'red' },
];
