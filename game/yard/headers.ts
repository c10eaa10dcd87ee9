// Reads the buried field: which pipes are circuits, and the two header trees that feed and
// collect them. Which side a node is on follows from a network of resistances between the ends
// that go down and those that come up, so it needs no names and no order in the file.
import { across, endsOf, isConduit, nodeOf, type Link, type Site } from './graph.ts';
import type { Zones } from './zones.ts';

/** A run of links walked one after the other; `forward` where walked from its `from`. */
export interface Walked {
  readonly link: Link;
  readonly forward: boolean;
}
export interface Chain {
  readonly a: string;
  readonly b: string;
  readonly links: readonly Walked[];
}

/** A field, or a part of one that hangs together below the ground. */
export interface FieldPart {
  readonly nodes: ReadonlySet<string>;
  /** Chains between joints: nodes where more than two links meet, or where the field ends. */
  readonly chains: readonly Chain[];
  /** Ends above the ground: where flow goes down, and where it comes up. */
  readonly down: readonly string[];
  readonly up: readonly string[];
  /** Nodes on the supply side. */
  readonly supply: ReadonlySet<string>;
}

function partsOf(zones: Zones): Set<string>[] {
  const byNode = new Map<string, Set<string>>();
  const parts = new Set<Set<string>>();
  for (const link of zones.fieldLinks) {
    const ends = endsOf(link).map(nodeOf);
    const sets = ends.map((n) => byNode.get(n)).filter((s) => s !== undefined);
    const all = new Set([...ends, ...sets.flatMap((s) => [...s])]);
    for (const set of sets) parts.delete(set);
    for (const n of all) byNode.set(n, all);
    parts.add(all);
  }
  return [...parts];
}

/** Solves `a x = b` in place by elimination with pivots. */
function solve(a: number[][], b: number[]): number[] {
  const n = b.length;
  for (let k = 0; k < n; k++) {
    let p = k;
    for (let i = k + 1; i < n; i++) if (Math.abs(a[i]![k]!) > Math.abs(a[p]![k]!)) p = i;
    [a[k], a[p]] = [a[p]!, a[k]!];
    [b[k], b[p]] = [b[p]!, b[k]!];
    const pivot = a[k]![k]!;
    if (Math.abs(pivot) < 1e-12) continue;
    for (let i = k + 1; i < n; i++) {
      const f = a[i]![k]! / pivot;
      if (f === 0) continue;
      for (let j = k; j < n; j++) a[i]![j]! -= f * a[k]![j]!;
      b[i]! -= f * b[k]!;
    }
  }
  for (let k = n - 1; k >= 0; k--) {
    for (let j = k + 1; j < n; j++) b[k]! -= a[k]![j]! * b[j]!;
    b[k]! = Math.abs(a[k]![k]!) < 1e-12 ? 0 : b[k]! / a[k]![k]!;
  }
  return b;
}

/** Falls faster with length than a pipe's does, so that headers stand out from circuits. */
function conductance(link: Link): number {
  if (!isConduit(link)) return 1e5;
  const d = link.bore_mm / 25;
  const l = link.length_m / 100;
  return (d * d * d * d) / (l * l);
}

function levelsOf(
  nodes: readonly string[],
  links: readonly Link[],
  ends: Ends,
): Map<string, number> {
  const ix = new Map(nodes.map((n, k) => [n, k]));
  const a = nodes.map(() => nodes.map(() => 0));
  const b = nodes.map(() => 0);
  for (const link of links) {
    const g = conductance(link);
    const [i, j] = [ix.get(nodeOf(link.from))!, ix.get(nodeOf(link.to))!];
    a[i]![i]! += g;
    a[j]![j]! += g;
    a[i]![j]! -= g;
    a[j]![i]! -= g;
  }
  for (const [list, value] of [
    [ends.down, 1],
    [ends.up, 0],
  ] as const) {
    for (const n of list) {
      const k = ix.get(n)!;
      a[k]!.fill(0);
      a[k]![k] = 1;
      b[k] = value;
    }
  }
  const x = solve(a, b);
  return new Map(nodes.map((n, k) => [n, x[k]!]));
}

interface Ends {
  readonly down: string[];
  readonly up: string[];
}

/** By the way its pipe is given; where that tells nothing the first end goes down. */
function endsOfPart(site: Site, zones: Zones, nodes: ReadonlySet<string>): Ends {
  const down: string[] = [];
  const up: string[] = [];
  for (const id of nodes) {
    const links = site.touching(id);
    const inside = links.filter((l) => zones.fieldLinks.has(l));
    if (zones.fieldNodes.has(id) && inside.length === links.length) continue;
    const into = inside.some((l) => nodeOf(l.from) === id);
    (into ? down : up).push(id);
  }
  if (down.length === 0 && up.length > 0) down.push(up.shift()!);
  if (up.length === 0 && down.length > 1) up.push(down.pop()!);
  return { down, up };
}

/** Walks from `start` along `first` until a joint. */
function walk(start: string, first: Link, seen: Walk): Chain {
  const links: Walked[] = [];
  let at = start;
  let link: Link | undefined = first;
  while (link !== undefined && !seen.used.has(link)) {
    seen.used.add(link);
    links.push({ link, forward: nodeOf(link.from) === at });
    at = across(link, at);
    if (seen.joint(at)) break;
    link = seen.at(at).find((l) => !seen.used.has(l));
  }
  return { a: start, b: at, links };
}

interface Walk {
  readonly used: Set<Link>;
  readonly joint: (node: string) => boolean;
  readonly at: (node: string) => readonly Link[];
}

/** Circuits lie between the two headers, where the levels have their widest gap. */
function widestGap(levels: readonly number[]): number {
  const sorted = [...levels].sort((a, b) => a - b);
  let best = { gap: 0, middle: 0.5 };
  for (let i = 1; i < sorted.length; i++) {
    const [a, b] = [sorted[i - 1]!, sorted[i]!];
    if (b - a > best.gap) best = { gap: b - a, middle: (a + b) / 2 };
  }
  return best.middle;
}

export function fieldParts(site: Site, zones: Zones): FieldPart[] {
  return partsOf(zones).map((nodes) => {
    const at = (n: string): Link[] => site.touching(n).filter((l) => zones.fieldLinks.has(l));
    const ends = endsOfPart(site, zones, nodes);
    const outer = new Set([...ends.down, ...ends.up]);
    const joint = (n: string): boolean => outer.has(n) || at(n).length !== 2;
    const seen: Walk = { used: new Set(), joint, at };
    const chains: Chain[] = [];
    for (const n of nodes) {
      if (joint(n)) for (const l of at(n)) if (!seen.used.has(l)) chains.push(walk(n, l, seen));
    }
    const links = [...zones.fieldLinks].filter((l) => nodes.has(nodeOf(l.from)));
    const level = levelsOf([...nodes], links, ends);
    const inner = [...nodes].filter((n) => joint(n) && !outer.has(n));
    const limit = widestGap(inner.map((n) => level.get(n)!));
    const supply = new Set([...nodes].filter((n) => level.get(n)! > limit));
    return { nodes, chains, ...ends, supply };
  });
}

/** Walks a chain from its other end. */
export function turned(chain: Chain): Chain {
  const links = [...chain.links].reverse().map((w) => ({ ...w, forward: !w.forward }));
  return { a: chain.b, b: chain.a, links };
}
