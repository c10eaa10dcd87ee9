// The clock's turns: by frames as a rule, some ten a second where few pictures are asked for.
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { pictureEvery_s, wallOf } from '../../../game/wall.ts';

const asked = (search: string) => new URLSearchParams(search);

describe('few pictures', () => {
  it('are asked for by a number a second', () => {
    expect(pictureEvery_s(asked('?pictures=2'))).toBe(0.5);
    for (const search of ['', '?pictures=0', '?pictures=-1', '?pictures=all', '?pictures=1e9']) {
      expect(pictureEvery_s(asked(search)), search).toBeNull();
    }
  });
});

describe('the wall', () => {
  let frames: (() => void)[] = [];
  const paint = (): void => {
    const due = frames;
    frames = [];
    for (const frame of due) frame();
  };

  beforeEach(() => {
    vi.useFakeTimers();
    vi.stubGlobal('requestAnimationFrame', (frame: () => void) => frames.push(frame));
    vi.stubGlobal('cancelAnimationFrame', (id: number) => {
      frames[id - 1] = () => {};
    });
  });
  afterEach(() => {
    vi.useRealTimers();
    vi.unstubAllGlobals();
    frames = [];
  });

  it.each([
    ['', 50],
    ['?pictures=1', 10],
  ])('turns with "%s" %i times a second', (search, times) => {
    const wall = wallOf(asked(search));
    let turns = 0;
    const turn = (): void => {
      turns += 1;
      wall.request(turn);
    };
    wall.request(turn);
    for (let k = 0; k < 50; k++) {
      vi.advanceTimersByTime(20);
      paint();
    }
    expect(turns).toBe(times);
  });

  it('stands still where no frames come, as on a page that nobody sees', () => {
    const turn = vi.fn();
    wallOf(asked('?pictures=1')).request(turn);
    vi.advanceTimersByTime(60_000);
    expect(turn).not.toHaveBeenCalled();
  });

  it.each(['', '?pictures=1'])('is let go with "%s", before its frame and with it', (search) => {
    const wall = wallOf(asked(search));
    const turn = vi.fn();
    wall.cancel(wall.request(turn));
    vi.advanceTimersByTime(200);
    paint();
    const late = wall.request(turn);
    vi.advanceTimersByTime(200);
    wall.cancel(late);
    paint();
    expect(turn).not.toHaveBeenCalled();
  });
});
