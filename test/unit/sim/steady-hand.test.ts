// The steady solver on more cases that can be worked out by hand: lifts, unlike pipes side by
// side, and parts whose way through hands can change. Independent method: the sums stand here.
import { describe, expect, it } from 'vitest';
import { steadyState } from '../../../sim/steady.ts';
import { basin, close, G, joint, link, node, pipe, pump, scenario, valve } from './steady-rigs.ts';

/** kg/m3 and Pa s of water at 20 C [Kell1975, Kestin1978]. */
const RHO = 998.2;
const MU = 1.002e-3;
const area = (bore_m: number): number => (Math.PI * bore_m * bore_m) / 4;

describe('a pump against a lift', () => {
  /** The pump of the rigs, 20 - 5 q^2 m at q L/s, through a valve up to `lift` m. */
  const lifted = (lift: number, start_on = true) =>
    steadyState(
      scenario(
        [basin('sump', 0), joint('n'), basin('top', 0, lift)],
        [pump('pump', 'sump', 'n', start_on), valve('v', 'n', 'top', { loss_k_open: 50 })],
      ),
    );

  it.each([0, 5, 12, 18])('of %d m meets it where the sum of heads is nothing', (lift) => {
    // 20 - 5 q^2 = lift + 50 V^2/(2 g), V = q/A.
    const perSquare = 5 + (50 * (1e-3 / area(0.025)) ** 2) / (2 * G);
    const q = Math.sqrt((20 - lift) / perSquare);
    const steady = lifted(lift);
    close(1000 * link(steady, 'pump').flow, q, 3e-4);
    close(node(steady, 'n').pressure!, RHO * G * (20 - 5 * q * q), 3e-4);
  });

  it('that is more than its head is driven back through it', () => {
    expect(link(lifted(22), 'pump').flow).toBeLessThan(-1e-5);
  });

  it('lets water back while it stands', () => {
    // Passive loss H0 (Q/Qmax)^2: 20 (q/2)^2 m, as the curve's ends have it.
    const perSquare = 20 / 4 + (50 * (1e-3 / area(0.025)) ** 2) / (2 * G);
    const q = Math.sqrt(12 / perSquare);
    close(1000 * link(lifted(12, false), 'pump').flow, -q, 1e-3);
  });
});

describe('laminar pipes side by side', () => {
  /** Pa per m3/s of a pipe, [Hagen and Poiseuille]: 128 mu L/(pi D^4). */
  const resistance = (bore_mm: number, length_m: number): number =>
    (128 * MU * length_m) / (Math.PI * (bore_mm / 1000) ** 4);

  it('share the flow as D^4/L', () => {
    const steady = steadyState(
      scenario(
        [basin('a', 100.02), joint('s'), joint('t'), basin('b', 100)],
        [
          pipe('in', 'a', 's', { length_m: 4 }),
          pipe('near', 's', 't', { bore_mm: 12, length_m: 5 }),
          pipe('far', 's', 't', { bore_mm: 16, length_m: 25 }),
          pipe('out', 't', 'b', { length_m: 6 }),
        ],
      ),
    );
    const near = link(steady, 'near').flow;
    const far = link(steady, 'far').flow;
    close(near / far, (12 / 16) ** 4 * (25 / 5), 1e-6);
    const both = 1 / (1 / resistance(12, 5) + 1 / resistance(16, 25));
    const all = 20 / (resistance(20, 10) + both);
    close(near + far, all, 1e-3); // Viscosity by the law is 0.02 % off MU.
    close(node(steady, 's').pressure! - node(steady, 't').pressure!, all * both, 1e-3);
    const Re = (RHO * link(steady, 'in').velocity * 0.02) / MU;
    expect(Re).toBeLessThan(500); // Where the law is straight, or the sums above do not hold.
  });
});

describe('a check valve', () => {
  const line = (high: number, low: number) =>
    steadyState(
      scenario(
        [basin('a', high), basin('b', low)],
        [{ id: 'check', kind: 'check_valve', from: 'a', to: 'b', bore_mm: 20, loss_k: 2.5 }],
      ),
    );

  it('passes forward by its K and nothing back', () => {
    close(link(line(110, 100), 'check').velocity, Math.sqrt((2 * 10000) / (2.5 * RHO)), 1e-4);
    expect(link(line(100, 110), 'check')).toMatchObject({ flow: 0, shut: true });
  });
});

describe('a three-way valve', () => {
  const built = scenario(
    [basin('a', 120), basin('b', 100), basin('c', 110)],
    [
      {
        ...{ id: 'ball', kind: 'three_way', bore_mm: 25, start_deg: 0 },
        ...{ from: 'a', to: 'b', branch: 'c', loss_k_open: 2 },
      },
    ],
  );
  const flows = (deg: number): number[] =>
    steadyState(built, new Map([['ball', deg]])).links.map((one) => one.flow / area(0.025));
  // Legs as told: from, branch, to; towards the ball where they come from `from`.
  const [, ...legs] = steadyState(built).links.map(({ id }) => id);

  it('joins two ends, its K standing for the whole way through it', () => {
    expect(legs).toEqual(['ball.branch', 'ball.to']);
    const through = (dp_kPa: number): number => Math.sqrt((2 * dp_kPa * 1000) / (2 * RHO));
    const ended = (found: number[], wanted: number[]) =>
      found.forEach((V, k) => expect(V).toBeCloseTo(wanted[k]!, 3));
    ended(flows(180), [through(20), 0, through(20)]);
    ended(flows(270), [through(10), through(10), 0]);
    ended(flows(90), [0, -through(10), through(10)]);
  });

  it('joins all three at 0, what comes in being what goes out', () => {
    const [from, branch, to] = flows(0) as [number, number, number];
    close(from, branch + to, 1e-9);
    // The ball's middle stands where 20, 10 and 0 kPa feed it by their roots: at 10, by symmetry.
    expect(branch).toBeCloseTo(0, 6);
    close(from, Math.sqrt((2 * 10000) / RHO), 1e-4); // Half of the way, half of the K.
  });
});

describe('a coupling', () => {
  /** From a basin of 20 kPa through two valves, the coupling between them, to one of 10 kPa. */
  const parted = (start: 'made' | 'apart', more: object = {}) =>
    steadyState(
      scenario(
        [basin('a', 20), joint('m'), joint('n'), basin('b', 10)],
        [
          valve('v', 'a', 'm', { loss_k_open: 3 }),
          { id: 'c', kind: 'coupling', from: 'm', to: 'n', bore_mm: 25, loss_k: 1, start, ...more },
          valve('w', 'n', 'b', { loss_k_open: 3 }),
        ],
      ),
    );
  const speed = (dp_kPa: number, K: number): number => Math.sqrt((2000 * dp_kPa) / (K * RHO));

  it('passes by its K while it is made', () => {
    const steady = parted('made');
    close(link(steady, 'c').velocity, speed(10, 7), 1e-4);
    close(link(steady, 'v').flow, link(steady, 'w').flow, 1e-9);
  });

  it('runs out on each side that stands open', () => {
    const steady = parted('apart');
    expect(link(steady, 'c')).toMatchObject({ flow: 0, shut: true });
    // Each side runs to the air through its valve and its own half, from both basins.
    const open = steady.links.filter(({ id }) => id.startsWith('c.'));
    expect(open).toHaveLength(2);
    // 3 of the valve and 1 of the open end, where the velocity head is lost.
    close(link(steady, 'v').velocity, speed(20, 3 + 1), 1e-4);
    close(link(steady, 'w').velocity, -speed(10, 3 + 1), 1e-4);
    const out = open.reduce((sum, one) => sum + Math.abs(one.flow), 0);
    close(out, link(steady, 'v').flow - link(steady, 'w').flow, 1e-9);
  });

  it('holds on a side that is capped', () => {
    const steady = parted('apart', { from_apart: 'capped' });
    expect(link(steady, 'v').flow).toBe(0);
    close(node(steady, 'm').pressure!, 20000, 1e-9);
    expect(link(steady, 'w').flow).toBeLessThan(-1e-4);
  });
});
