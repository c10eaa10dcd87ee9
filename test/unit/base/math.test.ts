// The engine's mathematics against the platform's (independent method) and exact identities.
import { describe, expect, it } from 'vitest';
import * as own from '../../../sim/base/math.ts';

const EPS = 2.220446049250313e-16;

function generator(seed: number): () => number {
  let s = seed >>> 0;
  return () => {
    s = (Math.imul(s, 1664525) + 1013904223) >>> 0;
    return s / 4294967296;
  };
}

/** Largest relative difference in units of the last place over 20 000 arguments. */
function worst(f: (x: number) => number, g: (x: number) => number, draw: () => number): number {
  let most = 0;
  for (let i = 0; i < 20000; i++) {
    const x = draw();
    const want = g(x);
    const off = Math.abs(f(x) - want) / (Math.max(Math.abs(want), 1e-300) * EPS);
    if (off > most) most = off;
  }
  return most;
}

describe('mathematics from exactly rounded operations', () => {
  const chance = generator(20260101);
  it('exp agrees within 2 last places from -700 to 700', () => {
    expect(worst(own.exp, Math.exp, () => chance() * 1400 - 700)).toBeLessThan(2);
  });
  it('log agrees within 2 last places over 400 decades', () => {
    expect(worst(own.log, Math.log, () => Math.exp(chance() * 1000 - 500))).toBeLessThan(2);
  });
  it('tanh agrees within 6 last places', () => {
    expect(worst(own.tanh, Math.tanh, () => chance() * 10 - 5)).toBeLessThan(6);
  });
  it('pow agrees within 20 last places for results up to ten thousand million', () => {
    const pair = () => [Math.exp(chance() * 20 - 10), chance() * 2 - 1] as const;
    let most = 0;
    for (let i = 0; i < 20000; i++) {
      const [x, y] = pair();
      const want = Math.pow(x, y);
      most = Math.max(most, Math.abs(own.pow(x, y) - want) / (want * EPS));
    }
    expect(most).toBeLessThan(20);
  });
  it('sin, cos and acos agree within 1e-15', () => {
    for (let i = 0; i < 20000; i++) {
      const x = chance() * 20 - 10;
      const c = chance() * 2 - 1;
      expect(Math.abs(own.sin(x) - Math.sin(x))).toBeLessThan(1e-15);
      expect(Math.abs(own.cos(x) - Math.cos(x))).toBeLessThan(1e-15);
      expect(Math.abs(own.acos(c) - Math.acos(c))).toBeLessThan(2e-15);
    }
  });
  it('keeps its manners at the ends: zero, infinity, overflow, the smallest numbers', () => {
    expect(own.exp(-Infinity)).toBe(0);
    expect(own.exp(Infinity)).toBe(Infinity);
    expect(own.exp(-745)).toBe(5e-324);
    expect(own.exp(0)).toBe(1);
    expect(own.log(0)).toBe(-Infinity);
    expect(own.log(1)).toBe(0);
    expect(own.log(-1)).toBeNaN();
    expect(own.log(5e-324)).toBeCloseTo(-744.4400719213812, 10);
    expect(own.pow(0, 2)).toBe(0);
    expect(own.pow(2, 10)).toBe(1024);
    expect(own.pow(2, -1)).toBe(0.5);
    expect(own.acos(-1)).toBe(Math.PI);
    expect(own.tanh(0)).toBe(0);
    expect(own.tanh(1000)).toBe(1);
  });
});
