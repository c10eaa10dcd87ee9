// Chance for tests: seeded, so that a failure can be had again by the seed it prints.
import { nextUnit, seedStream } from '../../sim/base/rng.ts';

export interface Chance {
  readonly seed: number;
  /** In [0, 1). */
  unit(): number;
  /** A whole number in [0, below). */
  below(count: number): number;
  pick<T>(list: readonly T[]): T;
}

export function chance(seed: number): Chance {
  const state = new Uint32Array(4);
  seedStream(state, 0, seed, 0);
  const unit = (): number => nextUnit(state, 0);
  const below = (count: number): number => Math.floor(unit() * count);
  return {
    seed,
    unit,
    below,
    pick: (list) => {
      const one = list[below(list.length)];
      if (one === undefined) throw new Error('nothing to pick from');
      return one;
    },
  };
}

/** The list in an order of chance. */
export function mixed<T>({ below }: Chance, list: readonly T[]): T[] {
  const left = [...list];
  return list.map(() => left.splice(below(left.length), 1)[0]!);
}

/** The seed of this run: LOOPYARD_SEED, or the same as ever. Say it when something fails. */
export function seedOfRun(): number {
  return Number(process.env['LOOPYARD_SEED'] ?? 20260401);
}

/** A seed of this moment where every run is to try others: LOOPYARD_SEED brings one back. */
export function freshSeed(): number {
  return Number(process.env['LOOPYARD_SEED'] ?? Date.now() % 1_000_000);
}
