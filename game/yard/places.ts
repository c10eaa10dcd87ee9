// The places of a drawing by name, from above: where the board, the cart, what stands beside it,
// the plant room, the ends of the loop, the field and the key of letters begin. By these a drawing
// that is taller than a window is gone through.
import type { Sheet } from './sheet.ts';
import type { Box, PlaceMark } from './types.ts';
import { mainTank, type Patch, type Zones } from './zones.ts';

/** Room over a part for its handle, its dial and its name, in drawing units. */
const HEAD = 70;
/** Fewer parts than these on a bench are no place of their own. */
const FEW = 3;

interface Known {
  readonly zones: Zones;
  readonly board: Box | null;
  readonly key: Box | null;
  readonly cut: number;
}

/** Ids of parts, tanks and instruments of a patch. */
function idsOf({ site }: Sheet, patch: Patch): Set<string> {
  const ids = new Set([...patch.links.map(({ id }) => id), ...patch.nodes]);
  for (const one of site.scenario.instruments) {
    const at = 'node' in one ? one.node : 'link' in one ? one.link : undefined;
    if (at !== undefined && ids.has(at)) ids.add(one.id);
  }
  return ids;
}

function nameOf({ site }: Sheet, patch: Patch): PlaceMark['name'] | null {
  if (patch.place === 'house') return 'unit';
  if (patch.place === 'stub') return 'ends';
  if (patch.place === 'tap') return null;
  const tanks = [...patch.nodes].filter((id) => site.nodes.get(id)?.kind === 'tank');
  if (tanks.length === 0) return null;
  return tanks.includes(mainTank(site) ?? '') ? 'cart' : 'store';
}

/** Upper edge of what is placed of a patch; then, of a cart, of its parts on a bench below. */
function topsOf(sheet: Sheet, patch: Patch, benches: readonly number[]): number[] {
  const ids = idsOf(sheet, patch);
  const ys = sheet.placed.filter(({ id }) => ids.has(id)).map(({ y }) => y);
  const lines = [sheet.plan.line, ...benches];
  const rows = lines.map((line, k) => {
    const from = k === 0 ? -Infinity : lines[k - 1]!;
    const last = k === lines.length - 1;
    return ys.filter((y) => y >= from && (last || y < line));
  });
  const low = rows.slice(1).find((list) => list.length >= FEW) ?? [];
  const all = patch.place === 'cart' ? [ys, low] : [ys];
  return all.flatMap((list) => (list.length === 0 ? [] : [Math.min(...list)]));
}

export function placesOf(sheet: Sheet, { zones, board, key, cut }: Known): readonly PlaceMark[] {
  const found = new Map<PlaceMark['name'], number>();
  const add = (name: PlaceMark['name'], y: number): void => {
    found.set(name, Math.min(found.get(name) ?? Infinity, Math.max(0, y)));
  };
  if (board !== null) add('board', board.y - HEAD);
  for (const patch of zones.patches) {
    const name = nameOf(sheet, patch);
    if (name === null) continue;
    const [first, second] = topsOf(sheet, patch, sheet.benches);
    if (first !== undefined) add(name, first - HEAD);
    const apart = name === 'cart' && sheet.plan.shape === 'tall';
    if (apart && second !== undefined) add('cart_low', second - HEAD);
  }
  // A drum with a pump of its own belongs to the cart's pipes and stands beside it all the same.
  const main = mainTank(sheet.site);
  for (const tank of sheet.tanks) if (tank.id !== main) add('store', tank.y - HEAD);
  if (zones.fieldLinks.size > 0) add('field', cut - HEAD / 2);
  if (key !== null && key.y > cut) add('key', key.y - HEAD / 2);
  return [...found].map(([name, y]) => ({ name, y })).sort((a, b) => a.y - b.y);
}
