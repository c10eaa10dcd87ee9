// What the schema cannot see: names that lead nowhere, pipes too short for their profile,
// scales that go the wrong way. Works on raw JSON of any shape, so that one reading of a
// file tells of every fault in it.
import { checkDebris } from './check/debris.ts';
import { checkDefects } from './check/defects.ts';
import { checkGeometry } from './check/geometry.ts';
import { checkGoals } from './check/goals.ts';
import { checkJob } from './check/job.ts';
import { checkDevices } from './check/devices.ts';
import { checkPower } from './check/power.ts';
import { checkRanges } from './check/ranges.ts';
import { checkRecord } from './check/record.ts';
import { checkSheet } from './check/sheet.ts';
import { checkMixing } from './check/mixing.ts';
import { draftOf } from './check/raw.ts';
import { checkReferences } from './check/references.ts';
import type { Fault } from './fault.ts';

/** Every fault between the parts of `json` as a scenario; never throws. */
export function crossFaults(json: unknown): Fault[] {
  const draft = draftOf(json);
  if (draft === null) return [];
  checkReferences(draft);
  checkDevices(draft);
  checkPower(draft);
  checkRecord(draft);
  checkMixing(draft);
  checkGeometry(draft);
  checkJob(draft);
  checkGoals(draft);
  checkSheet(draft);
  checkDebris(draft);
  checkDefects(draft);
  checkRanges(draft);
  return draft.faults;
}
