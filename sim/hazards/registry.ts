// Every kind of hazard, one entry each. A new one stands in a file of its own and gets its line
// here; the order is that of their facts within a tick.
import { openedUnderPressure, testAir, unpinned } from './coupling.ts';
import { fouled } from './debris.ts';
import { hammer } from './hammer.ts';
import type { Hazard } from './kind.ts';
import { cracked, overflow, overPressure } from './parts.ts';
import { entry, hot, lockedOff } from './people.ts';
import { groundFault, overload, restart } from './power.ts';
import { deadhead, dryRun, starved } from './pump.ts';
import { falseRecord } from './record.ts';
import { toGround, wasteToGround } from './spill.ts';
import { noBackflow } from './supply.ts';
import { neatAlcohol, vapour, vapourByFlame } from './vapour.ts';
import { noEyes, noGloves } from './worn.ts';

export const REGISTRY: readonly Hazard[] = [
  dryRun,
  starved,
  deadhead,
  overflow,
  overPressure,
  cracked,
  fouled,
  hammer,
  overload,
  groundFault,
  restart,
  openedUnderPressure,
  testAir,
  unpinned,
  noBackflow,
  noEyes,
  noGloves,
  toGround,
  wasteToGround,
  hot,
  entry,
  lockedOff,
  falseRecord,
  vapour,
  vapourByFlame,
  neatAlcohol,
];
