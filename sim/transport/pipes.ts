// Once pressures are known, contents move: pipe by pipe, so that what is known of one is still at
// hand when the next thing of it is asked for; then across the ends, which know of each other.
import type { Net } from '../network/net.ts';
import { settleWarmth, warmRoom } from '../network/warmth.ts';
import { spreadAlong, spreadToNodes } from '../network/weigh.ts';
import { moveClear } from './clear.ts';
import { carryEnds } from './carry.ts';
import type { Flow } from './flow.ts';
import { endFluxes, fluxOf, spreadFlux } from './flux.ts';
import { limitFittings } from './limit.ts';
import { splitLink } from './split.ts';
import { offerBoundaries } from './tank.ts';

/** Contents follow this tick's flow; gas crosses faces at its new pressure. */
export function moveContents(world: Flow & Net): void {
  const { plan, state, fluxes } = world;
  const { links, heats } = plan;
  fluxAhead(world);
  spreadToNodes(world);
  if (heats) settleWarmth(world);
  offerBoundaries(plan, state, fluxes);
  for (let l = 0; l < links.length; l++) {
    const link = links[l]!;
    if (isClear(world, l)) {
      moveClear(world, link);
      continue;
    }
    if (heats) {
      spreadAlong(world, link); // All its flux has come already.
      warmRoom(world, link.firstCell, link.firstCell + link.cells);
    } else if (link.cells > 0) spreadFlux(world, link);
    else fluxOf(world, link);
    splitLink(world, l);
  }
  limitFittings(world);
  carryEnds(world);
}

/**
 * Flux that must be known before any pipe moves: what boundaries offer goes by what is drawn from
 * them. All of it where gas heats, since it goes by the warmth of the tick before.
 */
function fluxAhead(flow: Flow): void {
  const { links, columns, ends, heats } = flow.plan;
  if (heats) for (let l = 0; l < links.length; l++) fluxOf(flow, links[l]!);
  for (let e = 0; !heats && e < ends.length; e++) {
    const l = columns[ends[e]!.column]!.link;
    if (links[l]!.cells > 0) endFluxes(flow, links[l]!);
    else fluxOf(flow, links[l]!);
  }
}

/** True of a pipe of more than one cell without gas; where gas heats, all are done as with gas. */
function isClear({ plan, scratch }: Flow, l: number): boolean {
  return scratch.gassy[l] === 0 && plan.links[l]!.cells > 1 && !plan.heats;
}
