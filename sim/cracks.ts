// Housings that frost has cracked leak once their ice lets go; the slits are network/cracks.ts's,
// whether a housing has cracked the hazards' (hazards/parts.ts).
import { STAGE, type Watch } from './hazards/kind.ts';
import { SLURRY } from './laws/heat.ts';
import { crackId, type Crack } from './network/cracks.ts';
import { FULL_DEG } from './network/passage.ts';
import type { Plan } from './network/plan.ts';
import { WATCH_STRIDE } from './state.ts';
import type { World } from './world-parts.ts';

export function findCracks(plan: Plan, watches: readonly Watch[]): Crack[] {
  return watches.flatMap(({ hazard, at }, watch) => {
    const link = hazard === 'cracked' ? plan.linkIx.get(crackId(at)) : undefined;
    return link === undefined ? [] : [{ watch, link, node: plan.links[link]!.from }];
  });
}

/** Every tick, once openings are set. */
export function openCracks({ state, scratch, cracks }: World): void {
  for (let k = 0; k < cracks.length; k++) {
    const { watch, link, node } = cracks[k]!;
    const cracked = state.watch[watch * WATCH_STRIDE + STAGE] === 2;
    const leaks = cracked && state.ice[node]! < SLURRY.thickens;
    state.control[link] = leaks ? 1 : 0;
    scratch.open[link] = leaks ? FULL_DEG : 0;
  }
}
