// How a law is offered on the command line: arguments by name with their units, what it gives,
// where it comes from. The tables beside this file hold one entry for each law of sim/laws.
import type { Range } from './ranges.ts';

/**
 * A number by its unit ('1' where it has none), or something else with what it may be. A number's
 * range is that of its name in ranges.ts, unless one is given here.
 */
export type ArgSpec =
  | string
  | { readonly unit: string; readonly unless_given?: number; readonly range?: Range }
  | { readonly one_of: readonly string[] }
  | PairsSpec;

export interface PairsSpec {
  /** Units of the two numbers of a pair. */
  readonly pairs_of: readonly [string, string];
  readonly least: number;
  /** First numbers always rise, from 0 or more; here also whether the second ones do. */
  readonly both_rise: boolean;
}

type ValueOf<S extends ArgSpec> = S extends { readonly one_of: readonly (infer T)[] }
  ? T
  : S extends { readonly pairs_of: unknown }
    ? readonly (readonly [number, number])[]
    : number;

type Values<A> = { readonly [K in keyof A]: A[K] extends ArgSpec ? ValueOf<A[K]> : never };

/** A number, or several by name. */
export type Result = number | Readonly<Record<string, number>>;

export interface LawEntry {
  readonly args: Readonly<Record<string, ArgSpec>>;
  /** Unit of the result, or of each part of it. */
  readonly result: string | Readonly<Record<string, string>>;
  readonly source: string;
  readonly call: (values: Readonly<Record<string, unknown>>) => Result;
}

/** Checks at compile time that a law is called with what its arguments promise. */
export function law<const A extends Readonly<Record<string, ArgSpec>>>(
  args: A,
  result: LawEntry['result'],
  source: string,
  call: (values: Values<A>) => Result,
): LawEntry {
  // The command line checks every row against `args` before it calls.
  return { args, result, source, call: (values) => call(values as Values<A>) };
}

/** What a law that fills a list gives, by the names and units of its numbers. */
export function filled(
  units: Readonly<Record<string, string>>,
  fill: (out: Float64Array) => void,
): Readonly<Record<string, number>> {
  const names = Object.keys(units);
  const out = new Float64Array(names.length);
  fill(out);
  return Object.fromEntries(names.map((name, k) => [name, out[k]!]));
}
