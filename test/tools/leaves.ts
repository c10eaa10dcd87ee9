// Generic ways to break any JSON file that a strict schema checks: by leaf, whatever it means.
import type { Chance } from './chance.ts';
import { copyOf, plant, valueAt } from './planting.ts';

export interface Leaf {
  /** With dots, for `plant`. */
  readonly path: string;
  readonly value: unknown;
}

/** Every number, text and truth value of `json`. */
export function leavesOf(json: unknown, path = ''): Leaf[] {
  if (typeof json !== 'object' || json === null) return [{ path, value: json }];
  return Object.entries(json).flatMap(([key, value]) =>
    leavesOf(value, path === '' ? key : `${path}.${key}`),
  );
}

export interface Break {
  readonly path: string;
  readonly value: unknown;
  /** The path that must be named, with dots. */
  readonly named: string;
}

/** One sure fault at or beside a leaf: another type, far too much, or a key nobody knows. */
export function breakLeaf(random: Chance, leaf: Leaf): Break {
  const { path, value } = leaf;
  const parent = path.includes('.') ? path.slice(0, path.lastIndexOf('.')) : '';
  const inList = /\.\d+$/.test(path);
  switch (random.below(4)) {
    case 0:
      return { path, value: typeof value === 'number' ? 'many' : 12.5, named: path };
    case 1:
      return { path, value: typeof value === 'number' ? 1e12 : { deep: [] }, named: path };
    case 2: {
      if (inList) return { path, value: null, named: path };
      const key = parent === '' ? 'surprise' : `${parent}.surprise`;
      return { path: key, value: random.unit(), named: key };
    }
    default:
      return { path, value: null, named: path };
  }
}

/** Where a fault counts as being: an entry of a top list, or a member of a top object. */
export function placeOf(path: string): string {
  return path.split('.').slice(0, 2).join('.');
}

/** A copy of `json` with all of these put in, and the values that were there before. */
export function broken<T>(json: T, breaks: readonly Break[]): T {
  const copy = copyOf(json);
  for (const { path, value } of breaks) plant(copy, path, value);
  return copy;
}

/** A small honest change of a number that leaves the shape as it was. */
export function nudged(random: Chance, json: unknown, path: string): Break {
  const before = valueAt(json, path) as number;
  const whole = Number.isInteger(before);
  const step = whole ? random.below(3) - 1 : before * 0.02 * (random.unit() - 0.5);
  return { path, value: before + step, named: path };
}
