// Ways to break the first level that only the check across its parts can see. Each row: what is
// wrong, where it is planted, what is put there. `named` is the path a fault must carry, where
// it is another; `needs` are other parts that must be whole for the fault to be seen.

import { PLANTED_GOALS } from './scenario-faults-goals.ts';
import { PLANTED_KIT, type Planted } from './scenario-faults-kit.ts';
import { PLANTED_RANGES } from './scenario-faults-ranges.ts';

export type { Planted } from './scenario-faults-kit.ts';

const ends = ['nodes.pump_out', 'nodes.riser_top'];

/** Surroundings in which these links are named. */
const around = (...links: string[]) => ({
  air_C: 0,
  soil_C: 10,
  places: links.map((link) => ({ link, in: 'air' })),
});

export const PLANTED: readonly Planted[] = [
  ...PLANTED_KIT,
  ...PLANTED_GOALS,
  ...PLANTED_RANGES,
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
    name: 'a warm start where no heat is followed',
    path: 'nodes.tank.start_C',
    value: 20,
    needs: ['heat'],
  },
  {
    name: 'creep of walls that do not creep',
    path: 'links.circuit.start_crept_mL',
    value: [0, 0, 0, 0, 0, 0, 0],
    needs: ['links.circuit.material'],
  },
  {
    name: 'creep of one element only',
    path: 'links.circuit.start_crept_mL',
    value: [1],
    needs: ['links.circuit.material'],
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
