// Divides the page: the cart in a band of its own, the stubs and the house beside it or in a band
// below. Measures first what each part needs, then gives places.
import { fieldOf, rowGap, type Band } from './band-field.ts';
import { isConduit, nodeOf, type Site } from './graph.ts';
import { ASIDE, pack } from './pack.ts';
import { layPatches, readyPatch, type Ready } from './patch.ts';
import { planOf, type Look, type Needs, type Plan } from './plan.ts';
import { boardOf } from './board.ts';
import { leastWidth } from './squeeze.ts';
import type { Sheet } from './sheet.ts';
import { mainTank, type Patch, type Place, type Zones } from './zones.ts';

export interface Bands {
  readonly plan: Plan;
  readonly cart: { readonly left: number; readonly right: number };
  readonly stub: { readonly left: number; readonly right: number };
  readonly houseX: number;
  /** Rows that were planned for stubs and plant. */
  readonly rows: FrontRows;
}

interface FrontRows {
  readonly front: Rows;
  readonly house: Rows;
}
type Divide = Omit<Bands, 'rows'>;

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

const NO_LIFT = { cart: 0, front: 0, house: 0, bench: 0 };

interface Way {
  readonly stacked: boolean;
  readonly split: boolean;
  readonly board: number;
}

function needsOf(site: Site, zones: Zones, way: Way, lift: Needs['lift'] = NO_LIFT): Needs {
  const house_m = topOf(site, zones, ['house', 'tap']);
  const stub_m = topOf(site, zones, ['stub']);
  return {
    ...way,
    cart_m: topOf(site, zones, ['cart']),
    front_m: way.split ? stub_m : Math.max(stub_m, house_m),
    house_m,
    hoses: zones.hoses.length,
    lanes: zones.led ? zones.hoses.filter((h) => h.kind === 'hose').length : 1,
    lift,
  };
}

/** Patches of some places, made ready; each keeps its own stretch of the order. */
export function readyOf(site: Site, plan: Plan, zones: Zones, places: readonly Place[]): Ready[] {
  const front = !places.includes('cart');
  const main = mainTank(site);
  const perMetre = front ? plan.stubPerMetre : plan.perMetre;
  const list = zones.patches.filter((p) => places.includes(p.place) && !isPlainTap(p));
  return list.map((patch, k) => {
    const aside = patch.place === 'cart' && !patch.nodes.has(main ?? '');
    const shift =
      (patch.place !== 'cart' ? k * 1e5 : aside ? ASIDE + 1000 : 0) +
      (patch.place === 'tap' ? 1e7 : 0);
    const ready = readyPatch(zones, patch, { site, plan, perMetre, shift });
    const stub = front && patch.place !== 'house';
    for (const s of ready.stations) {
      if (s.kind !== 'hose' || !front) continue;
      s.toTop = comesFromAbove(plan, zones, s.link!) && (stub || plan.house === plan.front);
    }
    return ready;
  });
}

function comesFromAbove(plan: Plan, zones: Zones, link: { from: string; to: string }): boolean {
  const cart = [link.from, link.to].some((e) => zones.patchOf.get(nodeOf(e))?.place === 'cart');
  const house = [link.from, link.to].some((e) => zones.patchOf.get(nodeOf(e))?.place === 'house');
  // Where the house has a band of its own, its pipes come down to the stubs as well.
  return plan.stacked && (cart ? !house : house && plan.house < plan.front);
}

const EDGE = 12;
const WALL = 24;

/** Widths that cart, stubs and house take when each height has one row. */
function widthsOf(site: Site, plan: Plan, zones: Zones) {
  const wide = { left: 0, right: 1e6 };
  const width = (places: readonly Place[], band: Band): number => {
    const list = readyOf(site, plan, zones, places);
    const all = list.flatMap((r) => r.stations);
    return all.length === 0 ? 0 : leastWidth(all, fieldOf(plan, band, wide, list));
  };
  return {
    cart: width(['cart'], 'cart'),
    stub: width(['stub', 'tap'], 'front'),
    house: width(['house'], 'house'),
  };
}

const houseRoom = ({ houseX, plan }: Divide): Across => ({
  left: houseX + WALL + 12,
  right: plan.width - 14,
});

type Rows = Map<number, number>;

/** Rows that stubs and plant need at each height: the more of the two for both, if side by side. */
function frontRows(site: Site, zones: Zones, bands: Divide): FrontRows {
  const { plan } = bands;
  const rowsOf = (places: readonly Place[], band: Band, across: Across): Rows => {
    const list = readyOf(site, plan, zones, places);
    const all = list.flatMap((r) => r.stations);
    return new Map(all.length === 0 ? [] : pack(all, fieldOf(plan, band, across, list)).rows);
  };
  const front = rowsOf(['stub', 'tap'], 'front', bands.stub);
  const house = rowsOf(['house'], 'house', houseRoom(bands));
  if (plan.house < plan.front) return { front, house };
  for (const [z, n] of house) front.set(z, Math.max(n, front.get(z) ?? 0));
  return { front, house: front };
}

const liftOf = (plan: Plan, rows: Rows): number =>
  [...rows.values()].reduce((a, b) => a + b, 0) * (plan.control + rowGap(plan));

/** Packs on trial, to learn how far second rows lift the parts above them. */
function lifted(site: Site, look: Look, zones: Zones, { bands, way, short }: Divided): Bands {
  const { plan } = bands;
  const list = readyOf(site, plan, zones, ['cart']);
  const all = list.flatMap((r) => r.stations);
  const cart = pack(all, fieldOf(plan, 'cart', bands.cart, list));
  const rows = frontRows(site, zones, bands);
  const lift = {
    cart: cart.lift,
    front: liftOf(plan, rows.front) + short,
    house: liftOf(plan, rows.house),
    bench: (cart.benches.at(-1) ?? cart.ground) - cart.ground,
  };
  if (lift.cart + lift.front + lift.house + lift.bench === 0) return { ...bands, rows };
  return { ...bands, rows, plan: planOf(look, needsOf(site, zones, way, lift)) };
}

interface Divided {
  readonly bands: Divide;
  readonly way: Way;
  readonly short: number;
}

interface Across {
  readonly left: number;
  readonly right: number;
}

/** Decides how the page is divided; `short` is height that the stubs lacked when it was tried. */
export function bandsOf(site: Site, look: Look, zones: Zones, short = 0): Bands {
  return lifted(site, look, zones, { ...dividedOf(site, look, zones), short });
}

/** Room left of a house in a band of its own, for hoses that pass it and the tap on its wall. */
const PASS = 150;
function dividedOf(site: Site, look: Look, zones: Zones): Omit<Divided, 'short'> {
  const kit = boardOf(site, look);
  const board = kit === null ? 0 : kit.y + kit.h;
  const flatWay = { stacked: false, split: false, board };
  const plant = hasPlant(zones);
  const wide = look.shape === 'wide';
  const rest = wide ? 196 : 264;
  const flat = planOf(look, needsOf(site, zones, flatWay));
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
    const cart = { left: EDGE, right: EDGE + room };
    return { bands: { plan: flat, houseX, stub, cart }, way: flatWay };
  }
  const way = { stacked: true, split: !wide && zones.led, board };
  const plan = planOf(look, needsOf(site, zones, way));
  const edge = wide ? EDGE : 3;
  const own = widthsOf(site, plan, zones);
  const ample = Math.max(rest, own.house * 1.05 + WALL + 40, look.width - own.stub - 60);
  const tight = own.stub > 0 && own.house + own.stub + WALL + 100 > look.width;
  const share = Math.max(0.4, own.house / Math.max(1, own.house + own.stub));
  const most = look.width * (tight ? Math.min(0.6, share) : 0.74);
  const house = plant ? Math.min(most, ample) : rest;
  const houseX = way.split ? PASS : look.width - house;
  const tap = zones.led && zones.patches.some(isPlainTap) ? 54 : 0;
  const right = way.split ? look.width - 18 : houseX - 34 * look.pipe - tap;
  const stub = { left: EDGE, right };
  const cart = { left: edge, right: look.width - edge };
  return { bands: { plan, houseX, stub, cart }, way };
}

/** Draws cart, stubs and house into their bands; returns how far the stubs rise over the plan. */
export function drawBands(sheet: Sheet, zones: Zones, bands: Bands): number {
  const { site, plan } = sheet;
  const ready = (places: readonly Place[]): Ready[] => readyOf(site, plan, zones, places);
  const carts = ready(['cart']);
  const { benches } = layPatches(sheet, carts, fieldOf(plan, 'cart', bands.cart, carts));
  sheet.benches.push(...benches);
  const stubs = ready(['stub', 'tap']);
  // Past a house in a band of its own all hoses come from the left, whatever their order.
  if (plan.stacked && plan.house === plan.front) sortByHose(sheet, zones, stubs);
  const { rows } = bands;
  const front = fieldOf(plan, 'front', bands.stub, stubs);
  const { lift } = layPatches(sheet, stubs, { ...front, beside: rows.front });
  const house = ready(['house']);
  const inside = fieldOf(plan, 'house', houseRoom(bands), house);
  layPatches(sheet, house, { ...inside, beside: rows.house });
  return Math.max(0, lift - liftOf(plan, rows.front));
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
