// The state is one buffer: a copy of its bytes is the whole state.
import { expect, it } from 'vitest';
import { makeState, stateBytes, type Sizes } from '../../../sim/state.ts';

const sizes: Sizes = {
  volumes: 7, points: 3, links: 4, columns: 5, faces: 9,
  instruments: 2, tees: 1, tanks: 1, devices: 2, notes: 1, pumps: 1, watches: 3, ledgers: 4,
  heated: true, creep: 6,
};

it('a copy of the bytes carries every view, and no view overlaps another', () => {
  const state = makeState(sizes);
  const views = Object.entries(state).filter(([name]) => name !== 'buffer');
  let bytes = 0;
  views.forEach(([, view], k) => {
    (view as Float64Array).fill(k + 1);
    bytes += (view as Float64Array).byteLength;
  });
  expect(bytes).toBe(stateBytes(sizes));
  const copy = makeState(sizes, state.buffer.slice(0));
  views.forEach(([name], k) => {
    const view = copy[name as 'gas'];
    expect(view.every((x) => x === k + 1), name).toBe(true);
  });
});

it('bytes of another size are refused', () => {
  expect(() => makeState(sizes, new ArrayBuffer(8))).toThrow(/8 bytes/);
});
