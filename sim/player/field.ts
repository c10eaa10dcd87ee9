// A buried part between two ports, cut into headers and circuits: chains of pipe without a fork,
// of which the short ones make two trees, one at each port, and the others join the two.
import { abs } from '../base/math.ts';
import { volumeOf, type Graph, type Piece } from './graph.ts';
import type { SeenLink } from './view.ts';

export interface Chain {
  readonly links: readonly SeenLink[];
  /** Handles along it. */
  readonly valves: readonly string[];
  readonly a: string;
  readonly b: string;
  readonly length_m: number;
  readonly volume: number;
}

export interface Field {
  readonly nodes: ReadonlySet<string>;
  readonly pieces: readonly Piece[];
  /** Where the rest is joined to it: where its pipes begin, and where they end. */
  readonly start: string;
  readonly end: string;
  /** From the one farthest from the start. */
  readonly circuits: readonly Chain[];
  readonly headers: readonly Chain[];
  readonly volume: number;
}

class Sets {
  private readonly up = new Map<string, string>();
  find(x: string): string {
    let at = x;
    for (let next = this.up.get(at); next !== undefined; next = this.up.get(at)) at = next;
    return at;
  }
  join(x: string, y: string): void {
    const [a, b] = [this.find(x), this.find(y)];
    if (a !== b) this.up.set(a, b);
  }
}

/** Fittings that belong to what lies on both their sides. */
const INNER: readonly string[] = ['coil', 'filter', 'check_valve', 'pump'];

/** The parts of the loop that hang together without a three-way valve or a valve to a hose. */
export function fieldsOf(graph: Graph, loop: readonly string[]): Field[] {
  const sets = new Sets();
  const nodes = new Set<string>();
  const own = new Set<Piece>();
  const take = (piece: Piece): void => {
    own.add(piece);
    nodes.add(piece.a).add(piece.b);
    sets.join(piece.a, piece.b);
  };
  for (const piece of graph.pieces) if (loop.includes(piece.link.id)) take(piece);
  for (let grew = true; grew;) {
    grew = false;
    for (const piece of graph.pieces) {
      if (own.has(piece)) continue;
      const touches = [piece.a, piece.b].filter((node) => nodes.has(node)).length;
      const inner = INNER.includes(piece.link.kind) && touches > 0;
      if (!inner && !(piece.link.kind === 'valve' && touches === 2)) continue;
      take(piece);
      grew = true;
    }
  }
  const roots = [...new Set([...nodes].map((node) => sets.find(node)))];
  return roots.flatMap((root) => {
    const mine = new Set([...nodes].filter((node) => sets.find(node) === root));
    return fieldOf(
      graph,
      mine,
      [...own].filter(({ a }) => mine.has(a)),
    );
  });
}

/** Leads out of it, and round back into it elsewhere: no vent, drain, vessel or hand pump does. */
function isPort(graph: Graph, node: string, nodes: ReadonlySet<string>): boolean {
  const seen = new Set([node]);
  const open = [node];
  for (const here of open) {
    for (const { link, a, b } of graph.at.get(here) ?? []) {
      const far = a === here ? b : a;
      if (link.kind === 'hand_pump' || seen.has(far)) continue;
      if (here === node && nodes.has(far)) continue;
      if (nodes.has(far)) return true;
      seen.add(far);
      open.push(far);
    }
  }
  return false;
}

function fieldOf(graph: Graph, nodes: ReadonlySet<string>, own: readonly Piece[]): Field[] {
  const ports = [...nodes].filter((node) => isPort(graph, node, nodes));
  if (ports.length !== 2) return [];
  const chains = chainsOf(own, ports);
  const [start, end] = directed(chains, ports as [string, string]);
  const sets = new Sets();
  const circuits: Chain[] = [];
  const headers: Chain[] = [];
  for (const chain of [...chains].sort((x, y) => x.length_m - y.length_m)) {
    const [a, b, p, q] = [chain.a, chain.b, start, end].map((node) => sets.find(node));
    const joins = (a === p && b === q) || (a === q && b === p);
    if (a === b || joins) circuits.push(chain);
    else {
      headers.push(chain);
      sets.join(chain.a, chain.b);
    }
  }
  const far = distances(headers, start);
  const farOf = ({ a, b }: Chain): number => far.get(a) ?? far.get(b) ?? 0;
  const order = new Map(chains.map((chain, at) => [chain, at]));
  circuits.sort((x, y) => farOf(y) - farOf(x) || order.get(x)! - order.get(y)!);
  const volume = volumeOf(own.map(({ link }) => link));
  return [{ nodes, pieces: own, start, end, circuits, headers, volume }];
}

/** Runs of parts between ports and forks. */
function chainsOf(own: readonly Piece[], ports: readonly string[]): Chain[] {
  const at = new Map<string, Piece[]>();
  for (const piece of own) {
    for (const node of [piece.a, piece.b]) at.set(node, [...(at.get(node) ?? []), piece]);
  }
  const isEnd = (node: string): boolean => ports.includes(node) || at.get(node)!.length !== 2;
  const seen = new Set<Piece>();
  const chains: Chain[] = [];
  for (const [first, pieces] of at) {
    if (!isEnd(first)) continue;
    for (const begin of pieces) {
      if (seen.has(begin)) continue;
      const run: Piece[] = [];
      let node = first;
      for (let piece: Piece | undefined = begin; piece !== undefined;) {
        seen.add(piece);
        run.push(piece);
        node = piece.a === node ? piece.b : piece.a;
        const here: string = node;
        piece = isEnd(here) ? undefined : at.get(here)!.find((p) => !seen.has(p));
      }
      chains.push(chainOf(run, first, node));
    }
  }
  return chains;
}

function chainOf(run: readonly Piece[], a: string, b: string): Chain {
  const links = run.map(({ link }) => link);
  const valves = run.flatMap(({ link, deg }) => (deg === null ? [] : [link.id]));
  const length_m = links.reduce((sum, link) => sum + link.length_m, 0);
  // As it was drawn: the longest pipe says where it begins.
  const longest = [...run].sort((x, y) => y.link.length_m - x.link.length_m)[0]!;
  const at = run.indexOf(longest);
  const entered = at === 0 ? a : [run[at - 1]!.a, run[at - 1]!.b].find((n) => touches(longest, n));
  const along = entered === longest.a;
  const ends = along ? { a, b } : { a: b, b: a };
  return { links, valves, ...ends, length_m, volume: volumeOf(links) };
}

const touches = ({ a, b }: Piece, node: string): boolean => a === node || b === node;

/** Ports in the order in which the longest chain is drawn. */
function directed(chains: readonly Chain[], [p, q]: [string, string]): [string, string] {
  const longest = [...chains].sort((x, y) => y.length_m - x.length_m)[0]!;
  const others = chains.filter((chain) => chain.length_m < longest.length_m / 2);
  const far = distances(others, longest.a);
  const toP = longest.a === p ? 0 : (far.get(p) ?? Infinity);
  const toQ = longest.a === q ? 0 : (far.get(q) ?? Infinity);
  return toP <= toQ ? [p, q] : [q, p];
}

/** m along headers from a node. */
function distances(chains: readonly Chain[], from: string): Map<string, number> {
  const far = new Map([[from, 0]]);
  for (let k = 0; k < chains.length; k++) {
    for (const { a, b, length_m } of chains) {
      for (const [x, y] of [
        [a, b],
        [b, a],
      ] as const) {
        const here = far.get(x);
        if (here === undefined) continue;
        const there = here + abs(length_m) + 0.001;
        if (there < (far.get(y) ?? Infinity)) far.set(y, there);
      }
    }
  }
  return far;
}

/** What is cut off by each part that was asked for: a drawing stays as it is. */
const known = new WeakMap<Field, Map<string, ReadonlySet<Chain>>>();

/** Circuits that get no water when a part of the field lets none through. */
export function cutOff(field: Field, part: string): ReadonlySet<Chain> {
  const parts = known.get(field) ?? new Map<string, ReadonlySet<Chain>>();
  const off = parts.get(part) ?? without(field, part);
  known.set(field, parts.set(part, off));
  return off;
}

function without(field: Field, part: string): ReadonlySet<Chain> {
  const headers = field.headers.filter(({ links }) => links.every(({ id }) => id !== part));
  const reached = [field.start, field.end].map((port) => distances(headers, port));
  return new Set(
    field.circuits.filter(({ a, b, links }) => {
      if (links.some(({ id }) => id === part)) return true;
      return !reached.some((far) => far.has(a)) || !reached.some((far) => far.has(b));
    }),
  );
}
