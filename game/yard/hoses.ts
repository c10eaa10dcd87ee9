// Hoses across the yard: down from one end, along the ground in a row of their own, and up to the
// other end. Where the stubs stand in a band below the cart, hoses come down to them.
import { isMadeUp, type ConduitLink } from './graph.ts';
import type { Knot } from './path.ts';
import { cartY, type Plan } from './plan.ts';
import type { Sheet } from './sheet.ts';
import type { HoseEnd, Point, Side } from './types.ts';

interface Laid {
  readonly s1: number;
  readonly s2: number;
}

/** Where the hose comes down to the ground and leaves it: its first and last inner point. */
function laidOut(link: ConduitLink): Laid {
  const first = link.profile[0];
  const last = link.profile.at(-1);
  if (first === undefined || last === undefined || first === last) {
    return { s1: link.length_m * 0.2, s2: link.length_m * 0.8 };
  }
  return { s1: first.at_m, s2: last.at_m };
}

const GROUND_m = 0.06;

/** Hoses that go the same way lie side by side, the thinnest at the back. */
function rowY(plan: Plan, row: number): number {
  return cartY(plan, GROUND_m) + (-12 + 19 * row) * plan.pipe;
}

/** In front of all that stands by the cart: lanes on the turf, one for each hose. */
const laneY = (plan: Plan, ground: number, row: number): number =>
  ground + (30 + 27 * row) * Math.sqrt(plan.pipe);

/** An end that turns into its part has a corner of its own. */
function ending(end: HoseEnd, s: number, corner_s: number, r: number): Knot[] {
  if (end.x === undefined) return [{ ...end.at, s }];
  return [
    { x: end.x, y: end.at.y, s: corner_s, r },
    { ...end.at, s },
  ];
}

/** An end so low that the hose would lie on its own part is led round in front of it. */
function besideCart(plan: Plan, a: HoseEnd, b: HoseEnd, row: number): number {
  const y = rowY(plan, row);
  const low = Math.max(a.at.y, b.at.y) > y - plan.control * 0.5;
  return low && plan.stacked ? laneY(plan, plan.line, row) : y;
}

function flat(plan: Plan, a: HoseEnd, b: HoseEnd, hose: Hose): Knot[] {
  const { s1, s2 } = laidOut(hose.link);
  const L = hose.link.length_m;
  // Pipes between the stubs and the house lie on the ground that both stand on.
  const own = a.ground + (4 + 16 * hose.floor) * Math.sqrt(plan.pipe);
  const y = plan.stacked && !a.onCart && !b.onCart ? own : besideCart(plan, a, b, hose.row);
  const short = Math.abs(b.at.x - a.at.x) < 90;
  const r = short ? 18 : 44;
  const turn = 20 * plan.pipe;
  return [
    ...ending(a, 0, s1 * 0.1, turn).reverse(),
    { x: a.x ?? a.at.x, y, s: s1, r },
    { x: b.x ?? b.at.x, y, s: s2, r },
    ...ending(b, L, s2 + (L - s2) * 0.9, turn),
  ];
}

interface Way {
  readonly hose: Hose;
  readonly from: number;
  readonly to: number;
  readonly r: number;
  /** True where it goes on past a house in a band of its own. */
  readonly past: boolean;
}

/** Down from a part and across to `x` in lanes of its own, past bench and house at the edges. */
function across(plan: Plan, a: HoseEnd, x: number, way: Way): Knot[] {
  const { hose, from, to, r } = way;
  const thin = Math.sqrt(plan.pipe);
  const lane = (ground: number): number => laneY(plan, ground, hose.row);
  const points: Point[] = [];
  let ground = a.ground;
  let at = a.x ?? a.at.x;
  const side = (edge: number, high: number, next: number): void => {
    points.push({ x: at, y: high }, { x: edge, y: high });
    [at, ground] = [edge, next];
  };
  if (plan.bench !== null && ground < plan.bench - 1) {
    const high = ground + (20 + 16 * hose.row) * thin;
    side(plan.width - (16 + 14 * hose.row) * thin, high, plan.bench);
  }
  if (way.past && ground < plan.house - 1)
    side((20 + 27 * hose.row) * thin, lane(ground), plan.house);
  points.push({ x: at, y: lane(ground) }, { x, y: lane(ground) });
  return points.map((p, k) => ({ ...p, s: from + ((to - from) * k) / (points.length - 1), r }));
}

/** From the cart above down to a stub in the band below, and up again at its end. */
function fall(plan: Plan, a: HoseEnd, b: HoseEnd, hose: Hose): Knot[] {
  const { s1, s2 } = laidOut(hose.link);
  const L = hose.link.length_m;
  const low = b.ground - GROUND_m * plan.stubPerMetre;
  const past = plan.house < plan.front && b.ground > plan.house + 1;
  const x = b.x ?? b.at.x - b.dir * 31 * plan.pipe;
  const r = 30 * plan.pipe;
  const along = s1 + (s2 - s1) * 0.55;
  const start: Knot[] = [
    ...ending(a, 0, s1 * 0.1, 20 * plan.pipe).reverse(),
    ...across(plan, a, x, { hose, from: s1, to: along, r, past }),
  ];
  if (b.x !== undefined) return [...start, ...ending(b, L, s2 + (L - s2) * 0.5, 12)];
  const end: Knot[] =
    Math.abs(low - b.at.y) < 24
      ? [{ x, y: b.at.y, s: s2, r: r * 0.6 }]
      : [
          { x, y: low, s: s2 - 0.2, r: r * 0.7 },
          { x: b.at.x - b.dir * 4, y: low, s: s2, r: r * 0.5 },
          { x: b.at.x - b.dir * 4, y: b.at.y, s: L - 0.05, r: 10 },
        ];
  return [...start, ...end, { ...b.at, s: L }];
}

export interface Hose {
  readonly link: ConduitLink;
  readonly from: HoseEnd;
  readonly to: HoseEnd;
  readonly row: number;
  /** Where it goes through a wall below the cart's band: the wall, and its row on the floor. */
  readonly wall?: number;
  readonly floor: number;
  /** True of a pipe from the house to the stubs. */
  readonly led: boolean;
}

/** Row of each hose: hoses to a tap at the back, the others in the order of their far ends. */
type Unrowed = Omit<Hose, 'row' | 'floor'>;

export function rowsOf(hoses: readonly Unrowed[], back: ReadonlySet<string>): Hose[] {
  const reach = (h: Unrowed): number => Math.max(h.from.at.x, h.to.at.x);
  const list = [...hoses].sort((a, b) => {
    const [p, q] = [back.has(a.link.id) ? 0 : 1, back.has(b.link.id) ? 0 : 1];
    return p - q || Number(a.led) - Number(b.led) || reach(b) - reach(a);
  });
  // Through the wall the hose that goes furthest lies lowest, under what stands before it.
  const far = (h: Unrowed): number => (h.from.onCart ? h.to : h.from).at.x;
  const inside = list.filter((h) => h.wall !== undefined || h.led).sort((a, b) => far(b) - far(a));
  return list.map((h, row) => ({ ...h, row, floor: Math.max(0, inside.indexOf(h)) }));
}

/** Rings of tape that tell one hose from the other all the way. */
const RINGS: Readonly<Record<Side, number>> = { supply: 1, return: 2, make_up: 0 };

export function drawHoses(sheet: Sheet, hoses: readonly Hose[]): void {
  const { plan } = sheet;
  for (const hose of hoses) {
    const { from, to, link } = hose;
    const down = plan.stacked && from.ground !== to.ground;
    const look = { rings: hose.led || isMadeUp(link.id) ? 0 : RINGS[sheet.sides.get(link.id)!] };
    if (!down) {
      sheet.pipe(link, flat(plan, from, to, hose), look);
      continue;
    }
    const way = hose.wall === undefined ? fall : enter;
    const knots =
      from.ground < to.ground
        ? way(plan, from, to, hose)
        : turned(way(plan, to, from, flipped(hose)), link);
    sheet.pipe(link, knots, look);
  }
}

/** From the cart above through the wall of the house, along its floor and up to its part. */
function enter(plan: Plan, a: HoseEnd, b: HoseEnd, hose: Hose): Knot[] {
  const { s1, s2 } = laidOut(hose.link);
  const L = hose.link.length_m;
  const floor = plan.house - (13 + 19 * hose.floor) * plan.pipe;
  const wall = hose.wall! - (84 + 27 * hose.floor) * Math.sqrt(plan.pipe);
  const r = 30 * plan.pipe;
  const turn = 20 * plan.pipe;
  const along = (t: number): number => s1 + (s2 - s1) * t;
  return [
    ...ending(a, 0, s1 * 0.1, turn).reverse(),
    ...across(plan, a, wall, { hose, from: s1, to: along(0.4), r, past: false }),
    { x: wall, y: floor, s: along(0.7), r },
    { x: b.x ?? b.at.x, y: floor, s: s2, r: turn },
    ...ending(b, L, s2 + (L - s2) * 0.9, turn),
  ];
}

/** The hose as it is walked from its other end. */
function flipped(hose: Hose): Hose {
  const L = hose.link.length_m;
  const profile = [...hose.link.profile].reverse().map((p) => ({ ...p, at_m: L - p.at_m }));
  return { ...hose, link: { ...hose.link, profile } };
}

function turned(knots: readonly Knot[], link: ConduitLink): Knot[] {
  return [...knots].reverse().map((k) => ({ ...k, s: link.length_m - k.s }));
}
