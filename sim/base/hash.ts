// Hashes that say whether two states or two files are equal. They sign nothing.
import { imul } from './math.ts';
import { assert } from './assert.ts';

function finish(h: number, length: number): number {
  let x = h ^ length;
  x = imul(x ^ (x >>> 16), 0x85ebca6b);
  x = imul(x ^ (x >>> 13), 0xc2b2ae35);
  return (x ^ (x >>> 16)) >>> 0;
}

const hex = (x: number): string => x.toString(16).padStart(8, '0');

/** 16 hex digits over all bytes and their positions (two lanes of the murmur3 mixing step). */
export function hashBytes(bytes: Uint8Array): string {
  const words = bytes.byteLength >> 2;
  const aligned = (bytes.byteOffset & 3) === 0 ? bytes : bytes.slice();
  const view = new Uint32Array(aligned.buffer, aligned.byteOffset, words);
  let a = 0x3c6ef372;
  let b = 0x510e527f;
  for (let i = 0; i < words; i++) {
    const w = view[i]!;
    let k = imul(w, 0xcc9e2d51);
    k = (k << 15) | (k >>> 17);
    a ^= imul(k, 0x1b873593);
    a = (imul((a << 13) | (a >>> 19), 5) + 0xe6546b64) | 0;
    let m = imul(w ^ a, 0x239b961b);
    m = (m << 16) | (m >>> 16);
    b ^= imul(m, 0xab0e9789);
    b = (imul((b << 17) | (b >>> 15), 5) + 0x561ccd1b) | 0;
  }
  for (let i = words << 2; i < bytes.byteLength; i++) {
    a = imul(a ^ aligned[i]!, 0x01000193);
    b = imul(b ^ a, 0x85ebca6b);
  }
  return hex(finish(a, bytes.byteLength)) + hex(finish(b ^ imul(a, 0x9e3779b1), bytes.byteLength));
}

/** Hash of a text's UTF-16 code units. */
export function hashText(text: string): string {
  const units = new Uint16Array(text.length);
  for (let i = 0; i < text.length; i++) units[i] = text.charCodeAt(i);
  return hashBytes(new Uint8Array(units.buffer));
}

/** JSON with sorted keys. @throws AssertionError on undefined, functions and non-finite numbers. */
export function canonicalJson(value: unknown): string {
  if (value === null || typeof value === 'boolean' || typeof value === 'string')
    return JSON.stringify(value);
  if (typeof value === 'number') {
    assert(value - value === 0, 'canonical JSON holds finite numbers only');
    return JSON.stringify(value);
  }
  if (Array.isArray(value)) return `[${value.map(canonicalJson).join(',')}]`;
  assert(typeof value === 'object', `canonical JSON cannot hold a ${typeof value}`);
  const entries = Object.entries(value as Record<string, unknown>).filter(
    ([, v]) => v !== undefined,
  );
  entries.sort(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0));
  return `{${entries.map(([k, v]) => `${JSON.stringify(k)}:${canonicalJson(v)}`).join(',')}}`;
}
