// A short print of a text, to find equal ones among many files. It keeps no secret and proves
// nothing: who wants two texts with one print can make them.

const PRIME = 0x01000193;
/** FNV-1a, 32 bits, from memory of Fowler, Noll and Vo; `basis` other than theirs for a second. */
export function fnv1a(text: string, basis = 0x811c9dc5): number {
  let hash = basis;
  for (const byte of new TextEncoder().encode(text)) hash = Math.imul(hash ^ byte, PRIME) >>> 0;
  return hash;
}

/** 16 hexadecimal digits. */
export function digest(text: string): string {
  const half = (basis?: number) => fnv1a(text, basis).toString(16).padStart(8, '0');
  return `${half()}${half(0x9e3779b9)}`;
}
