// Everything of a patch that takes room: valves, pumps, tanks, dials, hose ends. Each becomes a
// station with its extents and the nets that it joins (a node, and what is set in between there).
import type { Still } from './chains.ts';
import { endsOf, isConduit, isMadeUp, nodeOf, type Link, type Site } from './graph.ts';
import { widthOf, type Plan } from './plan.ts';
import type { Zones, Patch } from './zones.ts';
import type { Scenario } from '../../sim/index.ts';

export type Instrument = Scenario['instruments'][number];

export type StationKind =
  'still' | 'pump' | 'tank' | 'open' | 'reservoir' | 'dial' | 'meter' | 'hose' | 'riser' | 'dot';

export interface Station {
  readonly id: string;
  readonly kind: StationKind;
  readonly link: Link | null;
  readonly instrument: Instrument | null;
  /** Place in the sense of flow; x grows with it. */
  order: number;
  /** Height of its point, m. */
  readonly z: number;
  readonly left: number;
  readonly right: number;
  /** Extents above and below the point; `toGround` where it reaches the ground. */
  readonly up: number;
  down: number;
  /** Height of its foot, where that follows the page's heights, m. */
  readonly foot_m?: number;
  /** Least room from there to its rim, so that hands can point at a low pail. */
  readonly least?: number;
  readonly toGround: boolean;
  /** Half the room of a stem from below its extents down to its point. */
  readonly stem?: number;
  /** Extent to the right that the page must hold, where others may stand in it. */
  readonly edge?: number;
  /** True where a hose comes down to it from above the patch. */
  toTop?: boolean;
  x: number;
  y: number;
  /** Height on the page of the ground under it, and of an elevation in its band. */
  ground: number;
  yOf: (z: number) => number;
  /** The node whose height it has. */
  readonly node: string;
  readonly nets: readonly string[];
}

/** A pipe or hose within the patch, between two nets. */
export interface Edge {
  readonly link: Extract<Link, { kind: 'pipe' | 'hose' }>;
  readonly a: string;
  readonly b: string;
}

export interface Kit {
  readonly stations: Station[];
  readonly edges: Edge[];
  /** Nodes that stand inside a tank: what hangs on a foot valve. */
  readonly inTank: ReadonlyMap<string, string>;
}

/** Height of a part without length: that of its junction, the higher if it has two. */
function heightOfStill(site: Site, link: Link): { node: string; z: number } {
  const junctions = endsOf(link).filter((e) => site.nodes.get(nodeOf(e))!.kind === 'junction');
  const ends = junctions.length > 0 ? junctions : endsOf(link);
  const best = ends.reduce((a, b) => (site.heightOf(b) > site.heightOf(a) ? b : a));
  return { node: nodeOf(best), z: site.heightOf(best) };
}

/** Nodes between a tank's port and the one pipe that hangs on it there. */
function nodesInTanks(site: Site, patch: Patch): Map<string, string> {
  const out = new Map<string, string>();
  for (const link of patch.links) {
    if (link.kind !== 'check_valve' && link.kind !== 'filter') continue;
    const ends = [link.from, link.to];
    const port = ends.find((e) => site.nodes.get(nodeOf(e))!.kind === 'tank');
    const other = ends.find((e) => e !== port);
    if (port === undefined || other === undefined) continue;
    const tank = site.nodes.get(nodeOf(port))!;
    const rest = site.touching(nodeOf(other)).filter((l) => l !== link);
    const z = site.heightOf(other);
    const below = tank.kind === 'tank' && z < tank.floor_m + tank.height_mm / 1000;
    if (below && rest.length === 1 && isConduit(rest[0]!)) out.set(nodeOf(other), link.id);
  }
  return out;
}

interface Size {
  readonly left: number;
  readonly right: number;
  readonly up: number;
  readonly down: number;
}

const even = (w: number, h = w): Size => ({ left: w / 2, right: w / 2, up: h / 2, down: h / 2 });

export const pumpRadius = (plan: Plan): number =>
  plan.control * (plan.shape === 'wide' ? 0.62 : 0.53);
/** From the pump's middle to the end of its motor. */
export const motorReach = (plan: Plan): number =>
  pumpRadius(plan) + (plan.shape === 'wide' ? plan.control + 6 : 50);
export const motorWidth = (plan: Plan): number => motorReach(plan) - pumpRadius(plan) * 0.82;
/** From a valve's middle to where its pipes begin. */
export const pinReach = (plan: Plan): number => plan.control * 0.38 + 6 * plan.pipe;
/** From the pump's middle to its outlet. */
export const outletShift = (plan: Plan): number =>
  pumpRadius(plan) * (plan.shape === 'wide' ? 0.62 : -0.43);
export const dialRise = (plan: Plan): number => plan.dialR + plan.control * 0.5 + 8;

function sizeOfStill(plan: Plan, link: Still): Size {
  const c = plan.control;
  if (link.kind === 'pump') {
    const r = pumpRadius(plan);
    return { left: r + 4, right: motorReach(plan) + 2, up: r + 12, down: r + 6 };
  }
  if (link.kind === 'coil') return { left: 60, right: 60, up: 60, down: 60 };
  if (['valve', 'three_way', 'coupling', 'hand_pump'].includes(link.kind)) return even(c);
  if (link.kind === 'filter') return { ...even(c, c * 0.8), down: c * 0.72 };
  return even(c, c * 0.8);
}

interface Making {
  readonly site: Site;
  readonly plan: Plan;
  readonly zones: Zones;
  readonly patch: Patch;
  /** Endpoint of a link -> the net that it is joined to, where a meter stands in between. */
  readonly moved: Map<string, string>;
  readonly out: Station[];
}

const key = (link: Link, end: string): string => `${link.id}>${end}`;

function add(make: Making, s: Omit<Station, 'order' | 'x' | 'y' | 'ground' | 'yOf'>): void {
  make.out.push({ ...s, order: 0, x: 0, y: 0, ground: 0, yOf: (z) => -z });
}

/** Flow meters stand in the line, on the side of the link where there is a junction. */
function addMeters(make: Making): void {
  const { site, patch, plan, zones } = make;
  for (const spec of site.scenario.instruments) {
    if (spec.kind !== 'flow') continue;
    const link = site.links.get(spec.link);
    if (link === undefined) continue;
    const mine = endsOf(link).filter((e) => patch.nodes.has(nodeOf(e)));
    const best = mine.find((e) => site.nodes.get(nodeOf(e))!.kind === 'junction');
    if (best === undefined) continue;
    if (plan.stacked && zones.hoses.some((h) => h === link)) continue;
    const cart = endsOf(link).some((e) => zones.patchOf.get(nodeOf(e))?.place === 'cart');
    if (cart && patch.place !== 'cart') continue;
    const own = `${spec.id}#`;
    make.moved.set(key(link, best), own);
    add(make, {
      id: spec.id,
      kind: 'meter',
      link,
      instrument: spec,
      z: site.heightOf(best),
      // Its ends stand out so far that a thick pipe must find room to turn beside them.
      ...even(plan.control * (plan.shape === 'tall' ? 1.28 : 1), plan.control),
      toGround: false,
      node: nodeOf(best),
      nets: [best, own],
    });
  }
}

function addNodes(make: Making): void {
  const { site, plan, patch } = make;
  for (const spec of site.scenario.instruments) {
    if (spec.kind !== 'pressure' || !patch.nodes.has(spec.node)) continue;
    const node = site.nodes.get(spec.node)!;
    if (node.kind !== 'junction') continue;
    const rise = dialRise(plan);
    add(make, {
      id: spec.id,
      kind: 'dial',
      link: null,
      instrument: spec,
      z: node.elevation_m,
      left: plan.dialR + 2,
      right: plan.dialR + 2,
      up: rise + plan.dialR,
      down: plan.dialR - rise,
      toGround: false,
      stem: 12 * plan.pipe,
      node: node.id,
      nets: [node.id],
    });
  }
  const cockEnds = new Set([...site.cocks.values()].map((c) => c.end));
  for (const id of patch.nodes) {
    const node = site.nodes.get(id)!;
    const base = { id, link: null, instrument: null, node: id, nets: [id] };
    if (cockEnds.has(id)) continue;
    if (node.kind === 'open') {
      const half = plan.outlet / 2 + 1;
      const size = { left: half, right: half, up: 14, down: 0 };
      add(make, { ...base, kind: 'open', z: node.elevation_m, ...size, toGround: true });
    } else if (node.kind === 'reservoir') {
      const size = even(plan.control * 0.7);
      add(make, { ...base, kind: 'reservoir', z: node.elevation_m, ...size, toGround: true });
    }
  }
}

/** True of what comes down to its end without a bend: pipes, and the thin hose of a hand pump. */
export const dropsStraight = (link: Link): boolean => link.kind === 'pipe' || isMadeUp(link.id);

/** Ends of hoses that cross the yard, and of pipes that go down into the field. */
function addEnds(make: Making): void {
  const { site, zones, patch, plan } = make;
  const end = (link: Link, at: string, kind: 'hose' | 'riser'): void => {
    // A hose falls beside its end and turns up to it; stiff and thin ones come straight down.
    const above = plan.stacked && patch.place !== 'cart' && !dropsStraight(link);
    const slim = widthOf(plan, link.bore_mm) / 2 + 6 * plan.pipe;
    const half = kind === 'hose' && above ? plan.hoseColumn / 2 : slim;
    add(make, {
      id: `${link.id}@${nodeOf(at)}`,
      kind,
      link,
      instrument: null,
      z: site.heightOf(at),
      left: half,
      right: kind === 'hose' && above && zones.led ? half * 0.74 : half,
      up: 6,
      down: 0,
      toGround: true,
      node: nodeOf(at),
      nets: [make.moved.get(key(link, at)) ?? at],
    });
  };
  for (const hose of zones.hoses) {
    for (const at of [hose.from, hose.to]) if (patch.nodes.has(nodeOf(at))) end(hose, at, 'hose');
  }
  for (const link of zones.fieldLinks) {
    for (const at of endsOf(link)) if (patch.nodes.has(nodeOf(at))) end(link, at, 'riser');
  }
}

/** Room for the note beside a pump: at the page's edge, and between two pumps. */
function noteRoom(plan: Plan, patch: Patch, led: boolean): { edge: number; right?: number } {
  const edge = pumpRadius(plan) + plan.control + 6;
  const pumps = patch.links.filter((l) => l.kind === 'pump').length;
  return pumps > 1 || led ? { edge, right: edge + 2 } : { edge };
}

/** All stations and inner pipes of a patch. */
export function kitOf(site: Site, plan: Plan, zones: Zones, patch: Patch): Kit {
  const moved = new Map<string, string>();
  const make: Making = { site, plan, zones, patch, moved, out: [] };
  addMeters(make);
  const net = (link: Link, end: string): string => moved.get(key(link, end)) ?? end;
  const inTank = nodesInTanks(site, patch);
  const edges: Edge[] = [];
  for (const link of patch.links) {
    if (isConduit(link)) {
      edges.push({ link, a: net(link, link.from), b: net(link, link.to) });
      continue;
    }
    const foot = [...inTank.values()].includes(link.id);
    if (foot) continue;
    const { node, z } = heightOfStill(site, link);
    const cock = site.cocks.get(link.id);
    const nets = endsOf(link)
      .filter((e) => e !== cock?.end)
      .map((e) => net(link, e));
    add(make, {
      id: link.id,
      kind: link.kind === 'pump' ? 'pump' : 'still',
      link,
      instrument: null,
      z: link.kind === 'pump' ? site.heightOf(link.from) : z,
      ...sizeOfStill(plan, link),
      toGround: false,
      ...(link.kind === 'pump' ? noteRoom(plan, patch, zones.led) : {}),
      node: link.kind === 'pump' ? nodeOf(link.from) : node,
      nets,
    });
  }
  addNodes(make);
  addEnds(make);
  addDots(make, edges, inTank);
  return { stations: make.out, edges, inTank };
}

/** A node that only pipes meet at needs a place of its own. */
function addDots(make: Making, edges: readonly Edge[], inTank: ReadonlyMap<string, string>): void {
  const { site, patch } = make;
  for (const id of patch.nodes) {
    const node = site.nodes.get(id)!;
    if (node.kind !== 'junction' || inTank.has(id)) continue;
    const used = make.out.some((s) => s.nets.includes(id) && s.kind !== 'dial');
    if (used || !edges.some((e) => e.a === id || e.b === id)) continue;
    const z = node.elevation_m;
    const base = { id, kind: 'dot' as const, link: null, instrument: null, node: id, nets: [id] };
    add(make, { ...base, z, ...even(16), toGround: false });
  }
}
