// Ends of links at boundaries, found once: each tick asks only these what they draw and offer.
import type { EndPlan, LinkPlan, NodePlan } from './plan.ts';

/** Ends of links at nodes whose pressure is given. */
export function planEnds(nodes: readonly NodePlan[], links: readonly LinkPlan[]): EndPlan[] {
  return links.flatMap((link) => {
    const { bore, area } = link;
    const last = link.firstFace + link.cells;
    const ends: EndPlan[] = [
      {
        node: link.from,
        column: link.firstColumn,
        face: link.firstFace,
        slot: 2 * link.firstFace,
        z: link.zFrom,
        bore,
        area,
        out: 1,
      },
      {
        node: link.to,
        column: link.firstColumn + link.columns - 1,
        face: last,
        slot: 2 * last + 1,
        z: link.zTo,
        bore,
        area,
        out: -1,
      },
    ];
    return ends.filter((end) => nodes[end.node]!.fixed);
  });
}
