// How questions of cases.json about pumps are put to whole worlds: power at the shaft, head lost to
// a starved suction, warming against a shut valve.
import { createWorld, truth, type World } from '../../../sim/index.ts';
import { held, joint, scenario } from '../../support/fields.ts';
import { node, run } from '../../support/worlds.ts';

interface Rig {
  readonly Hd: number;
  readonly Qd_L_s: number;
  readonly eta: number;
  readonly flow_L_s: number;
  readonly suction_kPa: number;
  readonly npsh_m: number;
  readonly seconds: number;
}

/** A pump of the one-point curve between a held suction and a flow that is imposed; run. */
function rig(i: Rig): World {
  const curve = Array.from({ length: 9 }, (_, k) => ({
    flow_L_s: (k / 4) * i.Qd_L_s,
    head_m: (4 * i.Hd) / 3 - (i.Hd / 3) * (k / 4) * (k / 4),
  }));
  const wide = { bore_mm: 52.5 };
  const open = { kind: 'valve', start_deg: 90, ...wide };
  const valve = { id: 'suction', from: 'well', to: 'casing', ...open };
  const pump = {
    id: 'pump',
    kind: 'pump',
    from: 'casing',
    to: 'out',
    ...wide,
    curve,
    best_flow_L_s: i.Qd_L_s,
    efficiency_max: i.eta,
    npsh_required_m: i.npsh_m,
    start_on: true,
  };
  const drawn = { id: 'drawn', kind: 'fixed_flow', from: 'out', to: 'away', ...wide };
  const nodes = [
    held('well', i.suction_kPa),
    { ...joint('casing'), volume_L: 2.5 },
    { ...joint('out'), volume_L: 2 },
    held('away', 0),
  ];
  const links = [valve, pump, { ...drawn, flow_L_s: i.flow_L_s }];
  return run(createWorld(scenario(nodes, links), 1), i.seconds);
}

const shaft = (world: World) => truth(world).pumps[0]!.shaft_W;
const rise = (world: World) => node(world, 'out') - node(world, 'casing');

export const PUMPS = {
  'world.shaft_W': (i: Rig) => shaft(rig(i)),
  /** Head under this suction over that under one that is well flooded. */
  'world.starved': (i: Rig) => rise(rig(i)) / rise(rig({ ...i, suction_kPa: 100 })),
  /** Warming in the last minute of a run, K. */
  'world.warming_K_min': (i: Rig) => {
    const world = rig(i);
    const first = truth(world).casing_C['pump']!;
    return truth(run(world, 60)).casing_C['pump']! - first;
  },
};
