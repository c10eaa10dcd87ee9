// The clock, against a wall that is moved by hand.
import { describe, expect, it } from 'vitest';
import { Loop, type LoopHooks, type Speed, type Wall } from '../../../game/loop.ts';

const TICK_S = 0.05;

/** A wall whose time passes only when told, with frames of a given length. */
function bench(tickCost_ms = 0, more: () => boolean = () => true) {
  let now = 1000;
  let waiting: (() => void) | null = null;
  const wall: Wall = {
    now: () => now,
    request: (frame) => { waiting = frame; return 1; },
    cancel: () => { waiting = null; },
  };
  const counts = { ticks: 0, frames: 0, reached: [] as (number | null)[] };
  const hooks: LoopHooks = {
    tick: () => { counts.ticks += 1; now += tickCost_ms; return more(); },
    frame: () => { counts.frames += 1; },
    reached: (speed) => { counts.reached.push(speed); },
  };
  const loop = new Loop(TICK_S, hooks, wall);
  const pass = (seconds: number, frame_s = 1 / 60) => {
    const until = now + seconds * 1000;
    while (now < until - 1e-6) {
      now += frame_s * 1000;
      waiting?.();
    }
  };
  return { loop, counts, pass };
}

describe('the clock', () => {
  it.each([[0.25, 5], [1, 20], [5, 100], [20, 400], [60, 1200]] as const)(
    'runs %f times real time',
    (speed: Speed, ticks) => {
      const { loop, counts, pass } = bench();
      loop.start();
      loop.setSpeed(speed);
      pass(1);
      expect(Math.abs(counts.ticks - ticks)).toBeLessThanOrEqual(Math.max(1, ticks * 0.03));
      expect(counts.reached).toEqual([]);
    },
  );

  it('stands when frozen, while frames go on', () => {
    const { loop, counts, pass } = bench();
    loop.start();
    pass(1);
    expect(counts.ticks).toBe(0);
    expect(counts.frames).toBeGreaterThan(50);
  });

  it('does not catch up what passed while it was stopped', () => {
    const { loop, counts, pass } = bench();
    loop.start();
    loop.setSpeed(1);
    pass(1);
    loop.stop();
    pass(100);
    const before = counts.ticks;
    loop.start();
    pass(1);
    expect(counts.ticks - before).toBeLessThanOrEqual(21);
  });

  it('does not leap after a frame that took seconds', () => {
    const { loop, counts, pass } = bench();
    loop.start();
    loop.setSpeed(20);
    pass(5, 5);
    expect(counts.ticks).toBeLessThanOrEqual(100);
  });

  it('keeps to its budget and says the speed it reaches, then takes it back', () => {
    const { loop, counts, pass } = bench(2);
    loop.start();
    loop.setSpeed(60);
    pass(6);
    const reached = counts.reached.at(-1);
    expect(reached).not.toBeNull();
    expect(reached).toBeGreaterThan(5);
    expect(reached).toBeLessThan(54);
    loop.setSpeed(1);
    expect(counts.reached.at(-1)).toBeNull();
  });

  it('does no more ticks in a frame once a tick says that all is over', () => {
    let left = 3;
    const { loop, counts, pass } = bench(0, () => (left -= 1) > 0);
    loop.start();
    loop.setSpeed(60);
    pass(1 / 60);
    expect(counts.ticks).toBe(3);
  });
});
