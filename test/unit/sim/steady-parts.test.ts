// The steady solver where parts answer to the flow: check valves, three-way valves, tees.
import { describe, expect, it } from 'vitest';
import { createWorld, parseScenario, step } from '../../../sim/index.ts';
import { steadyState } from '../../../sim/steady.ts';
import { basin, close, joint, link, node, pipe, pump, scenario, valve } from './steady-rigs.ts';

describe('parts that answer to the flow', () => {
  const check = (from: string, to: string) => ({
    ...{ id: 'check', kind: 'check_valve', from, to, bore_mm: 20 },
  });

  it('let a check valve pass forward and hold back', () => {
    const nodes = [basin('a', 120), joint('n'), basin('b', 100)];
    const forward = steadyState(scenario(nodes, [pipe('p', 'a', 'n'), check('n', 'b')]));
    expect(link(forward, 'check').flow).toBeGreaterThan(1e-4);
    const back = steadyState(scenario(nodes, [pipe('p', 'a', 'n'), check('b', 'n')]));
    expect(link(back, 'check')).toMatchObject({ flow: 0, shut: true });
    close(node(back, 'n').pressure!, 120000, 1e-9);
  });

  it('keep a pump that stands from being driven back by its neighbour', () => {
    const steady = steadyState(
      scenario(
        [basin('a', 0), joint('n'), joint('m'), basin('b', 0)],
        [
          pump('on', 'a', 'n'),
          pump('off', 'a', 'm', false),
          check('m', 'n'),
          valve('v', 'n', 'b', { loss_k_open: 50 }),
        ],
      ),
    );
    expect(link(steady, 'off').flow).toBe(0);
    close(link(steady, 'on').flow, link(steady, 'v').flow, 1e-9);
  });

  it('turn a three-way valve to the ends its handle joins', () => {
    const ball = { id: 'ball', kind: 'three_way', bore_mm: 25, start_deg: 0 };
    const built = scenario(
      [basin('a', 120), basin('b', 100), basin('c', 110)],
      [{ ...ball, from: 'a', to: 'b', branch: 'c' }],
    );
    const shut = (deg: number) =>
      steadyState(built, new Map([['ball', deg]])).links.map((one) => one.shut);
    expect(shut(0)).toEqual([false, false, false]);
    expect(shut(90)).toEqual([true, false, false]); // from, branch, to
    expect(shut(180)).toEqual([false, true, false]);
    expect(shut(270)).toEqual([false, false, true]);
  });

  it('say that an open end draws air, and where the water would boil', () => {
    const steady = steadyState(
      scenario(
        [
          { id: 'air', kind: 'open', elevation_m: 0, goes_to: 'waste' },
          joint('n'),
          basin('b', -50),
        ],
        [pipe('p', 'air', 'n'), pipe('q', 'n', 'b')],
      ),
    );
    expect(steady.notes).toEqual([{ kind: 'draws_air', at: 'air' }]);
    const high = steadyState(
      scenario([basin('a', 0), joint('n', 12)], [pipe('p', 'a', 'n', { length_m: 20 })]),
    );
    expect(high.notes).toEqual([{ kind: 'below_vapour', at: 'n' }]);
  });
});

describe('tees', () => {
  /** Two imposed flows join in a tee of one bore and leave through a pipe. */
  const joining = (tee_losses: boolean) =>
    scenario(
      [
        basin('s', 100),
        joint('r'),
        joint('b'),
        {
          ...joint('t'),
          tee: { run: ['run', 'out'], branch: 'side' },
        },
        basin('e', 50),
      ],
      [
        { id: 'fr', kind: 'fixed_flow', from: 's', to: 'r', bore_mm: 20, flow_L_s: 0.2 },
        { id: 'fb', kind: 'fixed_flow', from: 's', to: 'b', bore_mm: 20, flow_L_s: 0.2 },
        pipe('run', 'r', 't'),
        pipe('side', 'b', 't'),
        pipe('out', 't', 'e'),
      ],
      { tee_losses },
    );

  it('cost what the coefficients say, on the combined velocity', () => {
    const without = steadyState(joining(false));
    const steady = steadyState(joining(true));
    const V = 0.4e-3 / (Math.PI * 1e-4);
    const head = (998.2 * V * V) / 2;
    const cost = (id: string) => node(steady, id).pressure! - node(without, id).pressure!;
    // [CraneTP410], r = 1/2, one bore: run 1.55 r - r^2, branch 0.55 (1 + r^2 - 2 (1 - r)^2).
    close(cost('r'), 0.525 * head, 2e-3);
    close(cost('b'), 0.4125 * head, 2e-3);
    close(link(steady, 'side').loss - link(without, 'side').loss, cost('b'), 1e-5);
  });

  it('divide flow as a run from rest does', () => {
    const tee = (id: string, run: string[], branch: string) => ({
      ...joint(id),
      tee: { run, branch },
    });
    const built = scenario(
      [
        basin('a', 130),
        tee('t1', ['in', 'far'], 'near'),
        joint('u'),
        tee('t2', ['back', 'out'], 'near'),
        basin('e', 100),
      ],
      [
        pipe('in', 'a', 't1', { length_m: 2 }),
        pipe('far', 't1', 'u', { length_m: 2 }),
        pipe('back', 'u', 't2', { length_m: 2 }),
        pipe('near', 't1', 't2', { length_m: 2 }),
        pipe('out', 't2', 'e', { length_m: 2 }),
      ],
      { tee_losses: true },
    );
    const steady = steadyState(built);
    const plain = steadyState(parseScenario({ ...built, tee_losses: false }));
    const world = createWorld(built, 1);
    for (let k = 0; k < 60 / world.dt; k++) step(world, []);
    for (const { id, flow } of steady.links) {
      const ran = world.state.flow[world.plan.links[world.plan.linkIx.get(id)!]!.firstColumn]!;
      close(ran, flow, 1e-3);
    }
    // Tees must count here, or the comparison shows nothing.
    expect(link(steady, 'in').flow / link(plain, 'in').flow).toBeLessThan(0.97);
  });

  it.each([
    ['divides', 'a', 'b'],
    ['joins', 'b', 'a'],
  ])(
    'take all of a flow round the corner where the run beyond is shut and it %s',
    (_, from, to) => {
      const built = scenario(
        [
          basin('a', from === 'a' ? 130 : 100),
          { ...joint('t'), tee: { run: ['in', 'beyond'], branch: 'side' } },
          joint('u'),
          basin('b', to === 'b' ? 100 : 130),
        ],
        [
          pipe('in', 'a', 't', { length_m: 2 }),
          pipe('beyond', 't', 'u', { length_m: 5 }),
          pipe('side', 't', 'b', { length_m: 2 }),
          valve('end', 'u', 'b', { start_deg: 0 }),
        ],
        { tee_losses: true },
      );
      const steady = steadyState(built);
      const plain = steadyState(parseScenario({ ...built, tee_losses: false }));
      const through = link(steady, 'side').flow;
      expect(Math.abs(through / link(plain, 'side').flow)).toBeLessThan(0.97);
      expect(Math.abs(link(steady, 'beyond').flow)).toBeLessThan(1e-9);
      const world = createWorld(built, 1);
      for (let k = 0; k < 60 / world.dt; k++) step(world, []);
      close(
        world.state.flow[world.plan.links[world.plan.linkIx.get('side')!]!.firstColumn]!,
        through,
        1e-3,
      );
    },
  );
});
