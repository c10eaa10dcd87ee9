// Parts of bench fields, as JSON: ends held at a pressure, plain fittings, pipes of water at 20 C.
import { parseScenario } from '../../sim/index.ts';

export const area = (bore_m: number) => (Math.PI * bore_m * bore_m) / 4;
/** How far a number is off what it should be, as a share. */
export const off = (got: number, want: number) => Math.abs(got / want - 1);

export const scenario = (nodes: unknown[], links: unknown[], more: object = {}) =>
  parseScenario({
    format: 1,
    id: 'field',
    temperature_C: 20,
    ends_after_s: 100000,
    nodes,
    links,
    ...more,
  });
export const held = (id: string, pressure_kPa: number) => ({
  id,
  kind: 'reservoir',
  elevation_m: 0,
  pressure_kPa,
});
export const joint = (id: string, elevation_m = 0) => ({ id, kind: 'junction', elevation_m });
export const pipe = (
  id: string,
  ends: readonly [string, string],
  bore_mm: number,
  length_m: number,
) => ({
  id,
  kind: 'pipe',
  from: ends[0],
  to: ends[1],
  bore_mm,
  wall_mm: bore_mm / 9,
  length_m,
});
