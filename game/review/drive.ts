// Drives a record's new run in pieces and tells what came of each.
import { Runner, type Asked, type Captured, type Rerun } from './rerun.ts';

export type Told =
  | { readonly kind: 'on'; readonly share: number; readonly captured: readonly Captured[] }
  | { readonly kind: 'end'; readonly rerun: Rerun };

/** ms between two tellings. */
const TELL_MS = 250;

/** Gives a function that runs on for so many ms at the most, and says whether more is to come. */
export function drive(asked: Asked, tell: (told: Told) => void): (ms: number) => boolean {
  const runner = new Runner(asked);
  return (ms) => {
    const until = performance.now() + Math.min(ms, TELL_MS);
    const captured: Captured[] = [];
    while (!runner.over && performance.now() < until) captured.push(...runner.step());
    tell({ kind: 'on', share: runner.share, captured });
    if (runner.over) tell({ kind: 'end', rerun: runner.result() });
    return !runner.over;
  };
}
