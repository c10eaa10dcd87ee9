// The plant room: the loop's own pump behind its lock, strainer, check valve, vent, vessel and
// the gauges at the coil, between the service valves that plant.ts has written. As it runs, the
// flow comes in by `unit_in`, and goes through strainer, coil, pump and check valve to `unit_out`.
import { addFitting, addValve, linkOf } from './parts.ts';
import type { Draft } from './parts.ts';
import { LOOP_RATING } from './header.ts';
import type { PlantRoom } from './kit-site.ts';
import type { Field, PlantSide } from './site.ts';

/** What a coil keeps of grains: its channels are some 2 mm wide [common practice, no source]. */
const PLATES = { id: 'plates', d50_um: 1000, capacity_g: 60, sheds: 0.2 } as const;

const INSIDE = ['unit_in', 'unit_out', 'coil_in', 'coil_out', 'loop_start', 'loop_end'];
const UNIT_PIPES = ['unit_in_pipe', 'unit_out_pipe'];

interface Work {
  readonly draft: Draft;
  readonly plant: PlantSide;
  readonly room: PlantRoom;
}

export function addPlantRoom(draft: Draft, plant: PlantSide, debris: boolean): void {
  const { room } = plant;
  if (room === undefined) return;
  const work = { draft, plant, room };
  if (room.strainer !== undefined) addStrainer(work, room.strainer, debris);
  if (debris) {
    draft.elements.push({ ...PLATES });
    draft.catchers.push({ link: 'coil', element: PLATES.id });
  }
  addLoopPump(work);
  addAtCoil(work);
  for (const id of ['supply_service', 'return_service']) {
    const valve = linkOf(draft, id);
    if (valve.kind === 'three_way') valve.start_deg = room.service_deg ?? 180;
  }
  draft.devices.push({
    ...{ id: 'lock_unit', kind: 'lock', of: 'loop_pump' },
    service: ['supply_service', 'return_service'],
  });
}

/** Test air stands in the unit too where the service valves join it with the loop. */
export function pressUnit(draft: Draft, plant: PlantSide, field: Field): void {
  const { start_pressure_kPa } = field;
  if (plant.room?.service_deg !== 90 || start_pressure_kPa === undefined) return;
  const own = ['strainer_in', 'loop_pump_out', 'check_out', 'field_start', 'field_end'];
  for (const node of draft.nodes) {
    if (node.kind !== 'junction') continue;
    if (INSIDE.includes(node.id) || own.includes(node.id)) {
      node.start_pressure_kPa = start_pressure_kPa;
    }
  }
  for (const id of UNIT_PIPES) {
    const pipe = linkOf(draft, id);
    if (pipe.kind === 'pipe') pipe.start_pressure_kPa = start_pressure_kPa;
  }
}

function addNode({ draft, plant }: Work, id: string): void {
  const at = { elevation_m: plant.elevation_m, gas: plant.contents, rating_kPa: LOOP_RATING };
  addFitting(draft, { id, ...at });
}

function addStrainer(
  work: Work,
  element: NonNullable<PlantRoom['strainer']>,
  debris: boolean,
): void {
  const { draft } = work;
  addNode(work, 'strainer_in');
  const pipe = linkOf(draft, 'unit_in_pipe');
  pipe.to = 'strainer_in';
  const bore_mm = pipe.kind === 'pipe' ? pipe.bore_mm : 0;
  const ends = { from: 'strainer_in', to: 'coil_in' } as const;
  draft.links.push({ id: 'strainer', kind: 'filter', ...ends, bore_mm, loss_k: 4 });
  if (!debris) return;
  draft.elements.push({ ...element });
  draft.catchers.push({ link: 'strainer', element: element.id });
  draft.devices.push({
    ...{ id: 'strainer_lid', kind: 'housing', of: 'strainer', elements: [element.id] },
  });
}

/** Behind the coil: pump, and a check valve where the site has one. */
function addLoopPump(work: Work): void {
  const { draft, room } = work;
  const { curve, best_flow_L_s } = room.pump;
  const pipe = linkOf(draft, 'unit_out_pipe');
  const bore_mm = pipe.kind === 'pipe' ? pipe.bore_mm : 0;
  addNode(work, 'loop_pump_out');
  draft.links.push({
    ...{ id: 'loop_pump', kind: 'pump', from: 'coil_out', to: 'loop_pump_out', bore_mm },
    curve: curve.map(([flow_L_s, head_m]) => ({ flow_L_s, head_m })),
    best_flow_L_s,
  });
  draft.instruments.push({ id: 'loop_pump_note', kind: 'note', pump: 'loop_pump' });
  pipe.from = 'loop_pump_out';
  if (room.check_valve !== true) return;
  addNode(work, 'check_out');
  const ends = { from: 'loop_pump_out', to: 'check_out' } as const;
  draft.links.push({ id: 'unit_check', kind: 'check_valve', ...ends, bore_mm });
  pipe.from = 'check_out';
}

/** Vent, vessel, difference gauge and thermometers. */
function addAtCoil({ draft, plant, room }: Work): void {
  const { elevation_m } = plant;
  if (room.vent === true) {
    draft.nodes.push({
      ...{ id: 'unit_vent_end', kind: 'open', elevation_m: elevation_m + 0.1, goes_to: 'pail' },
    });
    const ends = { from: 'loop_pump_out', to: 'unit_vent_end' } as const;
    addValve(draft, { id: 'unit_vent', ...ends, bore_mm: 6 });
  }
  if (room.vessel_L_per_100kPa !== undefined) addVessel(draft, plant, room);
  const { range_kPa, resolution_kPa } = room.gauge ?? { range_kPa: 60, resolution_kPa: 1 };
  draft.instruments.push({
    ...{ id: 'coil_gauge', kind: 'difference', high: 'coil_in', low: 'coil_out' },
    ...{ range_kPa, resolution_kPa, lag_s: 0.8 },
  });
  if (room.thermometers !== true) return;
  for (const node of ['coil_in', 'coil_out']) {
    const scale = { resolution_C: 0.5, lag_s: 20 };
    draft.instruments.push({ id: `${node}_temperature`, kind: 'temperature', node, ...scale });
  }
}

/**
 * A membrane vessel as a short wide hose that gives by pressure: it takes in so much, and has no
 * air that could dissolve. Half a metre of 200 mm; its charge pressure is left out.
 */
function addVessel(draft: Draft, plant: PlantSide, room: PlantRoom): void {
  const [bore_mm, length_m] = [200, 0.5];
  const room_L = 15.708;
  const { elevation_m } = plant;
  addFitting(draft, { id: 'vessel_end', elevation_m, gas: 'water' });
  const capped = room.vessel_valve === true;
  const from = capped ? 'vessel_in' : 'coil_in';
  if (capped) {
    addFitting(draft, { id: from, elevation_m, gas: 'water' });
    addValve(draft, { id: 'vessel_valve', from: 'coil_in', to: from, bore_mm: 20 });
  }
  draft.links.push({
    ...{ id: 'vessel', kind: 'hose', from, to: 'vessel_end', bore_mm, length_m },
    compliance_per_MPa: ((room.vessel_L_per_100kPa ?? 0) / room_L) * 10,
  });
}
