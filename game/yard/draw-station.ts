// Draws one station and says where its pipes come out: which end lies left and which right
// follows from where the rest of each net stands.
import { endsOf } from './graph.ts';
import type { PinAt } from './joiner.ts';
import { addMeter } from './meters.ts';
import { widthOf } from './plan.ts';
import { about, type Sheet } from './sheet.ts';
import {
  dialRise,
  dropsStraight,
  motorWidth,
  outletShift,
  pinReach,
  pumpRadius,
  type Station,
} from './stations.ts';
import type { Point } from './types.ts';

export interface Around {
  /** Mean place of the other things on a net, or null where there is none. */
  readonly place: (net: string, self: Station) => Point | null;
}

const STANDPIPE_mm = 30;

const pinAt = (net: string, at: Point, inner: Point[] = []): PinAt => ({
  net,
  at,
  inner,
  inTank: false,
});

/** The net that lies to the left, and the one to the right. */
function sorted(s: Station, [a, b]: readonly string[], around: Around): [string, string] {
  const p = around.place(a!, s)?.x ?? s.x - 1;
  const q = around.place(b!, s)?.x ?? s.x + 1;
  return p <= q ? [a!, b!] : [b!, a!];
}

function inLine(
  s: Station,
  nets: readonly [string, string],
  reach: { pin: number; body: number },
): PinAt[] {
  return ([-1, 1] as const).map((side, k) => {
    const at = { x: s.x + side * reach.pin, y: s.y };
    return pinAt(nets[k]!, at, [{ x: s.x + side * reach.body, y: s.y }]);
  });
}

function drawStill(sheet: Sheet, s: Station, around: Around): PinAt[] {
  const link = s.link!;
  if (link.kind === 'pipe' || link.kind === 'hose') return [];
  const { plan } = sheet;
  const c = plan.control;
  const [from, to, branch] = s.nets;
  if (to === undefined) return drawCock(sheet, s, around);
  const nets = sorted(s, [from!, to], around);
  const at = { x: s.x, y: s.y };
  const forward = nets[0] === from;
  if (link.kind === 'three_way') {
    const width = widthOf(plan, link.bore_mm);
    const third = around.place(branch!, s);
    const way = (third?.y ?? s.y + 1) < s.y - 4 ? 'up' : 'down';
    const sign = way === 'up' ? -1 : 1;
    sheet.valves.push({ id: s.id, ...at, size: c * 0.76, width, branch: way, fromLeft: forward });
    sheet.place(s.id, 'valve', about(at, c));
    const down = pinAt(branch!, { x: s.x, y: s.y + sign * pinReach(plan) }, [
      { x: s.x, y: s.y + sign * c * 0.34 },
    ]);
    return [...inLine(s, nets, { pin: pinReach(plan), body: c * 0.34 }), down];
  }
  if (link.kind === 'coil') {
    sheet.parts.push({
      id: s.id,
      kind: 'coil',
      ...at,
      size: 96,
      width: widthOf(plan, link.bore_mm),
      way: 'right',
    });
    const rise = 30;
    const [a, b] = nets;
    const net = around.place(a, s);
    const other = around.place(b, s);
    const upper = (net?.y ?? 0) <= (other?.y ?? 1) ? [a, b] : [b, a];
    return upper.map((n, k) =>
      pinAt(n, { x: s.x - 66, y: s.y + (k === 0 ? -rise : rise) }, [
        { x: s.x - 46, y: s.y + (k === 0 ? -rise : rise) },
      ]),
    );
  }
  sheet.station(link, at, forward ? 'right' : 'left');
  return inLine(s, nets, { pin: pinReach(plan), body: c * (link.kind === 'valve' ? 0.36 : 0.24) });
}

/** A small valve with its spout: down into a pail, or up where it lets air out. */
function drawCock(sheet: Sheet, s: Station, around: Around): PinAt[] {
  const link = s.link!;
  if (link.kind !== 'valve') return [];
  const { plan } = sheet;
  const net = s.nets[0]!;
  const side = (around.place(net, s)?.x ?? s.x - 1) <= s.x ? -1 : 1;
  const body = plan.control * 0.36;
  const out = plan.control * 0.5 + 5 * plan.pipe;
  const turn = (sheet.site.cocks.get(s.id)?.up === true ? -1 : 1) * 17 * plan.pipe;
  sheet.station(link, { x: s.x, y: s.y }, side < 0 ? 'right' : 'left');
  const bend = { x: s.x - side * out, y: s.y };
  sheet.piece([{ x: s.x - side * body, y: s.y }, bend, { ...bend, y: s.y + turn }], link.bore_mm);
  const pin = { x: s.x + side * pinReach(plan), y: s.y };
  return [pinAt(net, pin, [{ x: s.x + side * body, y: s.y }])];
}

function drawPump(sheet: Sheet, s: Station): PinAt[] {
  const { plan } = sheet;
  const r = pumpRadius(plan);
  const [from, to] = s.nets;
  const left = s.x + r * 0.82;
  const motor = { x: left, y: s.y - r * 0.62, w: motorWidth(plan), h: r * 1.24 };
  sheet.pumps.push({ id: s.id, casing: s.node, x: s.x, y: s.y, r, motor });
  sheet.place(s.id, 'pump', about({ x: s.x, y: s.y }, 2 * r));
  const spec = sheet.site.scenario.instruments.find((i) => i.kind === 'note' && i.pump === s.id);
  if (spec !== undefined) {
    const x = s.x + r + 4;
    const w = Math.max(plan.control, motor.x + motor.w - x);
    sheet.place(spec.id, 'note', { x, y: s.y - r, w, h: 2 * r });
  }
  const x = s.x + outletShift(plan);
  const height = sheet.site.heightOf(endsOf(s.link!)[1]!);
  const level = s.yOf(height);
  const top = level <= s.y - r * 0.85 ? level : s.y - r - 12;
  return [
    pinAt(from!, { x: s.x - r - 8, y: s.y }, [{ x: s.x - r + 2, y: s.y }]),
    pinAt(to!, { x, y: top }, [{ x, y: s.y }]),
  ];
}

function drawDial(sheet: Sheet, s: Station): PinAt[] {
  const { plan } = sheet;
  const spec = s.instrument!;
  if (spec.kind !== 'pressure') return [];
  const r = plan.dialR;
  const at = { x: s.x, y: s.y - dialRise(plan) };
  sheet.dials.push({
    id: spec.id,
    ...at,
    r,
    stem: { x: s.x, y: s.y },
    from: 0,
    full: spec.range_kPa,
    per: 1000,
    unit: 'kPa',
  });
  sheet.place(spec.id, 'gauge', about(at, Math.max(2 * r, plan.control)));
  return [pinAt(s.nets[0]!, { x: s.x, y: s.y })];
}

function drawMeter(sheet: Sheet, s: Station, around: Around): PinAt[] {
  const { plan } = sheet;
  const spec = s.instrument!;
  if (spec.kind !== 'flow') return [];
  const r = addMeter(sheet, spec, { x: s.x, y: s.y });
  return inLine(s, sorted(s, s.nets, around), {
    pin: plan.control / 2 + 8 * plan.pipe,
    body: r * 0.6,
  });
}

function drawOpen(sheet: Sheet, s: Station, ground: number): PinAt[] {
  const node = sheet.site.nodes.get(s.node)!;
  if (node.kind !== 'open') return [];
  const { plan } = sheet;
  const small = node.goes_to === 'pail';
  const w = plan.outlet * (small ? 0.6 : 1);
  const room = small ? 0.012 : 0.06;
  const h = Math.max(34, Math.min(ground - s.y - 12, small ? 60 * plan.pipe : 150 * plan.pipe));
  const drum =
    node.goes_to === 'ground'
      ? { x: s.x - 2, y: ground - 4, w: 4, h: 4 }
      : { x: s.x - w / 2, y: ground - h, w, h };
  sheet.outlets.push({ id: s.id, x: s.x, y: s.y, goesTo: node.goes_to, drum, room_m3: room });
  return [pinAt(s.nets[0]!, { x: s.x, y: s.y })];
}

export function drawStation(sheet: Sheet, s: Station, around: Around): PinAt[] {
  const here = { x: s.x, y: s.y };
  switch (s.kind) {
    case 'still':
      return drawStill(sheet, s, around);
    case 'pump':
      return drawPump(sheet, s);
    case 'dial':
      return drawDial(sheet, s);
    case 'meter':
      return drawMeter(sheet, s, around);
    case 'open':
      return drawOpen(sheet, s, s.ground);
    case 'hose':
      return drawHoseEnd(sheet, s, around);
    case 'riser':
      return drawRiser(sheet, s, around);
    case 'reservoir':
      sheet.piece([here, { x: s.x, y: s.ground + 6 }], STANDPIPE_mm);
      return [pinAt(s.nets[0]!, here)];
    default:
      return [pinAt(s.nets[0]!, here)];
  }
}

const elbow = (plan: Sheet['plan']): number => 12 * plan.pipe;

/** A pipe into the field turns down with an elbow. */
function drawRiser(sheet: Sheet, s: Station, around: Around): PinAt[] {
  const net = s.nets[0]!;
  const dir = (around.place(net, s)?.x ?? s.x - 1) >= s.x ? 1 : -1;
  const start = { x: s.x + dir * elbow(sheet.plan), y: s.y };
  sheet.risers.set(s.node, { start, at: { x: s.x, y: s.y } });
  return [pinAt(net, start)];
}

/** On the cart a hose is coupled to a short piece that hangs down; elsewhere it comes up itself. */
function drawHoseEnd(sheet: Sheet, s: Station, around: Around): PinAt[] {
  const { plan } = sheet;
  const net = s.nets[0]!;
  const dir = (around.place(net, s)?.x ?? s.x + 1) >= s.x ? 1 : -1;
  const onCart = s.toTop === undefined;
  if (s.toTop === true && dropsStraight(s.link!)) {
    const at = { x: s.x + dir * elbow(plan), y: s.y };
    sheet.hoseEnds.set(s.id, { at, dir, onCart, ground: s.ground, x: s.x });
    return [pinAt(net, at)];
  }
  if (s.toTop === true) {
    const at = { x: s.x + dir * 18 * plan.pipe, y: s.y };
    sheet.hoseEnds.set(s.id, { at, dir, onCart, ground: s.ground });
    return [pinAt(net, at)];
  }
  const hang = 40 * plan.pipe;
  const thin = (s.link?.bore_mm ?? 0) < 20;
  if (thin || !onCart || s.ground - s.y < hang + 50 * plan.pipe) {
    const at = { x: s.x + dir * elbow(plan), y: s.y };
    sheet.hoseEnds.set(s.id, { at, dir, onCart, ground: s.ground, x: s.x });
    return [pinAt(net, at)];
  }
  const at = { x: s.x, y: s.y + hang };
  sheet.hoseEnds.set(s.id, { at, dir, onCart, ground: s.ground });
  sheet.couplers.push({ ...at, upright: true });
  return [pinAt(net, { x: s.x, y: s.y }, [at])];
}
