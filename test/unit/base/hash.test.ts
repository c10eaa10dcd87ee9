// Hash, canonical text and chance: equal for equal, different for swapped, apart by stream.
import { expect, it } from 'vitest';
import { canonicalJson, hashBytes, hashText } from '../../../sim/base/hash.ts';
import { nextU32, nextUnit, seedStream } from '../../../sim/base/rng.ts';

it('swapping two numbers changes the hash', () => {
  const a = new Uint8Array(new Float64Array([1, 2, 3, 4]).buffer);
  const b = new Uint8Array(new Float64Array([1, 3, 2, 4]).buffer);
  expect(hashBytes(a)).toMatch(/^[0-9a-f]{16}$/);
  expect(hashBytes(a)).not.toBe(hashBytes(b));
});

it('every single bit of a block changes the hash, and no two flips agree', () => {
  const bytes = new Uint8Array(64);
  const seen = new Set([hashBytes(bytes)]);
  for (let bit = 0; bit < 512; bit++) {
    bytes[bit >> 3] = 1 << (bit & 7);
    seen.add(hashBytes(bytes));
    bytes[bit >> 3] = 0;
  }
  expect(seen.size).toBe(513);
});

it('the order of keys does not matter, the content does', () => {
  expect(canonicalJson({ b: 1, a: [1, { d: 2, c: 3 }] })).toBe('{"a":[1,{"c":3,"d":2}],"b":1}');
  expect(hashText('ab')).not.toBe(hashText('ba'));
  expect(() => canonicalJson({ a: Infinity })).toThrow(/finite/);
});

it('two streams of one seed share nothing, and a copied state copies the future', () => {
  const words = new Uint32Array(8);
  seedStream(words, 0, 7, 0);
  seedStream(words, 4, 7, 1);
  const copy = words.slice();
  const first = Array.from({ length: 1000 }, () => nextU32(words, 0));
  const second = new Set(Array.from({ length: 1000 }, () => nextU32(words, 4)));
  expect(first.filter((x) => second.has(x)).length).toBeLessThan(3);
  expect(Array.from({ length: 1000 }, () => nextU32(copy, 0))).toEqual(first);
});

it('the unit draw fills its interval evenly', () => {
  const words = new Uint32Array(4);
  seedStream(words, 0, 3, 0);
  const bins = new Array<number>(10).fill(0);
  for (let i = 0; i < 20000; i++) bins[Math.floor(nextUnit(words, 0) * 10)]!++;
  for (const n of bins) expect(Math.abs(n - 2000)).toBeLessThan(200);
});
