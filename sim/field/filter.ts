// The rig's filter, each rig's in its own place: the deck's before the loop, the barrow's on the
// way back, the mast's where it always is. Bags go into a housing that hands open.
import { addFitting, addValve, heightOf, linkOf } from './parts.ts';
import type { Draft } from './parts.ts';
import { gauge, SMALL_RIG_RATING } from './rig-parts.ts';
import type { FilterSite } from './kit-site.ts';
import type { RigKind } from './site.ts';

/** Velocity heads of a housing with a clean bag, in 38 mm [common practice, no source]. */
const CLEAN_K = 10;
const BORE = 38;

/** Filter, bags, lid, by-pass and a gauge before it. With debris only bags can be worn. */
export function addFilter(draft: Draft, filter: FilterSite, kind: RigKind, debris: boolean): void {
  const [before, after] = kind === 'mast' ? ['riser_top', 'filter_out'] : placed(draft, kind);
  if (filter.by_pass === true) {
    const bore_mm = kind === 'mast' ? 50 : BORE;
    addValve(draft, { id: 'by_pass_valve', from: before, to: after, bore_mm });
  }
  const first = filter.bags[0];
  if (!debris || first === undefined) return;
  draft.elements.push(...filter.bags.map((bag) => ({ ...bag })));
  draft.catchers.push({ link: 'filter', element: first.id });
  const elements = filter.bags.map(({ id }) => id);
  draft.devices.push({ id: 'filter_lid', kind: 'housing', of: 'filter', elements });
}

/** Puts a filter between the last part before a fitting and that fitting. */
function placed(draft: Draft, kind: RigKind): readonly [string, string] {
  const after = kind === 'deck' ? 'discharge' : 'return_tee';
  const changed = draft.links.some(({ id }) => id === 'back_pipe');
  const last = kind === 'deck' ? 'discharge_valve' : changed ? 'back_pipe' : 'return_hose';
  addFitting(draft, {
    ...{ id: 'filter_in', elevation_m: heightOf(draft, after), gas: 'air', volume_L: 3 },
    rating_kPa: SMALL_RIG_RATING,
  });
  linkOf(draft, last).to = 'filter_in';
  const ends = { from: 'filter_in', to: after } as const;
  draft.links.push({ id: 'filter', kind: 'filter', ...ends, bore_mm: BORE, loss_k: CLEAN_K });
  draft.instruments.push(gauge('filter_gauge', 'filter_in', 400));
  return ['filter_in', after];
}
