// Every kind of hazard, one entry each. A new one stands in a file of its own and gets its line
// here; the order is that of their facts within a tick.
import type { Hazard } from './kind.ts';
import { cracked, overflow, overPressure } from './parts.ts';
import { deadhead, dryRun, starved } from './pump.ts';

export const REGISTRY: readonly Hazard[] = [
  dryRun,
  starved,
  deadhead,
  overflow,
  overPressure,
  cracked,
];
