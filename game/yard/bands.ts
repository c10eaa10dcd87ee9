// Divides the page: the cart in a band of its own, the stubs and the house beside it or in a band
// below. Measures first what each part needs, then gives places.
import { isConduit, nodeOf, type Site } from './graph.ts';
import { leastWidth, pack, type Bench, type Field1 } from './pack.ts';
import { layPatches, readyPatch, type Ready } from './patch.ts';
import { cartY, planOf, stubY, type Look, type Needs, type Plan } from './plan.ts';
import type { Sheet } from './sheet.ts';
import { dialRise, outletShift, pinReach } from './stations.ts';
import type { Patch, Place, Zones } from './zones.ts';

export interface Bands {
  readonly plan: Plan;
  readonly cart: { readonly left: number; readonly right: number };
  readonly stub: { readonly left: number; readonly right: number };
  readonly houseX: number;
}

/** A tap alone is drawn on the house's wall. */
export const isPlainTap = (patch: Patch): boolean =>
  patch.place === 'tap' && patch.nodes.size === 1;

export const hasPlant = (zones: Zones): boolean => zones.patches.some((p) => p.place === 'house');

function topOf(site: Site, zones: Zones, places: readonly Place[]): number {
  let top = 0;
  for (const patch of zones.patches) {
    if (!places.includes(patch.place)) continue;
    for (const id of patch.nodes) {
      const node = site.nodes.get(id)!;
      top = Math.max(
        top,
        node.kind === 'tank' ? node.floor_m + node.height_mm / 1000 : node.elevation_m,
      );
    }
    for (const link of patch.links) {
      if (isConduit(link) && link.kind === 'pipe') top = Math.max(top, ...site.profile(link).z);
    }
  }
  return top;
}

const NO_LIFT = { cart: 0, front: 0, bench: 0 };

export function needsOf(
  site: Site,
  zones: Zones,
  stacked: boolean,
  lift: Needs['lift'] = NO_LIFT,
): Needs {
  return {
    cart_m: topOf(site, zones, ['cart']),
    front_m: topOf(site, zones, ['stub', 'house', 'tap']),
    hoses: zones.hoses.length,
    stacked,
    lift,
  };
}

/** Patches of some places, made ready; each keeps its own stretch of the order. */
export function readyOf(site: Site, plan: Plan, zones: Zones, places: readonly Place[]): Ready[] {
  const front = !places.includes('cart');
  const perMetre = front ? plan.stubPerMetre : plan.perMetre;
  const list = zones.patches.filter((p) => places.includes(p.place) && !isPlainTap(p));
  return list.map((patch, k) => {
    const shift = k * 1e5 + (patch.place === 'tap' ? 1e7 : 0);
    const ready = readyPatch(zones, patch, { site, plan, perMetre, shift });
    for (const s of ready.stations)
      if (s.kind === 'hose' && front) s.toTop = comesFromAbove(plan, zones, s.link!);
    return ready;
  });
}

function comesFromAbove(plan: Plan, zones: Zones, link: { from: string; to: string }): boolean {
  const cart = [link.from, link.to].some((e) => zones.patchOf.get(nodeOf(e))?.place === 'cart');
  const house = [link.from, link.to].some((e) => zones.patchOf.get(nodeOf(e))?.place === 'house');
  return plan.stacked && cart && !house;
}

export function fieldOf(
  plan: Plan,
  place: 'cart' | 'front',
  across: { left: number; right: number },
  list: readonly Ready[],
): Field1 {
  const cart = place === 'cart';
  const edges = list.flatMap((r) => r.kit.edges);
  const linked = (a: string, b: string): boolean =>
    edges.some((e) => (e.a === a && e.b === b) || (e.a === b && e.b === a));
  return {
    ...across,
    yOf: (z) => (cart ? cartY(plan, z) : stubY(plan, z)),
    ground: cart ? plan.line : plan.front,
    top: cart ? 8 : plan.stacked ? (plan.bench ?? plan.line) + 60 : 8,
    gap: plan.gap,
    reach: pinReach(plan),
    outlet: outletShift(plan),
    linked,
    row: plan.control + ROW_GAP,
    bench: cart && plan.shape === 'tall' ? benchOf(plan) : null,
  };
}

/** A bench below the cart: room for dials and names over it, and for hoses beside it. */
function benchOf(plan: Plan): Bench {
  const head = dialRise(plan) + plan.dialR + 76;
  return { head, perMetre: 150, aside: 26 * plan.pipe };
}

/** Between two rows of one height. */
const ROW_GAP = 18;
const EDGE = 12;
const WALL = 24;

/** Widths that cart, stubs and house take when each height has one row. */
function widthsOf(site: Site, plan: Plan, zones: Zones) {
  const wide = { left: 0, right: 1e6 };
  const width = (places: readonly Place[], band: 'cart' | 'front'): number => {
    const list = readyOf(site, plan, zones, places);
    const all = list.flatMap((r) => r.stations);
    return all.length === 0 ? 0 : leastWidth(all, fieldOf(plan, band, wide, list));
  };
  return {
    cart: width(['cart'], 'cart'),
    stub: width(['stub', 'tap'], 'front'),
    house: width(['house'], 'front'),
  };
}

const houseRoom = ({ houseX, plan }: Bands): Across => ({
  left: houseX + WALL + 12,
  right: plan.width - 14,
});

/** Rows that stubs and plant need at each height: the more of the two, for both. */
function frontRows(site: Site, zones: Zones, bands: Bands): Map<number, number> {
  const { plan } = bands;
  const out = new Map<number, number>();
  const tried = [
    [['stub', 'tap'], bands.stub],
    [['house'], houseRoom(bands)],
  ] as const;
  for (const [places, across] of tried) {
    const list = readyOf(site, plan, zones, places);
    const all = list.flatMap((r) => r.stations);
    if (all.length === 0) continue;
    const { rows } = pack(all, fieldOf(plan, 'front', across, list));
    for (const [z, n] of rows) out.set(z, Math.max(n, out.get(z) ?? 0));
  }
  return out;
}

/** Packs on trial, to learn how far second rows lift the parts above them. */
function lifted(site: Site, look: Look, zones: Zones, bands: Bands): Bands {
  const { plan } = bands;
  const trial = (places: readonly Place[], band: 'cart' | 'front', across: Across) => {
    const list = readyOf(site, plan, zones, places);
    const all = list.flatMap((r) => r.stations);
    if (all.length === 0) return { lift: 0, bench: 0 };
    const { lift, bench, ground } = pack(all, fieldOf(plan, band, across, list));
    return { lift, bench: bench === null ? 0 : bench - ground };
  };
  const rows = frontRows(site, zones, bands);
  const front = [...rows.values()].reduce((a, b) => a + b, 0) * (plan.control + ROW_GAP);
  const cart = trial(['cart'], 'cart', bands.cart);
  const lift = { cart: cart.lift, front, bench: cart.bench };
  if (lift.cart + lift.front + lift.bench === 0) return bands;
  return { ...bands, plan: planOf(look, needsOf(site, zones, plan.stacked, lift)) };
}

interface Across {
  readonly left: number;
  readonly right: number;
}

/** Decides how the page is divided. */
export function bandsOf(site: Site, look: Look, zones: Zones): Bands {
  return lifted(site, look, zones, dividedOf(site, look, zones));
}

function dividedOf(site: Site, look: Look, zones: Zones): Bands {
  const plant = hasPlant(zones);
  const wide = look.shape === 'wide';
  const rest = wide ? 196 : 264;
  const flat = planOf(look, needsOf(site, zones, false));
  const w = widthsOf(site, flat, zones);
  const houseW = plant ? Math.max(rest, w.house + WALL + 50) : rest;
  const gap = 70;
  const beside = wide && w.cart + w.stub + houseW + gap + 3 * EDGE <= look.width;
  if (beside) {
    const houseX = look.width - houseW;
    const slack = look.width - houseW - w.stub - w.cart - gap - 3 * EDGE;
    const stubW = w.stub * (1 + Math.min(0.12, (slack * 0.3) / Math.max(1, w.stub)));
    const right = houseX - 34;
    const stub = { left: right - stubW, right };
    const room = Math.min(w.cart * 1.3, w.stub === 0 ? right - gap : stub.left - gap - EDGE);
    return { plan: flat, houseX, stub, cart: { left: EDGE, right: EDGE + room } };
  }
  const plan = planOf(look, needsOf(site, zones, true));
  const edge = wide ? EDGE : 3;
  const own = widthsOf(site, plan, zones);
  const ample = Math.max(rest, own.house * 1.05 + WALL + 40, look.width - own.stub - 60);
  const tight = own.stub > 0 && own.house + own.stub + WALL + 100 > look.width;
  const share = Math.max(0.4, own.house / Math.max(1, own.house + own.stub));
  const most = look.width * (tight ? Math.min(0.6, share) : 0.74);
  const house = plant ? Math.min(most, ample) : rest;
  const houseX = look.width - house;
  const right = houseX - 34 * look.pipe;
  return {
    plan,
    houseX,
    stub: { left: EDGE, right },
    cart: { left: edge, right: look.width - edge },
  };
}

/** Draws cart, stubs and house into their bands. */
export function drawBands(sheet: Sheet, zones: Zones, bands: Bands): void {
  const { site, plan } = sheet;
  const ready = (places: readonly Place[]): Ready[] => readyOf(site, plan, zones, places);
  const carts = ready(['cart']);
  layPatches(sheet, carts, fieldOf(plan, 'cart', bands.cart, carts));
  const stubs = ready(['stub', 'tap']);
  if (plan.stacked) sortByHose(sheet, zones, stubs);
  const beside = frontRows(site, zones, bands);
  const front = (across: Across, list: readonly Ready[]): Field1 => ({
    ...fieldOf(plan, 'front', across, list),
    beside,
  });
  if (stubs.length > 0) layPatches(sheet, stubs, front(bands.stub, stubs));
  const house = ready(['house']);
  if (house.length > 0) layPatches(sheet, house, front(houseRoom(bands), house));
}

/** In a band below the cart, stubs stand in the order in which their hoses leave the cart. */
function sortByHose(sheet: Sheet, zones: Zones, list: Ready[]): void {
  const place = (r: Ready): number => {
    const xs = zones.hoses.flatMap((h) => {
      const mine = [h.from, h.to].some((e) => r.patch.nodes.has(nodeOf(e)));
      const ends = [h.from, h.to].map((e) => sheet.hoseEnds.get(`${h.id}@${nodeOf(e)}`)?.at.x);
      return mine ? ends.filter((x) => x !== undefined) : [];
    });
    return xs.length === 0 ? 1e6 : xs.reduce((a, b) => a + b, 0) / xs.length;
  };
  const order = [...list].sort((a, b) => place(a) - place(b));
  order.forEach((r, k) => {
    for (const s of r.stations)
      s.order = (s.order % 1e5) + k * 1e5 + (r.patch.place === 'tap' ? 1e7 : 0);
  });
}
