// How questions of cases.json about water that runs under a pocket are put to whole worlds: the
// height over which a pocket of a falling reach costs head, beside the height of its gas alone.
import { createWorld, parseScenario } from '../../../sim/index.ts';
import { area } from '../../support/fields.ts';
import { bench } from '../../support/rigs.ts';
import { link, node, run } from '../../support/worlds.ts';

interface Reach {
  readonly bore_mm: number;
  readonly fall_deg: number;
  readonly velocity: number;
  readonly gas_m: number;
}

/**
 * Pa over a falling reach of 20 m, by how much it swings in three seconds, and m of gas in it by
 * height; with or without running layers.
 */
export function reach(i: Reach, running_layers: boolean) {
  const [from, length] = [4, 20];
  const fall = length * Math.sin((i.fall_deg * Math.PI) / 180);
  const low = 0.3 - fall;
  const of = bench({
    bore_mm: i.bore_mm,
    flow_L_s: 1000 * i.velocity * area(i.bore_mm / 1000),
    length_m: length + 10,
    end_m: low + 1,
    profile: [
      { at_m: 2, elevation_m: 0 },
      { at_m: from, elevation_m: 0.3 },
      { at_m: from + length, elevation_m: low },
      { at_m: from + length + 4, elevation_m: low },
    ],
    gas: { from_m: from, to_m: from + i.gas_m },
  });
  const up = { pressure_kPa: 20 + 9.79 * fall };
  const nodes = of.nodes.map((one) => (one.id === 'basin' ? { ...one, ...up } : one));
  const world = run(createWorld(parseScenario({ ...of, nodes, running_layers }), 1), 120);
  const gas = link(world, 'pipe').gas.slice(from, from + length);
  const height = (gas.reduce((sum, a) => sum + a, 0) * fall) / length;
  const shown = Array.from({ length: 30 }, () => node(run(world, 0.1), 'inlet'));
  return { pressure: shown.at(-1)!, height, swing: Math.max(...shown) - Math.min(...shown) };
}

/** Height that a pocket costs, over that of its gas if it filled the bore. */
function costs(i: Reach): number {
  const on = reach(i, true);
  const off = reach(i, false);
  return 1 + (on.pressure - off.pressure) / (998.2 * 9.80665 * on.height);
}

export const LAYERS = { 'world.pocket_costs': costs };
