// All that a whole day needs beside rig, loop and unit, written into the builder's draft; and the
// keys of a scenario that come of it. What a site does not name leaves no trace.
import { addChangeover, addDrains, addJoints, addLoopCock } from './ends.ts';
import { addCharge, addDrum, addSamples } from './drum.ts';
import { addFilter } from './filter.ts';
import { addFitting, addValve, linkOf } from './parts.ts';
import type { DeviceText, Draft, ScenarioText } from './parts.ts';
import { addPlantRoom, pressUnit } from './plant-room.ts';
import { addPower } from './power.ts';
import type { DaySite, ThingsSite } from './kit-site.ts';
import type { Site } from './site.ts';

type Keys = Partial<ScenarioText>;

/** mm of foam round pipes of the plant room [common practice, no source]. */
const FOAM_MM = 13;

/** Adds what the site's day has; the keys that the scenario gets besides nodes and links. */
export function furnish(draft: Draft, site: Site): Keys {
  const { day = {}, rig, plant } = site;
  const debris = day.debris !== undefined;
  const end = plant === undefined ? 'loop_end' : 'field_end';
  if (day.changeover === true && rig.kind !== 'mast') addChangeover(draft);
  if (day.filter !== undefined) addFilter(draft, day.filter, rig.kind, debris);
  if (rig.contents === 'water') fillUp(draft);
  if (day.ends !== undefined) {
    addJoints(draft, day.ends, rig);
    addLoopCock(draft, day.ends, end);
  }
  if (day.drains === true) addDrains(draft, day);
  if (plant !== undefined) {
    addPlantRoom(draft, plant, debris);
    pressUnit(draft, plant, site.field);
  }
  const power = day.power === undefined ? undefined : addPower(draft, day.power, rig.kind);
  if (day.drum !== undefined) addDrum(draft, day.drum);
  if (day.charge !== undefined) addCharge(draft, day.charge, end);
  if (day.samples !== undefined) addSamples(draft, day.samples, day.antifreeze ?? 'none');
  addReadings(draft, day);
  if (day.things !== undefined) addThings(draft, day.things);
  if (day.creeps === true) letCreep(draft);
  return keysOf(draft, day, power);
}

function keysOf(draft: Draft, day: DaySite, power: ScenarioText['power']): Keys {
  const heat = day.with?.heat;
  const { elements, catchers, devices } = draft;
  return {
    ...(day.with ?? {}),
    ...(heat === undefined ? {} : { heat: { ...heat, places: placesOf(draft, heat.places) } }),
    ...(day.antifreeze === undefined ? {} : { antifreeze: day.antifreeze }),
    ...(power === undefined ? {} : { power }),
    ...(day.debris === undefined
      ? {}
      : {
          debris: {
            ...day.debris,
            elements: [...(day.debris.elements ?? []), ...elements],
            catchers: [...(day.debris.catchers ?? []), ...catchers],
          },
        }),
    ...(devices.length === 0 ? {} : { devices }),
  };
}

const ADDED = ['port_a', 'port_b', 'collect', 'filter_in', 'back_pipe'];

/** What was put into a rig that stands full is full as well. */
function fillUp(draft: Draft): void {
  for (const node of draft.nodes) {
    if (node.kind === 'junction' && ADDED.includes(node.id)) delete node.start_gas_fraction;
  }
  for (const link of draft.links) {
    if (link.kind === 'pipe' && ADDED.includes(link.id)) delete link.gas;
  }
}

type Places = NonNullable<NonNullable<ScenarioText['heat']>['places']>;

/** Pipes that are none of the loop's stand in the air; those of the unit in foam. */
function placesOf(draft: Draft, given: Places = []): Places {
  const places = [...given];
  for (const link of draft.links) {
    if (link.kind !== 'pipe' || given.some((place) => place.link === link.id)) continue;
    const unit = link.id.startsWith('unit_');
    if (draft.loop.includes(link.id) && !unit) continue;
    places.push({ link: link.id, in: 'air', ...(unit ? { insulation_mm: FOAM_MM } : {}) });
  }
  return places;
}

function addReadings(draft: Draft, day: DaySite): void {
  const { instruments } = draft;
  if (day.meter_L !== undefined) {
    const at = { link: 'make_up_hose', resolution_L: day.meter_L };
    instruments.push({ id: 'fill_meter', kind: 'meter', ...at });
  }
  if (day.flow_meter_L_min !== undefined && !instruments.some(({ id }) => id === 'flow_meter')) {
    const at = { link: 'discharge_valve', range_L_min: day.flow_meter_L_min };
    const scale = { resolution_L_min: 1, lag_s: 1.5 };
    instruments.push({ id: 'flow_meter', kind: 'flow', ...at, ...scale });
  }
  if (day.thermometer === true) {
    const scale = { node: 'return_tee', resolution_C: 0.5, lag_s: 15 };
    instruments.push({ id: 'return_temperature', kind: 'temperature', ...scale });
  }
  for (const one of instruments) {
    if (one.kind === 'pressure') Object.assign(one, day.gauges?.[one.id] ?? {});
  }
}

function addThings(draft: Draft, things: ThingsSite): void {
  const worn: DeviceText[] = (things.wear ?? []).map((what) => ({ id: what, kind: 'wear', what }));
  draft.devices.push(...worn);
  if (things.guard === true) addGuard(draft);
  const acts: DeviceText[] = (things.acts ?? []).map((act) => ({ ...act, kind: 'act' }));
  draft.devices.push(...acts, ...(things.more ?? []).map((one) => ({ ...one })));
}

/** A tap that is shut on arrival, and the place for the guard behind it. */
function addGuard(draft: Draft): void {
  const hose = linkOf(draft, 'make_up_hose');
  const bore_mm = hose.kind === 'hose' ? hose.bore_mm : 0;
  const mains = draft.nodes.find(({ id }) => id === 'mains');
  const elevation_m = mains?.kind === 'reservoir' ? mains.elevation_m : 0;
  addFitting(draft, { id: 'tap_out', elevation_m, gas: 'water' });
  addValve(draft, { id: 'tap', from: 'mains', to: 'tap_out', bore_mm });
  hose.from = 'tap_out';
  draft.devices.push({ id: 'backflow', kind: 'guard', of: 'make_up_hose' });
}

function letCreep(draft: Draft): void {
  for (const id of draft.loop) {
    const pipe = linkOf(draft, id);
    if (pipe.kind === 'pipe') pipe.material = 'pe';
  }
}
