// Where names and marks are written: room is kept here, by role, so that no text lies on a
// thing. Text that does not fit its room is broken over two lines by the painter.
import { nameKey } from './deck.ts';
import { cartY, stubY, type Plan } from './plan.ts';
import type { Site } from './site.ts';
import type { Align, GroundMark, HouseMark, Label, Placed, Point, Role, Strip } from './types.ts';

interface Spot {
  readonly role: Role;
  /** Top left corner and size; leader's two ends (none = no leader). */
  readonly box: readonly [number, number, number, number];
  readonly align: Align;
  readonly leader?: readonly [number, number, number, number];
}

/** Names on the wide drawing. `g` = gantry's height, `s` = suction's, `l` = stub's. */
function wideSpots(plan: Plan, g: number, s: number, l: number): Spot[] {
  const { x } = plan;
  const c = plan.control / 2;
  const over = g - 78;
  return [
    { role: 'return_gauge', box: [12, g - 100, 128, 24], align: 'right', leader: [142, g - 88, 152, g - 84] },
    { role: 'return_valve', box: [226, over, 130, 24], align: 'left', leader: [x.returnValve, over + 26, x.returnValve, g - 20] },
    { role: 'waste_valve', box: [80, g + 40, 72, 46], align: 'center', leader: [x.wasteValve, g + 38, x.wasteValve, g + 20] },
    { role: 'fill_valve', box: [x.fillValve - 45, over, 90, 24], align: 'center', leader: [x.fillValve, over + 26, x.fillValve, g - 20] },
    { role: 'tank_level', box: [214, g + 70, 56, 46], align: 'right', leader: [272, g + 82, x.tube - 7, g + 82] },
    { role: 'tank', box: [214, g + 150, 54, 24], align: 'right', leader: [270, g + 162, x.tankL + 1, g + 162] },
    { role: 'suction_valve', box: [546, s - 92, 138, 24], align: 'left', leader: [x.suctionValve, s - 66, x.suctionValve, s - 22] },
    { role: 'pump', box: [660, s - 130, 56, 24], align: 'right', leader: [x.pump - 12, s - 104, x.pump - 10, s - 36] },
    { role: 'discharge_valve', box: [x.dischargeValve - 128, over, 146, 24], align: 'right', leader: [x.dischargeValve, over + 26, x.dischargeValve, g - 20] },
    { role: 'discharge_gauge', box: [910, g - 112, 148, 24], align: 'left', leader: [907, g - 100, x.discharge + 30, g - 84] },
    { role: 'flow_meter', box: [966, g - 62, 110, 24], align: 'left', leader: [962, g - 48, 950, g - 22] },
    { role: 'supply_hose', box: [1060, l - 66, 120, 24], align: 'left', leader: [1066, l - 40, 1036, plan.line - 8] },
    { role: 'loop_supply_valve', box: [x.supplyValve - 84, l - c - 62, 168, 24], align: 'center', leader: [x.supplyValve, l - c - 36, x.supplyValve, l - 16] },
    { role: 'loop_return_valve', box: [x.returnStub - 40, l - c - 108, 90, 46], align: 'left', leader: [x.returnStub, l - c - 60, x.returnStub, l - 16] },
    { role: 'return_sight', box: [76, g + 128, 94, 66], align: 'right', leader: [171, g + 160, 180, g + 160] },
    { role: 'return_hose', box: [860, l - 32, 104, 24], align: 'left', leader: [916, l - 6, 916, plan.line - 18] },
  ];
}

function tallSpots(plan: Plan, g: number, s: number, l: number): Spot[] {
  const { x } = plan;
  const c = plan.control / 2;
  const over = g - 128;
  return [
    { role: 'return_gauge', box: [20, 8, 250, 38], align: 'left' },
    { role: 'discharge_gauge', box: [500, 8, 270, 38], align: 'right' },
    { role: 'return_valve', box: [218, over, 112, 76], align: 'left', leader: [x.returnValve + 8, over + 80, x.returnValve + 2, g - 26] },
    { role: 'fill_valve', box: [342, over, 90, 76], align: 'left', leader: [x.fillValve, over + 80, x.fillValve, g - 26] },
    { role: 'discharge_valve', box: [470, over, 160, 76], align: 'right', leader: [x.dischargeValve - 30, over + 80, x.dischargeValve - 4, g - 26] },
    { role: 'waste_valve', box: [60, g + 88, 90, 76], align: 'left', leader: [x.wasteValve, g + 86, x.wasteValve, g + 26] },
    { role: 'suction_valve', box: [452, s - 152, 132, 76], align: 'left', leader: [x.suctionValve + 4, s - 74, x.suctionValve + 2, s - 26] },
    { role: 'pump', box: [514, plan.line - 96, 90, 38], align: 'left', leader: [572, plan.line - 94, x.pump - 14, s + 44] },
    { role: 'tank_level', box: [274, plan.line - 96, 154, 38], align: 'left', leader: [276, plan.line - 94, x.tube + 4, plan.line - 146] },
    { role: 'loop_return_valve', box: [8, l - c - 84, 196, 76], align: 'left', leader: [x.returnStub, l - c - 6, x.returnStub, l - 24] },
    { role: 'loop_supply_valve', box: [x.supplyValve - 50, l - c - 122, 112, 114], align: 'left', leader: [x.supplyValve, l - c - 6, x.supplyValve, l - 24] },
    { role: 'flow_meter', box: [262, plan.line - 2, 112, 72], align: 'right', leader: [376, plan.line + 66, 398, plan.line + 100] },
  ];
}

const points = (l: readonly [number, number, number, number] | undefined): Point[] =>
  l === undefined ? [] : [{ x: l[0], y: l[1] }, { x: l[2], y: l[3] }];

function nameLabels(site: Site, plan: Plan): Label[] {
  const end = (role: Role, side: 'from' | 'to', fallback: number): number => {
    const link = site.link(site.role(role) ?? '');
    return link === undefined ? fallback : site.heightOf(link[side]);
  };
  const g = cartY(plan, end('discharge_valve', 'from', 1.05));
  const s = cartY(plan, end('suction_valve', 'from', 0.4));
  const l = stubY(plan, end('loop_supply_valve', 'from', 0.3));
  const spots = plan.shape === 'wide' ? wideSpots(plan, g, s, l) : tallSpots(plan, g, s, l);
  return spots.flatMap((spot) => {
    const id = site.role(spot.role);
    if (id === null) return [];
    const [x, y, w, h] = spot.box;
    const leader = points(spot.leader);
    const instrument = site.scenario.instruments.some((i) => i.id === id);
    return [{ x, y, w, h, key: nameKey(id, instrument), values: {}, align: spot.align, tone: 'name' as const, leader }];
  });
}

function mark(key: string, box: readonly number[], align: Align, values = {}): Label {
  const [x = 0, y = 0, w = 0, h = 0] = box;
  return { key, x, y, w, h, values, align, tone: 'mark', leader: [] };
}

/** Marks beside each strip on the wide drawing, above it on the tall one. */
function stripLabels(plan: Plan, strip: Strip, only: boolean): Label[] {
  const depth = { m: Math.abs(strip.datum_m) };
  const name = `yard.${strip.run}_run`;
  const h = plan.type + 6;
  if (plan.shape === 'tall') {
    const y = strip.top - plan.field.title;
    const [l, r] = [Math.min(strip.x0, strip.x1), Math.max(strip.x0, strip.x1)];
    return [
      mark(name, [l + 36, y, 150, h], 'left'),
      mark('yard.below_ground', [r - 310, y, 304, h], 'right', depth),
    ];
  }
  const labels = strip.ticks.map((t) =>
    mark('yard.metres', [t.x - 34, strip.bottom + 1, 68, h - 2], 'center', { m: t.at_m }));
  if (!only) return labels;
  const x = strip.rulerX + 22;
  labels.push(mark(name, [x, strip.top - 6, 166, h], 'left'));
  labels.push(mark('yard.below_ground', [x, strip.datumY - h / 2, 172, h], 'left', depth));
  return labels;
}

function fieldLabels(plan: Plan, strips: readonly Strip[], ground: GroundMark): Label[] {
  const h = plan.type + 6;
  const first = strips[0];
  const only = strips.length <= 2;
  const out = strips.flatMap((s) => stripLabels(plan, s, only));
  const frost = { m: ground.frost_m };
  if (plan.shape === 'wide') {
    out.push(mark('yard.frost_line', [plan.width - 200, ground.frostY - h - 2, 186, h], 'right', frost));
  } else {
    out.push(mark('yard.frost_line', [266, ground.frostY - h - 2, 238, h], 'right', frost));
  }
  const last = strips.at(-1);
  if (first === undefined || last === undefined) return out;
  const times = { n: Math.round(first.perMetre / first.along) };
  const box = plan.shape === 'wide'
    ? [first.rulerX + 22, first.datumY + 14, 166, 2 * h]
    : [Math.min(first.x0, first.x1) + 36, last.bottom + 6, 560, h];
  out.push(mark('yard.exaggeration', box, 'left', times));
  return out;
}

/** All texts of the drawing with the room each has. */
export function layLabels(
  site: Site,
  plan: Plan,
  parts: { strips: readonly Strip[]; ground: GroundMark; house: HouseMark; placed: readonly Placed[] },
): Label[] {
  const { house } = parts;
  const labels = [...nameLabels(site, plan), ...fieldLabels(plan, parts.strips, parts.ground)];
  const h = plan.type + 6;
  const unit = house.unit;
  const top = unit.y - 2 * h - 8;
  const x = house.x + house.wall + 3;
  const w = plan.width - x - 3;
  labels.push({ ...mark('yard.heat_pump', [x, top, w, 2 * h], 'center'), tone: 'name' });
  return labels;
}
