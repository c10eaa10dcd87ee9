// Where along the flow everything of a patch stands: return side, tank, suction, pump, discharge,
// counted in steps away from the tank or the pump. Left and right on the page follow from it.
import { across, endsOf, isConduit, nodeOf, type Link, type Site } from './graph.ts';
import type { Kit, Station } from './stations.ts';
import { mainTank, type Patch, type Zones } from './zones.ts';

const BASE = 1000;
const STEP = 10;
/** More than the steps of any run. */
const RUN = 400;

export interface Orders {
  readonly node: ReadonlyMap<string, number>;
  readonly tank: ReadonlyMap<string, number>;
  /** True where small cocks stand beside the pipes into the field. */
  readonly cocks: boolean;
}

interface Group {
  readonly nodes: Set<string>;
  readonly tanks: Set<string>;
  readonly into: Set<Link>;
  readonly outOf: Set<Link>;
  loop: boolean;
}

function groupsOf(site: Site, zones: Zones, patch: Patch): Map<string, Group> {
  const of = new Map<string, Group>();
  const isTank = (n: string): boolean => site.nodes.get(n)!.kind === 'tank';
  for (const start of patch.nodes) {
    if (isTank(start) || of.has(start)) continue;
    const group: Group = {
      nodes: new Set([start]),
      tanks: new Set(),
      into: new Set(),
      outOf: new Set(),
      loop: false,
    };
    of.set(start, group);
    const queue = [start];
    for (let n = queue.pop(); n !== undefined; n = queue.pop()) {
      for (const link of site.touching(n)) {
        if (!patch.links.includes(link)) {
          const other = endsOf(link)
            .map(nodeOf)
            .find((e) => e !== n);
          const tap = other !== undefined && zones.patchOf.get(other)?.place === 'tap';
          if (!tap) group.loop = true;
          continue;
        }
        if (link.kind === 'pump') {
          if (nodeOf(link.from) === n) group.into.add(link);
          else group.outOf.add(link);
          continue;
        }
        for (const e of endsOf(link).map(nodeOf)) {
          if (isTank(e)) group.tanks.add(e);
          else if (!of.has(e)) {
            of.set(e, group);
            group.nodes.add(e);
            queue.push(e);
          }
        }
      }
    }
  }
  return of;
}

/** Steps from the anchors to each node of the group. */
function stepsFrom(site: Site, patch: Patch, group: Group, anchors: readonly string[]) {
  const steps = new Map(anchors.map((n) => [n, 0]));
  const queue = [...anchors];
  for (let n = queue.shift(); n !== undefined; n = queue.shift()) {
    for (const link of site.touching(n)) {
      if (!patch.links.includes(link) || link.kind === 'pump') continue;
      const ends = link.kind === 'three_way' ? endsOf(link).map(nodeOf) : [across(link, n)];
      for (const other of ends) {
        if (!group.nodes.has(other) || steps.has(other)) continue;
        steps.set(other, steps.get(n)! + 1);
        queue.push(other);
      }
    }
  }
  return steps;
}

/** How many pumps lie between the tank and a group. */
function pumpLevels(groups: ReadonlySet<Group>): Map<Group, number> {
  const level = new Map([...groups].map((g) => [g, 0]));
  for (let round = 0; round < 6; round++) {
    for (const g of groups) {
      for (const other of groups) {
        if (g === other || ![...other.outOf].some((p) => g.into.has(p))) continue;
        level.set(other, Math.min(6, Math.max(level.get(other)!, level.get(g)! + 1)));
      }
    }
  }
  return level;
}

/** Which way a group lies from the tank, and from which nodes its steps are counted. */
function settle(
  site: Site,
  group: Group,
  level: number,
): { base: number; sign: 1 | -1; anchors: string[] } {
  const atTank = [...group.nodes].filter((n) =>
    site
      .touching(n)
      .some((l) => l.kind !== 'pump' && endsOf(l).some((e) => group.tanks.has(nodeOf(e)))),
  );
  const pumps = (links: ReadonlySet<Link>, end: 'from' | 'to'): string[] =>
    [...links].map((l) => nodeOf(l[end])).filter((n) => group.nodes.has(n));
  if (level > 0)
    return { base: BASE * (2 * level + 1), sign: 1, anchors: pumps(group.outOf, 'to') };
  if (group.into.size > 0) {
    return { base: BASE, sign: 1, anchors: atTank.length > 0 ? atTank : pumps(group.into, 'from') };
  }
  if (group.outOf.size > 0) return { base: BASE * 3, sign: 1, anchors: pumps(group.outOf, 'to') };
  const anchors = atTank.length > 0 ? atTank : [[...group.nodes][0]!];
  if (group.loop)
    return {
      base: group.tanks.size > 0 ? -1 : BASE * 20,
      sign: group.tanks.size > 0 ? -1 : 1,
      anchors,
    };
  const fills =
    [...group.nodes].some((n) => site.nodes.get(n)!.kind !== 'open') &&
    ![...group.nodes].some((n) => site.nodes.get(n)!.kind === 'open');
  return fills ? { base: 1, sign: 1, anchors } : { base: -1, sign: -1, anchors };
}

/** Counts steps from where each hose arrives: one run after the other, from left to right. */
function simple(site: Site, zones: Zones, patch: Patch): Orders {
  const node = new Map<string, number>();
  const hosed = zones.hoses.flatMap((h) =>
    [h.to, h.from].map(nodeOf).filter((n) => patch.nodes.has(n)),
  );
  const seeds = hosed.length > 0 ? hosed : [[...patch.nodes][0]!];
  seeds.forEach((n, k) => node.set(n, RUN * k));
  const queue = [...node.keys()];
  for (let n = queue.shift(); n !== undefined; n = queue.shift()) {
    for (const link of site.touching(n)) {
      if (!patch.links.includes(link)) continue;
      for (const other of endsOf(link).map(nodeOf)) {
        if (node.has(other)) continue;
        node.set(other, node.get(n)! + STEP);
        queue.push(other);
      }
    }
  }
  const tanks = [...node].filter(([n]) => site.nodes.get(n)!.kind === 'tank');
  return { node, tank: new Map(tanks), cocks: site.cocks.size > 0 };
}

/** Where a drum or a pail stands that is not the cart's own tank: beyond everything else. */
const STORE = 8e4;

/** Drums and pails of a cart, with what only they lead to: a tap, a pump of their own. */
function storesOf(site: Site, patch: Patch): Map<string, number> {
  const tanks = [...patch.nodes].filter((n) => site.nodes.get(n)!.kind === 'tank');
  const main = mainTank(site);
  const out = new Map<string, number>();
  if (main === null || !patch.nodes.has(main)) return out;
  for (const tank of tanks) {
    if (tank === main) continue;
    const near = [tank];
    for (const n of near) {
      for (const link of site.touching(n)) {
        if (isConduit(link) || link.kind === 'hand_pump' || !patch.links.includes(link)) continue;
        const next = endsOf(link)
          .map(nodeOf)
          .filter((e) => e !== main && !near.includes(e));
        near.push(...next);
      }
    }
    // What leads on into the rig is part of the rig.
    const own = near.length <= STORE_MOST ? near : [tank];
    own.forEach((n, k) => out.set(n, STORE + out.size * STEP * 2 + k));
  }
  return out;
}

/** A drum, its tap, its pump and that pump's outlet are not more nodes than this. */
const STORE_MOST = 5;

/** Nodes that valves and other parts without length join, without passing a pipe. */
function tightAround(site: Site, patch: Patch, group: Group, start: string): Set<string> {
  const out = new Set([start]);
  const queue = [start];
  for (let n = queue.pop(); n !== undefined; n = queue.pop()) {
    for (const link of site.touching(n)) {
      if (!patch.links.includes(link) || isConduit(link) || link.kind === 'pump') continue;
      for (const e of endsOf(link).map(nodeOf)) {
        if (!group.nodes.has(e) || out.has(e)) continue;
        out.add(e);
        queue.push(e);
      }
    }
  }
  return out;
}

/** Parts at the tank that a pipe leads to from the discharge side stand on the return side. */
function returnNodes(site: Site, patch: Patch, group: Group): Map<string, number> {
  const out = new Map<string, number>();
  const ends = new Set([...group.into, ...group.outOf].flatMap((p) => endsOf(p).map(nodeOf)));
  const anchors = [...group.nodes].filter((n) =>
    site.touching(n).some((l) => endsOf(l).some((e) => group.tanks.has(nodeOf(e)))),
  );
  for (const start of anchors) {
    const tight = tightAround(site, patch, group, start);
    const outside = [...tight].some(
      (n) => ends.has(n) || site.touching(n).some((l) => !patch.links.includes(l)),
    );
    if (outside || out.has(start)) continue;
    const own: Group = { ...group, nodes: tight };
    const steps = stepsFrom(site, patch, own, [start]);
    for (const n of tight) out.set(n, -6 - STEP * (steps.get(n) ?? 0));
  }
  return out;
}

export function nodeOrders(site: Site, zones: Zones, patch: Patch): Orders {
  if (patch.place !== 'cart') return simple(site, zones, patch);
  const of = groupsOf(site, zones, patch);
  const groups = new Set(of.values());
  const levels = pumpLevels(groups);
  const node = new Map<string, number>();
  for (const group of groups) {
    const { base, sign, anchors } = settle(site, group, levels.get(group)!);
    const steps = stepsFrom(site, patch, group, anchors);
    const back = group.outOf.size > 0 ? returnNodes(site, patch, group) : new Map<string, number>();
    for (const n of group.nodes) {
      node.set(n, back.get(n) ?? base + sign * (5 + STEP * (steps.get(n) ?? 30)));
    }
  }
  const tanks = [...patch.nodes].filter((n) => site.nodes.get(n)!.kind === 'tank');
  const stores = storesOf(site, patch);
  for (const [n, at] of stores) if (!tanks.includes(n)) node.set(n, at);
  return { node, tank: new Map(tanks.map((t, k) => [t, stores.get(t) ?? k])), cocks: false };
}

/** Gives every station its place; ties keep the scenario's order. */
export function orderStations(kit: Kit, orders: Orders): void {
  const sideOf = (n: string): 1 | -1 => ((orders.node.get(n) ?? 0) < 0 ? -1 : 1);
  kit.stations.forEach((s: Station, k) => {
    s.order = orderOf(s, orders, sideOf) + k * 1e-4;
  });
}

const partEnds = (s: Station): string[] => (s.link === null ? [s.node] : endsOf(s.link));

function orderOf(s: Station, orders: Orders, sideOf: (n: string) => 1 | -1): number {
  const at = (n: string): number | undefined => orders.node.get(nodeOf(n));
  const store = partEnds(s).map((e) => orders.tank.get(nodeOf(e)) ?? at(e) ?? 0);
  if (Math.max(0, ...store) >= STORE) return Math.max(...store) + STEP;
  if (s.kind === 'pump') {
    const out = at(s.link!.to) ?? 0;
    const into = at(s.link!.from) ?? 0;
    return Math.max(into + 1, Math.floor(out / BASE) * BASE - BASE + 5);
  }
  if (s.kind === 'still') {
    const ends = endsOf(s.link!).flatMap((e) => at(e) ?? []);
    const near = ends.reduce((a, b) => (Math.abs(a) < Math.abs(b) ? a : b), ends[0] ?? 0);
    const mid =
      ends.length > 1
        ? (Math.min(...ends) + Math.max(...ends)) / 2
        : near - sideOf(nodeOf(s.node)) * 5;
    const coil = s.link!.kind === 'coil' ? 5000 : 0;
    return mid + coil;
  }
  const shift = {
    dial: 1,
    meter: 2,
    hose: 3,
    riser: orders.cocks ? 6 : 3.5,
    open: 0,
    reservoir: 0,
    dot: 0.2,
    tank: 0,
  };
  return (at(s.node) ?? 0) + sideOf(s.node) * shift[s.kind];
}
