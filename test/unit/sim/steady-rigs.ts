// Small parts and readings for the tests of the steady solver.
import { expect } from 'vitest';
import { parseScenario, type Scenario } from '../../../sim/index.ts';
import type { Steady } from '../../../sim/steady.ts';

export const G = 9.80665;

export function scenario(nodes: object[], links: object[], more: object = {}): Scenario {
  const base = { format: 1, id: 'steady', temperature_C: 20, ends_after_s: 100000 };
  return parseScenario({ ...base, ...more, nodes, links });
}

export const basin = (id: string, pressure_kPa: number, elevation_m = 0) => ({
  id,
  kind: 'reservoir',
  elevation_m,
  pressure_kPa,
});
export const joint = (id: string, elevation_m = 0) => ({ id, kind: 'junction', elevation_m });
export const pipe = (id: string, from: string, to: string, more: object = {}) => ({
  ...{ id, kind: 'pipe', from, to, bore_mm: 20, wall_mm: 2, length_m: 10 },
  ...more,
});
export const valve = (id: string, from: string, to: string, more: object = {}) => ({
  ...{ id, kind: 'valve', from, to, bore_mm: 25, start_deg: 90 },
  ...more,
});
/** H = 20 (1 - (Q/2)^2): m, L/s. */
export const pump = (id: string, from: string, to: string, start_on = true) => {
  const curve = Array.from({ length: 40 }, (_, k) => {
    const flow_L_s = (2 * k) / 39;
    return { flow_L_s, head_m: 20 - 5 * flow_L_s * flow_L_s };
  });
  return { id, kind: 'pump', from, to, bore_mm: 25, curve, best_flow_L_s: 1.2, start_on };
};

export const link = (steady: Steady, id: string) => steady.links.find((one) => one.id === id)!;
export const node = (steady: Steady, id: string) => steady.nodes.find((one) => one.id === id)!;
export const close = (found: number, wanted: number, share: number) =>
  expect(Math.abs(found / wanted - 1), `${found} for ${wanted}`).toBeLessThan(share);
