// The tank: what passes through its wall, what hangs over its rim, and how wide that makes it.
import { endsOf, isConduit, nodeOf, type Link, type Site } from './graph.ts';
import type { Orders } from './order.ts';
import type { Plan } from './plan.ts';
import type { Sheet } from './sheet.ts';
import { pinReach, type Kit, type Station } from './stations.ts';
import type { Patch } from './zones.ts';
import type { Point } from './types.ts';

/** A way into the tank: through the wall, or over the rim and down at `x` from its left wall. */
export interface Inlet {
  readonly net: string;
  readonly link: Link;
  readonly over: boolean;
  readonly left: boolean;
  readonly z: number;
  /** The part that stands at the foot of the pipe in the tank. */
  readonly foot: Link | null;
  readonly dx: number;
}

export interface TankStation extends Station {
  readonly inlets: readonly Inlet[];
  readonly width: number;
  readonly rim_m: number;
  readonly floor_m: number;
  readonly level: string | null;
}

interface At {
  readonly site: Site;
  readonly plan: Plan;
  readonly patch: Patch;
  readonly kit: Kit;
  readonly orders: Orders;
  readonly perMetre: number;
}

type Raw = Omit<Inlet, 'dx' | 'left'> & { readonly order: number };

function rawInlets({ site, patch, kit, orders }: At, tank: string): Raw[] {
  const node = site.nodes.get(tank)!;
  if (node.kind !== 'tank') return [];
  const rim = node.floor_m + node.height_mm / 1000;
  const out: Raw[] = [];
  for (const link of patch.links) {
    for (const end of endsOf(link)) {
      if (nodeOf(end) !== tank) continue;
      const footNode = [...kit.inTank].find(([, id]) => id === link.id)?.[0];
      const others = endsOf(link).filter((e) => e !== end);
      const z = site.heightOf(end);
      if (footNode !== undefined) {
        const hose = site.touching(footNode).find((l) => l !== link)!;
        const far = endsOf(hose)
          .map(nodeOf)
          .find((n) => n !== footNode)!;
        out.push({
          net: footNode,
          link: hose,
          over: true,
          z,
          foot: link,
          order: orders.node.get(far) ?? 0,
        });
        continue;
      }
      const top = Math.max(
        ...others.map((e) => site.heightOf(e)),
        ...(isConduit(link) ? site.profile(link).z : []),
      );
      const order = orders.node.get(nodeOf(others[0]!)) ?? 0;
      out.push({ net: end, link, over: top >= rim - 0.03, z, foot: null, order });
    }
  }
  return out.sort((a, b) => a.order - b.order);
}

interface Spread {
  readonly inlets: Inlet[];
  readonly width: number;
}

/**
 * Room across: the sight tube, pipes over the rim from the left, the area for the marker, and
 * pipes over the rim from the right. A valve on such a pipe stands beside it, so that the next
 * pipe must stand further on.
 */
function spreadOf(at: At, raw: readonly Raw[], tank: { order: number; w: number; tube: number }) {
  const { plan } = at;
  const { order, tube } = tank;
  const pitch = 40 * Math.sqrt(plan.pipe);
  const valve = 2 * pinReach(plan) + 14 * plan.pipe;
  const after = (r: Raw): number => (isConduit(r.link) ? pitch : valve);
  const lefts = raw.filter((r) => r.over && r.order < order);
  const rights = raw.filter((r) => r.over && r.order >= order);
  const span = (list: readonly Raw[], skip: 'first' | 'last'): number =>
    (skip === 'first' ? list.slice(1) : list.slice(0, -1)).reduce((sum, r) => sum + after(r), 0);
  const first = tube + 13 * plan.pipe;
  const used = lefts.length === 0 ? tube : first + span(lefts, 'first') + 14 * plan.pipe;
  const tail = rights.length === 0 ? 0 : span(rights, 'last') + pitch;
  const width = Math.max(used + Math.max(plan.control, tail) + 8, Math.min(300, tank.w));
  const start = Math.max(used + 6 * plan.pipe, width - 38 * plan.pipe - span(rights, 'last'));
  const inlets = raw.map((one): Inlet => {
    const left = one.order < order;
    if (!one.over) return { ...one, left, dx: left ? 0 : width };
    const list = left ? lefts : rights;
    const before = list.slice(0, list.indexOf(one) + 1);
    return {
      ...one,
      left,
      dx: (left ? first : start) + span(before, left ? 'first' : 'last'),
    };
  });
  return { inlets, width } satisfies Spread;
}

/** Stations of the patch's tanks, with room for a sight tube, pipes over the rim and the marker. */
export function tankStations(at: At): TankStation[] {
  const { site, plan, orders } = at;
  const wide = plan.shape === 'wide';
  return [...orders.tank].flatMap(([id, order]) => {
    const node = site.nodes.get(id)!;
    if (node.kind !== 'tank') return [];
    const level = site.scenario.instruments.find((i) => i.kind === 'level' && i.tank === id);
    const tube = level === undefined ? 20 * plan.pipe : plan.control + 4;
    const w = Math.sqrt(node.area_m2) * at.perMetre * (wide ? 1.6 : 1.3);
    const { inlets, width } = spreadOf(at, rawInlets(at, id), { order, w, tube });
    const station: TankStation = {
      id,
      kind: 'tank',
      link: null,
      instrument: null,
      order,
      z: node.floor_m + node.height_mm / 1000,
      left: width / 2 + (wide ? 38 : 3),
      right: width / 2 + (wide ? 27 : 3),
      up: -10,
      down: (node.height_mm / 1000) * at.perMetre + 8,
      foot_m: node.floor_m,
      least: plan.control + 14 * plan.pipe,
      toGround: false,
      x: 0,
      y: 0,
      ground: 0,
      yOf: (z) => -z,
      node: id,
      nets: [],
      inlets,
      width,
      rim_m: node.floor_m + node.height_mm / 1000,
      floor_m: node.floor_m,
      level: level?.id ?? null,
    };
    return [station];
  });
}

/** Where a pipe reaches the tank from outside, and where it goes from there inside. */
export function inletPins(tank: TankStation, inlet: Inlet, plan: Plan, yOf: (z: number) => number) {
  const left = tank.x - tank.width / 2;
  const floor = yOf(tank.floor_m);
  const y = floor - ((inlet.z - tank.floor_m) / (tank.rim_m - tank.floor_m)) * (floor - tank.y);
  if (!inlet.over) {
    const x = left + inlet.dx;
    const out = inlet.left ? -10 : 10;
    return { pin: { x: x + out, y }, inside: [{ x, y }] };
  }
  const x = left + inlet.dx;
  return { pin: { x, y: tank.y - 14 * plan.pipe }, inside: [{ x, y }] };
}

/** Draws the box and places its tube, its area for the marker, and the spouts over it. */
export function drawTank(sheet: Sheet, tank: TankStation, yOf: (z: number) => number): void {
  const { plan } = sheet;
  const node = sheet.site.nodes.get(tank.id)!;
  if (node.kind !== 'tank') return;
  const x = tank.x - tank.width / 2;
  const h = yOf(tank.floor_m) - tank.y;
  const tubeX = x + plan.control / 2 + 2;
  sheet.tanks.push({
    id: tank.id,
    x,
    y: tank.y,
    w: tank.width,
    h,
    height_m: node.height_mm / 1000,
    tubeX,
    level: tank.level,
  });
  const inner = 6 * plan.pipe;
  if (tank.level !== null) {
    const w = plan.control;
    sheet.place(tank.level, 'gauge', { x: tubeX - w / 2, y: tank.y + inner, w, h: h - 2 * inner });
  }
  const lefts = tank.inlets.filter((i) => i.over && i.left).map((i) => i.dx + 14 * plan.pipe);
  const from = Math.max(tank.level === null ? inner : plan.control + 4, ...lefts);
  const w = Math.max(plan.control, tank.width - inner - from);
  const area = { x: x + tank.width - inner - w, y: tank.y + inner, w, h: h - 2 * inner };
  sheet.place(tank.id, 'tank', area);
  for (const inlet of tank.inlets) {
    const { inside } = inletPins(tank, inlet, plan, yOf);
    if (inlet.over && inlet.foot === null) {
      sheet.spouts.push({ valve: inlet.link.id, tank: tank.id, ...inside[0]! });
    }
    if (inlet.foot !== null) drawFoot(sheet, inlet.foot, inside[0]!);
  }
}

function drawFoot(sheet: Sheet, link: Link, at: Point): void {
  if (isConduit(link)) return;
  const { plan } = sheet;
  const width = 14 * plan.pipe;
  const kind = link.kind === 'filter' ? 'filter' : 'check_valve';
  sheet.parts.push({ id: link.id, kind, ...at, size: plan.control * 0.42, width, way: 'up' });
}
