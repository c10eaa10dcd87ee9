// How questions of cases.json about things that go wrong are put: to laws, and to whole worlds with
// a defect in them: holes, kinks, worn wheels, a well's pressure switch.
import { createWorld, step, truth } from '../../../sim/index.ts';
import { pinchK } from '../../../sim/laws/defect.ts';
import { held, joint, pipe, scenario } from '../../support/fields.ts';
import { node, run } from '../../support/worlds.ts';
import type { Well } from '../origin/defects.ts';

const WIDE = { bore_mm: 150 };
const open = { kind: 'valve', start_deg: 90, loss_k_open: 0.01, ...WIDE };

interface Hole {
  readonly kPa: number;
  readonly bore_mm: number;
  readonly grows_per_100kPa?: number;
  readonly air?: boolean;
  readonly seconds: number;
}

/** L/min through a hole in a fitting that is held at a pressure: water out, or air of 1 atm in. */
function through({ kPa, bore_mm, grows_per_100kPa, air, seconds }: Hole): number {
  const nodes = [held('source', kPa), joint('fitting')];
  const links = [{ id: 'way', from: 'source', to: 'fitting', ...open }];
  const grows = grows_per_100kPa === undefined ? {} : { grows_per_100kPa };
  const kind = air === true ? 'suction_air_leak' : 'leak';
  const defects = [{ id: 'hole', kind, at: 'fitting', bore_mm, ...grows }];
  const world = run(createWorld(scenario(nodes, links, { defects }), 1), 10);
  const before = truth(world);
  const after = truth(run(world, seconds));
  const per_min = 60 / seconds;
  const place = 'hole.air';
  if (air === true) return (after.gas.came - before.gas.came) * 1000 * per_min;
  return ((after.ledgers[place]! - before.ledgers[place]!) / 0.9982) * per_min;
}

/** Pa that a kink adds to a pipe with this flow in it. */
function kinked(i: { shut: number; bore_mm: number; flow_L_s: number }): number {
  const drop = (defects: object[]) => {
    const nodes = [held('source', 100), joint('a'), held('away', 20)];
    const feed = { id: 'feed', kind: 'fixed_flow', from: 'source', to: 'a', ...WIDE };
    const links = [{ ...feed, flow_L_s: i.flow_L_s }, pipe('p', ['a', 'away'], i.bore_mm, 60)];
    return node(run(createWorld(scenario(nodes, links, { defects }), 1), 30), 'a');
  };
  return drop([{ id: 'kink', kind: 'blocked', at: 'p', share: i.shut }]) - drop([]);
}

/** Head at shut valves of a worn wheel over that of a new one, both of the one-point curve. */
function wornHead({ wear }: { wear: number }): number {
  const curve = Array.from({ length: 9 }, (_, k) => ({
    flow_L_s: k / 4,
    head_m: (4 * 15) / 3 - (15 / 3) * (k / 4) * (k / 4),
  }));
  const pump = { kind: 'pump', curve, best_flow_L_s: 1, start_on: true, bore_mm: 40 };
  const links = [
    { id: 'in', from: 'well', to: 'casing', ...open },
    { id: 'pump', from: 'casing', to: 'out', ...pump },
    { id: 'shut', from: 'out', to: 'away', ...open, start_deg: 0 },
  ];
  const nodes = [held('well', 50), joint('casing'), joint('out'), held('away', 0)];
  const head = (defects: object[]) => {
    const world = run(createWorld(scenario(nodes, links, { defects }), 1), 20);
    return node(world, 'out') - node(world, 'casing');
  };
  return head([{ id: 'worn', kind: 'worn_impeller', at: 'pump', share: wear }]) / head([]);
}

/** Gauge pressures of a well's supply in every tick of ten minutes under a steady draw, kPa. */
function wellOf(i: Well): number[] {
  const { low_kPa, drawdown_L, pump_L_min } = i;
  const nodes = [held('well', i.high_kPa), joint('tap'), held('away', 0)];
  const links = [
    { id: 'way', from: 'well', to: 'tap', ...open },
    { id: 'draw', kind: 'fixed_flow', from: 'tap', to: 'away', ...WIDE, flow_L_s: i.draw_L_s },
  ];
  const vessel = { kind: 'cycling_supply', at: 'well', low_kPa, drawdown_L, pump_L_min };
  const world = createWorld(scenario(nodes, links, { defects: [{ id: 'switch', ...vessel }] }), 1);
  return Array.from({ length: 6000 }, () => {
    step(world, []);
    return (world.state.point[0]! - 101325) / 1000;
  });
}

/** s from one lowest pressure to the next, the mean of all of them. */
function wellPeriod(i: Well): number {
  const seen = wellOf(i);
  const lows = seen.flatMap((p, k) => {
    const [before, after] = [seen[k - 1] ?? p, seen[k + 1] ?? -1];
    return p < before && p <= after ? [k] : [];
  });
  return (lows.at(-1)! - lows[0]!) / (lows.length - 1) / 10;
}

export const DEFECTS = {
  'defect.pinchK': ({ shut }: { shut: number[] }) => shut.map(pinchK),
  'world.hole_L_min': through,
  'world.kink_Pa': kinked,
  'world.worn_head': wornHead,
  'world.well_period_s': wellPeriod,
  'world.well_swing_kPa': (i: Well) => [Math.min(...wellOf(i)), Math.max(...wellOf(i))],
};
