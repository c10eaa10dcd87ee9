// What handbooks print, tables.json, for the calculations of this folder. Nothing here is of sim/.
import TABLES from './tables.json' with { type: 'json' };

export interface Table {
  readonly source: string;
  /** Table, page, equation or example, unit, and whether it was seen. */
  readonly where: string;
  readonly values: Readonly<Record<string, number | readonly number[]>>;
}

export const PRINTED = TABLES as unknown as Readonly<Record<string, Table | undefined>>;

/** One entry of a table. @throws where it is not printed. */
export function printed(table: string, at: string): readonly number[] {
  const value = PRINTED[table]?.values[at];
  if (value === undefined) throw new Error(`${table} prints nothing for ${at}`);
  return [value].flat();
}

/** Every entry of a table. */
export const rows = (table: string): readonly (readonly [at: string, readonly number[]])[] =>
  Object.keys(PRINTED[table]?.values ?? {}).map((at) => [at, printed(table, at)] as const);
