// Chance: small fast counter generator (sfc32 form, three words of state and a counter), kept in
// the caller's words so that a copy of the state copies the future. Streams never mix.
import { imul } from './math.ts';

/** Fills four words at `at` for this seed and stream number, and lets them mix. */
export function seedStream(state: Uint32Array, at: number, seed: number, stream: number): void {
  state[at] = seed >>> 0;
  state[at + 1] = (imul(stream + 1, 0x9e3779b1) ^ (seed / 4294967296)) >>> 0;
  state[at + 2] = 0x243f6a88;
  state[at + 3] = 1;
  for (let k = 0; k < 16; k++) nextU32(state, at);
}

/** Next 32 random bits. */
export function nextU32(state: Uint32Array, at: number): number {
  const a = state[at]!;
  const b = state[at + 1]!;
  const c = state[at + 2]!;
  const count = state[at + 3]!;
  const t = (((a + b) >>> 0) + count) >>> 0;
  state[at + 3] = count + 1;
  state[at] = b ^ (b >>> 9);
  state[at + 1] = c + (c << 3);
  state[at + 2] = (((c << 21) | (c >>> 11)) >>> 0) + t;
  return t;
}

/** Uniform in [0, 1), 32 bits. */
export function nextUnit(state: Uint32Array, at: number): number {
  return nextU32(state, at) / 4294967296;
}
