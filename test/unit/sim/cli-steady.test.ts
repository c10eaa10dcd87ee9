// The verb `steady`: what it prints, what can be set, what is refused.
import { describe, expect, it } from 'vitest';
import { formOf, InputFaults, parseScenario } from '../../../sim/index.ts';
import { settingsOf, steadyVerb } from '../../../sim/cli/steady.ts';
import { faultPaths, folderOfTests, told } from './cli-tools.ts';

const { written } = folderOfTests();

const LINE = {
  format: 1,
  id: 'line',
  temperature_C: 20,
  ends_after_s: 60,
  nodes: [
    { id: 'high', kind: 'reservoir', elevation_m: 0, pressure_kPa: 120 },
    { id: 'n', kind: 'junction', elevation_m: 0 },
    { id: 'dead', kind: 'junction', elevation_m: -1 },
    { id: 'low', kind: 'reservoir', elevation_m: 0, pressure_kPa: 100 },
  ],
  links: [
    { id: 'v', kind: 'valve', from: 'high', to: 'n', bore_mm: 20, start_deg: 90, loss_k_open: 2 },
    { id: 'w', kind: 'valve', from: 'n', to: 'low', bore_mm: 20, start_deg: 90, loss_k_open: 2 },
    { id: 'side', kind: 'valve', from: 'n', to: 'dead', bore_mm: 20, start_deg: 0 },
  ],
};

/** Through two valves of K = 2: 20 kPa are 4 rho V^2/2. */
const VELOCITY = Math.sqrt((2 * 20000) / (4 * 998.2));

interface Printed {
  readonly links: readonly {
    id: string;
    flow_L_s: number;
    velocity_m_s: number;
    loss_kPa: number;
  }[];
  readonly nodes: readonly { id: string; pressure_kPa: number | null; elevation_m: number }[];
  readonly iterations: number;
  readonly imbalance_kPa: number;
  readonly imbalance_L_s: number;
}

const of = <T extends { readonly id: string }>(list: readonly T[], id: string): T =>
  list.find((one) => one.id === id)!;

describe('steady', () => {
  it('prints flows, losses and pressures in the units of their keys', () => {
    const { code, json } = told('steady', written('line.json', LINE));
    expect(code).toBe(0);
    const { links, nodes, ...rest } = json as unknown as Printed;
    expect(links.map(({ id }) => id)).toEqual(['v', 'w', 'side']);
    expect(of(links, 'v').velocity_m_s).toBeCloseTo(VELOCITY, 3);
    expect(of(links, 'v').flow_L_s).toBeCloseTo(1000 * VELOCITY * Math.PI * 1e-4, 4);
    expect(of(links, 'v').loss_kPa).toBeCloseTo(10, 6);
    expect(of(nodes, 'n')).toEqual({ id: 'n', pressure_kPa: 110, elevation_m: 0 });
    expect(of(nodes, 'dead')).toEqual({ id: 'dead', pressure_kPa: null, elevation_m: -1 });
    const still = { flow_L_s: 0, velocity_m_s: 0, loss_kPa: 0 };
    expect(of(links, 'side')).toEqual({ id: 'side', ...still, shut: true });
    expect(rest.iterations).toBeGreaterThan(1);
    expect(rest.imbalance_kPa).toBeLessThan(1e-6);
    expect(rest.imbalance_L_s).toBeLessThan(1e-9);
  });

  it('sets controls by number or by word', () => {
    const file = written('line.json', LINE);
    const { code, json } = steadyVerb(file, { set: ['w=shut', 'side=90'] });
    expect(code).toBe(0);
    const { links, nodes } = json as Printed;
    expect(of(links, 'v').flow_L_s).toBe(0);
    expect(of(nodes, 'n').pressure_kPa).toBe(120);
    expect(of(nodes, 'dead').pressure_kPa).toBeCloseTo(120 + 998.2 * 9.80665e-3, 2);
    expect(json).toMatchObject({ settings: { w: 0, side: 90 } });
  });

  it('lists every setting that cannot be', () => {
    const set = ['--set', 'v=ajar', '--set', 'w=91'];
    const paths = faultPaths(() => told('steady', written('line.json', LINE), ...set));
    expect(paths).toEqual(['--set v', '--set w']);
  });

  it('is of the form that the seed gives', () => {
    const ranges = [
      { id: 'head', min: 120, max: 180, step: 1, touches: [{ at: 'nodes.high.pressure_kPa' }] },
    ];
    const file = written('ranged.json', { ...LINE, ranges });
    const middle = (seed?: string) =>
      of((steadyVerb(file, seed === undefined ? {} : { seed }).json as Printed).nodes, 'n')
        .pressure_kPa!;
    expect(middle()).toBe(110);
    expect(middle('1')).toBe(110);
    const form = formOf(parseScenario({ ...LINE, ranges }), 5).nodes[0];
    const head = form?.kind === 'reservoir' ? form.pressure_kPa : 0;
    expect(head).toBeGreaterThan(120);
    expect(middle('5')).toBeCloseTo((100 + head) / 2, 6);
  });

  it('says where there is no steady flow', () => {
    const feed = { id: 'f', kind: 'fixed_flow', from: 'low', to: 'dead', bore_mm: 20, flow_L_s: 1 };
    const fed = written('fed.json', { ...LINE, links: [...LINE.links, feed] });
    const { code, json } = steadyVerb(fed, {});
    expect(code).toBe(1);
    expect((json as { no_steady_flow: string }).no_steady_flow).toContain('"dead"');
  });
});

describe('settings', () => {
  const between = { from: 'high', to: 'low', bore_mm: 20 };
  const curve = [
    { flow_L_s: 0, head_m: 9 },
    { flow_L_s: 1, head_m: 0 },
  ];
  const RIG = parseScenario({
    ...LINE,
    links: [
      ...LINE.links,
      { ...between, id: 'ball', kind: 'three_way', branch: 'n', start_deg: 0 },
      { ...between, id: 'pump', kind: 'pump', curve, best_flow_L_s: 0.6 },
      { ...between, id: 'joint', kind: 'coupling', start: 'made' },
      { ...between, id: 'filter', kind: 'filter', loss_k: 3 },
      { ...between, id: 'feed', kind: 'fixed_flow', flow_L_s: 0 },
      { ...between, id: 'pipe', kind: 'pipe', wall_mm: 2, length_m: 3 },
    ],
  });
  const faultsOf = (...texts: string[]): string[] => {
    try {
      settingsOf(texts, RIG);
      return [];
    } catch (error) {
      if (!(error instanceof InputFaults)) throw error;
      return error.faults.map(({ path, message }) => `${path}: ${message}`);
    }
  };

  it('are numbers, or the words of that kind of control', () => {
    const texts = ['v=open', 'ball=to_shut', 'pump=on', 'joint=apart', 'filter=.5', 'feed=-1e-1'];
    expect([...settingsOf(texts, RIG).values()]).toEqual([90, 270, 1, 0, 0.5, -0.1]);
    expect(settingsOf(['v=open', 'v=30'], RIG)).toEqual(new Map([['v', 30]]));
  });

  it('are not taken for another control, nor guessed', () => {
    // An open three-way valve is no place of its handle, and a valve that is on is not at 1.
    const names = 'all_joined or from_shut or branch_shut or to_shut';
    expect(faultsOf('ball=open', 'v=on', 'v= ', 'v=0x10', 'v=', 'filter=full')).toEqual([
      `--set ball: must be a number or ${names}, not "open"`,
      '--set v: must be a number or open or shut, not "on"',
      '--set v: must be a number or open or shut, not " "',
      '--set v: must be a number or open or shut, not "0x10"',
      '--set v: must be a number or open or shut, not ""',
      '--set filter: must be a number, not "full"',
    ]);
  });

  it('are refused all at once, whatever is wrong with each', () => {
    const texts = ['v', '=3', 'w=half', 'x=open', 'pipe=1', 'ball.to=1', 'side=91', 'pump=0.5'];
    expect(faultsOf(...texts).sort()).toEqual([
      '--set =3: must be ID=VALUE',
      '--set ball.to: has no control to set',
      '--set pipe: has no control to set',
      '--set pump: must be 0 or 1, not 0.5',
      '--set side: must lie from 0 to 90, not 91',
      '--set v: must be ID=VALUE',
      '--set w: must be a number or open or shut, not "half"',
      '--set x: is no link of this scenario',
    ]);
  });
});
