// How questions of cases.json about walls of polyethylene are put to whole worlds: what a pipe
// takes in as it creeps, what a shut loop loses, what air and stretch take together.
import { createWorld, parseScenario, step, truth, type World } from '../../../sim/index.ts';
import { area } from '../../support/fields.ts';
import { ATM, closed, node, PSI, run } from '../../support/worlds.ts';

const RHO = 998.2; // kg/m3, water at 20 C.
const TUBE = { bore_mm: 27.305, wall_mm: 3.048 }; // One inch SDR 11.

const pipeOf = (from: string, to: string, length_m: number, more: object = {}) => ({
  id: 'pipe',
  kind: 'pipe',
  from,
  to,
  ...TUBE,
  length_m,
  material: 'pe',
  ...more,
});

function world(nodes: unknown[], links: unknown[], t_C: number, tick_s = 0.2): World {
  const scenario = parseScenario({
    format: 1,
    id: 'walls',
    temperature_C: t_C,
    ends_after_s: 172800,
    solver: { tick_s, cell_m: 5 },
    nodes,
    links,
  });
  return createWorld(scenario, 1);
}

const joint = (id: string) => ({ id, kind: 'junction', elevation_m: 0 });
const held = (id: string, kPa: number) => ({
  id,
  kind: 'reservoir',
  elevation_m: 0,
  pressure_kPa: kPa,
});
const valve = (id: string, from: string, to: string, deg: number) => ({
  id,
  kind: 'valve',
  from,
  to,
  bore_mm: 25,
  start_deg: deg,
});

/** Gauge pressure of a full, shut loop at these minutes over that at `from_min`. */
export function decayOf(i: {
  from_min: number;
  at_min: readonly number[];
  start_kPa: number;
  t_C: number;
  gas_m?: number;
}) {
  const gas = i.gas_m === undefined ? [] : [{ from_m: 50, to_m: 50 + i.gas_m }];
  const start = { start_pressure_kPa: i.start_kPa };
  const ends = [joint('a'), joint('b')].map((n) => ({ ...n, ...start }));
  const w = world(ends, [pipeOf('a', 'b', 100, { ...start, gas })], i.t_C);
  let at = 0;
  const gauges = [i.from_min, ...i.at_min].map((minute) => {
    run(w, 60 * (minute - at));
    at = minute;
    return node(w, 'a') - ATM;
  });
  return gauges.slice(1).map((p) => p / gauges[0]!);
}

interface Taken {
  readonly psi: number;
  readonly t_C: number;
  readonly after_s: readonly number[];
  readonly length_m: number;
}

/** Water that a full pipe takes in under a head that stays, L after so many seconds. */
function taken({ psi, t_C, after_s, length_m }: Taken) {
  const w = world(
    [held('head', (psi * PSI) / 1000), joint('end')],
    [pipeOf('head', 'end', length_m)],
    t_C,
  );
  const before = truth(w).liquid.now;
  let at = 0;
  return after_s.map((s) => {
    run(w, s - at);
    at = s;
    return (1000 * (truth(w).liquid.now - before)) / RHO;
  });
}

interface Deadhead {
  readonly psi: readonly [from: number, to: number];
  readonly gas_L: number;
  readonly length_m: number;
  readonly modulus_MPa: number;
}

/** Water that a pipe with `gas_L` at its end takes in between two pressures, L: elastic wall. */
function deadhead({ psi, gas_L, length_m, modulus_MPa }: Deadhead) {
  const free_L = (gas_L * (ATM + psi[0] * PSI)) / ATM;
  const gas_m = (free_L - 0.5) / 1000 / area(TUBE.bore_mm / 1000); // Half a litre is the end's.
  const holds = psi.map((p) => {
    const gas = { from_m: length_m - gas_m, to_m: length_m };
    const more = { ...TUBE, length_m, modulus_MPa, nu: 0.45, gas, end_gas: 1 };
    const w = createWorld(closed({ pressure_kPa: (p * PSI) / 1000, ...more }), 1);
    return truth(run(w, 240)).liquid.now;
  });
  return (1000 * (holds[1]! - holds[0]!)) / RHO;
}

interface Rebound {
  readonly psi: number;
  readonly drop_psi: number;
  readonly hours: number;
  readonly t_C: number;
}

/**
 * A loop that stood so many hours under a head, let down by some psi and shut: pressure over that
 * at the shutting, one number a minute for an hour.
 */
export function reboundOf({ psi, drop_psi, hours, t_C }: Rebound): number[] {
  const w = world(
    [held('high', (psi * PSI) / 1000), held('low', ((psi - drop_psi) * PSI) / 1000)].concat(
      [joint('a'), joint('b')] as never[],
    ),
    [valve('top', 'high', 'a', 90), valve('drain', 'a', 'low', 0), pipeOf('a', 'b', 304.8)],
    t_C,
  );
  run(w, 3600 * hours);
  step(w, [{ kind: 'valve', valve: 'top', target_deg: 0 }]);
  run(w, 5);
  step(w, [{ kind: 'valve', valve: 'drain', target_deg: 90 }]);
  run(w, 10);
  step(w, [{ kind: 'valve', valve: 'drain', target_deg: 0 }]);
  run(w, 3);
  const first = node(w, 'a') - ATM;
  return Array.from({ length: 60 }, () => (node(run(w, 60), 'a') - ATM) / first);
}

export const WALLS = {
  'world.decay': decayOf,
  'world.creep_L': taken,
  'world.deadhead_L': deadhead,
  'world.rebound': (i: Rebound) => Math.max(...reboundOf(i)) - 1,
  'world.flat': (i: Rebound) => {
    const hour = reboundOf(i);
    return Math.max(...hour) - Math.min(...hour);
  },
};
