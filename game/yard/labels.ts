// Where names and marks are written: room is kept here, by role, so that no text lies on a
// thing. Text that does not fit its room is broken over two lines by the painter.
import { nameKey } from './deck.ts';
import { cartY, stubY, type Plan } from './plan.ts';
import type { Site } from './site.ts';
import { tallSpots, wideSpots } from './spots.ts';
import type { Align, GroundMark, HouseMark, Label, Placed, Point, Role, Strip } from './types.ts';

const points = (l: readonly [number, number, number, number] | undefined): Point[] =>
  l === undefined
    ? []
    : [
        { x: l[0], y: l[1] },
        { x: l[2], y: l[3] },
      ];

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
    return [
      {
        x,
        y,
        w,
        h,
        key: nameKey(id, instrument),
        values: {},
        align: spot.align,
        tone: 'name' as const,
        leader,
      },
    ];
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
    mark('yard.metres', [t.x - 34, strip.bottom + 1, 68, h - 2], 'center', { m: t.at_m }),
  );
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
    out.push(
      mark('yard.frost_line', [plan.width - 200, ground.frostY - h - 2, 186, h], 'right', frost),
    );
  } else {
    out.push(mark('yard.frost_line', [266, ground.frostY - h - 2, 238, h], 'right', frost));
  }
  const last = strips.at(-1);
  if (first === undefined || last === undefined) return out;
  const times = { n: Math.round(first.perMetre / first.along) };
  const box =
    plan.shape === 'wide'
      ? [first.rulerX + 22, first.datumY + 14, 166, 2 * h]
      : [Math.min(first.x0, first.x1) + 36, last.bottom + 6, 560, h];
  out.push(mark('yard.exaggeration', box, 'left', times));
  return out;
}

/** All texts of the drawing with the room each has. */
export function layLabels(
  site: Site,
  plan: Plan,
  parts: {
    strips: readonly Strip[];
    ground: GroundMark;
    house: HouseMark;
    placed: readonly Placed[];
  },
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
