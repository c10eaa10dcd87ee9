// The sheet everything is drawn on: collects pipes, parts and placed controls from the field and
// from the patches above it, and keeps where each node came to stand.
import { slopeOf, type ConduitLink, type Link, type Site } from './graph.ts';
import { pipePath, type Knot } from './path.ts';
import { widthOf, type Plan } from './plan.ts';
import type { Line } from './trace.ts';
import type {
  Box,
  Conduit,
  CouplerMark,
  DialMark,
  Fitting,
  HoseEnd,
  JointMark,
  KitMark,
  OutletMark,
  PartKind,
  PartMark,
  PathPoint,
  Placed,
  PlacedKind,
  Point,
  PumpMark,
  RiserEnd,
  Side,
  SpoutMark,
  TankMark,
  ValveMark,
} from './types.ts';

/** Drawn length of a piece of a pipe's path. */
const STEP = 5;

const READS: ReadonlySet<PlacedKind> = new Set(['gauge', 'meter', 'sight', 'note', 'held']);

/** Instruments are named by what they tell, everything else as a part. */
export function nameKey(id: string, instrument: boolean): string {
  return `${instrument ? 'reading' : 'part'}.${id}`;
}

export const about = (at: Point, w: number, h = w): Box => ({
  x: at.x - w / 2,
  y: at.y - h / 2,
  w,
  h,
});

interface PipeLook {
  readonly slim?: number;
  readonly inTank?: boolean;
  readonly rings?: number;
}

export class Sheet {
  readonly site: Site;
  readonly plan: Plan;
  readonly placed: Placed[] = [];
  readonly conduits: Conduit[] = [];
  readonly fittings: Fitting[] = [];
  readonly valves: ValveMark[] = [];
  readonly parts: PartMark[] = [];
  readonly dials: DialMark[] = [];
  readonly kit: KitMark[] = [];
  readonly pumps: PumpMark[] = [];
  readonly tanks: TankMark[] = [];
  readonly outlets: OutletMark[] = [];
  readonly spouts: SpoutMark[] = [];
  readonly couplers: CouplerMark[] = [];
  readonly joints: JointMark[] = [];
  /** Ground lines of benches below the cart, from above. */
  readonly benches: number[] = [];
  /** Ends of hoses across the yard, by link and node; tops of pipes into the field, by node. */
  readonly hoseEnds = new Map<string, HoseEnd>();
  readonly risers = new Map<string, RiserEnd>();
  /** Where a node stands: its tee, or the end of what it joins. */
  readonly at = new Map<string, Point>();
  /** Side of a link by what it carries to or from; links without entry carry supply. */
  readonly sides: ReadonlyMap<string, Side>;

  constructor(site: Site, plan: Plan, sides: ReadonlyMap<string, Side>) {
    this.site = site;
    this.plan = plan;
    this.sides = sides;
  }

  place(id: string, kind: PlacedKind, box: Box): void {
    this.placed.push({ id, kind, labelKey: nameKey(id, READS.has(kind)), ...box });
  }

  /** A stretch of plain pipe whose inside is not shown. */
  piece(line: Line, bore_mm: number, slim = 1): void {
    if (line.length < 2) return;
    this.fittings.push({ points: [...line], width: widthOf(this.plan, bore_mm) * slim });
  }

  /** A pipe along knots whose `s` runs from its `from` to its `to`. */
  pipe(link: ConduitLink, knots: readonly Knot[], how: PipeLook): void {
    const points = pipePath(knots, STEP, slopeOf(this.site.profile(link)));
    this.pipeOf(link, points, how);
  }

  pipeOf(
    link: ConduitLink,
    points: readonly PathPoint[],
    how: PipeLook & { share?: readonly [number, number] },
  ): void {
    this.conduits.push({
      id: link.id,
      kind: link.kind,
      clear: link.clear,
      side: this.sides.get(link.id) ?? 'supply',
      width: Math.max(4, widthOf(this.plan, link.bore_mm) * (how.slim ?? 1)),
      length_m: link.length_m,
      points,
      inTank: how.inTank ?? false,
      ...(how.share === undefined ? {} : { share: how.share }),
      ...(how.rings === undefined ? {} : { rings: how.rings }),
    });
  }

  /** A part without length in the middle of a straight, with the room it takes there. */
  station(link: Exclude<Link, ConduitLink>, at: Point, way: PartMark['way']): void {
    const { plan } = this;
    const width = widthOf(plan, link.bore_mm);
    const upright = way === 'up' || way === 'down';
    if (link.kind === 'valve') {
      this.valves.push({ id: link.id, ...at, size: plan.control * 0.76, width, upright });
      this.place(link.id, 'valve', about(at, plan.control));
      return;
    }
    const size = plan.control * (link.kind === 'coupling' ? 0.6 : 0.7);
    const kind = link.kind === 'pump' || link.kind === 'three_way' ? 'fixed_flow' : link.kind;
    this.parts.push({ id: link.id, kind: kind satisfies PartKind, ...at, size, width, way });
    if (link.kind === 'coupling' || link.kind === 'hand_pump')
      this.place(link.id, link.kind, about(at, plan.control));
  }

  /** Drawn pipes of a kind of link, for reading their path. */
  drawn(id: string): Conduit | undefined {
    return this.conduits.find((c) => c.id === id);
  }
}
