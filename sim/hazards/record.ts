// Notes of what no instrument showed: what is held against what is sim/notes.ts's.
import { lastOff } from '../notes.ts';
import type { Hazard, Judged, Watch } from './kind.ts';

/**
 * How far a note is off over what it may be, one division and the line's tolerance: beyond it no
 * instrument showed that in the last minute.
 */
export const falseRecord: Hazard = {
  kind: 'false_record',
  limits: { warn: 0.8, trip: 1 },
  places: (plan) => plan.scenario.record.map(({ id }, index) => ({ at: id, index })),
  measure: ({ state }: Judged, { index }: Watch) => lastOff(state, index),
};
