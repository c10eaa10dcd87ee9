// The drawing as a graph: what joins what, through which handle in which position. Searches by
// shape alone; no part is known by its name.
import type { Briefing, SeenLink } from './view.ts';

/** One way through a part: a three-way valve has three of them. */
export interface Piece {
  readonly link: SeenLink;
  readonly a: string;
  readonly b: string;
  /** True where it passes from a to b only. */
  readonly oneWay: boolean;
  /** Degrees at which its handle lets it pass; null where it has none. */
  readonly deg: number | null;
}

export interface Graph {
  readonly pieces: readonly Piece[];
  readonly at: ReadonlyMap<string, readonly Piece[]>;
}

const ONE_WAY: readonly string[] = ['check_valve', 'pump', 'hand_pump'];

function piecesOf(link: SeenLink): Piece[] {
  const [from, to, branch] = link.ends as [string, string, string?];
  const piece = (a: string, b: string, deg: number | null): Piece => {
    return { link, a, b, oneWay: ONE_WAY.includes(link.kind), deg };
  };
  if (link.kind === 'valve') return [piece(from, to, 90)];
  if (link.kind !== 'three_way' || branch === undefined) return [piece(from, to, null)];
  // 90 shuts from, 180 the branch, 270 to.
  return [piece(from, to, 180), piece(from, branch, 270), piece(to, branch, 90)];
}

export function graphOf(briefing: Briefing): Graph {
  const pieces = briefing.links.flatMap(piecesOf);
  const at = new Map<string, Piece[]>();
  for (const piece of pieces) {
    for (const node of [piece.a, piece.b]) {
      const there = at.get(node);
      if (there === undefined) at.set(node, [piece]);
      else there.push(piece);
    }
  }
  return { pieces, at };
}

export interface Path {
  readonly nodes: readonly string[];
  readonly pieces: readonly Piece[];
}

export interface Search {
  readonly from: string;
  readonly to: (node: string) => boolean;
  /** Nodes and links that it must not use; the ends are exempt. */
  readonly not: (node: string, piece: Piece) => boolean;
}

/** Longest way looked at, in parts, and most ways kept. Rigs have a dozen parts on their way. */
const DEEPEST = 24;
const MOST = 60;

/** Ways without a node twice, the shortest first. */
export function pathsOf(graph: Graph, { from, to, not }: Search): Path[] {
  const found: Path[] = [];
  const nodes = [from];
  const pieces: Piece[] = [];
  const walk = (node: string): void => {
    if (found.length >= MOST || pieces.length > DEEPEST) return;
    if (pieces.length > 0 && to(node)) {
      found.push({ nodes: [...nodes], pieces: [...pieces] });
      return;
    }
    for (const piece of graph.at.get(node) ?? []) {
      const next = piece.a === node ? piece.b : piece.a;
      if (piece.oneWay && piece.b === node) continue;
      if (nodes.includes(next) || not(next, piece)) continue;
      if (pieces.some((p) => p.link === piece.link)) continue;
      nodes.push(next);
      pieces.push(piece);
      walk(next);
      nodes.pop();
      pieces.pop();
    }
  };
  walk(from);
  return found.sort((x, y) => x.pieces.length - y.pieces.length);
}

/** Handles on a way and where they have to stand. */
export function positionsOf(pieces: readonly Piece[]): Map<string, number> {
  const positions = new Map<string, number>();
  for (const { link, deg } of pieces) if (deg !== null) positions.set(link.id, deg);
  return positions;
}

/** m3 that pipes and hoses hold. */
export function volumeOf(links: readonly SeenLink[]): number {
  return links.reduce((sum, { bore_m, length_m }) => sum + 0.7854 * bore_m * bore_m * length_m, 0);
}
