// How long a tick takes beside EPANET's steady solve of the same network [EPANET2.2]: the bench's
// own field, in one process and in turns, the shortest of fifteen each. EPANET solves the field
// full of water at its default accuracy; the engine moves water and air through it.
import { InitHydOption, LinkProperty } from 'epanet-js';
import { benchField } from '../../sim/cli/bench-field.ts';
import { clone, createWorld, step, type Scenario } from '../../sim/index.ts';
import { steadyState } from '../../sim/steady.ts';
import type { Network } from '../tools/networks.ts';
import { loadRival } from '../truth/networks-apart.ts';
import { ask } from '../truth/networks-epanet.ts';

/** Circuits, and the most solves that a tick may take. */
const SIZES = [
  { circuits: 12, most: 2 },
  { circuits: 48, most: 2 },
  { circuits: 200, most: 1 },
] as const;
const ROUNDS = 15;
/** Ticks before the timed ones, so that pockets move; and ticks and solves of one timing. */
const BEFORE = 50;
const TICKS = 20;
const SOLVES = 5;
/** EPANET's defaults: 0.001 of the flows, looks at one-way parts every 2 trials up to the 10th. */
const DEFAULTS = { accuracy: 1e-3, every: 2, upTo: 10 } as const;
/** Share by which both may differ in the pump's flow: the friction laws and the pump's curve. */
const SAME = 0.05;

/** The field full of plain water, and a pump through the bench's three points. */
function network(circuits: number): Network {
  const field = benchField(circuits, false);
  const nodes = field.nodes.map((node) =>
    node.kind === 'tank' ? { ...node, start_antifreeze_fraction: 0 } : node,
  );
  const scenario: Scenario = { ...field, antifreeze: 'none', nodes };
  const pump = field.links.find((link) => link.kind === 'pump')!;
  const [shut, middle, last] = pump.curve;
  const fallen = (head_m: number): number => 1 - head_m / shut!.head_m;
  const c =
    Math.log(fallen(last!.head_m) / fallen(middle!.head_m)) /
    Math.log(last!.flow_L_s / middle!.flow_L_s);
  const Q_max = last!.flow_L_s / Math.pow(fallen(last!.head_m), 1 / c);
  const pumps = new Map([[pump.id, { H0: shut!.head_m, Q_max, c }]]);
  const trunk = pump.id;
  return { name: field.id, pipes: scenario.links.length, scenario, pumps, trunk, tries: 1 };
}

interface Timed {
  readonly solve_us: number;
  readonly tick_us: number;
  /** m3/s through the pump, by EPANET. */
  readonly flow: number;
}

const since = (from: number, count: number): number => (1000 * (performance.now() - from)) / count;

function timed(rival: Awaited<ReturnType<typeof loadRival>>, circuits: number): Timed {
  const field = benchField(circuits, true);
  const warm = createWorld(field, 1);
  for (let k = 0; k < BEFORE; k++) step(warm, []);
  const put = ({ model, parts }: Parameters<Parameters<typeof ask>[2]>[0]): Timed => {
    let [solve_us, tick_us] = [Infinity, Infinity];
    model.openH();
    for (let round = 0; round < ROUNDS; round++) {
      let from = performance.now();
      for (let k = 0; k < SOLVES; k++) {
        model.initH(InitHydOption.InitFlow);
        model.runH();
      }
      solve_us = Math.min(solve_us, since(from, SOLVES));
      const world = clone(warm);
      from = performance.now();
      for (let k = 0; k < TICKS; k++) step(world, []);
      tick_us = Math.min(tick_us, since(from, TICKS));
    }
    const pump = parts.find(({ id }) => id === 'pump')!;
    const flow = model.getLinkValue(pump.index, LinkProperty.Flow) / 1000;
    model.closeH();
    return { solve_us, tick_us, flow };
  };
  return ask(rival, network(circuits), put, DEFAULTS);
}

const HEADS = ['circuits', 'tick, us', 'solve, us', 'solves a tick', 'may be', 'flow over ours'];

/** A section of the report; `failed` counts sizes that are too slow or are not the same network. */
export async function benchEpanet(): Promise<{ text: string; failed: number }> {
  const rival = await loadRival();
  let failed = 0;
  const rows = SIZES.map(({ circuits, most }) => {
    const { solve_us, tick_us, flow } = timed(rival, circuits);
    const steady = steadyState(network(circuits).scenario);
    const ours = steady.links.find(({ id }) => id === 'pump')!.flow;
    const solves = tick_us / solve_us;
    const same = Math.abs(flow / ours - 1) <= SAME;
    const held = solves <= most && same;
    if (!held) failed += 1;
    const numbers = [tick_us.toFixed(0), solve_us.toFixed(0), solves.toFixed(2)];
    const bound = `${most}${solves <= most ? '' : ', **beyond**'}`;
    const apart = `${(flow / ours).toFixed(3)}${same ? '' : ', **not the same**'}`;
    const line = `| ${[circuits, ...numbers, bound, apart].join(' | ')} |`;
    console.log(line);
    return line;
  });
  const text = [
    'A tick of the purge of the bench field (water and air, every cell carried) beside one steady',
    'solve of the same field full of water by EPANET 2.2, in turns, the shortest of fifteen.',
    '',
    `| ${HEADS.join(' | ')} |`,
    `|${'---|'.repeat(HEADS.length)}`,
    ...rows,
  ].join('\n');
  return { text, failed };
}
