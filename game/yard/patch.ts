// Draws a patch: packs its stations across the page, joins what meets at a node, and leads its
// pipes from node to node, all at right angles and at true height.
import { endsOf, isConduit, nodeOf, type Site } from './graph.ts';
import { nodeOrders, orderStations } from './order.ts';
import { pack } from './pack.ts';
import type { Rim } from './router.ts';
import { Joiner, type PinAt } from './joiner.ts';
import { drawStation } from './draw-station.ts';
import { widthOf, type Plan } from './plan.ts';
import type { Sheet } from './sheet.ts';
import type { Field1, Heights } from './squeeze.ts';
import {
  dropsStraight,
  kitOf,
  motorReach,
  pinReach,
  pumpRadius,
  type Edge,
  type Kit,
  type Station,
} from './stations.ts';
import { drawTank, inletPins, tankStations, type TankStation } from './tanks.ts';
import type { Line } from './trace.ts';
import type { Box, Point } from './types.ts';
import type { Patch, Zones } from './zones.ts';

/** A patch ready to be packed: alone, or side by side with others in one band. */
export interface Ready {
  readonly patch: Patch;
  readonly kit: Kit;
  readonly tanks: readonly TankStation[];
  readonly stations: readonly Station[];
  /** True in a yard with a plant room: all that a whole day needs stands about. */
  readonly day: boolean;
}

export function readyPatch(
  zones: Zones,
  patch: Patch,
  at: { site: Site; plan: Plan; perMetre: number; shift: number },
): Ready {
  const { site, plan, perMetre } = at;
  const kit = kitOf(site, plan, zones, patch);
  const orders = nodeOrders(site, zones, patch);
  orderStations(kit, orders);
  const tanks = tankStations({ site, plan, patch, kit, orders, perMetre });
  const stations = [...kit.stations, ...tanks];
  for (const s of stations) s.order += at.shift;
  return { patch, kit, tanks, stations, day: zones.led };
}

const isTank = (s: Station): s is TankStation => s.kind === 'tank';

/** Keeps pipes off the corners of a three-way valve; its three ends stay free. */
function corners(at: Point, half: number): Box[] {
  const more = 5;
  const w = half + more - 8;
  return [-1, 1].flatMap((p) =>
    [-1, 1].map((q) => ({
      x: at.x + (p < 0 ? -half - more : 8),
      y: at.y + (q < 0 ? -half - more : 8),
      ...{ w, h: w },
    })),
  );
}

/** What routes may not pass through. */
function solidOf(list: readonly Station[], plan: Plan, inside: boolean): Box[] {
  const pad = 4;
  return list.flatMap((s): Box[] => {
    const whole = {
      x: s.x - s.left - pad,
      y: s.y - s.up - pad,
      w: s.left + s.right + 2 * pad,
      h: s.up + s.down + 2 * pad,
    };
    switch (s.kind) {
      case 'dot':
        return [];
      case 'hose':
      case 'riser':
      case 'reservoir':
        return [];
      case 'still': {
        if (s.link?.kind === 'coil') return [whole];
        if (s.link?.kind === 'filter') {
          return [
            { x: s.x - s.left + 2, y: s.y - s.up, w: s.left + s.right - 4, h: s.up + s.down + 6 },
          ];
        }
        const half = pinReach(plan) - 2;
        const box = { x: s.x - half, y: s.y - half, w: 2 * half, h: 2 * half };
        return s.link?.kind === 'three_way' ? [box, ...corners(s, half)] : [box];
      }
      case 'dial':
        return [
          { ...whole, h: s.up + s.down + 2 * pad },
          { x: s.x - 9, y: s.y - 34, w: 18, h: 24 },
        ];
      case 'open':
        return [{ ...whole, y: s.y + 12, h: s.ground + 40 - s.y }];
      case 'pump': {
        const r = pumpRadius(plan);
        // On a wall it has no foot that stands in the way of what is below it.
        const foot = inside ? 8 : 54;
        return [
          { x: s.x - r - pad, y: s.y - r * 0.8, w: r + motorReach(plan) + 8, h: 2 * r + foot },
        ];
      }
      case 'tank':
        return isTank(s)
          ? [{ ...whole, x: s.x - s.width / 2 - 2, w: s.width + 4, y: s.y - pad }]
          : [];
      default:
        return [whole];
    }
  });
}

/** Rims around valves, as wide as half of the thickest pipe here. */
function rimsOf(sheet: Sheet, list: readonly Station[], edges: readonly Edge[]): Rim[] {
  const { plan } = sheet;
  const links = [...list.flatMap((s) => s.link ?? []), ...edges.map((e) => e.link)];
  const bores = links.filter((l) => l.kind !== 'coil').map((l) => widthOf(plan, l.bore_mm));
  const half = plan.control * 0.38 + Math.max(8, ...bores) / 2 + 2 * plan.pipe;
  return list
    .filter((s) => s.kind === 'still' && s.link?.kind !== 'coil')
    .map((s) => ({ x: s.x - half, y: s.y - half, w: 2 * half, h: 2 * half, nets: s.nets }));
}

/** What comes straight down from above ends where its part stands. */
const dropped = (s: Station): boolean => s.toTop === true && dropsStraight(s.link!);

/** Hoses and pipes that stand upright to the ground: crossed, but never followed. */
function columnsOf(list: readonly Station[], field: Field1): Line[] {
  return list
    .filter((s) => s.kind === 'hose' || s.kind === 'riser')
    .map((s) => [
      { x: s.x, y: s.toTop === true ? field.top : s.y + 4 },
      {
        x: s.x,
        y: dropped(s)
          ? s.y
          : s.ground + (s.ground < field.ground + 1 && field.bench !== null ? 8 : 60),
      },
    ]);
}

/** Mean place of what else is on a net, followed over the pipes that leave it. */
function netPlaces(list: readonly Station[], edges: readonly Edge[]) {
  const near = new Map<string, string[]>();
  for (const e of edges) {
    near.set(e.a, [...(near.get(e.a) ?? []), e.b]);
    near.set(e.b, [...(near.get(e.b) ?? []), e.a]);
  }
  const on = (net: string): readonly { s: Station; at: Point }[] =>
    list.flatMap((s) => {
      if (isTank(s)) {
        return s.inlets
          .filter((i) => i.net === net)
          .map((i) => ({ s, at: { x: s.x - s.width / 2 + i.dx, y: s.y } }));
      }
      return s.nets.includes(net) ? [{ s, at: { x: s.x, y: s.y } }] : [];
    });
  return (net: string, self: Station): Point | null => {
    let found = on(net).filter((o) => o.s !== self && o.s.kind !== 'dial');
    if (found.length === 0)
      found = (near.get(net) ?? []).flatMap((n) => [...on(n)]).filter((o) => o.s !== self);
    if (found.length === 0) found = on(net).filter((o) => o.s !== self);
    if (found.length === 0) return null;
    const mean = (f: (p: Point) => number): number =>
      found.reduce((sum, o) => sum + f(o.at), 0) / found.length;
    return { x: mean((p) => p.x), y: mean((p) => p.y) };
  };
}

interface Setting {
  readonly sheet: Sheet;
  readonly field: Field1;
  readonly heights: Heights;
}

/** Draws packed stations and everything between them. */
export function drawPatches(set: Setting, list: readonly Ready[]): void {
  const { sheet, field } = set;
  const { plan } = sheet;
  const stations = list.flatMap((r) => r.stations);
  const edges = list.flatMap((r) => r.kit.edges);
  const place = netPlaces(stations, edges);
  const pins: PinAt[] = [];
  for (const s of stations) {
    if (!isTank(s)) pins.push(...drawStation(sheet, s, { place }));
  }
  for (const packed of stations.filter(isTank)) {
    const tank = aligned(packed, stations, plan);
    drawTank(sheet, tank, tank.yOf);
    for (const inlet of tank.inlets) {
      const { pin, inside } = inletPins(tank, inlet, plan, tank.yOf);
      pins.push({ net: inlet.net, at: pin, inner: inside, inTank: inlet.over });
    }
  }
  const inside = list.some((r) => r.patch.place === 'house');
  const solid = solidOf(stations, plan, inside);
  const columns = columnsOf(stations, field);
  const joiner = new Joiner(sheet, pins, solid, {
    bore: boreOf(sheet.site),
    columns,
    near: rimsOf(sheet, stations, edges),
  });
  joiner.joinNets(edges);
  joiner.layEdges(edges, sheet);
  for (const r of list) {
    for (const n of r.patch.nodes) {
      const at = joiner.placeOf(n);
      if (at !== null) sheet.at.set(n, at);
    }
  }
}

/**
 * Where a hose without a valve comes up over the rim: not under a valve that is not its own, where
 * a drawing packed close came out with a pipe through one.
 */
function besideValves(tank: TankStation, dx: number, list: readonly Station[], plan: Plan): number {
  const left = tank.x - tank.width / 2;
  const half = plan.control * 0.38 + 16 * plan.pipe;
  const over = list.find(
    (s) => s.kind === 'still' && s.y < tank.y && Math.abs(s.x - left - dx) < half,
  );
  if (over === undefined || plan.ease === 0) return dx;
  const free = [-1, 1].map((way) => over.x + way * half - left).filter((x) =>
    x > 16 * plan.pipe && x < tank.width - 16 * plan.pipe
    && tank.inlets.every((o) => o.dx === dx || Math.abs(o.dx - x) > 24 * plan.pipe));
  return free.sort((a, b) => Math.abs(a - dx) - Math.abs(b - dx))[0] ?? dx;
}

/** Moves a pipe over the rim to where it turns down well behind its valve, if that is close. */
function aligned(tank: TankStation, list: readonly Station[], plan: Plan): TankStation {
  const left = tank.x - tank.width / 2;
  const inlets = tank.inlets.map((inlet) => {
    const valve = list.find((s) => s.kind === 'still' && s.id === inlet.link.id);
    if (!inlet.over) return inlet;
    if (valve === undefined) return { ...inlet, dx: besideValves(tank, inlet.dx, list, plan) };
    const dx =
      valve.x + (valve.order > tank.order ? -1 : 1) * (pinReach(plan) + 15 * plan.pipe) - left;
    const close = Math.abs(dx - inlet.dx) < 48 * plan.pipe;
    const inside = dx > 16 * plan.pipe && dx < tank.width - 16 * plan.pipe;
    const free = tank.inlets.every((o) => o === inlet || Math.abs(o.dx - dx) > 24 * plan.pipe);
    return close && inside && free ? { ...inlet, dx } : inlet;
  });
  return { ...tank, inlets };
}

/** The widest part without length or pipe that meets at a node decides the fitting's bore. */
function boreOf(site: Site): (net: string) => number {
  return (net) => {
    const id = net.endsWith('#') ? null : nodeOf(net);
    const links =
      id === null ? [] : site.touching(id).filter((l) => endsOf(l).some((e) => e === net));
    const bores = links.map((l) => l.bore_mm);
    const plain = links.filter((l) => !isConduit(l)).map((l) => l.bore_mm);
    return Math.max(13, ...(plain.length > 0 ? plain : bores));
  };
}

/** Packs ready patches into one band and draws them. */
export function layPatches(sheet: Sheet, list: readonly Ready[], field: Field1): Heights {
  const heights = pack(
    list.flatMap((r) => r.stations),
    field,
  );
  drawPatches({ sheet, field, heights }, list);
  return heights;
}
