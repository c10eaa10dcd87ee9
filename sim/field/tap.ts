// A drain beside the tap, so that the make-up hose can be emptied before it freezes: the yard falls
// towards it, and what stands in the hose runs out by itself once its far end lets air in.
import { addValve, linkOf } from './parts.ts';
import type { Draft } from './parts.ts';

/** m above the ground: where the hose begins, and the end of its drain. */
const HOSE_M = 0.05;
const END_M = 0;
/** m. So much higher it lies at the rig's foot [invented]. */
const FALL_M = 0.3;
/** mm [invented]. */
const DRAIN = 19;

/** Needs the tap that comes with the guard. */
export function addHoseDrain(draft: Draft): void {
  const tap = draft.nodes.find(({ id }) => id === 'tap_out');
  const hose = linkOf(draft, 'make_up_hose');
  if (tap?.kind !== 'junction' || hose.kind !== 'hose') {
    throw new Error('a drain for the hose needs the guard and its tap');
  }
  tap.elevation_m = HOSE_M;
  const foot = (hose.profile ?? []).filter((point) => point.at_m > 2);
  hose.profile = foot.map(({ at_m }) => ({ at_m, elevation_m: HOSE_M + FALL_M }));
  draft.nodes.push({ id: 'hose_drain_end', kind: 'open', elevation_m: END_M, goes_to: 'waste' });
  addValve(draft, { id: 'hose_drain', from: 'tap_out', to: 'hose_drain_end', bore_mm: DRAIN });
}
