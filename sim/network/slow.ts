// Gas in a night's long steps: it rises no faster than part of a cell in a step. What had to rise
// has done so before such steps begin, and what comes later has the night.
import { max, min } from '../base/math.ts';
import type { GasSection } from '../laws/gas.ts';
import type { LinkPlan } from './plan.ts';

/** Share of a cell that gas may rise in one step; of a fitting, of its column's length. */
const RISES_MOST = 0.25;

function slowed(section: GasSection, most: number): GasSection {
  const share = min(1, most / max(section.spread, max(section.Up, section.U_b)));
  if (!(share < 1)) return section;
  const { Up, U_b, bubble, spread } = section;
  const slow = { Up: share * Up, U_b: share * U_b, bubble: share * bubble };
  return { ...section, ...slow, spread: share * spread };
}

/** Sections of cells, and links with theirs, for steps of so many seconds; neighbours share. */
export function slowedSections<S extends GasSection | null>(
  sections: readonly S[],
  cellLength: Float64Array,
  tick: number,
): (S | GasSection)[] {
  const made = new Map<GasSection, GasSection>();
  return sections.map((section, v) => {
    if (section === null) return section;
    const found = made.get(section) ?? slowed(section, (RISES_MOST * cellLength[v]!) / tick);
    made.set(section, found);
    return found;
  });
}

/** m. A fitting's gas rises within about this. */
const FITTING = 0.25;

export function slowedLinks(links: readonly LinkPlan[], tick: number): LinkPlan[] {
  return links.map((link) => ({
    ...link,
    section: slowed(link.section, (RISES_MOST * FITTING) / tick),
  }));
}
