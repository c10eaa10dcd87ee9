// The steady solver against EPANET, network by network; networks-worlds.test.ts has the ticks.
// What is matched between the two, and what is therefore not checked, stands below the imports.
import { beforeAll, describe, expect, it } from 'vitest';
import { steadyState, type Steady } from '../../sim/steady.ts';
import { networks, reynolds, type Network } from '../tools/networks.ts';
import { apart, loadRival, percent, type Apart } from './networks-apart.ts';
import { askRival, churchill, type Told } from './networks-epanet.ts';
import { freshSeed } from '../tools/chance.ts';

// MATCHED: what one link loses at a flow. EPANET parts laminar from turbulent flow by another
// formula than [Churchill1977], takes gravity as 32.2 ft/s2 and lets local losses go by the
// square down to rest. So each link's length and K are scaled by one number, found from EPANET's
// own flow: its loss there over Churchill's (written anew in networks-epanet.ts), until both
// agree to 1e-6. The scales never see our solution. Roughness alone could not do it: up to Re
// 2000 EPANET's factor knows none, and gravity and local losses would still differ.
// CHECKED THEREFORE: that flows balance at nodes and pressures around loops, pumps on curves,
// shut and one-way parts, weight, heads of tanks and reservoirs. NOT CHECKED: friction and the
// valve's K as laws (cases.test.ts has them), tees, coils, three-way valves (EPANET has none).
// UNMATCHED figures follow, with the bound that the two friction laws allow; networks in which
// those laws agree are compared with nothing scaled in networks-plain.test.ts.

const SEED = freshSeed();
const AGAIN = `again with LOOPYARD_SEED=${SEED}`;
const COUNT = 48;
const LEAST = 40;

interface Case {
  readonly network: Network;
  readonly steady: Steady;
  readonly told: Told | string;
}

const drawn = networks(SEED, COUNT);
const cases: Case[] = [];
const say = (text: string): void => void process.stdout.write(`${text}\n`);

beforeAll(async () => {
  say(`networks: seed ${SEED}`);
  const rival = await loadRival();
  const warn = console.warn; // The toolkit says there what askRival finds and tells by itself.
  console.warn = () => undefined;
  for (const network of drawn) {
    const steady = steadyState(network.scenario);
    cases.push({ network, steady, told: askRival(rival, network) });
  }
  console.warn = warn;
});

const answered = (): (Case & { told: Told })[] =>
  cases.flatMap((one) => (typeof one.told === 'string' ? [] : [{ ...one, told: one.told }]));

describe('the steady solver', () => {
  it('draws networks of 5 to 90 pipes of every kind', () => {
    const pipes = drawn.map((n) => n.pipes);
    expect(drawn.length).toBe(COUNT);
    expect(Math.min(...pipes)).toBeGreaterThanOrEqual(5);
    expect(Math.max(...pipes)).toBeLessThanOrEqual(90);
    expect(new Set(drawn.map((n) => n.name)).size).toBeGreaterThanOrEqual(20);
    const all = cases.flatMap(({ network, steady }) => [
      ...reynolds(network.scenario, steady).values(),
    ]);
    const share = (lo: number, hi: number): string =>
      percent(all.filter(([Re]) => Re >= lo && Re < hi).length / all.length);
    const [low, high] = [Math.min(...pipes), Math.max(...pipes)];
    say(`  ${COUNT} networks of ${low} to ${high} pipes, ${all.length} pipes in all`);
    say(
      `  Re < 500 ${share(0, 500)}, to 2000 ${share(500, 2000)}, the bridge from 2000 to 4000 ` +
        `${share(2000, 4000)}, to 1e5 ${share(4000, 1.01e5)}`,
    );
    expect(Math.max(...all.map(([Re]) => Re))).toBeLessThanOrEqual(1e5);
  });

  it('balances flow and pressure in every network to its own criterion', () => {
    for (const { network, steady } of cases) {
      expect(steady.error_pressure, `${network.name}, ${AGAIN}`).toBeLessThan(1e-3);
      expect(steady.error_flow, `${network.name}, ${AGAIN}`).toBeLessThan(1e-12);
      expect(steady.iterations, `${network.name}, ${AGAIN}`).toBeLessThan(60);
    }
  });

  it('gives the flows and pressures of EPANET, losses matched link by link', () => {
    const silent = cases.filter(({ told }) => typeof told === 'string');
    for (const { network, told } of silent) say(`  no answer of EPANET: ${network.name}: ${told}`);
    const found = answered().map((one) => ({
      one,
      apart: apart(one.network, one.steady, one.told.matched),
    }));
    const worst = (pick: (a: Apart) => number): string =>
      percent(Math.max(...found.map((f) => pick(f.apart))));
    say(
      `  matched: ${found.length} networks, flows above 10 mL/s within ${worst((a) => a.flow)}, ` +
        `pressures within ${worst((a) => a.pressure)} of the range`,
    );
    expect(found.length, AGAIN).toBeGreaterThanOrEqual(LEAST);
    for (const { one } of found) {
      expect(one.told.left, `losses of ${one.network.name} matched, ${AGAIN}`).toBeLessThan(1e-3);
    }
    expect(
      found.flatMap((f) => f.apart.faults),
      AGAIN,
    ).toEqual([]);
  });
});

/** Colebrook and White, solved by Newton; from memory of the textbook formula. */
function colebrook(Re: number, e_D: number): number {
  let x = 7; // 1/sqrt f
  for (let k = 0; k < 30; k++) {
    const inside = e_D / 3.7 + (2.51 * x) / Re;
    const slope = 1 + (2 / Math.LN10) * (2.51 / Re / inside);
    x -= (x + 2 * Math.log10(inside)) / slope;
  }
  return 1 / (x * x);
}

/** Swamee and Jain (1976), from memory, which EPANET uses above Re 4000. */
function swameeJain(Re: number, e_D: number): number {
  const l = Math.log10(e_D / 3.7 + 5.74 / Math.pow(Re, 0.9));
  return 0.25 / (l * l);
}

/** Largest distance of a law from Colebrook over Re 4000 to 1e5 and roughness to 0.1 in 15 mm. */
function farthest(law: (Re: number, e_D: number) => number): number {
  let most = 0;
  for (let i = 0; i <= 60; i++) {
    const Re = 4000 * Math.pow(25, i / 60);
    for (const e_D of [0, 1e-5, 1e-4, 3e-4, 1e-3, 2e-3, 4e-3, 0.1 / 15]) {
      most = Math.max(most, Math.abs(law(Re, e_D) / colebrook(Re, e_D) - 1));
    }
  }
  return most;
}

/** EPANET's gravity over ours: its losses are smaller by that. */
const GRAVITY = (32.2 * 0.3048) / 9.80665 - 1;

describe('losses that are not matched', () => {
  it('differ outside the bridge by no more than both laws do from Colebrook', () => {
    const ours = farthest(churchill);
    const theirs = farthest(swameeJain);
    expect(ours).toBeLessThan(0.031);
    const bound = (1 + ours) / (1 - theirs) / (1 - GRAVITY) - 1;
    let worst = 0;
    const bins = new Map<number, [count: number, least: number, most: number]>();
    for (const { network, told } of answered()) {
      const { links } = network.scenario;
      for (const [id, [Re, ratio]] of told.plain.ratio) {
        const spec = links.find((link) => link.id === id)!;
        if (spec.kind !== 'pipe' && spec.kind !== 'hose') continue;
        const bin = Re < 2000 ? 0 : Re >= 4000 ? 4000 : 2000 + 250 * Math.floor((Re - 2000) / 250);
        const [count, least, most] = bins.get(bin) ?? [0, Infinity, 0];
        bins.set(bin, [count + 1, Math.min(least, ratio), Math.max(most, ratio)]);
        if (bin === 4000) worst = Math.max(worst, Math.abs(ratio - 1));
        if (bin > 0 && bin < 4000 && process.env['LOOPYARD_LIST'] === '1') {
          const f = churchill(Re, 'roughness_mm' in spec ? spec.roughness_mm / spec.bore_mm : 0);
          say(
            `    ${network.name} ${id}: Re ${Re.toFixed(0)}, f ${f.toFixed(5)}, loss of EPANET ` +
              `over ours ${ratio.toFixed(4)}`,
          );
        }
      }
    }
    say(`  EPANET's loss over ours, by Re (LOOPYARD_LIST=1 lists each pipe of the bridge):`);
    for (const [bin, [count, least, most]] of [...bins].sort(([a], [b]) => a - b)) {
      const name = bin === 0 ? 'to 2000' : bin === 4000 ? 'above' : `${bin} to ${bin + 250}`;
      say(`    ${name}: ${count} pipes, ${least.toFixed(3)} to ${most.toFixed(3)}`);
    }
    say(
      `  above Re 4000 off by ${percent(worst)}; bound ${percent(bound)}: Churchill within ` +
        `${percent(ours)} of Colebrook, Swamee and Jain within ${percent(theirs)}`,
    );
    expect(worst, AGAIN).toBeLessThan(bound);
  });

  it('change the flow of a whole network by no more than they differ at any link', () => {
    // Every network is a two-pole: if each link loses from (1 - e) to 1 of what ours would, the
    // pole flow lies between ours and ours/(1 - e), since no loss grows slower than its flow.
    let worst = 0;
    let outside = 0;
    for (const { network, told } of answered()) {
      const ratios = [...told.plain.ratio.values()].map(([, ratio]) => ratio);
      const flow = told.plain.flow.get(network.trunk)! / told.matched.flow.get(network.trunk)!;
      const at = `${network.name}, ${AGAIN}`;
      expect(flow, at).toBeGreaterThan(0.999 / Math.max(1, ...ratios));
      expect(flow, at).toBeLessThan(1.001 / Math.min(1, ...ratios));
      const inBridge = [...told.plain.ratio.values()].some(([Re]) => Re > 2000 && Re < 4000);
      if (inBridge) worst = Math.max(worst, Math.abs(flow - 1));
      else outside = Math.max(outside, Math.abs(flow - 1));
    }
    say(
      `  unmatched, whole networks: flow off by ${percent(worst)} at most where pipes lie in the ` +
        `bridge, ${percent(outside)} where none does`,
    );
  });
});
