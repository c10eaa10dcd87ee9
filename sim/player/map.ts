// What is what on a rig, worked out from the drawing: which valves stand before the pump, which
// let water in, which ways lead round through the loop. By searches alone, never by a name.
import { fieldsOf, type Field } from './field.ts';
import { graphOf, pathsOf, positionsOf, type Graph, type Path, type Piece } from './graph.ts';
import type { Briefing, SeenNode } from './view.ts';

/** Round from the pump through a field and back to the tank, or out to the waste. */
export interface Way {
  /** True from where the field's pipes begin to where they end. */
  readonly forth: boolean;
  readonly out: Path;
  readonly back: Path;
  /** Handles on it, and where each stands; then those beside it that have to be shut. */
  readonly open: ReadonlyMap<string, number>;
  readonly shut: readonly string[];
  /** m3 of hoses and pipes outside the field. */
  readonly volume: number;
  /** Sights on the way back, flow meters on any of it. */
  readonly sights: readonly string[];
  readonly meters: readonly string[];
  /** Couplings that have to be made for it. */
  readonly couplings: readonly string[];
  /** Clear pipes on the way back. */
  readonly clear: readonly { readonly id: string; readonly area: number }[];
}

export interface Rig {
  readonly briefing: Briefing;
  /** True where the job is to fill and purge: it is about air, and asks for nothing on the way. */
  readonly toPurge: boolean;
  readonly graph: Graph;
  readonly pump: string;
  readonly casing: string;
  readonly pumpOut: string;
  readonly tank: SeenNode;
  /** Height over the tank's floor at which the pump draws, m. */
  readonly outlet: number;
  /** Valves between tank and pump. */
  readonly suction: readonly string[];
  /** Those that let water into the tank, and into the casing; the last before it comes last. */
  readonly fill: readonly string[];
  readonly prime: readonly string[];
  /** The buried part, and the machine's where there is one. */
  readonly field: Field;
  readonly unit: Field | null;
  /** Ways back to the tank through the field, forth first. */
  readonly ways: readonly Way[];
  readonly level: string | null;
  readonly note: string | null;
  /** Clear hose before the pump. */
  readonly suctionSight: string | null;
}

export function rigOf(briefing: Briefing): Rig {
  const graph = graphOf(briefing);
  const fields = fieldsOf(graph, briefing.loop);
  const hasCoil = (f: Field): boolean => f.pieces.some(({ link }) => link.kind === 'coil');
  const unit = fields.find(hasCoil) ?? null;
  const field = [...fields].filter((f) => f !== unit).sort((x, y) => y.volume - x.volume)[0]!;
  const kindOf = new Map(briefing.nodes.map((node) => [node.id, node.kind]));
  const is = (kind: string) => (node: string) => kindOf.get(node) === kind;
  const cart = cartPump(graph, { field, briefing }, is);
  const { pump, casing, pumpOut, suction } = cart;
  const tank = briefing.nodes.find(({ id }) => id === cart.tank)!;
  const mains = briefing.nodes.filter(({ kind }) => kind === 'reservoir').map(({ id }) => id);
  const supply = (to: string, never: string): readonly string[] =>
    mains
      .flatMap((from) =>
        pathsOf(graph, {
          from,
          to: (node) => node === to,
          not: (node) => node === never || field.nodes.has(node),
        }),
      )
      .slice(0, 1)
      .flatMap((path) => [...positionsOf(path.pieces).keys()]);
  const instrument = (kind: string, at: (id: string) => boolean): string | null =>
    briefing.instruments.find((i) => i.kind === kind && i.at.some(at))?.id ?? null;
  const before = new Set(suction.pieces.map(({ link }) => link.id));
  const fill = supply(tank.id, casing);
  const base = { briefing, graph, pump, casing, pumpOut, tank, field };
  const { asked, aims } = briefing;
  return {
    ...base,
    toPurge: asked.length === 0 && aims.some(({ kind }) => kind === 'air'),
    suction: [...positionsOf(suction.pieces).keys()],
    fill,
    prime: supply(casing, tank.id),
    unit,
    outlet: cart.outlet,
    ways: [true, false].flatMap(
      (forth) => waysOf(base, field, 'tank').find((way) => way.forth === forth) ?? [],
    ),
    level: instrument('level', (id) => id === tank.id),
    note: instrument('note', (id) => id === pump),
    suctionSight: instrument('sight', (id) => before.has(id)),
  };
}

interface Cart {
  readonly pump: string;
  readonly casing: string;
  readonly pumpOut: string;
  readonly tank: string;
  readonly suction: Path;
  readonly outlet: number;
}

/** The pump that draws from a tank and pushes to the field. */
function cartPump(
  graph: Graph,
  { field, briefing }: { field: Field; briefing: Briefing },
  is: (kind: string) => (node: string) => boolean,
): Cart {
  const heights = new Map(briefing.nodes.map(({ id, ports }) => [id, ports]));
  /** Where a way begins at a tank: water is drawn from low down, never by the way it is filled. */
  const lowest = ({ nodes, pieces }: Path): number => {
    const { ends, ports } = pieces.at(-1)!.link;
    return heights.get(nodes.at(-1)!)?.[ports[ends.indexOf(nodes.at(-1)!)] ?? ''] ?? Infinity;
  };
  for (const { link, a, b } of graph.pieces) {
    if (link.kind !== 'pump' || field.nodes.has(a)) continue;
    // Against the stream: a check valve before it lets towards the pump only.
    const [suction] = backwards(graph, a, is('tank')).sort((x, y) => lowest(x) - lowest(y));
    if (suction === undefined) continue;
    const pushes = pathsOf(graph, {
      from: b,
      to: (node) => field.nodes.has(node),
      not: (node) => is('tank')(node) || node === a,
    });
    if (pushes.length === 0) continue;
    const tank = suction.nodes.at(-1)!;
    const outlet = lowest(suction);
    return { pump: link.id, casing: a, pumpOut: b, tank, suction, outlet };
  }
  throw new Error('no pump of a cart on this drawing');
}

/** Ways from where something comes to a node, gone through against the stream. */
function backwards(graph: Graph, from: string, to: (node: string) => boolean): Path[] {
  const turned = graph.pieces.map((p) => (p.oneWay ? { ...p, a: p.b, b: p.a } : p));
  const at = new Map<string, Piece[]>();
  for (const piece of turned) {
    for (const node of [piece.a, piece.b]) at.set(node, [...(at.get(node) ?? []), piece]);
  }
  const pump = (kind: string): boolean => kind === 'pump' || kind === 'hand_pump';
  return pathsOf({ pieces: turned, at }, { from, to, not: (_node, { link }) => pump(link.kind) });
}

type Base = Pick<Rig, 'briefing' | 'graph' | 'pump' | 'casing' | 'pumpOut' | 'tank'>;

/** Ways through a field back to the tank, or out to the waste; forth first, the shortest first. */
export function waysOf(rig: Base, field: Field, end: 'tank' | 'waste'): Way[] {
  return [true, false].flatMap((forth) => {
    const [inAt, outAt] = forth ? [field.start, field.end] : [field.end, field.start];
    return waysBetween(rig, field, { forth, inAt, outAt, end });
  });
}

interface Ends {
  readonly forth: boolean;
  readonly inAt: string;
  readonly outAt: string;
  readonly end: 'tank' | 'waste';
}

function waysBetween(rig: Base, field: Field, { forth, inAt, outAt, end }: Ends): Way[] {
  const { graph, casing, pumpOut, tank, briefing } = rig;
  const inner = new Set(field.pieces.map(({ link }) => link));
  const kindOf = new Map(briefing.nodes.map((node) => [node.id, node]));
  const isEnd = (node: string): boolean =>
    end === 'tank' ? node === tank.id : kindOf.get(node)?.goes_to === 'waste';
  const closed = (node: string, link: { id: string }, mine: string): boolean => {
    if (inner.has(link as never) || node === casing) return true;
    if (node === mine) return false;
    if (briefing.loop.includes(link.id)) return true;
    const kind = kindOf.get(node)?.kind;
    return field.nodes.has(node) || (kind !== 'junction' && !isEnd(node));
  };
  const outs = pathsOf(graph, {
    from: pumpOut,
    to: (node) => node === inAt,
    not: (node, { link }) => node === tank.id || closed(node, link, inAt),
  });
  const backs = pathsOf(graph, {
    from: outAt,
    to: isEnd,
    not: (node, { link }) => node === pumpOut || closed(node, link, ''),
  });
  const pairs = outs.flatMap((out) =>
    backs
      .filter((back) => apart(out, back))
      .map((back) => ({ out, back, parts: out.pieces.length + back.pieces.length })),
  );
  pairs.sort((x, y) => x.parts - y.parts);
  return pairs.map((pair) => ({ forth, ...pair, ...besides(rig, field, pair) }));
}

/** No node and no handle on both. */
function apart(out: Path, back: Path): boolean {
  const links = new Set(out.pieces.map(({ link }) => link));
  return (
    !back.nodes.some((node) => out.nodes.includes(node)) &&
    !back.pieces.some(({ link }) => links.has(link))
  );
}

function besides(
  { graph, briefing, pumpOut }: Base,
  field: Field,
  { out, back }: { out: Path; back: Path },
): Omit<Way, 'forth' | 'out' | 'back'> {
  const pieces = [...out.pieces, ...back.pieces];
  const open = positionsOf(pieces);
  const on = new Set(pieces.map(({ link }) => link.id));
  const nodes = [pumpOut, ...out.nodes, ...back.nodes.slice(0, -1)];
  const shut = nodes
    .flatMap((node) => graph.at.get(node) ?? [])
    .filter(({ link }) => link.kind === 'valve' && !on.has(link.id))
    .filter((piece) => !field.pieces.includes(piece))
    .map(({ link }) => link.id);
  const behind = back.pieces.map(({ link }) => link);
  const at = (kind: string, links: ReadonlySet<string>): string[] =>
    briefing.instruments
      .filter((i) => i.kind === kind && i.at.some((id) => links.has(id)))
      .map(({ id }) => id);
  return {
    open,
    shut: [...new Set(shut)],
    volume: pieces.reduce((sum, { link: l }) => sum + 0.7854 * l.bore_m * l.bore_m * l.length_m, 0),
    sights: at('sight', new Set(behind.map(({ id }) => id))),
    meters: at('flow', on),
    couplings: pieces.flatMap(({ link }) => (link.kind === 'coupling' ? [link.id] : [])),
    clear: behind
      .filter(({ clear }) => clear)
      .map(({ id, bore_m }) => ({ id, area: 0.7854 * bore_m * bore_m })),
  };
}
