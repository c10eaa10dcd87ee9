// The buried field as unfolded trench strips: every run on a datum line of its own, true
// in height (one scale a strip) and true along. Works for any number of circuits.
import { layBands, stripY, type Band } from './bands.ts';
import { pipePath, smoothHeights, type Knot } from './path.ts';
import { stubY, widthOf, type Plan } from './plan.ts';
import { profileOf, slopeOf, type Profile, type Site } from './site.ts';
import type { Conduit, GroundMark, Point, Strip } from './types.ts';

export interface Field {
  readonly conduits: Conduit[];
  readonly strips: Strip[];
  readonly bottom: number;
}

/** Heights below the ground on the way down to a strip: the frost line keeps its place. */
function soilY(ground: GroundMark, strip: Strip, foot_m: number): (e: number) => number {
  const foot = stripY(strip, foot_m);
  return (e) => {
    if (e >= -ground.frost_m)
      return ground.cut + (-e / ground.frost_m) * (ground.frostY - ground.cut);
    return (
      ground.frostY + ((-ground.frost_m - e) / (-ground.frost_m - foot_m)) * (foot - ground.frostY)
    );
  };
}

interface Descent {
  readonly top: Point;
  readonly riserX: number;
  readonly x: number;
  readonly e0: number;
  readonly foot_m: number;
  readonly length_m: number;
  readonly y: (e: number) => number;
}

/** From the stub valve down to the strip, `s` counted from the valve. */
function descentKnots(d: Descent): Knot[] {
  const s = (e: number): number => (d.length_m * (d.e0 - e)) / (d.e0 - d.foot_m);
  const knots: Knot[] = [
    { ...d.top, s: 0 },
    { x: d.riserX, y: d.top.y, s: 0.05, r: 22 },
  ];
  if (Math.abs(d.riserX - d.x) > 4) {
    knots.push({ x: d.riserX, y: d.y(-0.25), s: s(-0.25), r: 40 });
    const e = d.foot_m * 0.8;
    knots.push({ x: d.x, y: d.y(e), s: s(e), r: 40 });
  }
  knots.push({ x: d.x, y: d.y(d.foot_m), s: d.length_m * 0.97, r: 30 });
  return knots;
}

/** Points of one run in true height and true distance, `s` rising. */
function runKnots(band: Band, strip: Strip, from: number, to: number): Knot[] {
  const at = smoothHeights(band.profile.s, band.profile.z);
  const step = 5 / strip.along;
  const n = Math.ceil((to - from) / step);
  const way = Math.sign(strip.x1 - strip.x0) * strip.along;
  return Array.from({ length: n + 1 }, (_, k) => {
    const s = from + ((to - from) * k) / n;
    const off = strip.run === 'out' ? s - band.lie.a : band.lie.b - s;
    return { x: strip.x0 + way * off, y: stripY(strip, at(s)), s };
  });
}

const BEND_m = 1;

function foldKnots(band: Band): Knot[] {
  const [out, back] = band.strips;
  const at = smoothHeights(band.profile.s, band.profile.z);
  const z = at(band.lie.fold);
  const x = out.x1 + Math.sign(out.x1 - out.x0) * 26;
  const r = Math.min(60, (stripY(back, z) - stripY(out, z)) / 2);
  return [
    { x, y: stripY(out, z), s: band.lie.fold - BEND_m * 0.4, r },
    { x, y: stripY(back, z), s: band.lie.fold + BEND_m * 0.4, r },
  ];
}

/** End of a circuit on a header below the ground, where it does not rise to a stub itself. */
function headKnots(band: Band, strip: Strip, x: number, node: Point | undefined): Knot[] {
  const y = stripY(strip, strip.run === 'out' ? band.profile.z[0]! : band.profile.z.at(-1)!);
  const s = strip.run === 'out' ? 0 : band.link.length_m;
  if (node === undefined || Math.abs(node.y - y) < 4) return [{ x, y, s }];
  const near = strip.run === 'out' ? 0.1 : band.link.length_m - 0.1;
  return [
    { ...node, s },
    { x, y, s: near, r: 16 },
  ];
}

/** Draws the field; `ground.cut` is where the soil starts. */
export function layField(site: Site, plan: Plan, ground: GroundMark): Field {
  const { bands, bottom } = layBands(site, plan, ground.frostY + plan.field.gap + 14);
  const heads = new Map<string, Point>();
  const conduits = bands.map((band): Conduit => {
    const knots = circuitKnots(plan, { band, ground, heads });
    const slope = slopeOf(band.profile);
    return {
      id: band.link.id,
      kind: band.link.kind,
      clear: band.link.clear,
      side: 'supply',
      width: widthOf(plan, band.link.bore_mm),
      length_m: band.link.length_m,
      points: pipePath(knots, 5, slope),
      inTank: false,
    };
  });
  conduits.push(...headerPipes(site, plan, { ground, heads }));
  return { conduits, strips: bands.flatMap((b) => [...b.strips]), bottom };
}

interface Ends {
  readonly band: Band;
  readonly ground: GroundMark;
  readonly heads: Map<string, Point>;
}

function circuitKnots(plan: Plan, ends: Ends): Knot[] {
  const { band, ground, heads } = ends;
  const { link, lie, profile, cell, strips } = band;
  const [out, back] = strips;
  const L = link.length_m;
  const turn = BEND_m;
  const middle = [
    ...runKnots(band, out, lie.a, lie.fold - turn),
    ...foldKnots(band),
    ...runKnots(band, back, lie.fold + turn, lie.b),
  ];
  const head = (strip: Strip, x: number, node: string): Knot[] => {
    const knots = headKnots(band, strip, x, heads.get(node));
    if (!heads.has(node)) heads.set(node, { x: knots[0]!.x, y: knots[0]!.y });
    return knots;
  };
  const half = plan.control * 0.38 * (plan.shape === 'wide' ? 1 : -1);
  const start =
    lie.a > 0
      ? descentKnots({
          top: { x: plan.x.supplyValve + half, y: stubY(plan, profile.z[0]!) },
          riserX: plan.x.supplyRiser,
          x: cell.supplyX,
          e0: profile.z[0]!,
          foot_m: heightAtEnd(profile, lie.a),
          length_m: lie.a,
          y: soilY(ground, out, heightAtEnd(profile, lie.a)),
        })
      : head(out, cell.supplyX, link.from);
  const end =
    lie.b < L
      ? descentKnots({
          top: { x: plan.x.returnStub + half, y: stubY(plan, profile.z.at(-1)!) },
          riserX: plan.x.returnRiser,
          x: cell.returnX,
          e0: profile.z.at(-1)!,
          foot_m: heightAtEnd(profile, lie.b),
          length_m: L - lie.b,
          y: soilY(ground, back, heightAtEnd(profile, lie.b)),
        }).map((k) => ({ ...k, s: L - k.s }))
      : head(back, cell.returnX, link.to);
  return [...start, ...middle, ...end.reverse()];
}

function heightAtEnd(profile: Profile, s: number): number {
  return profile.z[profile.s.indexOf(s)]!;
}

/** Header pipes between circuits: any pipe whose both ends stand in the field or at a stub. */
function headerPipes(site: Site, plan: Plan, ends: Omit<Ends, 'band'>): Conduit[] {
  const { heads } = ends;
  const circuits = new Set(site.drawing.field.circuits);
  const stub = (valve: string | null, x: number, end: 'from' | 'to'): void => {
    const link = valve === null ? undefined : site.link(valve);
    if (link === undefined || heads.has(link[end])) return;
    heads.set(link[end], { x, y: stubY(plan, site.heightOf(link[end])) });
  };
  stub(site.role('loop_supply_valve'), plan.x.supplyRiser, 'to');
  stub(site.role('loop_return_valve'), plan.x.returnRiser, 'from');
  const out: Conduit[] = [];
  for (const link of site.scenario.links) {
    if ((link.kind !== 'pipe' && link.kind !== 'hose') || circuits.has(link.id)) continue;
    const a = heads.get(link.from);
    const b = heads.get(link.to);
    if (a === undefined || b === undefined) continue;
    const profile = profileOf(site, link);
    const knots: Knot[] = [
      { ...a, s: 0 },
      { x: a.x, y: b.y, s: link.length_m / 2, r: 14 },
      { ...b, s: link.length_m },
    ];
    out.push({
      id: link.id,
      kind: link.kind,
      clear: link.clear,
      side: 'supply',
      width: widthOf(plan, link.bore_mm),
      length_m: link.length_m,
      points: pipePath(knots, 5, slopeOf(profile)),
      inTank: false,
    });
  }
  return out;
}
