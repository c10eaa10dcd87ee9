// How flow divides between parallel circuits on common headers, through createWorld and step. In
// laminar flow a pipe's loss goes with its flow, so the whole field is a network of resistors and
// can be worked out exactly without the engine.
import { describe, expect, it } from 'vitest';
import { createWorld } from '../../sim/index.ts';
import { held, joint, off, pipe, scenario } from '../support/fields.ts';
import { link, run } from '../support/worlds.ts';

describe('parallel circuits in laminar flow', () => {
  /** Flow of each of n circuits between two headers of n - 1 sections, total 1: nodal analysis. */
  function ladder(n: number, header: number, reverse: boolean): number[] {
    const size = 2 * n; // Supply nodes, then return nodes; conductance 1 for a circuit.
    const a = Array.from({ length: size }, () => new Array<number>(size + 1).fill(0));
    const join = (i: number, k: number, g: number) => {
      for (const [p, q] of [
        [i, k],
        [k, i],
      ] as const) {
        a[p]![p]! += g;
        a[p]![q]! -= g;
      }
    };
    for (let k = 0; k < n; k++) {
      join(k, n + k, 1);
      if (k > 0) join(k - 1, k, 1 / header);
      if (k > 0) join(n + k - 1, n + k, 1 / header);
    }
    a[0]![size]! = 1;
    const out = reverse ? size - 1 : n;
    a[out] = a[out]!.map((_, k) => (k === out ? 1 : 0)); // Held at nothing.
    for (let i = 0; i < size; i++) {
      for (let r = 0; r < size; r++) {
        const share = r === i ? 0 : a[r]![i]! / a[i]![i]!;
        if (share !== 0) a[r] = a[r]!.map((x, k) => x - share * a[i]![k]!);
      }
    }
    const p = a.map((row, i) => row[size]! / row[i]!);
    return Array.from({ length: n }, (_, k) => p[k]! - p[n + k]!);
  }

  /** The same by the engine: five circuits of 60 m, header sections a tenth of their loss. */
  function flows(reverse: boolean): number[] {
    const n = 5;
    const at = Array.from({ length: n }, (_, k) => k);
    const ends = at.flatMap((k) => [joint(`s${k}`), joint(`r${k}`)]);
    const sections = at
      .slice(1)
      .flatMap((k) => [
        pipe(`hs${k}`, [`s${k - 1}`, `s${k}`], 20, 6),
        pipe(`hr${k}`, [`r${k - 1}`, `r${k}`], 20, 6),
      ]);
    const feed = { id: 'feed', kind: 'fixed_flow', from: 'main', to: 's0', bore_mm: 20 };
    const out = pipe('out', [reverse ? `r${n - 1}` : 'r0', 'sink'], 20, 2);
    const circuits = at.map((k) => pipe(`c${k}`, [`s${k}`, `r${k}`], 20, 60));
    const links = [{ ...feed, flow_L_s: 0.025 }, ...circuits, ...sections, out];
    const world = createWorld(scenario([held('main', 100), held('sink', 50), ...ends], links), 1);
    run(world, 900);
    return at.map((k) => link(world, `c${k}`).flow / 25e-6);
  }

  it.each([false, true])('independent method [nodal analysis]: reverse return %s', (reverse) => {
    const [want, got] = [ladder(5, 0.1, reverse), flows(reverse)];
    got.forEach((q, k) => expect(off(q, want[k]!), `${got} for ${want}`).toBeLessThan(0.003));
    if (reverse) expect(off(got[0]!, got[4]!)).toBeLessThan(1e-5);
    else for (let k = 1; k < 5; k++) expect(got[k]).toBeLessThan(got[k - 1]!);
  });
});
