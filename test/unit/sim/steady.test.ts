// The steady solver on cases that can be worked out by hand, and what it says of odd ones.
import { describe, expect, it } from 'vitest';
import { InputFaults } from '../../../sim/index.ts';
import { steadyState } from '../../../sim/steady.ts';
import { basin, close, G, joint, link, node, pipe, pump, scenario, valve } from './steady-rigs.ts';

describe('a liquid-full loop that stands still', () => {
  it('passes through one laminar pipe what Hagen and Poiseuille say', () => {
    const steady = steadyState(
      scenario([basin('a', 100.005), basin('b', 100)], [pipe('p', 'a', 'b')]),
    );
    // pi D^4 dp/(128 mu L) with mu = 1.002e-3 Pa s at 20 C [Kestin1978].
    const Q = (Math.PI * 0.02 ** 4 * 5) / (128 * 1.002e-3 * 10);
    close(link(steady, 'p').flow, Q, 3e-4);
    close(link(steady, 'p').velocity, Q / (Math.PI * 1e-4), 3e-4);
    close(link(steady, 'p').loss, 5, 1e-6);
  });

  it('meets a pump where its curve crosses the loss of a valve', () => {
    const steady = steadyState(
      scenario(
        [basin('a', 0), joint('n'), basin('b', 0)],
        [pump('pump', 'a', 'n'), valve('v', 'n', 'b', { loss_k_open: 50 })],
      ),
    );
    // 20 - 5 q^2 = 50 V^2/(2 g), with V = q/A and q in L/s.
    const A = (Math.PI * 0.025 * 0.025) / 4;
    const q = Math.sqrt(20 / (5 + (50 * (1e-3 / A) ** 2) / (2 * G)));
    close(1000 * link(steady, 'pump').flow, q, 1e-4);
    close(link(steady, 'pump').rise, node(steady, 'n').pressure!, 1e-9);
    close(node(steady, 'n').pressure!, 998.2 * G * (20 - 5 * q * q), 2e-4);
  });

  it('splits laminar flow over parallel pipes as the fourth power of their bores', () => {
    const steady = steadyState(
      scenario(
        [basin('a', 100), joint('s'), joint('t'), basin('b', 100.004)],
        [
          pipe('in', 'a', 's'),
          pipe('wide', 's', 't'),
          pipe('narrow', 's', 't', { bore_mm: 10 }),
          pipe('out', 't', 'b'),
        ],
      ),
    );
    const wide = link(steady, 'wide').flow;
    const narrow = link(steady, 'narrow').flow;
    expect(wide).toBeLessThan(0);
    close(wide / narrow, 16, 1e-6);
    close(wide + narrow, link(steady, 'in').flow, 1e-9);
  });

  it('splits flow over two valves as one over the root of K', () => {
    const steady = steadyState(
      scenario(
        [basin('a', 100), basin('b', 50)],
        [valve('four', 'a', 'b', { loss_k_open: 4 }), valve('one', 'a', 'b', { loss_k_open: 1 })],
      ),
    );
    close(link(steady, 'one').flow / link(steady, 'four').flow, 2, 1e-4);
    const A = (Math.PI * 0.025 * 0.025) / 4;
    close(link(steady, 'one').flow, A * Math.sqrt((2 * 50000) / 998.2), 1e-4);
  });

  it('stands under the weight of the water where nothing flows', () => {
    const steady = steadyState(
      scenario(
        [basin('top', 0, 10), joint('deep', -20)],
        [pipe('leg', 'top', 'deep', { length_m: 40 })],
      ),
    );
    expect(link(steady, 'leg').flow).toBe(0);
    close(node(steady, 'deep').pressure!, 998.2 * G * 30, 1e-4);
  });

  it('takes the loss of a coil from its table, by the square beyond it', () => {
    const table = [
      { flow_L_s: 0.2, loss_kPa: 10 },
      { flow_L_s: 0.4, loss_kPa: 40 },
    ];
    const coil = { id: 'coil', kind: 'coil', from: 'a', to: 'b', bore_mm: 25, table };
    const steady = steadyState(scenario([basin('a', 160), basin('b', 0)], [coil]));
    close(link(steady, 'coil').flow, 0.8e-3, 1e-4);
  });
});

describe('parts that are shut', () => {
  const nodes = [basin('a', 120), joint('s'), joint('x'), joint('y'), basin('b', 100)];
  const links = [
    pipe('in', 'a', 's'),
    pipe('by', 's', 'b'),
    valve('v1', 's', 'x'),
    pipe('bank', 'x', 'y'),
    valve('v2', 'y', 'b'),
  ];

  it('have no flow, and no pressure that is known', () => {
    const steady = steadyState(
      scenario(nodes, links),
      new Map([
        ['v1', 0],
        ['v2', 7],
      ]),
    );
    expect(link(steady, 'bank')).toMatchObject({ flow: 0, loss: 0, shut: false });
    expect(link(steady, 'v1')).toMatchObject({ flow: 0, loss: 0, shut: true });
    expect(node(steady, 'x').pressure).toBeNull();
    expect(node(steady, 'y').pressure).toBeNull();
    close(link(steady, 'by').flow, link(steady, 'in').flow, 1e-9);
  });

  it('have the pressure of what they hang on where one end is open', () => {
    const steady = steadyState(scenario(nodes, links), new Map([['v1', 0]]));
    expect(link(steady, 'bank').flow).toBe(0);
    close(node(steady, 'x').pressure!, 100000, 1e-9);
  });

  it('take part once their valves are opened', () => {
    const steady = steadyState(scenario(nodes, links));
    const { flow } = link(steady, 'bank');
    expect(flow).toBeGreaterThan(1e-5);
    close(flow + link(steady, 'by').flow, link(steady, 'in').flow, 1e-9);
  });

  it('say how much goes round in a sealed loop, though not at what pressure', () => {
    const nodesOfLoop = [{ ...joint('m'), start_pressure_kPa: 200 }, joint('n')];
    const sealed = scenario(nodesOfLoop, [pump('pump', 'm', 'n'), pipe('ring', 'n', 'm')]);
    const steady = steadyState(sealed);
    expect(node(steady, 'm').pressure).toBeNull();
    expect(link(steady, 'ring').flow).toBeGreaterThan(1e-4);
    close(link(steady, 'pump').rise, link(steady, 'ring').loss, 1e-9);
    expect(link(steadyState(sealed, new Map([['pump', 0]])), 'ring').flow).toBe(0);
  });
});

describe('what cannot be', () => {
  it('is refused: a fixed flow without a way out', () => {
    const built = scenario(
      [basin('a', 0), joint('n')],
      [{ id: 'f', kind: 'fixed_flow', from: 'a', to: 'n', bore_mm: 20, flow_L_s: 0.1 }],
    );
    expect(() => steadyState(built)).toThrow('a fixed flow feeds "n", which has no way out');
    expect(link(steadyState(built, new Map([['f', 0]])), 'f').flow).toBe(0);
  });

  it('is refused with every fault: settings of what has none or not so far', () => {
    const built = scenario(
      [basin('a', 0), joint('n'), joint('m'), basin('b', 0)],
      [pipe('p', 'a', 'n'), valve('v', 'n', 'm'), pump('pump', 'm', 'b')],
    );
    const settings = new Map([
      ['p', 1],
      ['v', 91],
      ['pump', 0.5],
      ['nobody', 0],
      ['v2', NaN],
    ]);
    try {
      steadyState(built, settings);
      expect.unreachable();
    } catch (error) {
      expect(error).toBeInstanceOf(InputFaults);
      const { faults } = error as InputFaults;
      expect(faults.map(({ path }) => path)).toEqual(['p', 'v', 'pump', 'nobody', 'v2']);
    }
  });
});
