// Water hammer: told where a valve shuts faster than the wave comes back, held against ratings, by
// the share of Michaud where it shuts more slowly; nothing of it where nobody asks, and copies go
// on as the original does.
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { createWorld, parseScenario, step, truth, type World } from '../../../sim/index.ts';
import { surgePeak } from '../../../sim/surge.ts';
import { ATM, link, node, run } from '../../support/worlds.ts';
import { held, joint, off, pipe, scenario } from '../../support/fields.ts';
import { during, of, turn } from '../../support/hands.ts';
import { goneOn, playedTwice } from '../../support/twins.ts';
import { slam, slamRig } from '../../truth/ask/surge.ts';
import type { Slam } from '../../truth/origin/surge.ts';

const level = JSON.parse(readFileSync('levels/01-heron-lane/scenario.json', 'utf8')) as object;
const PIPE = { bore_mm: 27.305, wall_mm: 3.048, length_m: 150, modulus_MPa: 1000 };
const FAST: Slam = { ...PIPE, head_kPa: 27.7, loss_k_open: 0.1, shut_s: 0.3 };
const settled = (i: Slam, rating_kPa: number, more = {}) =>
  run(createWorld(slamRig(i, rating_kPa, more), 1), 25);
const stages = (world: World) => slam(world).map(({ stage }) => stage);

describe('a slammed valve', () => {
  it('is warned of from four fifths of the rating, and trips at it', () => {
    // The jump is 195 kPa: 28.3 psi by Joukowsky.
    expect(stages(settled(FAST, 190))).toEqual(['warning', 'tripped', 'ended']);
    expect(stages(settled(FAST, 200))).toEqual(['warning', 'ended']);
    expect(stages(settled(FAST, 240))).toEqual(['warning', 'ended']);
    expect(stages(settled(FAST, 250))).toEqual([]);
  });

  it('held against what is rated, in Pa, at the valve', () => {
    const [warning] = slam(settled(FAST, 200));
    expect(warning).toMatchObject({ at: 'valve', limit: 160000 });
  });

  it('shut slowly is told of less, or nothing', () => {
    expect(stages(settled({ ...FAST, shut_s: 5 }, 190))).toEqual([]);
    expect(stages(settled({ ...FAST, shut_s: 5 }, 160))).toEqual(['warning', 'ended']);
  });

  it('that shuts evenly over a time gives the share of Michaud', () => {
    const world = settled(FAST, 200);
    const surge = world.plan.surges.find(({ out }) => out === 1)!;
    const { first, ticks, period } = surge;
    const V = link(world, 'main').flow;
    const jump = (seconds: number): number => {
      // The last of an even fall to nothing: so many ticks back it still flowed, and stood open.
      for (let back = 0; back < ticks; back++) {
        const at = first + 2 * ((world.state.counter[0]! + ticks - back) % ticks);
        world.state.surge[at] = V * Math.min(1, (back * world.dt) / seconds);
        world.state.surge[at + 1] = Math.min(90, (90 * back * world.dt) / seconds);
      }
      world.scratch.open[surge.link] = 0;
      world.state.flow[world.plan.links[surge.link]!.firstColumn] = 0;
      return surgePeak(world, surge) - (node(world, 'end') - ATM);
    };
    const whole = jump(period / 2);
    // By hand: rho a V, a thick cylinder of 1 GPa, 2 L/a of 0.94 s.
    expect(off(whole, (998.2 * 320 * V * 4) / (Math.PI * 0.027305 ** 2))).toBeLessThan(0.002);
    expect(off(period, 300 / 320)).toBeLessThan(0.002);
    expect(off(jump(period), whole)).toBeLessThan(0.03); // Its start lies between two ticks.
    for (const times of [2, 5]) expect(off(jump(times * period), whole / times)).toBeLessThan(1e-6);
  });

  it('jumps less where there are bubbles in the pipe', () => {
    const peak = (gas: object[]) => {
      const world = run(createWorld(slamRig(FAST, 20, { pipe: { gas } }), 1), 8);
      return Math.max(0, ...slam(world).map(({ value }) => value));
    };
    expect(peak([{ from_m: 130, to_m: 131 }])).toBeLessThan(0.9 * peak([]));
  });

  it('knocks on its other side where the water runs the other way', () => {
    const { surges } = settled(FAST, 200).plan;
    expect(surges.map(({ out }) => out)).toEqual([1]); // Beyond it is a reservoir.
    const back = scenario(
      [held('low', 0), { ...joint('end'), rating_kPa: 190 }, held('head', 27.7)],
      [
        {
          id: 'valve',
          kind: 'valve',
          from: 'low',
          to: 'end',
          bore_mm: 27.305,
          start_deg: 90,
          rate_deg_s: 300,
        },
        {
          ...pipe('main', ['end', 'head'], 27.305, 150),
          wall_mm: 3.048,
          modulus_MPa: 1000,
          roughness_mm: 0,
        },
      ],
      { surges: true, hands: { reach_s: 0 } },
    );
    expect(stages(run(createWorld(back, 1), 40))).toEqual(['warning', 'tripped', 'ended']);
  });

  it('is one that shuts: water that stops by itself, or a valve that opens, is none', () => {
    const world = settled(FAST, 1);
    step(world, [{ kind: 'valve', valve: 'valve', target_deg: 0 }]);
    run(world, 60);
    expect(of(during(world, 30, [turn('valve', 90)]), 'hammer')).toEqual([]);
  });

  it('parts the flow of pipes side by side: the jump is what both together take', () => {
    const two = (pipes: number) => {
      const mains = Array.from({ length: pipes }, (_, k) => ({
        ...pipe(`main_${k}`, ['head', 'end'], 27.305, 150),
        ...{ wall_mm: 3.048, modulus_MPa: 1000, roughness_mm: 0 },
      }));
      const valve = {
        id: 'valve',
        kind: 'valve',
        from: 'end',
        to: 'away',
        bore_mm: 50,
        loss_k_open: 0.1,
      };
      const rig = scenario(
        [held('head', 27.7), { ...joint('end'), rating_kPa: 20 }, held('away', 0)],
        [...mains, { ...valve, start_deg: 90, rate_deg_s: 300 }],
        { surges: true, hands: { reach_s: 0 } },
      );
      return Math.max(...slam(run(createWorld(rig, 1), 40)).map(({ value }) => value));
    };
    expect(off(two(2), two(1))).toBeLessThan(0.01);
  });
});

describe('a run with surges', () => {
  it('leaves everything else as it is, and keeps nothing where nobody asks', () => {
    const { surges: _off, ...plain } = slamRig(FAST, 200);
    const [with_, without] = [slamRig(FAST, 200), plain].map((one) => run(createWorld(one, 1), 20));
    expect(without!.state.surge).toHaveLength(0);
    expect(without!.plan.surges).toEqual([]);
    expect(with_!.state.surge.length).toBeGreaterThan(10);
    expect([...with_!.state.flow]).toEqual([...without!.state.flow]);
    expect([...with_!.state.point]).toEqual([...without!.state.point]);
  });

  it('keeps its books under random hands; copies and a replay agree', () => {
    const rig = parseScenario({ ...level, surges: true });
    expect(createWorld(rig, 5).plan.surges.length).toBeGreaterThan(4);
    playedTwice(rig, 5, 1500, (world, tick) => {
      if (tick !== 1499) return;
      expect(Math.abs(truth(world).liquid.error)).toBeLessThan(1e-9);
      expect(Math.abs(truth(world).gas.error)).toBeLessThan(1e-9);
    });
    goneOn(rig, [5, 5], [1500, 300]);
  });
});
