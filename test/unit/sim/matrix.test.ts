// The sparse solver against dense elimination written here by itself (independent method).
import { describe, expect, it } from 'vitest';
import { makeFactor, solve } from '../../../sim/network/matrix.ts';

/** Small seeded generator; the seed is printed with each failure. */
function generator(seed: number): () => number {
  let s = seed >>> 0;
  return () => {
    s = (Math.imul(s, 1664525) + 1013904223) >>> 0;
    return s / 4294967296;
  };
}

function dense(matrix: number[][], rhs: number[]): number[] {
  const n = rhs.length;
  const a = matrix.map((row, i) => [...row, rhs[i]!]);
  for (let k = 0; k < n; k++) {
    let p = k;
    for (let i = k; i < n; i++) if (Math.abs(a[i]![k]!) > Math.abs(a[p]![k]!)) p = i;
    [a[k], a[p]] = [a[p]!, a[k]!];
    for (let i = k + 1; i < n; i++) {
      const f = a[i]![k]! / a[k]![k]!;
      for (let j = k; j <= n; j++) a[i]![j] = a[i]![j]! - f * a[k]![j]!;
    }
  }
  const x = new Array<number>(n).fill(0);
  for (let k = n - 1; k >= 0; k--) {
    let sum = a[k]![n]!;
    for (let j = k + 1; j < n; j++) sum -= a[k]![j]! * x[j]!;
    x[k] = sum / a[k]![k]!;
  }
  return x;
}

describe('the pressure solver', () => {
  for (const seed of [1, 2, 3, 4, 5, 6, 7, 8]) {
    it(`agrees with dense elimination on a random network, twice in a row (seed ${seed})`, () => {
      const chance = generator(seed);
      const n = 2 + Math.floor(chance() * 40);
      const edges: [number, number][] = [];
      for (let i = 1; i < n; i++) edges.push([i, Math.floor(chance() * i)]);
      for (let k = 0; k < n / 2; k++) {
        const a = Math.floor(chance() * n);
        const b = Math.floor(chance() * n);
        if (a !== b) edges.push([a, b]); // Parallel pipes may repeat an edge.
      }
      const factor = makeFactor(n, edges);
      for (let round = 0; round < 2; round++) {
        factor.off.fill(0);
        factor.diagonal.fill(0);
        const matrix = Array.from({ length: n }, () => new Array<number>(n).fill(0));
        for (let i = 0; i < n; i++) {
          const storage = 1e-3 + chance();
          factor.diagonal[i] = storage;
          matrix[i]![i] = storage;
        }
        edges.forEach(([a, b], k) => {
          const g = chance() * 10;
          factor.diagonal[a]! += g;
          factor.diagonal[b]! += g;
          factor.off[factor.edgeSlot[k]!]! -= g;
          matrix[a]![a]! += g;
          matrix[b]![b]! += g;
          matrix[a]![b]! -= g;
          matrix[b]![a]! -= g;
        });
        const rhs = Array.from({ length: n }, () => chance() * 2 - 1);
        const want = dense(matrix, rhs);
        const got = Float64Array.from(rhs);
        solve(factor, got);
        const scale = Math.max(...want.map(Math.abs));
        want.forEach((w, i) => expect(Math.abs(got[i]! - w) / scale).toBeLessThan(1e-9));
      }
    });
  }
});
