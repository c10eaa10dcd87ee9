// What a verb of the command line answers.
export interface Answer {
  readonly code: 0 | 1;
  readonly json: unknown;
}

/** To ten digits: what is behind them is rounding of the machine, and it makes files long. */
export function digits(x: number): number {
  return Number(x.toPrecision(10));
}
