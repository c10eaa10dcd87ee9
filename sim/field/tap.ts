// A cock where the make-up hose leaves the supply, and a drain beside it: what can be shut off and
// emptied before it freezes. The hose lies level from there, so that it runs out by itself.
import { addFitting, addValve, linkOf } from './parts.ts';
import type { Draft } from './parts.ts';

/** m above the ground: where the hose lies, and the end of its drain. */
const HOSE_M = 0.05;
const END_M = 0;
/** mm [invented]. */
const DRAIN = 19;

export function addTap(draft: Draft): void {
  const hose = linkOf(draft, 'make_up_hose');
  if (hose.kind !== 'hose') return;
  addFitting(draft, { id: 'tap_out', elevation_m: HOSE_M, gas: 'water' });
  hose.from = 'tap_out';
  hose.profile = (hose.profile ?? []).filter((point) => point.at_m > 2);
  const { bore_mm } = hose;
  addValve(draft, { id: 'tap_valve', from: 'mains', to: 'tap_out', bore_mm });
  draft.nodes.push({ id: 'hose_drain_end', kind: 'open', elevation_m: END_M, goes_to: 'waste' });
  addValve(draft, { id: 'hose_drain', from: 'tap_out', to: 'hose_drain_end', bore_mm: DRAIN });
}
