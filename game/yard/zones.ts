// Which part of the yard everything belongs to: the cart, the stubs where the loop comes up, the
// house, or the field below the ground. Read from heights and from what meets where.
import {
  across,
  endsOf,
  isConduit,
  nodeOf,
  type ConduitLink,
  type Link,
  type Site,
} from './graph.ts';

export const PLACES = ['cart', 'stub', 'house', 'tap'] as const;
export type Place = (typeof PLACES)[number];

/** What hangs together above the ground without a hose across the yard. */
export interface Patch {
  readonly place: Place;
  readonly nodes: ReadonlySet<string>;
  /** Links with all their ends here; a hose between two parts of one cart is one of them. */
  readonly links: readonly Link[];
}

export interface Zones {
  readonly patches: readonly Patch[];
  /** The patch of a node above the ground. */
  readonly patchOf: ReadonlyMap<string, Patch>;
  /** Hoses that lie across the yard, from one patch to another. */
  readonly hoses: readonly ConduitLink[];
  /** True where pipes lead across to a plant room that stands apart from the stubs. */
  readonly led: boolean;
  readonly fieldLinks: ReadonlySet<Link>;
  readonly fieldNodes: ReadonlySet<string>;
}

/** Deeper than this is below the ground, m. */
const BURIED_m = -0.35;

function lowest(site: Site, link: ConduitLink): number {
  return Math.min(...site.profile(link).z);
}

class Sets {
  private readonly above = new Map<string, string>();

  root(id: string): string {
    const up = this.above.get(id);
    if (up === undefined) return id;
    const top = this.root(up);
    this.above.set(id, top);
    return top;
  }

  join(a: string, b: string): void {
    const [p, q] = [this.root(a), this.root(b)];
    if (p !== q) this.above.set(p, q);
  }
}

/** The tank that most is joined to; among equals the one that holds most. */
export function mainTank(site: Site): string | null {
  const worth = (n: Site['scenario']['nodes'][number]): number =>
    n.kind === 'tank' ? site.touching(n.id).length * 1e3 + (n.area_m2 * n.height_mm) / 1e3 : 0;
  const tanks = site.scenario.nodes.filter((n) => n.kind === 'tank');
  return tanks.sort((a, b) => worth(b) - worth(a))[0]?.id ?? null;
}

function placeOf(site: Site, nodes: ReadonlySet<string>, links: readonly Link[]): Place {
  const kinds = new Set([...nodes].map((n) => site.nodes.get(n)!.kind));
  const has = (kind: Link['kind']): boolean => links.some((l) => l.kind === kind);
  const main = mainTank(site);
  if (main !== null && nodes.has(main)) return 'cart';
  if (has('coil')) return 'house';
  const coil = site.scenario.links.some((l) => l.kind === 'coil');
  if (has('three_way')) return coil ? 'stub' : 'house';
  if (kinds.has('tank') || has('pump')) return 'cart';
  return kinds.has('reservoir') ? 'tap' : 'stub';
}

/** A pipe as long as this between the stubs and a plant room is led across, m. */
const LED_m = 2;

/** Pipes between the stubs and a plant room, where either is more than valves or the coil. */
function ledPipes(site: Site, above: readonly Link[]): Set<Link> {
  const room = new Set<string>();
  const queue = above.filter((l) => l.kind === 'coil').flatMap((l) => endsOf(l).map(nodeOf));
  const long = (l: Link): boolean => isConduit(l) && l.length_m >= LED_m;
  let parts = above.filter((l) => l.kind === 'coupling').length;
  for (let n = queue.pop(); n !== undefined; n = queue.pop()) {
    if (room.has(n)) continue;
    room.add(n);
    for (const link of site.touching(n)) {
      if (!above.includes(link) || long(link)) continue;
      if (link.kind === 'pump' || link.kind === 'filter') parts++;
      queue.push(...endsOf(link).map(nodeOf));
    }
  }
  const led = above.filter((l) => long(l) && endsOf(l).some((e) => room.has(nodeOf(e))));
  return new Set(parts === 0 ? [] : led.filter((l) => l.kind === 'pipe'));
}

function groups(site: Site, sets: Sets, ground: ReadonlySet<string>): Map<string, Set<string>> {
  const out = new Map<string, Set<string>>();
  for (const id of site.nodes.keys()) {
    if (ground.has(id)) continue;
    const root = sets.root(id);
    const set = out.get(root) ?? new Set();
    set.add(id);
    out.set(root, set);
  }
  return out;
}

/** Nodes and links below the ground. A pipe belongs there if any of it lies deep. */
function buried(site: Site): { links: Set<Link>; nodes: Set<string> } {
  const links = new Set<Link>();
  const nodes = new Set<string>();
  for (const node of site.nodes.values()) {
    if (node.kind === 'junction' && node.elevation_m < BURIED_m) nodes.add(node.id);
  }
  for (const link of site.scenario.links) {
    const deep = endsOf(link).map((end) => nodes.has(nodeOf(end)));
    if (isConduit(link) ? lowest(site, link) < BURIED_m : deep.every(Boolean)) links.add(link);
  }
  // A part without length with one end down there stands where its other end stands.
  for (const link of site.scenario.links) {
    if (links.has(link) || isConduit(link)) continue;
    for (const end of endsOf(link)) nodes.delete(nodeOf(end));
  }
  return { links, nodes };
}

export function zonesOf(site: Site): Zones {
  const ground = buried(site);
  const above = site.scenario.links.filter((l) => !ground.links.has(l));
  const sets = new Sets();
  const joinAll = (link: Link): void => {
    const [first, ...rest] = endsOf(link).map(nodeOf);
    for (const other of rest) sets.join(first!, other);
  };
  const led = ledPipes(site, above);
  for (const link of above) if (link.kind !== 'hose' && !led.has(link)) joinAll(link);
  mergeHoses(site, sets, { above, ground: ground.nodes });
  const patches: Patch[] = [];
  const patchOf = new Map<string, Patch>();
  const hoses = above.filter(
    (l): l is ConduitLink =>
      (l.kind === 'hose' || led.has(l)) &&
      isConduit(l) &&
      sets.root(nodeOf(l.from)) !== sets.root(nodeOf(l.to)),
  );
  for (const nodes of groups(site, sets, ground.nodes).values()) {
    const links = above.filter((l) => endsOf(l).every((e) => nodes.has(nodeOf(e))));
    const found = placeOf(site, nodes, links);
    // A tap with parts of its own stands by the cart where the house is full of other things.
    const stands = found === 'tap' && nodes.size > 1 && led.size > 0;
    const patch: Patch = { place: stands ? 'cart' : found, nodes, links };
    patches.push(patch);
    for (const id of nodes) patchOf.set(id, patch);
  }
  return {
    patches,
    patchOf,
    hoses,
    led: led.size > 0,
    fieldLinks: ground.links,
    fieldNodes: ground.nodes,
  };
}

interface Above {
  readonly above: readonly Link[];
  readonly ground: ReadonlySet<string>;
}

/** A hose within the cart, or to a drain beside it, does not cross the yard. */
function mergeHoses(site: Site, sets: Sets, { above, ground }: Above): void {
  const hoses = above.filter((l): l is ConduitLink => l.kind === 'hose');
  const kindOf = (id: string): 'cart' | 'drain' | 'other' => {
    const nodes = groups(site, sets, ground).get(sets.root(id)) ?? new Set<string>();
    const inside = above.filter((l) => endsOf(l).every((e) => nodes.has(nodeOf(e))));
    if (placeOf(site, nodes, inside) === 'cart') return 'cart';
    const [only] = nodes;
    const dead = nodes.size === 1 && site.touching(only!).length === 1;
    const kind = site.nodes.get(only!)!.kind;
    const open = [...nodes].every((n) => site.nodes.get(n)!.kind === 'open');
    return open || (dead && kind === 'junction') ? 'drain' : 'other';
  };
  for (const hose of hoses) {
    const a = nodeOf(hose.from);
    const kinds = [kindOf(a), kindOf(across(hose, a))];
    const both = kinds.every((k) => k === 'cart');
    if (both || kinds.includes('drain')) sets.join(a, across(hose, a));
  }
}
