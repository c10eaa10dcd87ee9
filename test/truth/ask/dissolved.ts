// How questions of cases.json about air in solution are put to whole worlds: what a loop takes in
// under pressure, how soon bubbles are gone, what make-up water gives up as it warms.
import { createWorld, truth, type World } from '../../../sim/index.ts';
import { held, joint, pipe, scenario } from '../../support/fields.ts';
import { run } from '../../support/worlds.ts';

const ATM = 1.01325; // bar
/** bar: vapour over water at 15 and 20 C (IAPWS). */
const VAPOUR = { 15: 0.01706, 20: 0.02339 } as const;
const ZERO = 273.15;

export interface Ring {
  readonly t_C: 15 | 20;
  readonly bar: number;
  readonly bore_mm: number;
  readonly length_m: number;
  readonly flow_L_s: number;
  /** Gas over room in each metre at the start, or in the first so many. */
  readonly share?: number;
  readonly pocket_m?: number;
  readonly profile?: readonly { at_m: number; elevation_m: number }[];
  readonly gas?: readonly { from_m: number; to_m: number }[];
  readonly solver?: object;
}

/** A level ring in which water goes round, held at `bar` abs; saturated under one bar. */
export function ring(i: Ring): World {
  const kPa = 100 * (i.bar - ATM);
  const start = { start_pressure_kPa: kPa };
  const each = Math.min(i.length_m, 100);
  const small = (k: number) => ({ from_m: k, to_m: k + (i.share ?? 0) });
  const even = () => Array.from({ length: each }, (_, k) => small(k));
  const gas = i.gas ?? (i.pocket_m === undefined ? even() : [{ from_m: 0, to_m: i.pocket_m }]);
  const room = { volume_L: 0.5, ...start };
  const nodes = [held('head', kPa), { ...joint('a'), ...room }, { ...joint('b'), ...room }];
  const links = [
    { ...pipe('tail', ['head', 'a'], 20, 1), ...start },
    {
      id: 'drive',
      kind: 'fixed_flow',
      from: 'a',
      to: 'b',
      bore_mm: i.bore_mm,
      flow_L_s: i.flow_L_s,
    },
    { ...pipe('loop', ['b', 'a'], i.bore_mm, i.length_m), gas, profile: i.profile ?? [], ...start },
  ];
  const vapour = VAPOUR[i.t_C];
  const dissolved_air = { start_share: (1 - vapour) / (ATM - vapour) };
  const more = { temperature_C: i.t_C, dissolved_air, ...(i.solver ? { solver: i.solver } : {}) };
  return createWorld(scenario(nodes, links, more), 1);
}

/** m3 at 1 atm of gas that is not in solution. */
export const free = (world: World) => truth(world).gas.now - truth(world).dissolved_m3!;

/** L of normal air (0 C, 1 atm) that so many litres of water take in after so many hours. */
function takes(i: Ring & { litres: number; hours: number }): number {
  const world = ring(i);
  const held = () => truth(world).dissolved_m3! / truth(world).liquid.now;
  const before = held();
  run(world, 3600 * i.hours);
  return ((held() - before) * i.litres * 998.2 * ZERO) / (ZERO + i.t_C);
}

/** s in which a bubble is gone at its first rate: a swarm's volume goes three times as fast. */
function lifetime(i: Ring): number {
  const world = ring(i);
  run(world, 5);
  const before = free(world);
  run(world, 10);
  const after = free(world);
  return (3 * 10 * 0.5 * (before + after)) / (before - after);
}

/** mL of normal air a litre that leave a tank of water of 10 C once it is as warm as the air. */
function warming(i: { air_C: number; hours: number }): number {
  const ports = [{ id: 'port', height_mm: 5, bore_mm: 25 }];
  const size = { area_m2: 2, height_mm: 500, start_level_mm: 50 };
  const tank = { id: 'tank', kind: 'tank', floor_m: 0, ...size, ports };
  const shut = { id: 'shut', kind: 'valve', from: 'tank.port', to: 'a', bore_mm: 25, start_deg: 0 };
  const heat = { air_C: i.air_C, soil_C: 10, air_film_W_m2K: 200 };
  const more = { temperature_C: 10, dissolved_air: {}, heat, solver: { tick_s: 0.2 } };
  const world = createWorld(scenario([tank, joint('a')], [shut], more), 1);
  run(world, 3600 * i.hours);
  const { went, came } = truth(world).gas;
  return (1e6 * (went - came) * ZERO) / (ZERO + 10) / 100;
}

export const DISSOLVED = {
  'world.takes_L': takes,
  'world.bubble_s': lifetime,
  'world.warming_mL_L': warming,
};
