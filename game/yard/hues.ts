// Which way each pipe's water goes: out with the supply, back with the return, or from the tap.
import type { Field, TreeNode } from './circuits.ts';
import { endsOf, nodeOf, type Site } from './graph.ts';
import { nodeOrders } from './order.ts';
import type { Side } from './types.ts';
import type { Zones } from './zones.ts';

function markTree(node: TreeNode | null, side: Side, out: Map<string, Side>): void {
  for (const { branch } of node?.things ?? []) {
    if (branch === null) continue;
    for (const { link } of branch.links) out.set(link.id, side);
    markTree(branch.to, side, out);
  }
}

export function sidesOf(site: Site, zones: Zones, fields: readonly Field[]): Map<string, Side> {
  const out = new Map<string, Side>();
  for (const field of fields) {
    markTree(field.supply, 'supply', out);
    markTree(field.back, 'return', out);
  }
  const placeOf = (end: string): string | undefined => zones.patchOf.get(nodeOf(end))?.place;
  /** A tap, on the wall or with its parts beside the cart. */
  const isTap = (end: string): boolean => {
    const kinds = [...(zones.patchOf.get(nodeOf(end))?.nodes ?? [])].map(
      (n) => site.nodes.get(n)!.kind,
    );
    return kinds.includes('reservoir') && !kinds.includes('tank');
  };
  for (const hose of zones.hoses) {
    const tap = [hose.from, hose.to].some(isTap);
    const back = placeOf(hose.to) === 'cart' && placeOf(hose.from) !== 'cart';
    out.set(hose.id, tap ? 'make_up' : back ? 'return' : 'supply');
  }
  for (const patch of zones.patches) {
    if (patch.place !== 'cart') continue;
    const orders = nodeOrders(site, zones, patch).node;
    for (const link of patch.links) {
      const known = endsOf(link).flatMap((e) => orders.get(nodeOf(e)) ?? []);
      if (known.length > 0 && Math.max(...known) < 0) out.set(link.id, 'return');
    }
  }
  return out;
}
