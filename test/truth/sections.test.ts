// Header sections: where in a field the water is slowest, and for how many circuits a pump keeps
// every section above a rule velocity. Against EPANET [EPANET2.2], with its own law of friction.
// The rule is the trade's two feet a second; it stands here, and nowhere in the engine.
import { beforeAll, describe, expect, it } from 'vitest';
import type { Workspace } from 'epanet-js';
import { createWorld, parseScenario, xray } from '../../sim/index.ts';
import { steadyState } from '../../sim/steady.ts';
import { held, joint, off, pipe } from '../support/fields.ts';
import { GPM, link, run } from '../support/worlds.ts';
import type { Network, PumpLaw } from '../tools/networks.ts';
import { loadRival } from './networks-apart.ts';
import { askPlain } from './networks-epanet.ts';

const RULE = 2 * 0.3048; // m/s
/** mm. Bores of dimension ratio 11 from 3/4 to 4 inches, OD (1 - 2/11) as ASTM D3035 has the OD. */
const BORES = [21.82, 27.33, 34.49, 39.48, 49.36, 72.75, 93.52];
const MOST = 24;
/** L/s a circuit, for which the header of the field is sized. */
const DESIGN = 0.27;
const areaOf = (bore_mm: number): number => (Math.PI / 4) * (bore_mm / 1000) ** 2;

/** Three pumps that nobody sells: H0 (1 - (Q/Qmax)^c), m and L/s. */
const PUMPS: readonly PumpLaw[] = [
  { H0: 32, Q_max: 5, c: 2 },
  { H0: 18, Q_max: 7, c: 2.4 },
  { H0: 48, Q_max: 3.5, c: 1.7 },
];

/** Widest bore in which so many circuits' flow still keeps the rule; 3/4 inch at least. */
function reducing(circuits: number): number {
  const wide = BORES.filter((b) => (circuits * DESIGN) / 1000 / areaOf(b) >= RULE);
  return wide.at(-1) ?? BORES[0]!;
}

/** A pump, a header with direct return that narrows as circuits leave it, circuits of 120 m. */
function field(circuits: number, law: PumpLaw, headerAt: (left: number) => number): Network {
  const nodes: object[] = [held('tank', 0), joint('out'), held('home', 0)];
  const links: object[] = [];
  for (let k = 1; k <= circuits; k++) {
    const bore = headerAt(circuits - k + 1);
    nodes.push(joint(`s${k}`), joint(`r${k}`));
    links.push(pipe(`hs${k}`, [k === 1 ? 'out' : `s${k - 1}`, `s${k}`], bore, 4));
    links.push(pipe(`hr${k}`, [`r${k}`, k === 1 ? 'home' : `r${k - 1}`], bore, 4));
    links.push(pipe(`c${k}`, [`s${k}`, `r${k}`], BORES[0]!, 120));
  }
  const curve = Array.from({ length: 31 }, (_, k) => {
    const share = k / 30;
    return { flow_L_s: share * law.Q_max, head_m: law.H0 * (1 - share ** law.c) };
  });
  const ends = { kind: 'pump', from: 'tank', to: 'out', bore_mm: 60, start_on: true };
  links.unshift({ id: 'pump', ...ends, curve, best_flow_L_s: 0.6 * law.Q_max });
  const common = { format: 1, id: 'sections', temperature_C: 20, ends_after_s: 10000 };
  const scenario = parseScenario({ ...common, nodes, links });
  const pumps = new Map([['pump', law]]);
  const name = `${circuits} circuits`;
  return { name, pipes: 3 * circuits, scenario, pumps, trunk: 'pump', tries: 1 };
}

/** m/s in the slowest pipe. */
function slowest({ scenario }: Network, flowOf: (id: string) => number): number {
  const pipes = scenario.links.filter(({ kind }) => kind === 'pipe');
  return Math.min(...pipes.map(({ id, bore_mm }) => Math.abs(flowOf(id)) / areaOf(bore_mm)));
}

/** The first number of circuits at which some section is under the rule. */
function firstUnder(speed: (circuits: number) => number): number {
  for (let n = 1; n <= MOST; n++) if (speed(n) < RULE) return n;
  throw new Error('never under the rule');
}

let rival: Workspace;
beforeAll(async () => {
  rival = await loadRival();
});

describe('independent method [EPANET 2.2]: circuits until a section is too slow', () => {
  it.each(PUMPS)('a pump of $H0 m and $Q_max L/s', (law) => {
    const ours = firstUnder((n) => {
      const network = field(n, law, reducing);
      const { links } = steadyState(network.scenario);
      return slowest(network, (id) => links.find((one) => one.id === id)!.flow);
    });
    const theirs = firstUnder((n) => {
      const network = field(n, law, reducing);
      const told = askPlain(rival, network);
      if (typeof told === 'string') throw new Error(told);
      return slowest(network, (id) => told.flow.get(id)!);
    });
    console.log(`  ${law.H0} m, ${law.Q_max} L/s: under the rule at ${ours}, by EPANET ${theirs}`);
    expect(ours).toBeGreaterThan(3);
    expect(Math.abs(ours - theirs)).toBeLessThanOrEqual(1);
  });
});

describe('a run comes to what the steady solver says', () => {
  it.each(PUMPS.slice(2))('a pump of $H0 m and $Q_max L/s at its first too many', (law) => {
    const speedOf = (n: number) => {
      const network = field(n, law, reducing);
      const { links } = steadyState(network.scenario);
      return slowest(network, (id) => links.find((one) => one.id === id)!.flow);
    };
    const first = firstUnder(speedOf);
    for (const n of [first - 1, first]) {
      const network = field(n, law, reducing);
      const { links } = xray(run(createWorld(network.scenario, 1), 20));
      const speed = slowest(network, (id) => links.find((one) => one.id === id)!.flow);
      expect(off(speed, speedOf(n))).toBeLessThan(0.003);
      expect(speed < RULE).toBe(n === first);
    }
  });
});

describe('CHK-12.1: the last section of a header of one size', () => {
  it('of 2 inches carries one circuit of six, 3.62 gpm: 0.119 m/s, far under the rule', () => {
    const network = field(6, PUMPS[0]!, () => BORES[4]!);
    const feed = { id: 'pump', kind: 'fixed_flow', from: 'tank', to: 'out', bore_mm: 60 };
    const links = network.scenario.links.map((one) =>
      one.kind === 'pump' ? { ...feed, flow_L_s: 6 * 3.62 * GPM } : one,
    );
    const world = run(createWorld(parseScenario({ ...network.scenario, links }), 1), 60);
    const speed = (id: string, bore: number): number => link(world, id).flow / areaOf(bore);
    // By hand: 3.62 US gallons a minute over the area; circuits share alike within two hundredths.
    expect(off(speed('hs6', BORES[4]!), 0.119)).toBeLessThan(0.03);
    expect(off(speed('hs1', BORES[4]!), 6 * 0.119)).toBeLessThan(0.005);
    for (let k = 1; k <= 6; k++) expect(speed(`c${k}`, BORES[0]!)).toBeGreaterThan(RULE * 0.97);
  });
});
