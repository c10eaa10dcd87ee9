// A site with a whole day's equipment on any of the three rigs, for tests of the field builder.
import type { DaySite, PlantRoom } from '../../sim/field/kit-site.ts';
import type { RigKind, Site } from '../../sim/field/site.ts';

const bag = (id: string, d50_um: number) => ({
  ...{ id, d50_um, capacity_g: 60, full_kPa: 100, rated_L_s: 1, sheds: 0.3 },
});

const ROOM: PlantRoom = {
  pump: {
    curve: [
      [0, 7],
      [0.6, 5],
      [1.2, 0],
    ],
    best_flow_L_s: 0.6,
  },
  service_deg: 90,
  strainer: { id: 'mesh', d50_um: 600, capacity_g: 40, loss_k: 2 },
  check_valve: true,
  vent: true,
  vessel_L_per_100kPa: 1.2,
  thermometers: true,
};

export function everything(kind: RigKind): DaySite {
  const dry = kind === 'deck';
  return {
    antifreeze: dry ? 'ethanol' : 'propylene_glycol',
    power: {
      supply: { kind: 'outlet', voltage_V: kind === 'mast' ? 240 : 120, breaker_A: 20 },
      cord_m: 20,
    },
    ends: { joints: dry ? 'dry' : 'cam' },
    changeover: kind === 'barrow',
    filter: { bags: [bag('coarse', 200), bag('fine', 50)], by_pass: dry },
    drum: { litres: 60, fraction: 1, by: dry ? 'pump' : 'hand', pail_L: 10 },
    charge: { pail_L: 15, jug_L: 5, stroke_mL: 40, max_kPa: 450 },
    samples: { places: ['tank', 'return_tee'], by: dry ? 'hydrometer' : 'refractometer' },
    drains: true,
    meter_L: 0.5,
    flow_meter_L_min: 100,
    thermometer: true,
    gauges: { discharge_gauge: { error_share: 0.016 } },
    things: { wear: ['eyes', 'gloves'], guard: true, acts: [{ id: 'tag' }] },
    debris: {
      classes: [{ id: 'sand', diameter_mm: 0.4, relative_density: 2.65 }],
      lying: [{ link: 'circuit_1', class: 'sand', from_m: 10, to_m: 20, grams: 20 }],
    },
    creeps: true,
    with: {
      heat: { air_C: 24, soil_C: 12 },
      dissolved_air: {},
      running_layers: true,
      surges: true,
      record: [{ id: 'line', reading: 'loop_gauge' }],
      ...(dry ? { room: { volume_m3: 40, holds: ['tank', 'drum', 'pail'] } } : {}),
    },
  };
}

/** Two short trenches with valves of their own, test air in all of it. */
export function daySite(kind: RigKind, over: Partial<Site> = {}): Site {
  const trench = { kind: 'trench', size: '1', elevation_m: -1.4, contents: 'air' } as const;
  return {
    id: `day_${kind}`,
    temperature_C: 14,
    rig: { kind, hose_m: 6 },
    field: {
      header: {
        ...{ return_kind: 'direct', elevation_m: -1, run_out_m: 5, spacing_m: 0.5 },
        ...{ supply: { sizes: ['1-1/4'] }, return: { sizes: ['1-1/4'] } },
      },
      branches: [
        { ...trench, length_m: 40, valves: true },
        { ...trench, length_m: 55, valves: true },
      ],
      contents: 'air',
      start_pressure_kPa: 200,
    },
    plant: {
      coil: [
        { flow_L_s: 0.3, loss_kPa: 6 },
        { flow_L_s: 0.6, loss_kPa: 21 },
      ],
      ...{ size: '1', pipe_m: 4, elevation_m: 1.2, contents: 'air', room: ROOM },
    },
    day: everything(kind),
    tee_losses: true,
    ends_after_s: 3600,
    ...over,
  };
}
