// A cart with a drum beside it at four trenches: what dosing and its proof are tried on.
import { area } from './fields.ts';
import {
  createWorld,
  parseScenario,
  snapshot,
  truth,
  type Command,
  type World,
} from '../../sim/index.ts';

export const TRENCHES = 4;
export const TRENCH_M = 60;
const BORE = 0.0273;
/** m3 in the trenches, in a hose, in all fittings. */
export const LOOP = TRENCHES * TRENCH_M * area(BORE);
export const HOSE = 6 * area(0.038);
export const FITTINGS = 6e-3; // Those of the drum's own pump are not of the loop.
export const TANK_AREA = 0.2;

/** Where a cup is filled, by position from 1. */
export const PLACES = ['tank', 'foot', 'drum', 'head', 'end'];

export interface Dosing {
  readonly antifreeze?: string;
  readonly t_C?: number;
  /** By mass, in the drum and in the rig. */
  readonly drum?: number;
  readonly loop?: number;
  readonly drum_mm?: number;
  readonly tank_mm?: number;
  readonly more?: Record<string, unknown>;
}

const vessel = { kind: 'tank', floor_m: 0, height_mm: 900 };
const gauge = { range_kPa: 600, resolution_kPa: 1, lag_s: 0.3 };

export function dosing(o: Dosing = {}): World {
  const { antifreeze = 'propylene_glycol', t_C = 20, drum = 1, loop = 0 } = o;
  const { drum_mm = 600, tank_mm = 500, more = {} } = o;
  const fittings = ['casing', 'out', 'supply', 'head', 'foot', 'end', 'eye', 'spout'];
  const inside = { start_antifreeze_fraction: loop };
  const pipe = { kind: 'pipe', wall_mm: 3, bore_mm: 1000 * BORE, length_m: TRENCH_M, ...inside };
  const hose = { kind: 'hose', bore_mm: 38, length_m: 6, ...inside };
  const curve = [
    { flow_L_s: 0, head_m: 20 },
    { flow_L_s: 2, head_m: 15 },
    { flow_L_s: 4, head_m: 0 },
  ];
  return createWorld(
    parseScenario({
      format: 1,
      id: 'dosing',
      temperature_C: t_C,
      antifreeze,
      solver: { cell_m: 3 },
      ends_after_s: 86400,
      hands: { reach_s: 0.5, helper: {} },
      nodes: [
        {
          ...vessel,
          id: 'tank',
          area_m2: TANK_AREA,
          start_level_mm: tank_mm,
          start_antifreeze_fraction: loop,
          ports: [
            { id: 'out', height_mm: 50, bore_mm: 50 },
            { id: 'back', height_mm: 100, bore_mm: 38 },
            { id: 'foot', height_mm: 40, bore_mm: 20 },
            { id: 'rim', height_mm: 850, bore_mm: 25 },
          ],
        },
        {
          ...vessel,
          id: 'drum',
          area_m2: 0.25,
          start_level_mm: drum_mm,
          start_antifreeze_fraction: drum,
          ports: [{ id: 'bung', height_mm: 50, bore_mm: 25 }],
        },
        ...fittings.map((id) => ({
          id,
          kind: 'junction',
          elevation_m: id === 'end' ? 2 : 0, // Over the tank: at rest it stands below the air.
          volume_L: 1,
        })),
      ],
      links: [
        {
          id: 'suction',
          kind: 'valve',
          from: 'tank.out',
          to: 'casing',
          bore_mm: 50,
          start_deg: 90,
        },
        {
          id: 'pump',
          kind: 'pump',
          from: 'casing',
          to: 'out',
          bore_mm: 38,
          curve,
          best_flow_L_s: 2,
        },
        { id: 'discharge', kind: 'valve', from: 'out', to: 'supply', bore_mm: 38, start_deg: 90 },
        { id: 'hose_out', from: 'supply', to: 'head', ...hose },
        ...Array.from({ length: TRENCHES }, (_, k) => ({
          id: `trench_${k}`,
          from: 'head',
          to: 'foot',
          ...pipe,
        })),
        { id: 'hose_back', from: 'foot', to: 'end', ...hose },
        { id: 'return', kind: 'valve', from: 'end', to: 'tank.back', bore_mm: 38, start_deg: 90 },
        {
          id: 'lever',
          kind: 'hand_pump',
          from: 'tank.foot',
          to: 'supply',
          bore_mm: 12,
          stroke_mL: 40,
          stroke_s: 1.5,
          max_kPa: 400,
        },
        { id: 'drum_tap', kind: 'valve', from: 'drum.bung', to: 'eye', bore_mm: 25, start_deg: 0 },
        {
          id: 'drum_pump',
          kind: 'pump',
          from: 'eye',
          to: 'spout',
          bore_mm: 25,
          curve: [
            { flow_L_s: 0, head_m: 6 },
            { flow_L_s: 1, head_m: 2 },
          ],
          best_flow_L_s: 0.5,
        },
        {
          id: 'drum_hose',
          kind: 'hose',
          from: 'spout',
          to: 'tank.rim',
          bore_mm: 25,
          length_m: 3,
          start_antifreeze_fraction: drum,
        },
      ],
      devices: [
        { id: 'cup', kind: 'cup', places: PLACES, litres: 0.2, take_s: 5 },
        { id: 'pail', kind: 'carry', from: 'drum', to: 'tank', litres: 10, take_s: 15 },
      ],
      instruments: [
        { id: 'float', kind: 'hydrometer', cup: 'cup', resolution: 0.0005 },
        { id: 'prism', kind: 'refractometer', cup: 'cup', resolution_C: 0.1 },
        {
          id: 'index',
          kind: 'refractometer',
          cup: 'cup',
          reads: 'index',
          resolution_index: 0.0001,
        },
        { id: 'dip', kind: 'dip_thermometer', cup: 'cup', resolution_C: 0.1 },
        { id: 'drum_level', kind: 'level', tank: 'drum', resolution_mm: 1 },
        { id: 'gauge', kind: 'pressure', node: 'head', ...gauge },
      ],
      ...more,
    }),
    1,
  );
}

export const strokes = (count: number): Command => ({
  kind: 'stroke',
  pump: 'lever',
  strokes: count,
});

/** What an instrument shows of the sample. */
export function shown(world: World, id: string): number | null {
  const reading = snapshot(world).panel.readings.find((r) => r.id === id)!;
  if (reading.kind === 'sight' || reading.kind === 'note') return null;
  return reading.value;
}

export const level = (world: World, id: string): number =>
  snapshot(world).scene.tanks.find((t) => t.id === id)!.level;

/** The worst of all books, as a share. */
export function worstBook(world: World): number {
  const { liquid, antifreeze, gas, heat } = truth(world);
  return Math.max(...[liquid, antifreeze, gas, heat].map((b) => Math.abs(b?.error ?? 0)));
}
