// Joins pins: first everything that meets at a node, as plain fittings, then the pipes and hoses
// between nodes. Short ways first, so that long ones go round.
import type { Knot } from './path.ts';
import { widthOf } from './plan.ts';
import { Router, type Mouth, type Rim } from './router.ts';
import type { Sheet } from './sheet.ts';
import type { Edge } from './stations.ts';
import { gapOf, knotsOf, lineLength, tidy, type Line } from './trace.ts';
import type { Box, Point } from './types.ts';

export interface PinAt {
  readonly net: string;
  readonly at: Point;
  /** From the pin on into the part. */
  readonly inner: Line;
  readonly inTank: boolean;
}

interface Own {
  readonly width: number;
  readonly net: string;
  readonly ends: readonly string[];
}

interface Net {
  readonly pins: PinAt[];
  readonly lines: Line[];
}

/** Coarseness of the grid between the pins' own lines. */
const STEP = 18;

export class Joiner {
  private readonly sheet: Sheet;
  private readonly nets = new Map<string, Net>();
  private readonly router: Router;
  private readonly bore: (net: string) => number;

  constructor(
    sheet: Sheet,
    pins: readonly PinAt[],
    solid: readonly Box[],
    how: { bore: (net: string) => number; columns: readonly Line[]; near: readonly Rim[] },
  ) {
    this.sheet = sheet;
    this.bore = how.bore;
    for (const pin of pins) {
      const net = this.nets.get(pin.net) ?? { pins: [], lines: [] };
      net.pins.push(pin);
      this.nets.set(pin.net, net);
    }
    const x = pins.map((p) => p.at.x);
    const y = pins.map((p) => p.at.y);
    const { near } = how;
    const sides = (lo: number, size: number, by: number): number[] => [lo - by, lo + size + by];
    const moreX = [
      ...solid.flatMap((b) => [...sides(b.x, b.w, 12), b.x + b.w / 2]),
      ...near.flatMap((b) => sides(b.x, b.w, 1)),
    ];
    const moreY = [
      ...solid.flatMap((b) => [...sides(b.y, b.h, 12), b.y + b.h / 2]),
      ...near.flatMap((b) => sides(b.y, b.h, 1)),
    ];
    const rim = 8;
    const page = { left: rim, right: sheet.plan.width - rim };
    const lines = { x, y, moreX, moreY, step: STEP, near, ...page };
    this.router = new Router(lines, solid);
    for (const line of how.columns) this.router.occupy(line, 20 * sheet.plan.pipe, '');
  }

  placeOf(node: string): Point | null {
    const net = this.nets.get(node);
    return net?.lines[0]?.[0] ?? net?.pins[0]?.at ?? null;
  }

  /** Joins all pins of every net; an end that only a pipe reaches waits for that pipe. */
  joinNets(edges: readonly Edge[]): void {
    const jobs = [...this.nets].filter(([, net]) => net.pins.length > 1);
    const span = (net: Net): number => {
      const xs = net.pins.map((p) => p.at.x);
      return Math.max(...xs) - Math.min(...xs);
    };
    jobs.sort((a, b) => span(a[1]) - span(b[1]));
    for (const [id, net] of jobs) this.join(id, net);
    for (const [id, net] of this.nets) {
      if (net.pins.length === 1 && !edges.some((e) => e.a === id || e.b === id)) this.stub(id, net);
    }
  }

  /** A lone pin still shows its inner piece. */
  private stub(id: string, net: Net): void {
    const pin = net.pins[0]!;
    if (pin.inner.length > 0 && !pin.inTank)
      this.sheet.piece([pin.at, ...pin.inner], this.bore(id));
  }

  private join(id: string, net: Net): void {
    const width = widthOf(this.sheet.plan, this.bore(id));
    const left = new Set(net.pins);
    const start = net.pins.reduce((a, b) => (b.at.x < a.at.x ? b : a));
    left.delete(start);
    const tree: Mouth[] = [mouthOf(start)];
    const joined: PinAt[] = [start];
    while (left.size > 0) {
      const next = [...left].reduce((a, b) => (near(tree, b.at) < near(tree, a.at) ? b : a));
      left.delete(next);
      const line = this.way([mouthOf(next)], tree, { width, net: id, ends: [id] });
      const ends = [joined.find((p) => gapOf(p.at, line.at(-1)!) < 1), next];
      this.router.occupy(line, width, id);
      net.lines.push(line);
      tree.push(...spread(line));
      joined.push(next);
      const whole = [...[...next.inner].reverse(), ...line];
      const first = ends[0] !== undefined && !used.has(ends[0]) ? ends[0].inner : [];
      if (ends[0] !== undefined) used.add(ends[0]);
      used.add(next);
      this.sheet.piece(tidy([...whole, ...first]), this.bore(id));
    }
  }

  private way(from: readonly Mouth[], to: readonly Mouth[], own: Own): Line {
    const found = this.router.route({ from, to, ...own });
    if (found !== null && found.length > 1) return tidy(found);
    if (found !== null) return [found[0]!, { ...found[0]! }];
    const [a, b] = [from[0]!, to[0]!];
    return tidy([a, { x: b.x, y: a.y }, b]);
  }

  /** Pipes and hoses from net to net, as far from others as they can. */
  layEdges(edges: readonly Edge[], sheet: Sheet): void {
    const ends = (id: string): Mouth[] => {
      const net = this.nets.get(id);
      if (net === undefined) return [];
      return net.lines.length > 0 ? net.lines.flatMap(spread) : net.pins.map(mouthOf);
    };
    const jobs = edges
      .map((edge) => ({ edge, a: ends(edge.a), b: ends(edge.b) }))
      .filter((j) => j.a.length > 0 && j.b.length > 0)
      .sort((p, q) => near(p.a, p.b[0]!) - near(q.a, q.b[0]!));
    for (const { edge, a, b } of jobs) {
      const { link } = edge;
      const width = widthOf(sheet.plan, link.bore_mm);
      const line = this.way(a, b, {
        width,
        net: link.id,
        ends: [edge.a, edge.b],
      });
      this.router.occupy(line, width, link.id);
      const whole = tidy([
        ...this.inner(edge.a, line[0]!),
        ...line,
        ...this.inner(edge.b, line.at(-1)!).reverse(),
      ]);
      const total = lineLength(whole);
      const inTank = [edge.a, edge.b].some((n) => this.nets.get(n)!.pins.some((p) => p.inTank));
      const knots: Knot[] = knotsOf(
        whole,
        (at) => (at / (total || 1)) * link.length_m,
        18 * sheet.plan.pipe,
      );
      sheet.pipe(link, knots, { inTank });
    }
  }

  /** The piece from a part's pin inward, where the line starts at that pin and none else has it. */
  private inner(net: string, at: Point): Point[] {
    const pin = this.nets.get(net)!.pins.find((p) => gapOf(p.at, at) < 1);
    if (pin === undefined || used.has(pin)) return [];
    used.add(pin);
    return [...pin.inner].reverse();
  }
}

/** Pins whose inner piece is drawn already. */
const used = new WeakSet<PinAt>();

/** A pin with the way straight out of it. */
function mouthOf(pin: PinAt): Mouth {
  const first = pin.inner[0];
  if (first === undefined) return pin.at;
  return { ...pin.at, out: { x: pin.at.x - first.x, y: pin.at.y - first.y } };
}

const near = (tree: readonly Point[], p: Point): number =>
  Math.min(...tree.map((q) => Math.abs(q.x - p.x) + Math.abs(q.y - p.y)));

/** Corners of a line and points along its straights, where another pipe may join. */
function spread(line: Line): Point[] {
  const out: Point[] = [...line];
  for (let i = 1; i < line.length; i++) {
    const [a, b] = [line[i - 1]!, line[i]!];
    const n = Math.floor(gapOf(a, b) / 12);
    for (let k = 1; k < n; k++) {
      out.push({ x: a.x + ((b.x - a.x) * k) / n, y: a.y + ((b.y - a.y) * k) / n });
    }
  }
  return out;
}
