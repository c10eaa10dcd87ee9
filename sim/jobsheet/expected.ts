// What a line of the job sheet should say: by geometry, fluid and pump curve, and by the numbers
// that stand on the lines before it, the trainee's own where they are of the right size. By how
// much an answer may be off is told by judge.ts.
import { assert } from '../base/assert.ts';
import type { Scenario, SheetKind, SheetLine } from '../scenario.ts';
import { ofAntifreeze, ofDrop, ofMakeUp, ofVolume } from './amounts.ts';
import type { Answers, Expected } from './ask.ts';
import { ofBanks, ofFlow, ofHead, ofTotal } from './flows.ts';
import { ofLeave, ofTest } from './pressures.ts';
import type { Rig } from './rig.ts';

export type { Answers, Expected, Given } from './ask.ts';

/** What a line rests on, by kind. */
export const RESTS_ON: Readonly<Record<SheetKind, readonly SheetKind[]>> = {
  flow: [],
  total: ['flow'],
  head: ['total'],
  banks: ['total', 'head', 'flow'],
  volume: [],
  make_up: ['volume'],
  antifreeze: ['volume'],
  drop: ['volume'],
  test: [],
  leave: [],
};

export function expectedOf(rig: Rig, scenario: Scenario, line: SheetLine, own: Answers): Expected {
  const { job } = scenario;
  assert(job !== undefined, 'a scenario without a job');
  const ask = { rig, job, scenario, own };
  switch (line.kind) {
    case 'flow':
      return ofFlow(ask, line);
    case 'total':
      return ofTotal(ask);
    case 'head':
      return ofHead(ask);
    case 'banks':
      return ofBanks(ask);
    case 'volume':
      return ofVolume(ask);
    case 'make_up':
      return ofMakeUp(ask, line);
    case 'antifreeze':
      return ofAntifreeze(ask, line);
    case 'drop':
      return ofDrop(ask, line);
    case 'test':
      return ofTest(ask);
    case 'leave':
      return ofLeave(ask, line);
  }
}
